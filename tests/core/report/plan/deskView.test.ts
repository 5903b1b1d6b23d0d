// The desk check as it is shown: worst first, rows in words, and what a schedule cannot tell. Sheets are invented.
import { expect, test } from 'vitest';
import { indexPlan } from '../../../../src/core/plan/planIndex.ts';
import { deskView, rowsToWords } from '../../../../src/core/report/plan/deskView.ts';
import { USUAL_RULES } from '../../../../src/core/schedule/desk/siteRules.ts';
import { readTables } from '../../../../src/core/schedule/readTables.ts';
import { SEVERITIES } from '../../../../src/core/trade/kinds.ts';

function indexOf(tables: Record<string, string[]>) {
  const result = readTables(
    Object.entries(tables).map(([name, lines]) => ({ name, rows: lines.map((line) => line.split(';')) })),
    { name: 'Run list' },
  );
  if (result.type !== 'plan') throw new Error(result.why);
  return indexPlan(result.plan);
}
const HEAD = 'Cable;From;From Jack;To;To Jack;Signal;Length';

test('Rows of one sheet stand together, with the last behind “and”', () => {
  const rows = [
    { sheet: 'Cables', row: 5 },
    { sheet: 'Cables', row: 6 },
    { sheet: 'Cables', row: 9 },
    { sheet: 'Jacks', row: 15 },
  ];
  expect(rowsToWords(rows)).toBe('Cables row 5, 6 and 9, Jacks row 15');
  expect(rowsToWords([])).toBe('');
});

test('The worst severity comes first, and the numbers of the groups add up to the whole', () => {
  const view = deskView(
    indexOf({
      Cables: [
        HEAD,
        '1001;COD42;AES OUT;STL61;AES OUT;AES;2 m',
        '1002;COD43;AES OUT;PB1;J1;AES;2 m',
        '1002;COD44;AES OUT;PB1;J1;AES;2 m',
      ],
    }),
  );
  expect(view.groups.map(({ severity }) => severity)).toEqual(['equipment', 'service', 'record']);
  const order = view.groups.map(({ severity }) => SEVERITIES.indexOf(severity));
  expect(order).toEqual([...order].sort((a, b) => a - b));
  expect(view.groups.reduce((sum, group) => sum + group.count, 0)).toBe(view.count);
  expect(view.groups[0]?.lines[0]).toEqual({
    kind: 'direction-clash',
    line: '1001 joins two outputs: COD42 AES OUT and STL61 AES OUT.',
    where: 'Cables row 2',
    about: '1001',
  });
});

test('What the schedule does not say is named, and no longer once it says so', () => {
  const bare = deskView(indexOf({ Cables: ['Cable;From;From Jack;To;To Jack', '1001;SW1;P01;CON30;NET'] }));
  expect(bare.count).toBe(0);
  expect(bare.blind.map((line) => line.split(':')[0])).toEqual([
    'No list of units',
    'No list of jacks',
    'No lengths',
    'No addresses',
    'No channel numbers',
  ]);
  const index = indexOf({
    Cables: [HEAD, '1001;SW1;P01;CON30;NET;Enet;22 m'],
    Units: ['Unit;Rack;U;Address', 'SW1;R1;40;192.0.2.2', 'CON30;R1;30;192.0.2.30'],
    Jacks: ['Unit;Jack;Direction;Channel', 'SW1;P01;both;', 'CON30;I1;in;3001'],
  });
  expect(deskView(index).blind).toEqual(['No subnets are set: addresses outside them cannot be found.']);
  const rules = { ...USUAL_RULES, subnets: [{ name: 'studio', subnet: '192.0.2.0/24' }] };
  expect(deskView(index, rules).blind).toEqual([]);
});

test('A list of hundreds is cut, and its number is still the whole one', () => {
  const rows = Array.from({ length: 450 }, (_, i) => `${1000 + i};SW1;P${i};;;;`);
  const view = deskView(indexOf({ Cables: [HEAD, ...rows] }));
  const [record] = view.groups;
  expect(record?.count).toBe(450);
  expect(record?.lines.length).toBe(200);
});
