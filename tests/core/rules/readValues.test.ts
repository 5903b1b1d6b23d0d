// Values read off a unit: whose they are, and every one that the plan has is compared. Records made before a person was
// asked have the value at the jack in hand; they are judged the same. Plans and people are invented; addresses are those
// of RFC 5737, hardware addresses those that RFC 9542 keeps for documentation.
import { describe, expect, it } from 'vitest';
import { explain } from '../../../src/core/causes/explain.ts';
import { decisionsOf } from '../../../src/core/fixes/decisions.ts';
import type { Plan, PlanSetting } from '../../../src/core/plan/model.ts';
import type { Payload } from '../../../src/core/record/events.ts';
import { discrepancyToWords } from '../../../src/core/report/words/words.ts';
import { fingerprint, idToFingerprint } from '../../../src/core/rules/fingerprints.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, short, started } from '../record/build.ts';

const settings: PlanSetting[] = [
  { unit: 'CLK46', name: 'address', value: '192.0.2.46' },
  { unit: 'CLK46', name: 'serial', value: 'FM-006302' },
  { unit: 'CLK46', name: 'mac', value: '00-00-5E-00-53-2E' },
  { unit: 'CLK46', name: 'mask', value: '255.255.255.0' },
  { unit: 'CLK46', name: 'host name', value: 'clk46' },
  { unit: 'CON32', name: 'mac', value: '00-00-5E-00-53-20' },
  { unit: 'MIO31', place: at('MIO31 M1'), name: 'gain', value: '52' },
  { unit: 'MIO31', place: at('MIO31 M1'), name: 'channel', value: '2101' },
];
const plan = planOf(
  [
    ['1041', 'CLK46 NET', 'SW2 P10'],
    ['1003', 'CON32 NET', 'SW1 P03'],
    ['1004', 'MIO33 NET', 'SW1 P04'],
    ['3001', 'MIC1 XLR', 'MIO31 M1'],
    ['3002', 'MIC2 XLR', 'MIO31 M2'],
  ],
  [],
  { settings },
);
type Read = Partial<Payload<'setting-read'>>;
const read = (where: string, name: string, value: string, more: Read = {}) => {
  const [unit = '', jack] = where.split(' ');
  return event('setting-read', { unit, ...(jack ? { place: at(where) } : {}), name, value, basis: 'page', ...more });
};
const found = (events: ReturnType<typeof read>[], over: Plan = plan) =>
  short(foldAll(over, [started(), ...events]).discrepancies());

