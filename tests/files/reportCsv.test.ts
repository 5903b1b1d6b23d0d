// The differences as a sheet. Quoting: RFC 4180. Which first characters a spreadsheet takes for a formula: OWASP,
// "CSV Injection". Texts are invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCsv } from '../../src/files/csv.ts';
import { REPORT_COLUMNS, reportToCsv, reportToRows } from '../../src/files/reportCsv.ts';
import { sampleLine, sampleReport } from './reportSample.ts';

const readBack = (bytes: Uint8Array) => {
  const read = readCsv(bytes, ',');
  if (read.type !== 'rows') throw new Error(read.error.what);
  return read.rows;
};

describe('the differences as a sheet', () => {
  it('has one row for each difference of the report, in its order', () => {
    const report = sampleReport();
    const rows = readBack(reportToCsv(report));
    expect(rows[0]).toEqual([...REPORT_COLUMNS]);
    expect(report.lines.length).toBeGreaterThan(0);
    expect(rows.slice(1).map((row) => row[3])).toEqual(report.lines.map(({ title }) => title));
  });

  it('writes facts: kind, places, labels, basis, time in UTC and by whom', () => {
    const second = { at: Date.UTC(2026, 2, 2, 10), author: 'B', basis: 'followed' };
    const line = sampleLine({ evidence: [...sampleLine().evidence, second], photos: ['x'], notes: ['tight', 'dusty'] });
    const [, row] = readBack(reportToCsv({ lines: [line] }));
    expect(Object.fromEntries(REPORT_COLUMNS.map((name, i) => [name, row?.[i]]))).toEqual({
      number: '1',
      severity: 'on-air',
      kind: 'wrong-jack',
      what: 'Label in another jack than planned',
      'in words': 'SW1-P02: 1003 is here, plan 1002.',
      order: '',
      places: 'SW1-P02',
      labels: '1003 | 1002',
      found: '1003',
      plan: '1002',
      basis: 'by eye | followed',
      'seen at': '2026-03-02T09:02:00.000Z | 2026-03-02T10:00:00.000Z',
      'seen by': 'I. Halloran | B',
      notes: 'tight | dusty',
      photos: '1',
    });
  });

  it.each(['=HYPERLINK("x")', '+48V', '-1', '@SUM(A1)', '\t=1', '"quoted"', "'=1", 'a\r\nb', '1,5;2'])(
    'gives %j back, and lets no cell begin like a formula',
    (text) => {
      const bytes = reportToCsv({ lines: [sampleLine({ found: text, labels: [text], notes: [text] })] });
      const [, row] = readBack(bytes);
      expect(row?.[REPORT_COLUMNS.indexOf('found')]).toBe(text);
      expect(new TextDecoder().decode(bytes)).not.toMatch(/(^|[,\n])"?[=+\-@\t]/);
    },
  );

  it('gives every text back', () => {
    const text = fc.string({ unit: 'grapheme' }).map((one) => one.replaceAll('\0', ''));
    fc.assert(
      fc.property(text, text, (found, title) => {
        const lines = [sampleLine({ found, title })];
        expect(readBack(reportToCsv({ lines }))).toEqual(reportToRows({ lines }));
      }),
      { numRuns: 200 },
    );
  });

  it('has only the head when nothing differs', () => {
    expect(reportToRows({ lines: [] })).toEqual([[...REPORT_COLUMNS]]);
  });
});
