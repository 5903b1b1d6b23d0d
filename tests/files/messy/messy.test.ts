// A random tidy plan, written as a messy sheet through each habit in turn, reads back to the same plan; whatever the
// habit hid is a guess or a question in its row, and rows in and out add up.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planSchema } from '../../../src/core/plan/model.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';
import { readSheetFile } from '../../../src/files/sheet.ts';
import * as habits from './habits.ts';
import { planToShape, tidyPlan } from './tidy.ts';
import * as workbooks from './workbooks.ts';
import { toCsv, toXlsx } from './write.ts';

async function toTables(input: Table[] | Uint8Array): Promise<Table[]> {
  if (Array.isArray(input)) return input;
  const read = await readSheetFile(input, `${habits.SHEET}.csv`);
  if (read.type === 'sheet-error') throw new Error(read.error.what);
  return read.tables;
}

async function readsBack(habit: habits.Habit): Promise<void> {
  await fc.assert(
    fc.asyncProperty(tidyPlan, async (tidy) => {
      const { input, hidden, wanted } = await habit(tidy);
      const read = readTables(await toTables(input), { name: 'messy' });
      if (read.type !== 'plan') throw new Error(read.why);
      const { plan, guesses, questions, counts } = read;
      expect(planToShape(plan)).toEqual(wanted);
      expect(planSchema.safeParse(plan).success).toBe(true);
      const said = [...guesses, ...questions];
      for (const one of hidden) {
        const found = said.some(
          (told) =>
            told.row === one.row &&
            (one.sheet === undefined || told.sheet === one.sheet) &&
            (one.column === undefined || told.column === one.column) &&
            (one.said === undefined || told.said === one.said),
        );
        expect(found ? null : { missing: one, said }).toBeNull();
      }
      expect(counts.used + counts.blank + counts.joined + counts.skipped).toBe(counts.rowsIn);
    }),
    { numRuns: 60 },
  );
}

const NAMES: [string, habits.Habit][] = [
  ['merged cells', workbooks.mergedCells],
  ['names on the first of their rows alone', habits.namesOnFirstRowOnly],
  ['ditto words', habits.dittoWords],
  ['a lone quotation mark in a text file', habits.loneQuoteMark],
  ['ranges on both sides', habits.rangesOnBothSides],
  ['a range on one side', habits.rangeOnOneSide],
  ['several cables in one cell', habits.severalCablesInOneCell],
  ['left and right in one cell', habits.leftAndRightInOneCell],
  ['words for spare', habits.spareWords],
  ['words for unknown, and cells of an error', habits.unknownWords],
  ['notes behind a name', habits.notesBehindNames],
  ['lengths with and without units', habits.lengthsInUnits],
  ['dates and exponents made out of names, in text', habits.namesEatenInText],
  ['dates, numbers and exponents made out of names, in a workbook', workbooks.namesEatenInCells],
  ['titles, totals and headers again', habits.titlesAndTotals],
  ['a legend below the list and on a sheet', habits.legendBlock],
  ['two header rows', habits.twoHeaderRows],
  ['the header in row 4', habits.headerInRowFour],
  ['mirror rows', habits.mirrorRows],
  ['a room by its nickname, with a legend', habits.nicknameExplained],
  ['a room by its nickname, against the unit list', habits.nicknameAgainstUnitList],
  ['a sheet for each rack, columns in another order', workbooks.sheetPerRack],
  ['sheets that are no lists', workbooks.sheetsThatAreNoLists],
  ['names spelled several ways', habits.spellingDrift],
];

describe('a tidy plan comes back out of a messy sheet', () => {
  it.each(NAMES)('%s', (_, habit) => readsBack(habit));
});

describe('look-alikes stay apart', () => {
  // Letters that look like figures, and zeros in front: as text in both kinds of file.
  const ROWS = [
    ['Cable', 'From Unit', 'From Jack', 'To Unit', 'To Jack'],
    ['0101', 'A', 'I1', 'B', '1'],
    ['101', 'A', '11', 'B', '2'],
    ['1001', 'A', 'I-1-1', 'B', '3'],
    ['I001', 'A', '1-11', 'B', '4'],
  ];

  it.each([
    ['CSV', () => toCsv(ROWS, ';')],
    ['XLSX', () => toXlsx([{ sheet: 'A', data: ROWS }])],
  ])('in %s', async (_, write) => {
    const read = readTables(await toTables(await write()), { name: 'x' });
    if (read.type !== 'plan') throw new Error(read.why);
    expect(read.plan.cables.map(({ id, label }) => [id, label])).toEqual(
      ['0101', '101', '1001', 'I001'].map((label) => [label, label]),
    );
    expect(read.plan.cables.map(({ ends }) => ends[0]?.place)).toEqual(['A/I1', 'A/11', 'A/I-1-1', 'A/1-11']);
    expect(read.plan.contradictions).toEqual([]);
  });

  it('against a jack list: I1 is asked about and never becomes 11', async () => {
    const lists = [
      { name: 'Cables', rows: ROWS.slice(0, 2) },
      {
        name: 'Jacks',
        rows: [
          ['Unit', 'Jack', 'Connector'],
          ['A', '11', 'XLR'],
          ['B', '1', 'XLR'],
        ],
      },
    ];
    const read = readTables(lists, { name: 'x' });
    if (read.type !== 'plan') throw new Error(read.why);
    expect(read.plan.cables[0]?.ends.map(({ place }) => place)).toEqual(['A/I1', 'B/1']);
    expect(read.questions).toMatchObject([{ row: 2, said: 'I1', question: 'Is this 11 of A?' }]);
  });
});
