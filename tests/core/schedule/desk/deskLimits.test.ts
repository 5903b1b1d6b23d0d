// The desk check against published limits, and on a clean facility of 200 rows in which nothing may be found. Lengths:
// ISO/IEC 11801-1, ANSI/TIA-568.2-D, IEEE 802.3; addresses: RFC 791, 4632, 3927, 5737. Habits: common practice, no source.
import { describe, expect, it } from 'vitest';
import { deskCheck } from '../../../../src/core/schedule/desk/deskCheck.ts';
import { readTables } from '../../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../../src/core/schedule/rows/readTypes.ts';
import { CLEAN } from './cleanFacility.ts';

const table = (name: string, ...lines: string[]): Table => ({ name, rows: lines.map((line) => line.split(';')) });
function find(...tables: Table[]): string[] {
  const read = readTables(tables, { name: 'test' });
  if (read.type !== 'plan') throw new Error(read.why);
  return deskCheck(read.plan).map(({ severity, kind, line }) => `${severity} ${kind}: ${line}`);
}

describe('a facility without a fault', () => {
  it('has no finding in its 200 rows', () => {
    const read = readTables(CLEAN, { name: 'clean' });
    if (read.type !== 'plan') throw new Error(read.why);
    expect(read.questions).toEqual([]);
    expect(read.plan.cables.length).toBeGreaterThan(200);
    expect(deskCheck(read.plan)).toEqual([]);
  });
});

describe('lengths', () => {
  const TITLES = 'Cable;From;From Jack;To;To Jack;Signal;Type;Length';
  it.each([
    ['Enet', 'Cat6', '100 m', null],
    ['Enet', 'Cat6', '101 m', '100 m'],
    ['Enet', 'Cat6', "328'", null],
    ['Enet', 'Cat6', `328' 2"`, '100 m'],
    ['Enet 10G', '10GBASE-T Cat6', '56 m', '55 m'],
    ['Enet', '10GBASE-SR OM3 LC', '300 m', null],
    ['Enet', '10GBASE-SR OM3 LC', '301 m', '300 m'],
    ['Enet', '10GBASE-SR OM4', '0.4 km', null],
    ['Enet', '1000BASE-SX OM1', '276 m', '275 m'],
    ['Enet', 'OM2 duplex', '2001 m', '2000 m'],
    ['Enet', 'OS2 duplex', '12 km', null],
    ['Enet', 'OS2 LR optics', '12 km', '10000 m'],
    ['AES', '110R', '~100 m', null],
    ['AES', '110R', '10100 cm', '100 m'],
    ['AES', '75R coax', '1001 m', '1000 m'],
    ['analog', 'quad', '900 m', null],
  ])('of %s on %s: %s', (signal, type, length, limit) => {
    const found = find(table('Cables', TITLES, `1;A;X1;B;X1;${signal};${type};${length}`));
    expect(found.length).toBe(limit === null ? 0 : 1);
    if (limit !== null) expect(found[0]).toContain(`ends at ${limit}`);
  });

  it('between two panels leave room for the cords', () => {
    const run = (metres: number) =>
      find(table('Cables', TITLES, `1;Patch panel 1;P1;Wall plate 7;1;Enet;Cat6;${metres} m`));
    expect(run(90)).toEqual([]);
    expect(run(91)[0]).toContain('between panels, cords not included ends at 90 m');
  });
});

