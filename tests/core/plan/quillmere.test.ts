// The invented run list of Quillmere Community Radio, as it was received, against the proper reading of its 30 lines.
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { planSchema } from '../../../src/core/plan/model.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import type { ReadPlan } from '../../../src/core/schedule/rows/readTypes.ts';
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

/** Row, column, what stands there, how it is read: all of them. A reading of one text is told where it comes first. */
const GUESSES: [number, string | undefined, string, string][] = [
  [2, 'From', 'STA CON30', 'STA · CON30'],
  [2, 'To', 'R1 SW1', 'R1 · SW1'],
  [2, 'Signal', 'Enet', 'signal network'],
  [2, 'Stat', 'in', 'status in-use'],
  [2, 'Len', '22', 'metres, where no unit is written'],
  [2, undefined, 'R1', 'a rack of 42 U, numbered from the bottom'],
  [3, 'From', 'STA MIO31', 'STA · MIO31'],
  [3, 'Signal', 'Enet PoE', 'signal poe'],
  [4, 'From', 'STB CON32', 'STB · CON32'],
  [5, 'To', 'same', 'R1 SW1'],
  [5, 'Type / Jkt', '"', 'Cat6 blue'],
  [5, 'Len', '"', '31m'],
  [5, 'From', 'STB MIO33', 'STB · MIO33'],
  [6, 'From', 'R2 AIO21', 'R2 · AIO21'],
  [6, 'To', 'R2 SW2', 'R2 · SW2'],
  [6, undefined, 'R2', 'a rack of 42 U, numbered from the bottom'],
  [7, 'To', '"', 'R2 SW2'],
  [7, 'Signal', '"', 'Enet'],
  [7, 'Type / Jkt', '"', 'patch blue'],
  [7, 'From', 'R2 DIO22', 'R2 · DIO22'],
  [8, 'To', '"', 'R2 SW2'],
  [8, 'Signal', '"', 'Enet'],
  [8, 'Type / Jkt', '"', 'patch blue'],
  [8, 'From', 'R2 LIO23', 'R2 · LIO23'],
  [9, 'Signal', 'uplink', 'signal network'],
  [9, 'Notes', 'ON AIR - DO NOT TOUCH', 'on air'],
  [10, 'From', 'R1 PLY71', 'R1 · PLY71'],
  [11, 'From', 'R1 PP1', 'R1 · PP1'],
  [11, 'To', 'STB WP2', 'STB · WP2'],
  [11, 'Cable#', '1010-1015', '6 cables: 1010 to 1015'],
  [12, 'From', 'R2 SAT1', 'R2 · SAT1'],
  [12, 'Signal', 'Ana st', 'signal line-audio'],
  [12, 'From Jack', 'OUT L/R', 'one place with two legs, left and right'],
  [13, 'From', 'R2 HYB41', 'R2 · HYB41'],
  [13, 'Signal', 'Ana mono', 'signal line-audio'],
  [15, 'From', 'R2 COD42', 'R2 · COD42'],
  [15, 'Signal', 'AES', 'signal aes3'],
  [17, 'To', 'R1 PRO51', 'R1 · PRO51'],
  [17, 'Signal', 'AES PGM1', 'signal aes3'],
  [17, 'Notes', 'ON AIR', 'on air'],
  [18, 'To', 'R1 STL61', 'R1 · STL61'],
  [18, 'Notes', 'ON AIR', 'on air'],
  [19, 'Cable#', '2008-2009', '2 cables: 2008 to 2009'],
  [20, 'To', 'R2 PB1', 'R2 · PB1'],
  [20, 'To Jack', 'J1/J2 (L/R)', 'J1/J2, with the note L/R'],
  [20, 'To Jack', 'J1/J2', '2 ends: J1, J2'],
  [21, 'From Jack', 'J25/J26', '2 ends: J25, J26'],
  [21, 'To', 'STA MONA', 'STA · MONA'],
  [21, 'To Jack', 'IN L/R', 'one place with two legs, left and right'],
  [22, 'From', 'STA MIC1', 'STA · MIC1'],
  [22, 'Signal', 'mic dyn', 'signal microphone'],
  [22, 'Notes', '+48 OFF', 'phantom off'],
  [22, 'Notes', 'G52', 'gain 52'],
  [22, 'Signal', 'dyn', 'microphone dynamic'],
  [22, undefined, 'MIC1', 'STA MIC1, since the name repeats'],
  [23, 'From', 'STA MIC2', 'STA · MIC2'],
  [23, 'Signal', 'mic cond', 'signal microphone'],
  [23, 'Notes', '+48 ON', 'phantom on'],
  [23, 'Notes', 'G38', 'gain 38'],
  [23, 'Signal', 'cond', 'microphone condenser'],
  [24, 'From', 'STA MIC3', 'STA · MIC3'],
  [24, 'To Jack', 'M3 ribbon!!', 'M3, with the note ribbon'],
  [24, 'Signal', 'mic', 'signal microphone'],
  [24, 'Notes', '+48 OFF', 'phantom off'],
  [24, 'To Jack', 'ribbon', 'microphone ribbon'],
  [25, 'From', 'STB MIC1', 'STB · MIC1'],
  [25, 'Notes', '+48 OFF', 'phantom off'],
  [25, 'Notes', 'G50', 'gain 50'],
  [25, 'Signal', 'dyn', 'microphone dynamic'],
  [25, undefined, 'MIC1', 'STB MIC1, since the name repeats'],
  [26, 'From', 'STA PLA1', 'STA · PLA1'],
  [26, 'Signal', 'line unbal st', 'signal line-audio'],
  [27, 'To', 'STA TALA', 'STA · TALA'],
  [27, 'Signal', 'on-air tally', 'signal closure'],
  [27, 'To Jack', '1-4', 'one end at 1-4, since there is one number'],
  [28, 'Signal', 'start/stop', 'signal closure'],
  [29, 'Signal', 'hyb on/off', 'signal closure'],
  [29, 'Notes', '3/4/19', 'a date whose day and month may be exchanged; kept as text'],
  [30, 'Signal', 'POTS', 'signal telephone'],
  [31, 'Notes', 'found cut 3/4/19 leave?', 'a date whose day and month may be exchanged; kept as text'],
];

