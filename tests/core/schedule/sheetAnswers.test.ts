// What a person says of a sheet: columns set by hand, cells said otherwise, columns known again by their header. The same
// file with the same answers gives the same bytes, and without answers nothing changes. The Quillmere list is invented.
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rememberedMappings, shapeKey } from '../../../src/core/schedule/answers/remembered.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import type { ReadPlan, Table } from '../../../src/core/schedule/rows/readTypes.ts';
import {
  type CellAnswer,
  isAnswered,
  NO_ANSWERS,
  type SheetAnswers,
  withCell,
  withMapping,
} from '../../../src/core/schedule/sheetAnswers.ts';
import { readSheetFile } from '../../../src/files/sheet.ts';

const SHEET = 'quillmere-run-list';
const file = readFileSync(new URL('../../fixtures/quillmere-run-list.csv', import.meta.url));
const opened = await readSheetFile(file, `${SHEET}.csv`);
if (opened.type !== 'tables') throw new Error(opened.error.what);
const { tables } = opened;

function read(answers?: SheetAnswers, given: readonly Table[] = tables) {
  const result: ReadPlan = readTables(given, { name: 'Quillmere', answers });
  if (result.type !== 'plan') throw new Error(result.why);
  return result;
}
const typed = (row: number | null, column: number, said: string, text: string): CellAnswer => ({
  sheet: SHEET,
  column,
  row,
  said,
  as: 'typed',
  text,
});
const literal = (row: number | null, column: number, said: string): CellAnswer => ({
  ...typed(row, column, said, said),
  as: 'literal',
});
const cells = (...list: CellAnswer[]) => list.reduce(withCell, NO_ANSWERS);
const cable = (answers: SheetAnswers, label: string) => read(answers).plan.cables.find((one) => one.label === label);

describe('cells said otherwise', () => {
  it('change nothing where there are none', () => {
    expect(JSON.stringify(read(NO_ANSWERS).plan)).toBe(JSON.stringify(read().plan));
  });

  it('are read in place of what the file has, and the plan says so', () => {
    // Row 31 is the cut cable 9001: `?` to PB1 `rear?`.
    const { plan, questions } = read(cells(typed(31, 5, 'rear?', 'J30')));
    const end = plan.cables.find(({ label }) => label === '9001')?.ends.find(({ unit }) => unit === 'PB1');
    expect(end?.place).toBe('PB1/J30');
    expect(questions.some(({ row, said }) => row === 31 && said === 'rear?')).toBe(false);
    expect(plan.guesses).toContainEqual({
      sheet: SHEET,
      row: 31,
      column: 'To Jack',
      said: 'rear?',
      readAs: 'J30, put in by hand',
    });
  });

  it('taken as they stand are one name: no range, no note, no list, no sign of repetition', () => {
    expect(cable(NO_ANSWERS, '2008')?.ends.map(({ place }) => place)).toEqual(['PLY71/AES-OUT-1', 'DIO22/I2']);
    const range = cells(literal(19, 1, '2008-2009'));
    expect(cable(range, '2008-2009')).toBeDefined();
    expect(cable(range, '2008')).toBeUndefined();
    const pair = cells(literal(20, 5, 'J1/J2 (L/R)'));
    expect(cable(pair, '2010')?.ends.map(({ jack }) => jack)).toEqual(['O1', 'J1/J2 (L/R)']);
    const unit = cells(literal(2, 2, 'STA CON30'));
    expect(cable(unit, '1001')?.ends[0]?.unit).toBe('STA CON30');
    const ditto = cells(literal(7, 7, '"'));
    expect(cable(ditto, '1006')?.type).toBe('"');
  });

  it('left blank stay blank, even where the cell above would fill them', () => {
    const { plan } = read(cells(typed(7, 7, '"', '')));
    expect(plan.cables.find(({ label }) => label === '1006')?.type).toBeUndefined();
  });

  it('hold for every cell that says the same, and a single cell’s own answer comes after', () => {
    const all = cells(typed(null, 6, 'Enet', 'AES'), typed(4, 6, 'Enet', 'POTS'));
    const { plan } = read(all);
    const signal = (label: string) => plan.cables.find((one) => one.label === label)?.signal;
    expect([signal('1001'), signal('1003'), signal('1005'), signal('1002')]).toEqual([
      'aes3',
      'telephone',
      'aes3',
      'poe',
    ]);
  });

  it('of one cell give way to what is said of it next', () => {
    const answers = cells(typed(31, 5, 'rear?', 'J30'), typed(31, 5, 'rear?', 'J31'));
    expect(answers.cells).toHaveLength(1);
    expect(answers.cells[0]?.text).toBe('J31');
  });

  it('give the same bytes for the same answers, whatever they are', () => {
    const answer = fc.record({
      sheet: fc.constantFrom(SHEET, 'another'),
      column: fc.integer({ min: 1, max: 14 }),
      row: fc.option(fc.integer({ min: 1, max: 40 })),
      said: fc.constantFrom('same', 'Enet', '?', ''),
      as: fc.constantFrom('typed' as const, 'literal' as const),
      text: fc.oneof(fc.constantFrom('J1-J4', '"', '?', '', '__proto__'), fc.string({ maxLength: 12 })),
    });
    fc.assert(
      fc.property(fc.array(answer, { maxLength: 6 }), (list) => {
        const [a, b] = [0, 1].map(() => readTables(tables, { name: 'Q', answers: cells(...list) }));
        expect(JSON.stringify(a)).toBe(JSON.stringify(b));
        if (a?.type !== 'plan') return;
        const mine = a.guesses.filter(isAnswered);
        expect(mine.length).toBe(cells(...list).cells.filter(({ sheet }) => sheet === SHEET).length);
        expect(a.counts.rowsIn).toBe(a.counts.used + a.counts.joined + a.counts.blank + a.counts.skipped);
      }),
      { numRuns: 60 },
    );
  });
});

