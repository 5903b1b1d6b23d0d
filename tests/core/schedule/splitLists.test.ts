// Two lists on one sheet under different headers: both are read, every row is counted once, guesses and questions name
// their own row. What only looks like a header opens no list. All sheets are invented.
import { describe, expect, it } from 'vitest';
import { sheetsLeftToLines } from '../../../src/core/report/plan/sheetsLeft.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';
import { NO_ANSWERS, type SheetAnswers, withMapping } from '../../../src/core/schedule/sheetAnswers.ts';
import { planToSheets as toSheets } from '../../../src/core/schedule/sheets/planToSheets.ts';
import { splitLists } from '../../../src/core/schedule/splitLists.ts';

/** With what the sheet cannot say in words. */
function planToSheets(...given: Parameters<typeof toSheets>) {
  const made = toSheets(...given);
  return { ...made, left: sheetsLeftToLines(made.left) };
}

const sheet = (...rows: string[]): Table => ({ name: 'Wiring', rows: rows.map((row) => row.split('|')) });

function read(table: Table, answers?: SheetAnswers) {
  const result = readTables([table], { name: 'Wiring', answers });
  if (result.type !== 'plan') throw new Error(result.why);
  const { rowsIn, used, blank, joined, skipped } = result.counts;
  expect(used + blank + joined + skipped).toBe(rowsIn);
  return result;
}

const listsOf = (table: Table) =>
  splitLists([table]).map(({ firstRow = 1, rows }) => [firstRow, firstRow + rows.length - 1]);

const CABLES = [
  'Old wing, rev B|||||',
  'Cable No|From Unit|From Jack|To Unit|To Jack|Notes',
  '1001|SW1|P01|CON1|NET|',
  '1002|SW1|P02|CON2|NET|"',
  '1003|SW1|P03|CON3|rear?|',
];
const UNITS = [
  'Equipment|||||',
  'Rack|U|Equipment|Description|Address|',
  'R1|40|SW1|Switch|192.0.2.2|',
  'R2|U?|CON1|Desk||',
];
const BOTH = sheet(...CABLES, '|||||', ...UNITS);

