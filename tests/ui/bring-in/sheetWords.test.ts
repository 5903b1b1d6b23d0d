// Every number in a preview is counted from the same reading, and the parts of a sum add up to it. Sheets are invented.
import { expect, test } from 'vitest';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import { cablesToWords, listToWords, progressToWords, rowsToWords } from '../../../src/ui/bring-in/sheetWords.ts';

const HEAD = ['Cable', 'From unit', 'From jack', 'To unit', 'To jack'];

function read(rows: string[][]) {
  const result = readTables([{ name: 'Run list', rows: [HEAD, ...rows] }], { name: 'Run list' });
  if (result.type !== 'plan') throw new Error(result.why);
  return result;
}

const PLAIN = [
  ['1001', 'SW1', 'P01', 'MIO31', 'NET'],
  ['1002', 'SW1', 'P02', 'MIO32', 'NET'],
];

test('Rows read, blank and left out add up to the rows of the lists', () => {
  const words = rowsToWords({ rowsIn: 204, used: 199, joined: 1, blank: 3, skipped: 1 });
  expect(words).toBe('204 rows: 199 read, 1 repeated, 3 blank, 1 left out.');
  const [all, ...parts] = [...words.matchAll(/\d+/g)].map(([n]) => Number(n));
  expect(parts.reduce((a, b) => a + b, 0)).toBe(all);
});

test('A blank row in a real sheet is counted, not lost', () => {
  const { counts } = read([PLAIN[0]!, ['', '', '', '', ''], PLAIN[1]!]);
  expect(rowsToWords(counts)).toBe('3 rows: 2 read, 1 blank.');
});

test('As many cables as rows need no explanation', () => {
  const { counts, plan } = read(PLAIN);
  expect(cablesToWords(counts, plan.cables.length)).toBe('2 rows in lists of cables gave 2 cables.');
});

test('More cables than rows are explained', () => {
  const lists = [{ sheet: 'A', kind: 'cables' as const, headerRow: 1, rows: 30 }];
  expect(cablesToWords({ lists }, 36)).toBe('30 rows in lists of cables gave 36 cables. Some rows name several.');
});

test('Rows of other lists are not counted among the rows of cables', () => {
  const lists = [
    { sheet: 'A', kind: 'cables' as const, headerRow: 1, rows: 30 },
    { sheet: 'B', kind: 'units' as const, headerRow: 2, rows: 7 },
  ];
  const units = { lists: [{ sheet: 'Units', kind: 'units' as const, headerRow: 1, rows: 4 }] };
  expect(cablesToWords(units, 148)).toBe('No list of cables: the plan in force keeps its 148 cables.');
  expect(cablesToWords(units, 0)).toBe('No list of cables.');
  expect(cablesToWords({ lists }, 30)).toBe('30 rows in lists of cables gave 30 cables.');
});

test('A list is told with its header row as the spreadsheet numbers it', () => {
  const { counts } = read(PLAIN);
  expect(counts.lists.map(listToWords)).toEqual(['list of cables, header in row 1, 2 rows']);
});

test('How far the reading is stands in rows once they are known', () => {
  expect(progressToWords({ rows: 0, of: 0 })).toBe('Opening the file.');
  expect(progressToWords({ rows: 1_500, of: 0 })).toBe('Opening the file: row 1,500.');
  expect(progressToWords({ rows: 12_500, of: 25_000 })).toBe('Row 12,500 of 25,000.');
});
