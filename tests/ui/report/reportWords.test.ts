// File names of a report: plain, dated, never a path.
import { expect, test } from 'vitest';
import { reportName } from '../../../src/ui/report/reportWords.ts';

/** 25 November 2026, invented. */
const AT = Date.UTC(2026, 10, 25, 10, 43);

test('The name of a report file is plain and dated, whatever the station is called', () => {
  expect(reportName({ station: 'Radio ../../Ünder "Moor"', name: 'R1/R2', lastAt: AT }, 'html')).toBe(
    'Radio-Ünder-Moor-R1-R2-2026-11-25.html',
  );
});

test('A station and an audit without letters still give a file name', () => {
  expect(reportName({ station: '..', name: '', lastAt: AT }, 'csv')).toBe('report-2026-11-25.csv');
});