describe('addresses', () => {
  const unit = (ip: string, mask = '', gateway = '') =>
    find(table('Units', 'Unit;Rack;U;IP;Mask;Gateway', `AIO1;R1;3;${ip};${mask};${gateway}`));
  it.each([
    ['192.0.2.190', '255.255.255.192', null],
    ['192.0.2.191', '255.255.255.192', 'is the broadcast address of its subnet'],
    ['203.0.113.200', '255.255.255.252', 'names the subnet itself'],
    ['192.0.2.6', '/31', null],
    ['192.0.2.007', '', 'read in two ways'],
    ['192.0.2.256', '', 'above 255'],
    ['127.0.0.1', '', 'loopback'],
    ['239.192.0.1', '', 'multicast'],
    ['169.254.10.1', '', 'gives itself'],
    ['DHCP', '', null],
    ['2001:db8::7', '', null],
    ['http://192.0.2.7/', '', null],
    ['192.0.2.7, 198.51.100.7', '', null],
    ['192.0.2.7 (page)', '', null],
    ['ask IT', '', null],
    ['192,0,2,7', '', 'four numbers'],
  ])('%s with mask %s', (ip, mask, why) => {
    const found = unit(ip, mask);
    if (why === null) expect(found).toEqual([]);
    else expect(found.some((line) => line.includes(why))).toBe(true);
  });

  it('tell of a gateway outside the subnet', () => {
    expect(unit('192.0.2.130', '255.255.255.192', '192.0.2.129')).toEqual([]);
    expect(unit('192.0.2.130', '255.255.255.192', '192.0.2.1')[0]).toContain('address-outside');
  });
});

describe('ends that meet', () => {
  const TITLES = 'Cable;From;From Jack;To;To Jack;Signal';
  it('are two outputs of a stereo lead only where the far side has outputs too', () => {
    expect(find(table('Cables', TITLES, '1;MIX;OUT 1/OUT 2;AMP;IN 1/IN 2;analog'))).toEqual([]);
    const wrong = find(table('Cables', TITLES, '1;MIX;OUT 1/OUT 2;AMP;OUT 1/OUT 2;analog'));
    expect(wrong).toEqual(['equipment direction-clash: 1 joins two outputs: MIX OUT 1 and AMP OUT 1.']);
  });

  it('are told by their jacks where no signal is written', () => {
    const jacks = table(
      'Jacks',
      'Unit;Jack;Connector;Direction;Signal',
      'SW;P7;RJ45;both;network',
      'AIO;I3;RJ45;in;line',
    );
    const found = find(table('Cables', TITLES, '1;SW;P7;AIO;I3;'), jacks);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/^equipment signal-clash: 1 joins SW P7, a jack for network, and AIO I3/);
  });

  it('may be two on one hole of a panel, and not three', () => {
    const rows = ['1;Patch panel 1;5;A;X;', '2;B;X;Patch panel 1;5;', '3;C;X;Patch panel 1;5;'];
    expect(find(table('Cables', TITLES, ...rows.slice(0, 2)))).toEqual([]);
    expect(find(table('Cables', TITLES, ...rows))[0]).toContain('jack-claimed-twice');
    const driven = ['1;A;OUT 1;Patch panel 1;5;', '2;B;OUT 1;Patch panel 1;5;'];
    expect(find(table('Cables', TITLES, ...driven))[0]).toContain('jack-claimed-twice');
    expect(find(table('Cables', TITLES, '1;DEL;5;A;X;', '2;B;X;DEL;5;'))[0]).toContain('jack-claimed-twice');
  });
});

it('a number that repeats is a multicore only where each row names another pair', () => {
  const TITLES = 'Cable;Pair;From;From Jack;To;To Jack';
  expect(find(table('Cables', TITLES, 'M7;1;A;X1;B;X1', 'M7;2;A;X2;B;X2'))).toEqual([]);
  expect(find(table('Cables', TITLES, 'M7;1;A;X1;B;X1', 'M7;1;A;X2;B;X2'))[0]).toContain('number-repeated');
});

it('channels of another rule are one finding, and single ones off it are told each', () => {
  const sources = (channel: (i: number) => number) =>
    find(
      table('Units', 'Unit;Rack;U;IP', 'AIO1;R1;3;192.0.2.21'),
      table(
        'Jacks',
        'Unit;Input;Source Name;Channel',
        ...Array.from({ length: 12 }, (_, i) => `AIO1;I${i + 1};S${i};${channel(i + 1)}`),
      ),
    );
  expect(sources((i) => 2100 + i)).toEqual([]);
  expect(sources((i) => (i === 4 ? 7 : 2100 + i))).toHaveLength(1);
  expect(sources((i) => i)).toEqual([
    'record channel-off-rule: 12 of 12 channels do not follow the station’s rule: another rule may be meant here.',
  ]);
});
