// The desk check on a sheet with one fault of each kind planted, and on sheets without any. Rack heights: IEC
// 60297-3-100; addresses: RFC 5737, 4632; lengths: ISO/IEC 11801-1; channel rule: common practice, no source. Invented.
import { readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../../../src/core/plan/model.ts';
import { deskCheck } from '../../../../src/core/schedule/desk/deskCheck.ts';
import { DESK_KINDS } from '../../../../src/core/schedule/desk/finding.ts';
import { readSiteRules, type SiteRules, USUAL_RULES } from '../../../../src/core/schedule/desk/siteRules.ts';
import { readTables } from '../../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../../src/core/schedule/rows/readTypes.ts';
import { SEVERITIES } from '../../../../src/core/trade/kinds.ts';
import { readSheetFile } from '../../../../src/files/sheet.ts';

function read(tables: Table[]): Plan {
  const result = readTables(tables, { name: 'test' });
  if (result.type !== 'plan') throw new Error(result.why);
  return result.plan;
}

const sheet = (name: string, text: string): Table => ({
  name,
  rows: text
    .trim()
    .split('\n')
    .map((line) => line.split(';').map((cell) => cell.trim())),
});

const UNITS = `
Unit; Room; Rack; U; Height; Jacks; Description; Address; Serial; MAC
SW1; Tech; R1; 40; 1; P01-P24; network switch; 192.0.2.2; S1; 00-00-5E-00-53-02
AIO21; Tech; R1; 30; 2; ; analogue frame; 192.0.2.21; S21; 00-00-5E-00-53-21
AIO22; Tech; R1; 28; 1; ; analogue frame; 192.0.2.22; S22; 00-00-5E-00-53-22
DIO23; Tech; R1; 26; 1; ; digital frame; 192.0.2.23; S23; 00-00-5E-00-53-23
DEL5; Tech; R1; 24; 1; ; delay; 192.0.2.5; S5; 00-00-5E-00-53-05`;
const JACKS = `
Unit; Jack; Connector; Direction; Signal; Source name; Channel
AIO21; I1; XLR-F; in; line audio; MIX L; 2101
AIO21; I2; XLR-F; in; line audio; MIX R; 2102
AIO21; O1; XLR-M; out; line audio; ;
AIO21; O2; XLR-M; out; line audio; ;
AIO21; NET; RJ45; both; network; ;
AIO22; I1; XLR-F; in; line audio; AUX L; 2201
AIO22; I2; XLR-F; in; line audio; AUX R; 2202
AIO22; O1; XLR-M; out; line audio; ;
AIO22; O2; XLR-M; out; line audio; ;
AIO22; NET; RJ45; both; network; ;
DIO23; I1; XLR-F; in; AES3; DIG; 2301
DIO23; O1; XLR-M; out; AES3; ;
DIO23; NET; RJ45; both; network; ;
DEL5; IN; XLR-F; in; AES3; ;
DEL5; OUT; XLR-M; out; AES3; ;`;
const CABLES = `
Cable; From; From Jack; Conn A; To; To Jack; Conn B; Signal; Circuit; Type; Length
1001; AIO21; NET; RJ45; SW1; P01; RJ45; Enet; ; Cat6; 22 m
1002; AIO22; NET; RJ45; SW1; P02; RJ45; Enet; ; Cat6; 22 m
1003; DIO23; NET; RJ45; SW1; P03; RJ45; Enet; ; Cat6; 22 m
2001; AIO21; O1; XLR-F; AIO22; I1; XLR-M; line audio; Mix L; ; 2 m
2002; AIO21; O2; XLR-F; AIO22; I2; XLR-M; line audio; Mix R; ; 2 m
2003; DIO23; O1; XLR-F; DEL5; IN; XLR-M; AES3; Delay; 110R; 2 m
2004; DEL5; OUT; XLR-F; DIO23; I1; XLR-M; AES3; Delay back; 110R; 2 m`;

const facility = (change: Partial<Record<'units' | 'jacks' | 'cables', (text: string) => string>> = {}) =>
  read([
    sheet('Units', change.units?.(UNITS) ?? UNITS),
    sheet('Jacks', change.jacks?.(JACKS) ?? JACKS),
    sheet('Cables', change.cables?.(CABLES) ?? CABLES),
  ]);
const add = (line: string) => (text: string) => `${text}\n${line}`;
const put = (from: string, to: string) => (text: string) => {
  if (!text.includes(from)) throw new Error(`No ${from} in the sheet.`);
  return text.replace(from, to);
};

/** Kind, severity, rows, and the change that plants it: one fault, one finding. */
const PLANTED: [kind: string, severity: string, rows: string, plan: Plan, rules?: SiteRules][] = [
  ['number-repeated', 'record', 'Cables 5, Cables 6', facility({ cables: put('2002; AIO21', '2001; AIO21') })],
  ['jack-claimed-twice', 'service', 'Cables 3, Cables 4', facility({ cables: put('SW1; P03', 'SW1; P02') })],
  [
    'both-ends-one-jack',
    'service',
    'Cables 9',
    facility({ cables: add('2009; PRO7; Z; ; PRO7; Z; ; ; ; ; '), units: add('PRO7; Tech; R1; 20; 1; ; box; ; ; ') }),
  ],
  ['end-missing', 'record', 'Cables 9', facility({ cables: add('2009; DEL5; REF; ; ?; ; ; ; ; ; ') })],
  ['unit-unlisted', 'record', 'Cables 9', facility({ cables: add('2009; DEL5; GPO 1; ; LAMP9; 1; ; tally; ; ; ') })],
  [
    'direction-clash',
    'equipment',
    'Cables 8',
    facility({
      cables: put('DEL5; OUT; XLR-F; DIO23; I1; XLR-M', 'DEL5; OUT; XLR-F; AIO21; X9; XLR-F'),
      jacks: add('AIO21; X9; XLR-M; out; ; ;'),
    }),
  ],
  ['connector-clash', 'record', 'Cables 7, Jacks 15', facility({ cables: put('DEL5; IN; XLR-M', 'DEL5; IN; XLR-F') })],
  [
    'signal-clash',
    'equipment',
    'Cables 4, Jacks 17',
    facility({ cables: put('SW1; P03', 'AIO21; X9'), jacks: add('AIO21; X9; RJ45; both; line audio; ;') }),
  ],
  [
    'left-without-right',
    'service',
    'Cables 6',
    facility({
      cables: put(
        '2001; AIO21; O1; XLR-F; AIO22; I1; XLR-M; line audio; Mix L',
        '2001; AIO21; O1; XLR-F; AIO22; I1; XLR-M; line audio; Talk',
      ),
    }),
  ],
  [
    'left-right-order',
    'service',
    'Cables 5, Cables 6',
    facility({
      cables: (text) =>
        text
          .replace('AIO21; O1;', 'AIO21; O9;')
          .replace('AIO21; O2;', 'AIO21; O1;')
          .replace('AIO21; O9;', 'AIO21; O2;'),
    }),
  ],
  ['units-overlap', 'record', 'Units 3, Units 7', facility({ units: add('PRO7; Tech; R1; 31; 1; ; box; ; ; ') })],
  ['unit-outside-rack', 'record', 'Units 7', facility({ units: add('PRO7; Tech; R1; 42; 2; ; box; ; ; ') })],
  [
    'length-over-limit',
    'service',
    'Cables 4',
    facility({ cables: put('P03; RJ45; Enet; ; Cat6; 22 m', 'P03; RJ45; Enet; ; Cat6; 101 m') }),
  ],
  ['address-wrong', 'service', 'Units 6', facility({ units: put('192.0.2.5;', '192.0.2.005;') })],
  [
    'address-outside',
    'service',
    'Units 6',
    facility({ units: put('192.0.2.5;', '198.51.100.5;') }),
    { ...USUAL_RULES, subnets: [{ name: 'studio network', subnet: '192.0.2.0/24' }] },
  ],
  [
    'subnets-overlap',
    'record',
    '',
    facility(),
    {
      ...USUAL_RULES,
      subnets: [
        { name: 'a', subnet: '192.0.2.0/24' },
        { name: 'b', subnet: '192.0.2.64/26' },
      ],
    },
  ],
  ['duplicate-address', 'on-air', 'Units 2, Units 6', facility({ units: put('192.0.2.5;', '192.0.2.2;') })],
  [
    'duplicate-hardware-address',
    'record',
    'Units 2, Units 6',
    facility({ units: put('00-00-5E-00-53-05', '00:00:5e:00:53:02') }),
  ],
  ['duplicate-serial', 'record', 'Units 2, Units 6', facility({ units: put('S5;', 's1;') })],
  [
    'duplicate-channel',
    'on-air',
    'Jacks 17, Jacks 18',
    facility({ jacks: (text) => `${text}\nDEL5; A1; ; in; ; A; 9001\nDEL5; A2; ; in; ; B; 9001` }),
    { ...USUAL_RULES, channelExceptions: [{ first: 9000, last: 9099, why: 'outside sources' }] },
  ],
  ['channel-off-rule', 'record', 'Jacks 12', facility({ jacks: put('DIG; 2301', 'DIG; 2310') })],
];

describe('the desk check', () => {
  it('finds nothing in a sheet that agrees with itself', () => {
    expect(deskCheck(facility())).toEqual([]);
  });

  it.each(PLANTED)('finds a planted %s (%s) at %s and nothing else', (kind, severity, rows, plan, rules) => {
    const found = deskCheck(plan, rules);
    expect(found.map((one) => [one.kind, one.severity])).toEqual([[kind, severity]]);
    expect(found[0]!.rows.map(({ sheet: name, row }) => `${name} ${row}`).join(', ')).toBe(rows);
    expect(found[0]!.line).toMatch(/^\S.*\.$/);
  });

  it('has a planted sheet for each of its kinds', () => {
    expect(new Set(PLANTED.map(([kind]) => kind))).toEqual(new Set(DESK_KINDS));
  });

  it('puts the worst first where a sheet has several faults', () => {
    const plan = facility({
      cables: (text) =>
        put(
          'SW1; P03',
          'SW1; P02',
        )(
          put(
            '2004; DEL5; OUT; XLR-F; DIO23; I1; XLR-M; AES3; Delay back',
            '2004; DEL5; OUT; XLR-F; AIO21; O1; XLR-F; AES3; Delay back ON AIR',
          )(text),
        ),
    });
    const severities = deskCheck(plan).map(({ severity }) => severity);
    expect(severities[0]).toBe('equipment');
    expect(new Set(severities).size).toBeGreaterThan(1);
    expect(severities).toEqual([...severities].sort((a, b) => SEVERITIES.indexOf(a) - SEVERITIES.indexOf(b)));
  });

  it('takes a range of channel numbers for an exception and a factor of another station', () => {
    const plan = facility({ jacks: put('DIG; 2301', 'DIG; 9007') });
    expect(deskCheck(plan).map(({ kind }) => kind)).toEqual(['channel-off-rule']);
    const exceptions = [{ first: 9000, last: 9099, why: 'outside sources' }];
    expect(deskCheck(plan, { ...USUAL_RULES, channelExceptions: exceptions })).toEqual([]);
    expect(deskCheck(plan, { ...USUAL_RULES, channel: null })).toEqual([]);
  });

  it('takes another side for left, and none, where the station says so', () => {
    const higher: SiteRules = { ...USUAL_RULES, left: 'higher' };
    expect(deskCheck(facility(), higher).map(({ kind }) => kind)).toEqual(['left-right-order']);
    expect(deskCheck(facility(), { ...USUAL_RULES, left: 'any' })).toEqual([]);
  });

  it('adds to the channel numbers of a subnet what the station says', () => {
    const subnets = [{ name: 'studio', subnet: '192.0.2.0/24', add: 10_000 }];
    const kinds = (rules: SiteRules, plan = facility()) => new Set(deskCheck(plan, rules).map(({ kind }) => kind));
    expect(kinds({ ...USUAL_RULES, subnets })).toEqual(new Set(['channel-off-rule']));
    const plan = facility({ jacks: (text) => text.replace(/; (2[123]0[12])/g, '; 1$1') });
    expect(kinds({ ...USUAL_RULES, subnets }, plan)).toEqual(new Set());
    expect(kinds(USUAL_RULES, plan)).toEqual(new Set(['channel-off-rule']));
  });

  it('no longer tells of two signals that the station lets meet, and always of those that carry power', () => {
    const clash = (signal: string) =>
      facility({ cables: put('SW1; P03', 'AIO21; X9'), jacks: add(`AIO21; X9; RJ45; both; ${signal}; ;`) });
    const rule = (b: 'line-audio' | 'poe' | 'telephone'): SiteRules => ({
      ...USUAL_RULES,
      mayMeet: [{ a: b, b: 'network', why: 'wired alike here' }],
    });
    const kinds = (plan: Plan, rules: SiteRules) => deskCheck(plan, rules).map(({ kind }) => kind);
    expect(kinds(clash('line audio'), USUAL_RULES)).toEqual(['signal-clash']);
    expect(kinds(clash('line audio'), rule('line-audio'))).toEqual([]);
    expect(kinds(clash('phone line'), rule('telephone'))).toEqual(['signal-clash']);
  });

  it('reads rules that were written before there were so many of them', () => {
    const old = { channel: { factor: 10 }, channelExceptions: [], subnets: [] };
    expect(readSiteRules(old)).toEqual({ type: 'rules', rules: { ...USUAL_RULES, channel: { factor: 10 } } });
    const wrong = { ...old, channelExceptions: [{ first: -1, last: 2, why: '' }] };
    expect(readSiteRules(wrong)).toMatchObject({ type: 'bad', where: 'channelExceptions entry 1 first' });
  });

  it('finds in the Quillmere list the cable whose end nobody knows, and takes L/R for both legs', async () => {
    const bytes = await readFile(new URL('../../../fixtures/quillmere-run-list.csv', import.meta.url));
    const file = await readSheetFile(bytes, 'quillmere-run-list.csv');
    if (file.type === 'sheet-error') throw new Error(file.error.type);
    expect(deskCheck(read(file.tables)).map(({ kind, labels }) => [kind, labels])).toEqual([['end-missing', ['9001']]]);
  });
});
