// Sheets of a few kilobytes that claim more than anybody has, or hold a book in a cell: each is stopped with the place and
// a step, or read without harm, and costs no more than its bytes. Everything here is invented.
import { describe, expect, it } from 'vitest';
import { readTables } from '../../../src/core/schedule/readTables.ts';

const HEAD = ['Cable', 'From', 'From Jack', 'To', 'To Jack', 'Notes'];
/** Processor time that no sheet here may cost; what else runs on the machine does not count. */
const MOST_MS = 8_000;

function read(...sheets: { name: string; rows: string[][] }[]) {
  const before = process.cpuUsage();
  const result = readTables(sheets, { name: 'list.csv' });
  const { user, system } = process.cpuUsage(before);
  expect((user + system) / 1000).toBeLessThan(MOST_MS);
  return result;
}

describe('a sheet that claims too much', () => {
  it('is stopped at the row that goes too far: ranges of five hundred cables in every row', () => {
    const rows = Array.from({ length: 3_000 }, (_, i) => [`${i}0000-${i}0499`, 'SW1', '0-499', 'PP1', '1-500', '']);
    const result = read({ name: 'Runs', rows: [HEAD, ...rows] });
    expect(result).toEqual({
      type: 'not-a-schedule',
      why: 'Row 202 of Runs brings it to more than 100,000 cables.',
      where: { sheet: 'Runs', row: 202 },
      nextStep: expect.stringContaining('0-499'),
    });
  });

  it('is stopped at the unit that has too many jacks, and at the circuit that has too many hops', () => {
    const units = Array.from({ length: 3_000 }, (_, i) => [`SW${i}`, 'R1', '1', '1-512']);
    expect(read({ name: 'Units', rows: [['Unit', 'Rack', 'U', 'Jacks'], ...units] })).toMatchObject({
      why: 'Row 783 of Units brings it to more than 400,000 jacks.',
    });
    const hops = Array.from({ length: 900 }, (_, i) => `${i}`).map((n) => [n, Array(60).fill('1-512').join(' > ')]);
    expect(read({ name: 'Circuits', rows: [['Circuit', 'Hops'], ...hops] })).toMatchObject({ type: 'not-a-schedule' });
  });

  it('takes no single name for a range that large: a plan of ordinary size is read', () => {
    const rows = Array.from({ length: 20 }, (_, i) => [`${i}0000-${i}0499`, 'SW1', '0-499', 'PP1', '1-500', '']);
    expect(read({ name: 'Runs', rows: [HEAD, ...rows] })).toMatchObject({ type: 'plan', counts: { cables: 10_000 } });
  });
});

describe('a cell that holds a book', () => {
  const units = {
    name: 'Units',
    rows: [
      ['Unit', 'Rack', 'U'],
      ['SW1', 'R1', '1'],
      ['PP1', 'R2', '1'],
    ],
  };
  const BOOKS: [string, string][] = [
    ['names joined by &', 'a1 & '.repeat(20_000)],
    ['words', 'SW1 '.repeat(20_000)],
    ['numbers', Array.from({ length: 200_000 }, (_, i) => `${i}`).join(',')],
    ['blanks', `a${' '.repeat(100_000)}b`],
    ['figures', '1'.repeat(100_000)],
    ['brackets', '('.repeat(100_000)],
    ['dots', '.'.repeat(100_000)],
  ];
  it.each(BOOKS)('in a column of names is asked about, and the rest is read: %s', (_, book) => {
    for (const column of [0, 1, 2]) {
      const row = ['1', 'SW1', 'P1', 'PP1', 'P2', ''].map((text, i) => (i === column ? book : text));
      const result = read(units, { name: 'Runs', rows: [HEAD, row, ['2', 'SW1', 'P3', 'PP1', 'P4', '']] });
      if (result.type !== 'plan') throw new Error(result.why);
      expect(result.plan.cables.map(({ label }) => label)).toContain('2');
      const asked = result.questions.find(({ question }) => question.includes('too long for a name'));
      expect(asked).toMatchObject({ sheet: 'Runs', row: 2, column: HEAD[column] });
    }
  });

  it('among the notes is kept as it is', () => {
    const book = 'see the drawing. '.repeat(200);
    const result = read({ name: 'Runs', rows: [HEAD, ['1', 'SW1', 'P1', 'PP1', 'P2', book]] });
    if (result.type !== 'plan') throw new Error(result.why);
    expect(result.plan.cables[0]?.notes).toBe(book.trim());
  });

  it('many short ones, just below what is too long, cost no more than their bytes', () => {
    const rows = (n: number) =>
      Array.from({ length: n }, (_, i) => [`${i}`, 'SW1 '.repeat(145), 'P1', `a${' '.repeat(590)}b`, 'P2', '']);
    const cost = (n: number) => {
      const before = process.cpuUsage().user;
      read(units, { name: 'Runs', rows: [HEAD, ...rows(n)] });
      return process.cpuUsage().user - before;
    };
    cost(100);
    // Eight times the bytes, and no more than twice of that beside the noise of a busy machine.
    expect(cost(800)).toBeLessThan(16 * Math.max(cost(100), 10_000));
  });
});