describe('a cable list with a unit list below it', () => {
  it('is two lists, the second with its own title', () => {
    expect(listsOf(BOTH)).toEqual([
      [1, 6],
      [7, 10],
    ]);
  });

  it('is read as both, each with its columns, and the rows add up', () => {
    const { plan, counts } = read(BOTH);
    expect(counts.lists).toEqual([
      { sheet: 'Wiring', kind: 'units', headerRow: 8, rows: 2 },
      { sheet: 'Wiring', kind: 'cables', headerRow: 2, rows: 4 },
    ]);
    expect(counts).toMatchObject({ rowsIn: 6, used: 5, blank: 1, skipped: 0, joined: 0, ignored: [] });
    expect(plan.cables.map(({ label, origin }) => [label, origin?.row])).toEqual([
      ['1001', 3],
      ['1002', 4],
      ['1003', 5],
    ]);
    const listed = plan.units.filter(({ implied }) => !implied);
    expect(listed.map(({ label, rack, u, origin }) => [label, rack, u, origin?.row])).toEqual([
      ['SW1', 'R1', 40, 9],
      ['CON1', 'R2', undefined, 10],
    ]);
    expect(plan.settings).toEqual([
      { unit: 'SW1', name: 'address', value: '192.0.2.2', origin: { sheet: 'Wiring', row: 9 } },
    ]);
  });

  it('has guesses and questions at the rows of the sheet, in their order', () => {
    const { guesses, questions } = read(BOTH);
    expect(questions.map(({ row, column, said }) => [row, column, said])).toEqual([
      [4, 'Notes', '"'],
      [5, 'To Jack', 'rear?'],
      [10, 'U', 'U?'],
    ]);
    expect(guesses.map(({ row }) => row)).toEqual([...guesses.map(({ row }) => row)].sort((a, b) => a - b));
  });

  it('is read alike where the unit list comes first, and where rows above the sheet are not there', () => {
    const turned = read(sheet(...UNITS, '|||||', ...CABLES));
    expect(turned.counts.lists.map(({ kind, headerRow }) => [kind, headerRow])).toEqual([
      ['units', 2],
      ['cables', 7],
    ]);
    const { plan } = read({ ...BOTH, firstRow: 11 });
    expect(plan.cables[0]?.origin?.row).toBe(13);
    expect(plan.units.find(({ label }) => label === 'SW1')?.origin?.row).toBe(19);
  });

  it('needs no blank row where a title stands between, nor a title where a row is blank', () => {
    expect(listsOf(sheet(...CABLES, ...UNITS))).toEqual([
      [1, 5],
      [6, 9],
    ]);
    expect(listsOf(sheet(...CABLES, '|||||', ...UNITS.slice(1)))).toEqual([
      [1, 6],
      [7, 9],
    ]);
  });

  it('takes a third list, and one whose header stands on two rows', () => {
    const third = [
      '',
      'Jumpers',
      '|From|From|To|To',
      'No|Unit|Jack|Unit|Jack',
      'J1|SW1|P05|CON1|AUX',
      'J2|SW1|P06|CON2|AUX',
    ];
    const { plan, counts } = read(sheet(...CABLES, '', ...UNITS, ...third));
    expect(counts.lists.map(({ kind, headerRow }) => [kind, headerRow])).toEqual([
      ['units', 8],
      ['cables', 2],
      ['cables', 14],
    ]);
    expect(plan.cables.map(({ label }) => label)).toEqual(['1001', '1002', '1003', 'J1', 'J2']);
  });

  it('fills no ditto and no name from the list above', () => {
    const { guesses, questions } = read(
      sheet(...CABLES, '|||||', 'Rack|U|Equipment|Description|Address|', '"|40|SW1|Switch||', '|38|SW2|Switch||'),
    );
    expect(guesses.filter(({ row }) => row > 7)).toEqual([]);
    expect(questions.filter(({ row }) => row > 7).map(({ said }) => said)).toEqual(['"']);
  });

  it('keeps notes of the file and merged cells with their own list', () => {
    const parts = splitLists([
      {
        ...BOTH,
        notes: [
          { row: 3, column: 1, said: '1001', readAs: 'a number' },
          { row: 9, column: 2, said: '40', readAs: 'a number' },
        ],
        merged: [{ row: 9, column: 1, rows: 2 }],
      },
    ]);
    expect(parts.map(({ notes, merged }) => [notes?.map(({ row }) => row), merged?.length])).toEqual([
      [[3], 0],
      [[9], 1],
    ]);
  });

  it('lets a person say of each list alone what its columns mean', () => {
    const part = { from: 7, to: 10 };
    const mapping = { sheet: 'Wiring', kind: null, headerRow: 8, columns: null };
    const answers = withMapping(NO_ANSWERS, 'Wiring', mapping, part);
    const { counts } = read(BOTH, answers);
    expect(counts.lists.map(({ kind }) => kind)).toEqual(['cables']);
    expect(counts.ignored).toMatchObject([{ sheet: 'Wiring', row: 7, isWhole: false }]);
    const other = { ...mapping, kind: 'cables' as const, headerRow: 2 };
    const both = withMapping(answers, 'Wiring', other, { from: 1, to: 6 });
    expect(both.mappings).toEqual([mapping, other]);
    expect(withMapping(both, 'Wiring', null, part).mappings).toEqual([other]);
  });

  it('is given back with amendments in both lists, a new cable at the end of the sheet', () => {
    const { plan } = read(BOTH);
    expect(planToSheets(plan, [BOTH])).toMatchObject({ form: 'source', amended: 0, left: [] });
    expect(planToSheets(plan, [BOTH]).tables.map(({ rows }) => rows)).toEqual([BOTH.rows]);
    const jack = plan.jacks.find(({ id }) => id === 'SW1/P01')!;
    const now = {
      ...plan,
      units: plan.units.map((unit) => (unit.id === 'SW1' ? { ...unit, u: 38 } : unit)),
      jacks: [...plan.jacks, { ...jack, id: 'SW1/P09', label: 'P09' }, { ...jack, id: 'SW1/P10', label: 'P10' }],
      cables: [
        ...plan.cables,
        {
          id: '1004',
          label: '1004',
          ends: [
            { end: 'A', place: 'SW1/P09', unit: 'SW1', jack: 'P09' },
            { end: 'B', place: 'SW1/P10', unit: 'SW1', jack: 'P10' },
          ],
          status: 'in-use' as const,
          onAir: false,
        },
      ],
    };
    const back = planToSheets(now, [BOTH]);
    expect(back.left).toEqual([]);
    expect(back.tables).toHaveLength(1);
    const [out] = back.tables;
    expect(out?.rows.map((row) => row[0])).toEqual([
      'Old wing, rev B',
      'Cable No',
      '1001',
      '1002',
      '1003',
      '',
      'Equipment',
      'Rack',
      'R1',
      'R2',
      undefined,
      'Cable No',
      '1004',
    ]);
    expect(out?.rows[8]?.slice(0, 3)).toEqual(['R1', '38', 'SW1']);
    expect([...(out?.marks?.keys() ?? [])].sort()).toEqual(['12,0', '12,1', '12,2', '12,3', '12,4', '8,1']);
    // Read again it says the same.
    const again = read({ name: 'Wiring', rows: out?.rows ?? [] });
    expect(again.plan.cables.map(({ label }) => label)).toEqual(['1001', '1002', '1003', '1004']);
    expect(again.plan.units.find(({ label }) => label === 'SW1')?.u).toBe(38);
  });
});

