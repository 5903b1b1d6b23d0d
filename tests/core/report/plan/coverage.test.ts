// How much of a file came into the plan: rows by what they became, texts that nothing says. The sheets are invented, and
// the texts that are missing are written down by hand.
import { describe, expect, it } from 'vitest';
import { coverageOf, type ReadList } from '../../../../src/core/report/plan/coverage.ts';
import { readTables } from '../../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../../src/core/schedule/rows/readTypes.ts';
import { columnsOf, NO_ANSWERS, type SheetAnswers, withAnswers } from '../../../../src/core/schedule/sheetAnswers.ts';
import { createFacility } from '../../../bench/benchFacility.ts';

function cover(tables: readonly Table[], answers: SheetAnswers = NO_ANSWERS) {
  const read = readTables(tables, { name: 'a', answers });
  if (read.type !== 'plan') throw new Error(read.why);
  const lists = withAnswers(tables, answers).map((table, i): ReadList => {
    return { table: tables[i]!, columns: columnsOf(table, answers), left: table.left };
  });
  return coverageOf(lists, read.plan, read.counts, read);
}
const textsOf = (tables: readonly Table[], answers?: SheetAnswers) =>
  cover(tables, answers).unread.columns.map(({ sheet, column, first }) => [
    sheet,
    column,
    ...first.map(({ text }) => text),
  ]);

const HEADER = ['Cable', 'From Unit', 'From Jack', 'To Unit', 'To Jack', 'Signal', 'Approved'];
const LIST: Table = {
  name: 'Wing',
  rows: [
    ['Quillmere, rack R2, issue C'],
    [],
    HEADER,
    ['1001', 'SW1', 'P01', 'CON30', 'NET', 'PoE', 'Mara'],
    ['1002', 'SW1', 'P02-P03', 'PB1', 'J1-J2', 'AES', 'Mara'],
    ['1003', 'SW1', 'P04', 'CON32', '', 'AES', 'Jo'],
    [],
    ['1004', '', '', '', '', '', 'void since May'],
  ],
};
const CHANGES: Table = {
  name: 'Changes',
  rows: [
    ['C', 'moved PB1', ''],
    ['B', 'SW1 was SW9'],
  ],
};

describe('rows', () => {
  it('are counted by what they became, and add up', () => {
    const { rows } = cover([LIST]);
    expect(rows).toEqual({ of: 4, both: 2, one: 1, none: 0, again: 0, nothing: 1 });
  });

  it('that tell of a cable once more became nothing of their own', () => {
    const mirrored: Table = {
      name: 'Other end',
      rows: [HEADER, ['1001', 'CON30', 'NET', 'SW1', 'P01', 'PoE', '']],
    };
    const { rows } = cover([LIST, mirrored]);
    expect(rows).toEqual({ of: 5, both: 2, one: 1, none: 0, again: 1, nothing: 1 });
  });
});

describe('texts that never reached the plan', () => {
  it('are told by column, with what stands above the list and on sheets that are no list', () => {
    expect(textsOf([LIST, CHANGES])).toEqual([
      ['Wing', 'Approved', 'Mara', 'Jo', 'void since May'],
      ['Changes', '', 'C', 'B'],
      ['Changes', '', 'moved PB1', 'SW1 was SW9'],
      ['Wing', null, 'Quillmere, rack R2, issue C'],
    ]);
    const { unread } = cover([LIST, CHANGES]);
    expect(unread).toMatchObject({ texts: 8, cells: 9, more: 0 });
    expect(unread.columns[0]).toMatchObject({ number: 7, texts: 3, cells: 4 });
    expect(unread.columns[0]?.first[0]).toEqual({ text: 'Mara', n: 2, row: 4 });
  });

  it('are none of what was read as a range, a signal or a place', () => {
    const places: Table = {
      name: 'Wing',
      rows: [
        ['Cable', 'From', 'To', 'Signal'],
        ['1001', 'R1 U14 SW1 P01', 'R2 CON30 NET', 'Enet PoE'],
        ['1002-1004', 'SW1 P02-P04', 'PB1 J1-J3', 'AES'],
      ],
    };
    expect(textsOf([places])).toEqual([]);
  });

  it('are not counted where a person left them out, or does not use the sheet', () => {
    const answers: SheetAnswers = {
      ...NO_ANSWERS,
      left: [{ sheet: 'Wing', from: 8, to: 8, like: null }],
    };
    expect(cover([LIST], answers).rows).toMatchObject({ of: 3, nothing: 0 });
    expect(textsOf([LIST], answers)).toEqual([
      ['Wing', 'Approved', 'Mara', 'Jo'],
      ['Wing', null, 'Quillmere, rack R2, issue C'],
    ]);
  });

  it('are cut off and counted', () => {
    const rows = Array.from({ length: 500 }, (_, i) => [`C${i}`, 'SW1', `P${i}`, 'PB1', `J${i}`, 'AES', `remark ${i}`]);
    const wide = rows.map((row) => [...row, ...Array.from({ length: 40 }, (_, k) => `x${k}`)]);
    const { unread } = cover([{ name: 'Wing', rows: [HEADER, ...wide] }]);
    // A text of a column without a name is told as one that is not read by its first cell.
    expect(unread.texts).toBe(500);
    expect(unread.columns[0]?.first).toHaveLength(20);
    const many = wide.map((row, i) => row.map((cell) => (cell.startsWith('x') ? `${cell} of ${i}` : cell)));
    const cut = cover([{ name: 'Wing', rows: [HEADER, ...many] }]).unread;
    expect(cut.columns).toHaveLength(30);
    expect(cut.more).toBe(11);
  });

  it('of a tidy list are none', () => {
    const { rows } = createFacility(300);
    expect(cover([{ name: 'cables', rows }]).unread.columns).toEqual([]);
  });
});
