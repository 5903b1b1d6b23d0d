// The invented run list of Quillmere Community Radio, as it was received, against the proper reading of its 30 lines.
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { planSchema } from '../../../src/core/plan/model.ts';
import { readTables } from '../../../src/core/plan/readTables.ts';
import type { ReadPlan } from '../../../src/core/plan/readTypes.ts';
import { readSheetFile } from '../../../src/files/sheet.ts';

type Read = Extract<ReadPlan, { type: 'plan' }>;
const file = readFileSync(new URL('../../fixtures/quillmere-run-list.csv', import.meta.url));

async function read(): Promise<Read> {
  const sheet = await readSheetFile(file, 'quillmere-run-list.csv');
  if (sheet.type !== 'tables') throw new Error(sheet.error.what);
  const plan = readTables(sheet.tables, { name: 'Quillmere' });
  if (plan.type !== 'plan') throw new Error(plan.why);
  return plan;
}

describe('the run list of Quillmere', () => {
  let result: Read;
  beforeAll(async () => {
    result = await read();
  });
  const cable = (label: string) => {
    const found = result.plan.cables.find((one) => one.label === label);
    if (!found) throw new Error(`no cable ${label}`);
    return found;
  };
  const places = (label: string) => cable(label).ends.map((end) => end.place);
  const settings = (place: string) =>
    Object.fromEntries(result.plan.settings.filter((s) => s.place === place).map((s) => [s.name, s.value]));

  it('has 36 cables on 30 lines', () => {
    expect(result.counts.rowsIn).toBe(30);
    expect(result.plan.cables).toHaveLength(36);
    expect(result.counts).toMatchObject({ blank: 0, skipped: 0, cables: 36 });
  });

  it('is a plan by its own schema', () => {
    expect(planSchema.safeParse(result.plan).success).toBe(true);
  });

  it('gives the same bytes when it is read again', async () => {
    expect(JSON.stringify((await read()).plan)).toBe(JSON.stringify(result.plan));
  });

  it('fills ditto cells from the row above, column by column', () => {
    expect(cable('1004')).toMatchObject({ type: 'Cat6 blue', length: '31m' });
    expect(places('1004')).toEqual(['MIO33/NET', 'SW1/P04']);
    expect(cable('1006')).toMatchObject({ signalText: 'Enet', type: 'patch blue', length: '1' });
    expect(places('1006')).toEqual(['DIO22/NET', 'SW2/P02']);
    expect(places('1007')).toEqual(['LIO23/NET', 'SW2/P03']);
    expect(result.guesses).toContainEqual({
      sheet: 'quillmere-run-list',
      row: 7,
      column: 'To',
      said: '"',
      readAs: 'R2 SW2',
    });
  });

  it('makes six cables of 1010-1015 and two of 2008-2009', () => {
    expect(places('1010')).toEqual(['PP1/P11', 'WP2/1']);
    expect(places('1015')).toEqual(['PP1/P16', 'WP2/6']);
    expect(cable('1012').status).toBe('spare');
    expect(places('2008')).toEqual(['PLY71/AES-OUT-1', 'DIO22/I2']);
    expect(places('2009')).toEqual(['PLY71/AES-OUT-2', 'DIO22/I3']);
    expect(result.guesses).toContainEqual(
      expect.objectContaining({ row: 19, said: '2008-2009', readAs: '2 cables: 2008 to 2009' }),
    );
  });

  it('keeps a stereo circuit on one end, and two numbered jacks as two', () => {
    expect(places('2001')).toEqual(['SAT1/OUT-L-R', 'AIO21/I1']);
    expect(places('2010')).toEqual(['AIO21/O1', 'PB1/J1', 'PB1/J2']);
    expect(cable('2011').ends.map(({ end, place }) => [end, place])).toEqual([
      ['A', 'PB1/J25'],
      ['B', 'MONA/IN-L-R'],
      ['C', 'PB1/J26'],
    ]);
  });

  it('splits the note off the jack and finds the ribbon microphone in it', () => {
    expect(places('3003')).toEqual(['MIC3/XLR', 'MIO31/M3']);
    expect(settings('MIO31/M3')).toEqual({ phantom: 'off', microphone: 'ribbon' });
    expect(settings('MIO31/M2')).toEqual({ phantom: 'on', gain: '38', microphone: 'condenser' });
  });

  it('keeps the two units called MIC1 apart by their rooms', () => {
    expect(places('3001')[0]).toBe('STA-MIC1/XLR');
    expect(places('3004')[0]).toBe('STB-MIC1/XLR');
    expect(result.plan.units.find((unit) => unit.id === 'STB-MIC1')?.label).toBe('STB MIC1');
  });

  it('marks what is on air, and not the tally light', () => {
    const onAir = result.plan.cables.filter((one) => one.onAir).map((one) => one.label);
    expect(onAir).toEqual(['1008', '2006', '2007']);
  });

  it('asks about the cable that goes nowhere instead of making a place up', () => {
    expect(places('9001')).toEqual([null, null]);
    expect(result.questions.map(({ row, said }) => [row, said])).toEqual([
      [31, '?'],
      [31, 'rear?'],
      [31, 'unknown'],
    ]);
    expect(result.plan.contradictions.map((one) => [one.type, one.cables])).toEqual([['end-missing', ['9001']]]);
  });

  it('names the dates whose day and month may be exchanged', () => {
    const dates = result.guesses.filter((guess) => guess.readAs.includes('day and month'));
    expect(dates.map((guess) => guess.row)).toEqual([29, 31]);
  });

  it('makes the racks that the rows imply and says so', () => {
    expect(result.plan.racks.map(({ id, heightU, numbering, implied }) => [id, heightU, numbering, implied])).toEqual([
      ['R1', 42, 'bottom-up', true],
      ['R2', 42, 'bottom-up', true],
    ]);
  });
});
