// What a person says of rows and lists as a whole: rows that are no item, values that every row has, sheets that are not
// used, many texts of a column at once; and all of it known again on the next sheet of that shape. The sheets are invented.
import { describe, expect, it } from 'vitest';
import { isLike, rowToLike } from '../../../../src/core/schedule/answers/leftRows.ts';
import { rememberedAnswers, shapeKey, toRemember } from '../../../../src/core/schedule/answers/remembered.ts';
import { readTables } from '../../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../../src/core/schedule/rows/readTypes.ts';
import { NO_ANSWERS, type SheetAnswers } from '../../../../src/core/schedule/sheetAnswers.ts';

const HEADER = ['Cable', 'From Unit', 'From Jack', 'To Unit', 'To Jack', 'Signal'];
const LIST: Table = {
  name: 'Wing',
  rows: [
    ['Wing, rack R2'],
    HEADER,
    ['1001', 'SW1', 'P01', 'CON30', 'NET', ''],
    ['LOT B', 'SW1', 'tray', 'CON31', 'later', ''],
    ['1002', 'SW1', 'P02', 'CON31', 'NET', 'PoE'],
    ['LOT B', 'SW9', 'tray', 'CON39', 'never', ''],
    ['1003', 'SW1', 'P03', 'CON32', 'NET', ''],
  ],
};
const NOTES: Table = { name: 'Old', rows: [HEADER, ['7001', 'SW7', 'P01', 'CON77', 'NET', '']] };

function read(answers?: SheetAnswers, tables: readonly Table[] = [LIST]) {
  const result = readTables(tables, { name: 'wing', answers });
  if (result.type !== 'plan') throw new Error(result.why);
  return result;
}
const labels = (answers?: SheetAnswers, tables?: readonly Table[]) =>
  read(answers, tables).plan.cables.map(({ label }) => label);
const left = (from: number, to: number, like = rowToLike(LIST.rows[3]!)): SheetAnswers => ({
  ...NO_ANSWERS,
  left: [{ sheet: 'Wing', from, to, like }],
});

describe('rows that are no item', () => {
  it('are left out one by one, in a run, or all that look alike, and the counts still add up', () => {
    expect(labels()).toEqual(['1001', 'LOT B', '1002', 'LOT B', '1003']);
    expect(labels(left(4, 4, null))).toEqual(['1001', '1002', 'LOT B', '1003']);
    expect(labels(left(4, 6, null))).toEqual(['1001', '1003']);
    const all = read(left(3, 7));
    expect(all.plan.cables.map(({ label }) => label)).toEqual(['1001', '1002', '1003']);
    expect(all.counts).toMatchObject({ rowsIn: 5, used: 3, blank: 0, joined: 0, skipped: 2 });
    expect(all.plan.guesses).toContainEqual({
      sheet: 'Wing',
      row: 4,
      said: '',
      readAs: '2 rows, no items, put in by hand',
    });
  });

  it('look alike by the same cells filled and the same first text, the same sort of remark, or one cell alone', () => {
    const alike = (a: string[], b: string[]) => isLike(b, rowToLike(a)!);
    expect(alike(['phase 2', 'a', ''], ['Phase  2 ', 'b'])).toBe(true);
    expect(alike(['phase 2', 'a'], ['phase 3', 'a'])).toBe(false);
    expect(alike(['phase 2', 'a'], ['phase 2', '', 'a'])).toBe(false);
    expect(alike(['phase 2', 'a'], ['phase 2', 'a', 'b'])).toBe(false);
    expect(alike(['Total', '', '12'], ['Sub-total', '', '7'])).toBe(true);
    expect(alike(['STUDIO 1'], ['STUDIO 2'])).toBe(true);
    expect(alike(['STUDIO 1'], ['', 'STUDIO 2'])).toBe(false);
    expect(rowToLike(['', '  '])).toBeNull();
  });
});

