// A unit list and a jack list that come after the schedule complete what it only implied. Sheets invented, addresses
// RFC 5737.
import { describe, expect, it } from 'vitest';
import { type Plan, planSchema } from '../../../../src/core/plan/model.ts';
import { againstPlan } from '../../../../src/core/report/plan/revisionView.ts';
import { readTables } from '../../../../src/core/schedule/readTables.ts';

function read(name: string, ...lines: string[]): Plan {
  const rows = lines.map((line) => line.split('|').map((cell) => cell.trim()));
  const found = readTables([{ name, rows }], { name });
  if (found.type !== 'plan') throw new Error(found.why);
  return { ...found.plan, source: { name, sha256: name } };
}

const schedule = read(
  'cables',
  'Cable|From|From Jack|To|To Jack|Signal|Notes',
  '1001|R1 SW1|P1|STA CON30|NET|Enet|',
  '3001|STA MIC1|XLR|STA MIO31|M1|mic|+48 OFF',
  '3004|STB MIC1|XLR|STB MIO33|M1|mic|',
);
const onto = (list: Plan, old = schedule) => againstPlan(list, { revision: 'f'.repeat(64), plan: old }).plan;

const UNITS = read(
  'units',
  'Unit|Room|Rack|U|Jacks|Serial|Address',
  'SW1||R1|40|P01-P24|S-1|192.0.2.2',
  'MIO31|STA||||S-31|192.0.2.31',
  'NEW9||R1|20|I1-I2||',
);

describe('a list that comes after the schedule', () => {
  const whole = onto(UNITS);
  const unit = (id: string, plan = whole) => plan.units.find((one) => one.id === id);

  it('takes no cable away and moves no end', () => {
    expect(whole.cables).toEqual(schedule.cables);
    expect(whole).toMatchObject({ parent: 'f'.repeat(64), source: { name: 'cables' }, name: 'cables' });
    expect(planSchema.safeParse(whole).success).toBe(true);
    const jacks = new Set(whole.jacks.map(({ id }) => id));
    expect(whole.cables.flatMap(({ ends }) => ends).every(({ place }) => place !== null && jacks.has(place))).toBe(
      true,
    );
  });

  it('completes units that were implied, and leaves the others implied', () => {
    expect(unit('SW1')).toMatchObject({ implied: false, u: 40, serial: 'S-1', rack: 'R1' });
    expect(unit('MIO31')).toMatchObject({ implied: false, room: 'STA', serial: 'S-31' });
    expect(unit('NEW9')).toMatchObject({ implied: false, u: 20 });
    expect(unit('CON30')).toMatchObject({ implied: true });
    expect(whole.units).toHaveLength(schedule.units.length + 1);
  });

  it('knows P1 of the schedule in P01 of the list', () => {
    const onSwitch = whole.jacks.filter((jack) => jack.unit === 'SW1');
    expect(onSwitch).toHaveLength(24);
    expect(onSwitch[0]).toMatchObject({ id: 'SW1/P1', implied: false, signal: 'network' });
    expect(unit('SW1')?.faces[0]?.rows.flat()).toContain('SW1/P1');
  });

  it('keeps settings of the schedule beside those of the list', () => {
    const said = whole.settings.map(({ unit: on, place, name, value }) => [place ?? on, name, value]);
    expect(said).toContainEqual(['MIO31/M1', 'phantom', 'off']);
    expect(said).toContainEqual(['MIO31', 'address', '192.0.2.31']);
  });

  it('twice is the same as once, and a newer value takes the place of the older', () => {
    expect(onto(UNITS, whole)).toEqual({ ...whole, guesses: [...whole.guesses, ...UNITS.guesses] });
    const newer = onto(read('units', 'Unit|Rack|U|Serial', 'SW1|R1|38|S-2'), whole);
    expect(unit('SW1', newer)).toMatchObject({ u: 38, serial: 'S-2' });
    expect(newer.settings.filter(({ name, unit: on }) => on === 'SW1' && name === 'serial')).toHaveLength(1);
    expect(newer.jacks).toEqual(whole.jacks);
  });

  it('of jacks says what each is, and nothing about where its unit is', () => {
    const strip = onto(read('jacks', 'Unit|Jack|Connector|Direction|Signal', 'SW1|P1|RJ45|both|PoE'), whole);
    expect(strip.jacks.find(({ id }) => id === 'SW1/P1')).toMatchObject({
      connector: 'RJ45',
      signal: 'poe',
      implied: false,
    });
    expect(unit('SW1', strip)).toEqual(unit('SW1'));
  });

  it('of racks gives heights and numbering', () => {
    const racks = onto(read('racks', 'Rack|Room|Units|Numbered from', 'R1|Tech|24|top'));
    expect(racks.racks).toMatchObject([{ id: 'R1', room: 'Tech', heightU: 24, numbering: 'top-down', implied: false }]);
    expect(racks.cables).toEqual(schedule.cables);
  });

  it('of circuits runs over the cables of the plan, tells them its name, and asks about the others', () => {
    const rows = [
      ['Circuit', 'Main/Standby', 'Hops', 'Carrier no'],
      ['PGM', 'main', '1001, 3001, 9009', 'K-1'],
    ];
    const list = readTables([{ name: 'circuits', rows }], { name: 'circuits', cablesInForce: schedule.cables });
    if (list.type !== 'plan') throw new Error(list.why);
    expect(list.questions.map(({ said, question }) => [said, question])).toEqual([
      ['9009', 'No list has a cable with this number.'],
    ]);
    const whole = onto({ ...list.plan, source: { name: 'circuits', sha256: 'c' } });
    expect(whole.circuits).toMatchObject([
      { name: 'PGM', role: 'main', carrier: 'K-1', hops: ['1001', '3001', '9009'] },
    ]);
    expect(whole.cables.map(({ label, circuit }) => [label, circuit])).toEqual([
      ['1001', 'PGM'],
      ['3001', 'PGM'],
      ['3004', undefined],
    ]);
    // What is in force is not touched by reading.
    expect(schedule.cables.every(({ circuit }) => circuit === undefined)).toBe(true);
  });

  it('with cables is a newer schedule and no completion', () => {
    const next = onto(read('cables 2', 'Cable|From|From Jack|To|To Jack', '1001|R1 SW1|P1|STA CON30|NET'));
    expect(next.cables.map(({ label }) => label)).toEqual(['1001']);
  });
});
