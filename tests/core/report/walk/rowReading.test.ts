// What a row of a sheet became, in a line. The sheet is invented.
import { expect, test } from 'vitest';
import { rowToReading } from '../../../../src/core/report/walk/rowReading.ts';
import { readTables } from '../../../../src/core/schedule/readTables.ts';

test('What became of a row names the cable and both of its ends, a unit with its place', () => {
  const result = readTables(
    [
      {
        name: 'Run list',
        rows: [
          ['Cable', 'From unit', 'From jack', 'To unit', 'To jack'],
          ['1001', 'SW1', 'P01', 'MIO31', 'NET'],
        ],
      },
      {
        name: 'Units',
        rows: [
          ['Unit', 'Rack', 'U'],
          ['SW1', 'R1', '12'],
        ],
      },
    ],
    { name: 'Run list' },
  );
  if (result.type !== 'plan') throw new Error(result.why);
  expect(rowToReading(result.plan, 'Run list', 2)).toBe('cable 1001: SW1 P01 to MIO31 NET');
  expect(rowToReading(result.plan, 'Units', 2)).toBe('unit SW1: rack R1 U12, 1 jack');
  expect(rowToReading(result.plan, 'Run list', 99)).toBe('');
});