describe('what opens no list', () => {
  const one = (...below: string[]) => {
    const table = sheet(...CABLES, ...below);
    expect(splitLists([table])[0]).toBe(table);
    return read(table);
  };

  it('is the same header once more, under a page title, whatever its case and signs', () => {
    const { counts, plan } = one('', 'Page 2', CABLES[1]!, '1004|SW1|P04|CON4|NET|');
    expect(counts.lists).toHaveLength(1);
    expect(plan.cables.map(({ label }) => label)).toEqual(['1001', '1002', '1003', '1004']);
    expect(
      listsOf(sheet(...CABLES, '', 'CABLE NO.|FROM UNIT|FROM JACK|TO UNIT|TO JACK|NOTES', '1004|A|1|B|2|')),
    ).toEqual([[1, 8]]);
  });

  it('is a note that names columns, with nothing listed below it', () => {
    one('', 'Rack|U|Equipment|see the drawing||');
    one('', 'Rack|U|Equipment||see drawing 12 of the old building, second floor, for all that stands there|');
    one('', 'Rack|U|Equipment|Description||', 'Racks are counted from below.', 'Ask the chief engineer.');
    one('', 'Unit|Rack|U|||', '', 'Racks are counted from below.');
  });

  it('is a legend, though its signs stand in columns', () => {
    one('', 'Legend', 'Rack|Unit|Description|||', 'R|U|in the rack room||', 'S|U|in the studio||');
  });

  it('is a row of cables whose names are words of headers', () => {
    const { plan } = one('Studio A', 'Desk|Unit|Rack|Rack|Unit|', '', 'Talk|Rack|Jack|Unit|Jack|to and from');
    expect(plan.cables.map(({ label }) => label)).toEqual(['1001', '1002', '1003', 'Desk', 'Talk']);
  });

  it('is a header without a break above it', () => {
    one('Rack|U|Equipment|Description|Address|', 'R1|40|SW1|Switch|192.0.2.2|');
  });
});

it('looks at few cells of a long list: it stays the very same table', () => {
  let looked = 0;
  const row = (i: number) =>
    new Proxy([`${i}`, 'SW1', `P${i}`, 'CON1', `N${i}`, ''], {
      get: (cells, key) => {
        if (typeof key === 'string' && /^\d+$/.test(key)) looked += 1;
        return Reflect.get(cells, key);
      },
    });
  const rows = [CABLES[1]!.split('|'), ...Array.from({ length: 5_000 }, (_, i) => row(i))];
  const table: Table = { name: 'Wiring', rows };
  expect(splitLists([table])[0]).toBe(table);
  expect(looked).toBeLessThan(6 * 5_000);
});
