// The differences as a sheet. Quoting: RFC 4180.
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { REPORT_COLUMNS, reportToCsv } from '../../src/files/reportCsv.ts';
import { line, report } from './reportFixture.ts';

const rowsOf = (csv: string) => Papa.parse<string[]>(csv.replace(/^\uFEFF/, '').trimEnd(), { delimiter: ',' }).data;

test('Every difference is one line under the header, in the order of the report', () => {
  const lines = [line(), line({ number: 2, kind: 'empty-jack', found: null, evidence: [] })];
  const rows = rowsOf(reportToCsv(report({ lines })));
  expect(rows[0]).toEqual([...REPORT_COLUMNS]);
  expect(rows).toHaveLength(3);
  expect(rows[1]?.slice(0, 3)).toEqual(['1', 'undecided', 'wrong-jack']);
  expect(rows[2]?.[2]).toBe('empty-jack');
  expect(rows.every((row) => row.length === REPORT_COLUMNS.length)).toBe(true);
});

test('Times are written in UTC by ISO 8601', () => {
  expect(rowsOf(reportToCsv(report()))[1]?.[10]).toBe('2026-11-25T10:43:00.000Z');
});

test('No cell begins with a sign that a spreadsheet takes for a formula', () => {
  // The signs are those of the OWASP page on CSV injection (from memory).
  const bad = ['=1+1', '+48V', '-rail', '@sum', '\tx', '\rx'];
  for (const text of bad) {
    const rows = rowsOf(
      reportToCsv(report({ lines: [line({ title: text, found: text, notes: [text], places: [text] })] })),
    );
    expect(rows.flat().filter((cell) => /^[=+\-@\t\r]/.test(cell))).toEqual([]);
  }
});

test('Quotes, commas and line breaks in a note stay in their cell', () => {
  const note = 'says "ON AIR", twice\nsecond line';
  const rows = rowsOf(reportToCsv(report({ lines: [line({ notes: [note] })] })));
  expect(rows).toHaveLength(2);
  expect(rows[1]?.[13]).toBe(note);
});

test('The file begins with a byte order mark', () => {
  expect(reportToCsv(report()).charCodeAt(0)).toBe(0xfeff);
});