describe('a value that is the unit’s', () => {
  it('is no double of itself where it was entered at the unit’s only jack', () => {
    expect(found([read('CLK46 NET', 'address', '192.0.2.46')])).toEqual([]);
  });
  it('is compared wherever it was entered', () => {
    for (const where of ['CLK46', 'CLK46 NET']) {
      expect(found([read(where, 'address', '192.0.2.47')])).toEqual(['setting-differs on-air']);
      expect(found([read(where, 'MAC', '00-00-5E-00-53-2F')])).toEqual(['unit-replaced record']);
      expect(found([read(where, 'serial', 'FM-006310')])).toEqual(['unit-replaced record']);
      expect(found([read(where, 'netmask', '255.255.254.0')])).toEqual(['setting-differs service']);
      expect(found([read(where, 'hostname', 'clk47')])).toEqual(['setting-differs service']);
    }
  });
  it('is the same in every notation', () => {
    for (const mac of ['00-00-5e-00-53-2e', '00:00:5E:00:53:2E', '0:0:5e:0:53:2e', '0000.5e00.532e', '00005E00532E'])
      expect(found([read('CLK46 NET', 'MAC address', mac)])).toEqual([]);
    for (const address of ['192.0.2.46', ' 192.0.2.46/24 ', '192.000.002.046'])
      expect(found([read('CLK46 NET', 'IP address', address)])).toEqual([]);
    expect(found([read('CLK46 NET', 'Serial no.', ' fm-006302 ')])).toEqual([]);
    expect(found([read('CLK46', 'mask', '/24')])).toEqual([]);
  });
  it('shows where a serial and a hardware address differ', () => {
    const line = (one: ReturnType<typeof read>) => {
      const fold = foldAll(plan, [started(), one]);
      return discrepancyToWords(fold.index, fold.discrepancies()[0]!).line;
    };
    expect(line(read('CLK46', 'serial', 'FM-006310'))).toBe(
      'CLK46: serial FM-006310, plan FM-006302. They differ from character 8 on: 10, plan 02.',
    );
    expect(line(read('CLK46', 'MAC', '0000.5e00.532f'))).toBe(
      'CLK46: mac 0000.5e00.532f, plan 00-00-5E-00-53-2E. They differ from character 12 on: F, plan E.',
    );
  });
  it('stands with the unit itself where no list of settings has it', () => {
    const units = plan.units.map((unit) =>
      unit.id === 'SW2' ? { ...unit, serial: 'X-1', mac: '00005E005399' } : unit,
    );
    const over = { ...plan, units };
    expect(found([read('SW2 P10', 'serial', 'X-2')], over)).toEqual(['unit-replaced record']);
    expect(found([read('SW2', 'MAC', '00-00-5E-00-53-98')], over)).toEqual(['unit-replaced record']);
    expect(found([read('SW2', 'MAC', '00-00-5E-00-53-99')], over)).toEqual([]);
  });
  it('is a difference of its own beside another one of the same unit, and one cause tells of both', () => {
    const two = [read('CLK46', 'serial', 'FM-006310'), read('CLK46', 'mac', '00-00-5E-00-53-2F')];
    expect(found(two)).toEqual(['unit-replaced record', 'unit-replaced record']);
    const fold = foldAll(plan, [started(), ...two]);
    const { causes, alone } = explain(fold, fold.discrepancies());
    expect(causes.map(({ kind, explains }) => [kind, explains.length])).toEqual([['unit-replaced', 2]]);
    expect(alone).toEqual([]);
    expect(found([read('CLK46', 'mask', '/26'), read('CLK46', 'host name', 'clk47')])).toHaveLength(2);
  });
  it('keeps what was decided about it when all values of a unit had one name between them', () => {
    const serial = read('CLK46', 'serial', 'FM-006310');
    const id = idToFingerprint('unit-replaced CLK46 ');
    const decided = event('decided', {
      target: { type: 'discrepancy', id },
      about: 'Different unit in its place',
      facts: [fingerprint('unit-replaced CLK46 ')],
      choice: 'leave',
      usual: 'fix-floor',
      reason: 'on loan',
      by: 'M. Okafor',
    });
    const fold = foldAll(plan, [started(), serial, decided]);
    const decisions = decisionsOf(fold, fold.discrepancies());
    expect(fold.discrepancies().map((one) => decisions.ofDifference(one).choice)).toEqual(['leave']);
    expect(decisions.past).toEqual([]);
  });
  it('twice on two units is a double still', () => {
    expect(found([read('MIO33 NET', 'address', '192.0.2.46')])).toEqual(['duplicate-address on-air 192.0.2.46']);
  });
});

describe('a value that is a jack’s', () => {
  it('is compared under whatever name a page gives it', () => {
    expect(found([read('MIO31 M1', 'Mic gain', '50')])).toEqual(['setting-differs service']);
    expect(found([read('MIO31 M1', 'gain', '52')])).toEqual([]);
  });
  it('may be a second address of its own, if a person says so', () => {
    const own = { of: 'jack' } as const;
    expect(found([read('CLK46 NET', 'address', '192.0.2.99', own)])).toEqual([]);
    expect(found([read('CLK46 NET', 'address', '192.0.2.46', own)])).toEqual([]);
  });
  it('taken back, takes its difference with it', () => {
    const wrong = read('MIO31 M1', 'gain', '50');
    expect(found([wrong, event('withdrawn', { target: { event: wrong.id }, why: 'undo' })])).toEqual([]);
  });
});