describe('a value that the whole list has', () => {
  const fixed = (meaning: string, text: string): SheetAnswers => ({
    ...NO_ANSWERS,
    fixed: [{ sheet: 'Wing', headerRow: 2, meaning, text }],
  });

  it('goes into the rows that say nothing else', () => {
    expect(read(fixed('signal', 'AES')).plan.cables.map(({ signal }) => signal)).toEqual([
      'aes3',
      'aes3',
      'poe',
      'aes3',
      'aes3',
    ]);
  });

  it('stands in a column of its own where the list has none, in items alone', () => {
    const { plan, counts, guesses } = read(fixed('fromRack', 'R2'));
    expect(plan.racks.map(({ label }) => label)).toEqual(['R2']);
    const units = Object.fromEntries(plan.units.map(({ label, rack }) => [label, rack]));
    expect(units).toEqual({
      SW1: 'R2',
      SW9: 'R2',
      CON30: undefined,
      CON31: undefined,
      CON39: undefined,
      CON32: undefined,
    });
    expect(counts.rowsIn).toBe(5);
    expect(guesses).toContainEqual({
      kind: 'by-hand',
      sheet: 'Wing',
      row: 2,
      column: 'From rack',
      said: '',
      readAs: 'R2 in every row that says nothing else, put in by hand',
    });
  });

  it('makes no item of a heading between the rows', () => {
    const headed = { ...LIST, rows: [...LIST.rows.slice(0, 4), ['STUDIO 2'], ...LIST.rows.slice(4)] };
    expect(labels(fixed('fromRack', 'R2'), [headed])).toEqual(labels());
  });

  it('leaves a cell alone of which a person said that it is blank', () => {
    const { plan } = read({
      ...fixed('signal', 'AES'),
      cells: [{ sheet: 'Wing', column: 6, row: 3, said: '', as: 'typed', text: '' }],
    });
    expect(plan.cables[0]?.signal).toBeUndefined();
  });
});

it('sheets that are not used are not read, and told as that', () => {
  expect(labels(undefined, [LIST, NOTES])).toContain('7001');
  const { plan, counts } = read({ ...NO_ANSWERS, unused: ['Old'] }, [LIST, NOTES]);
  expect(plan.cables.map(({ label }) => label)).not.toContain('7001');
  expect(counts.ignored).toMatchObject([{ sheet: 'Old' }]);
});

it('one answer holds for every text of a column that it names', () => {
  const cells = [
    { sheet: 'Wing', column: 3, row: null, said: 'P01', also: ['P02', 'P03'], as: 'typed' as const, text: 'LAN' },
  ];
  const { plan, guesses } = read({ ...NO_ANSWERS, cells });
  expect(plan.cables.map(({ ends }) => ends[0]?.jack)).toEqual(['LAN', 'tray', 'LAN', 'tray', 'LAN']);
  expect(guesses.filter(({ kind }) => kind === 'by-hand').map(({ said }) => said)).toEqual(['P01', 'P02', 'P03']);
});

describe('the next sheet of that shape', () => {
  const said: SheetAnswers = {
    mappings: [],
    cells: [],
    left: [
      { sheet: 'Wing', from: 3, to: 7, like: rowToLike(LIST.rows[3]!) },
      { sheet: 'Wing', from: 5, to: 5, like: null },
    ],
    fixed: [{ sheet: 'Wing', headerRow: 2, meaning: 'fromRack', text: 'R2' }],
  };
  const how = {
    sheet: 'Wing',
    from: 1,
    to: 7,
    headerRow: 2,
    key: shapeKey(HEADER),
    kind: 'cables' as const,
    chosen: null,
  };

  it('has the same values and leaves the same kinds of rows out; a single row is of its file alone', () => {
    const shape = toRemember(how, said, 9);
    expect(shape).toEqual({
      key: how.key,
      kind: 'cables',
      columns: null,
      asFound: true,
      fixed: [{ meaning: 'fromRack', text: 'R2' }],
      left: [rowToLike(LIST.rows[3]!)],
      at: 9,
    });
    const next: Table = { name: 'New', rows: [HEADER, ...LIST.rows.slice(2), ['1004', 'SW1', 'P04', 'CON33', 'NET']] };
    const again = rememberedAnswers([next], [shape!]);
    const { plan } = read(again, [next]);
    expect(plan.cables.map(({ label }) => label)).toEqual(['1001', '1002', '1003', '1004']);
    expect(plan.units.find(({ label }) => label === 'SW1')?.rack).toBe('R2');
    // Nobody chose its columns: they are as the reader finds them.
    expect(again.mappings).toEqual([]);
  });

  it('is not remembered where nothing was said that another file can use', () => {
    expect(toRemember(how, { ...NO_ANSWERS, left: [{ sheet: 'Wing', from: 4, to: 4, like: null }] }, 9)).toBeNull();
    expect(toRemember({ ...how, key: '' }, said, 9)).toBeNull();
  });
});