/** Row, column, what stands there: what is asked and not guessed. */
const QUESTIONS: [number, string, string, string][] = [
  [30, 'Len', '?', 'What belongs here?'],
  [31, 'From', '?', 'Where does this end go?'],
  [31, 'To Jack', 'rear?', 'Which jack is it?'],
  [31, 'Signal', 'unknown', 'Which signal is this?'],
  [31, 'Stat', '?', 'What belongs here?'],
];

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
    expect(result.counts).toMatchObject({ used: 30, blank: 0, joined: 0, skipped: 0, cables: 36 });
    const perRow = Array.from({ length: 30 }, (_, i) => [
      i + 2,
      result.plan.cables.filter(({ origin }) => origin?.row === i + 2).length,
    ]);
    expect(perRow.filter(([, made]) => made !== 1)).toEqual([
      [11, 6],
      [19, 2],
    ]);
  });

  it('lists every guess and every question with its row and column, in the order of the sheet', () => {
    expect(result.guesses.map(({ row, column, said, readAs }) => [row, column, said, readAs])).toEqual(GUESSES);
    expect(result.questions.map(({ row, column, said, question }) => [row, column, said, question])).toEqual(QUESTIONS);
    expect(new Set([...result.guesses, ...result.questions].map(({ sheet }) => sheet))).toEqual(
      new Set(['quillmere-run-list']),
    );
  });

  it('says truly what stands in each cell that it guessed at', async () => {
    const sheet = await readSheetFile(file, 'quillmere-run-list.csv');
    const rows = sheet.type === 'tables' ? (sheet.tables[0]?.rows ?? []) : [];
    for (const { row, column, said } of [...result.guesses, ...result.questions]) {
      const cells = rows[row - 1] ?? [];
      const at = column === undefined ? cells : [cells[rows[0]?.indexOf(column) ?? -1] ?? ''];
      expect(at.some((cell) => cell.includes(said))).toBe(true);
    }
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
      kind: 'ditto',
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