const ODD: Table = {
  name: 'List',
  rows: [
    ['Wiring of the old wing', '', '', '', ''],
    ['Nr', 'Where it comes from', 'Hole', 'Where it goes', 'Hole there'],
    ['1001', 'SW1', 'P01', 'CON30', 'NET'],
    ['1002', 'SW1', 'P02', 'CON31', 'NET'],
  ],
};
const BY_HAND = [
  { column: 1, meaning: 'number' },
  { column: 2, meaning: 'fromUnit' },
  { column: 3, meaning: 'fromJack' },
  { column: 4, meaning: 'toUnit' },
  { column: 5, meaning: 'toJack' },
];

describe('columns set by hand', () => {
  const mapping = { sheet: 'List', kind: 'cables' as const, headerRow: 2, columns: BY_HAND };

  it('make a list of a sheet whose header names nothing that is known', () => {
    // Two rows are too few to tell the columns by their cells without asking.
    const asked = readTables([ODD], { name: 'odd' });
    expect(asked.type === 'plan' && asked.questions.map(({ kind }) => kind)).toContain('column');
    const { plan, counts, questions } = read(withMapping(NO_ANSWERS, 'List', mapping), [ODD]);
    expect(plan.cables.map(({ label, ends }) => [label, ...ends.map(({ place }) => place)])).toEqual([
      ['1001', 'SW1/P01', 'CON30/NET'],
      ['1002', 'SW1/P02', 'CON31/NET'],
    ]);
    expect(counts.lists).toEqual([{ sheet: 'List', kind: 'cables', headerRow: 2, rows: 2 }]);
    expect(questions).toEqual([]);
  });

  it('leave a sheet out that is said to be no list', () => {
    const notes: Table = { ...ODD, name: 'Old', rows: tables[0]!.rows.slice(0, 5) };
    const both = [tables[0]!, notes];
    expect(read(undefined, both).counts.ignored).toEqual([]);
    const answers = withMapping(NO_ANSWERS, 'Old', { sheet: 'Old', kind: null, headerRow: 1, columns: null });
    expect(read(answers, both).counts.ignored).toMatchObject([{ sheet: 'Old', row: 1, isWhole: true }]);
    expect(read(answers, both).plan.cables).toHaveLength(36);
  });

  it('go by the names of the columns where only the kind or the header row was said', () => {
    const answers = withMapping(NO_ANSWERS, SHEET, { sheet: SHEET, kind: 'cables', headerRow: 1, columns: null });
    expect(JSON.stringify(read(answers).plan)).toBe(JSON.stringify(read().plan));
  });

  it('are known again by the header alone, on whatever row and sheet it stands, however it is written', () => {
    const key = shapeKey(ODD.rows[1]!);
    const shapes = [{ key, kind: 'cables' as const, columns: BY_HAND, at: 5 }];
    const moved: Table = {
      name: 'Another name',
      firstRow: 3,
      rows: [[], ['title'], ODD.rows[1]!.map((title) => ` ${title.toUpperCase()} `), ...ODD.rows.slice(2)],
    };
    expect(rememberedMappings([moved], shapes)).toEqual([
      { mapping: { sheet: 'Another name', kind: 'cables', headerRow: 5, columns: BY_HAND }, at: 5 },
    ]);
    expect(rememberedMappings(tables, shapes)).toEqual([]);
    // A row without titles has no shape, or every blank row would be known.
    expect(rememberedMappings([moved], [{ key: '', kind: null, columns: null, at: 1 }])).toEqual([]);
  });
});
