// The sheet that a plan was read from, given back with the amendments in its own cells: every other cell stays as it
// was, and what was written is read again as the plan. Quillmere is an invented station.

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cable, Plan } from '../../../src/core/plan/model.ts';
import { sheetsLeftToLines } from '../../../src/core/report/plan/sheetsLeft.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import { changeToKind, comparePlans } from '../../../src/core/schedule/revisions/compare.ts';
import { keepIds } from '../../../src/core/schedule/revisions/keepIds.ts';
import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';
import type { SheetAnswers } from '../../../src/core/schedule/sheetAnswers.ts';
import { planToSheets as toSheets } from '../../../src/core/schedule/sheets/planToSheets.ts';
import { readCsv } from '../../../src/files/csv.ts';
import { tablesToXlsx, tableToCsv } from '../../../src/files/planSheet.ts';
import { readSheetFile } from '../../../src/files/sheet.ts';

/** With what the sheet cannot say in words. */
function planToSheets(...given: Parameters<typeof toSheets>) {
  const made = toSheets(...given);
  return { ...made, left: sheetsLeftToLines(made.left) };
}

function read(tables: readonly Table[]): Plan {
  const result = readTables(tables, { name: 'List' });
  if (result.type !== 'plan') throw new Error(result.why);
  return result.plan;
}

const table = (...rows: string[]): Table => ({ name: 'Run list', rows: rows.map((row) => row.split('|')) });
const HEADER = 'Cable No|From Rack|From Unit|From Jack|To Rack|To Unit|To Jack|Circuit|Notes';

/** The plan with one cable changed. */
const change = (plan: Plan, id: string, to: (cable: Cable) => Partial<Cable>): Plan => ({
  ...plan,
  origin: 'amendments',
  cables: plan.cables.map((cable) => (cable.id === id ? { ...cable, ...to(cable) } : cable)),
});

const toPlace = (cable: Cable, letter: string, unit: string, jack: string): Cable['ends'] =>
  cable.ends.map((end) => (end.end === letter ? { end: letter, place: `${unit}/${jack}`, unit, jack } : end));

/** What differs once it is read again, but for other words for one thing. */
function differs(plan: Plan, tables: readonly Table[]): string[] {
  return (
    comparePlans(plan, keepIds(plan, read(tables), ''))
      .filter((one) => changeToKind(one) !== 'written')
      // Jacks that no list names come and go with the cables that imply them.
      .filter((one) => !(one.item === 'jack' && 'value' in one && (one.value as { implied?: boolean }).implied))
      .map((one) => `${changeToKind(one)} ${one.item} ${one.id}`)
  );
}

const quillmere = (): Table => {
  const csv = readCsv(readFileSync(new URL('../../fixtures/quillmere-run-list.csv', import.meta.url)));
  if (csv.type !== 'rows') throw new Error(csv.error.what);
  return { name: 'quillmere-run-list', rows: csv.rows };
};

describe('a sheet given back', () => {
  const tables = [
    table(
      'Quillmere, rev C||||||||',
      HEADER,
      '1001|R1|SW1|P01|R2|CON1|NET|Desk A|',
      '1002|R1|SW1|P02|R2|CON2|NET|"|',
      '1003|R1|SW1|P03|R2|CON3|NET|Guest|behind the door',
      '',
      '1010-1012|R1|PP1|P11-P13|R3|WP2|1-3||pulled June',
    ),
  ];
  const plan = read(tables);

  it('is the very sheet where nothing was amended', () => {
    const back = planToSheets(plan, tables);
    expect(back).toMatchObject({ form: 'source', amended: 0, left: [] });
    expect(back.tables.map(({ rows }) => rows)).toEqual(tables.map(({ rows }) => rows));
    const list = quillmere();
    const own = planToSheets(read([list]), [list]);
    expect(own).toMatchObject({ form: 'source', amended: 0, left: [] });
    expect(own.tables[0]?.rows).toEqual(list.rows);
  });

  it('has the amendment in its cell, marked, and says what stood there', () => {
    const now = change(plan, '1003', (cable) => ({
      label: '2003',
      ends: toPlace(cable, 'A', 'SW1', 'P09'),
      circuit: 'Guest 2',
    }));
    const {
      tables: [out],
      left,
      amended,
    } = planToSheets(now, tables);
    expect(left).toEqual([]);
    expect(amended).toBe(3);
    expect(out?.rows[4]).toEqual([
      '2003',
      'R1',
      'SW1',
      'P09',
      'R2',
      'CON3',
      'NET',
      'Guest 2',
      'behind the door',
      'Cable No: was 1003; From Jack: was P03; Circuit: was Guest',
    ]);
    expect(out?.rows[1]?.at(-1)).toBe('Amended');
    expect([...(out?.marks?.keys() ?? [])]).toEqual(['4,0', '4,3', '4,7']);
    // Every other row is as it was.
    expect([0, 2, 3, 6].map((row) => out?.rows[row]?.slice(0, 9))).toEqual(
      [0, 2, 3, 6].map((row) => tables[0]?.rows[row]),
    );
    expect(differs(now, planToSheets(now, tables).tables)).toEqual([]);
  });

  it('writes out a ditto whose cell above was amended', () => {
    const now = change(plan, '1001', () => ({ circuit: 'Desk B' }));
    const {
      tables: [out],
      left,
    } = planToSheets(now, tables);
    expect(left).toEqual([]);
    expect(out?.rows[2]?.[7]).toBe('Desk B');
    expect(out?.rows[3]?.[7]).toBe('Desk A');
    expect(differs(now, planToSheets(now, tables).tables)).toEqual([]);
  });

  it('takes a row of several cables apart when one of them was amended', () => {
    const now = change(plan, '1011', (cable) => ({ ends: toPlace(cable, 'B', 'WP2', '7') }));
    const {
      tables: [out],
      left,
    } = planToSheets(now, tables);
    expect(left).toEqual([]);
    expect(out?.rows.slice(6).map((row) => [row[0], row[3], row[6]])).toEqual([
      ['1010', 'P11', '1'],
      ['1011', 'P12', '7'],
      ['1012', 'P13', '3'],
    ]);
    expect(differs(now, planToSheets(now, tables).tables)).toEqual([]);
  });

  it('strikes the row of a cable that is gone, and has a new one at the end', () => {
    const fresh: Cable = {
      id: '1020',
      label: '1020',
      ends: [
        { end: 'A', place: 'SW1/P20', unit: 'SW1', jack: 'P20' },
        { end: 'B', place: 'CON1/AUX', unit: 'CON1', jack: 'AUX' },
      ],
      status: 'spare',
      onAir: false,
    };
    const jack = { mult: false, spare: false, implied: true };
    const now: Plan = {
      ...plan,
      cables: [...plan.cables.filter(({ id }) => id !== '1002'), fresh],
      jacks: [
        ...plan.jacks.filter(({ id }) => id !== 'SW1/P02'),
        { id: 'SW1/P20', unit: 'SW1', label: 'P20', ...jack },
        { id: 'CON1/AUX', unit: 'CON1', label: 'AUX', ...jack },
      ],
    };
    const {
      tables: [out],
    } = planToSheets(now, tables);
    expect(out?.rows[3]?.at(-1)).toBe('Struck: no longer in the plan');
    expect(out?.marks?.get('3,0')).toBe('removed');
    expect(out?.rows.at(-1)).toEqual(['1020', 'R1', 'SW1', 'P20', 'R2', 'CON1', 'AUX', '', '', 'Added']);
    const back = keepIds(now, read(planToSheets(now, tables).tables), '');
    expect(back.cables.map(({ id }) => id).sort()).toEqual(now.cables.map(({ id }) => id).sort());
  });

  it('keeps a row struck that was struck in the sheet already', () => {
    const without: Plan = { ...plan, cables: plan.cables.filter(({ id }) => id !== '1002') };
    const first = planToSheets(without, tables).tables;
    const moved = change(read(first), '1003', () => ({ circuit: 'Guest 2' }));
    const [out] = planToSheets(moved, first).tables;
    expect(out?.rows[3]?.at(-1)).toBe('Struck: no longer in the plan');
    expect(out?.rows[4]?.at(-1)).toBe('Circuit: was Guest');
    expect(differs(moved, [out!])).toEqual([]);
  });

  it('takes a merge apart where a row under it gets a value of its own, and writes the others out', () => {
    const merged: Table = {
      ...table(HEADER, '1|R1|SW1|P1|R2|CON1|NET|Desk|', '2|R1||P2|R2|CON2|NET||', '3|R1||P3|R2|CON3|NET||'),
      merged: [
        { row: 2, column: 3, rows: 3 },
        { row: 2, column: 8, rows: 2 },
      ],
    };
    const start = read([merged]);
    const now = change(start, '2', (cable) => ({ ends: toPlace(cable, 'A', 'CON3', 'P2') }));
    const [out] = planToSheets(now, [merged]).tables as Table[];
    expect(out?.rows.slice(1).map((row) => row[2])).toEqual(['SW1', 'CON3', 'SW1']);
    expect(out?.merged).toEqual([{ row: 2, column: 8, rows: 2 }]);
    expect(read([out!]).cables.map(({ ends }) => ends[0]?.place)).toEqual(['SW1/P1', 'CON3/P2', 'SW1/P3']);
  });

  it('says what its columns cannot say', () => {
    const now = change(plan, '1003', () => ({ length: '12 m' }));
    const back = planToSheets(now, tables);
    expect(back.amended).toBe(0);
    expect(back.left).toEqual(['cable 1003: length: 12 m, was nothing']);
  });

  it('amends a unit and a setting in the list that names them', () => {
    const sheets = [
      {
        name: 'Units',
        rows: [
          ['Unit', 'Rack', 'U', 'Address'],
          ['SW1', 'R1', '40', '192.0.2.2'],
          ['CON1', 'R2', '10', '192.0.2.30'],
        ],
      },
      {
        name: 'Cables',
        rows: [
          ['Cable No', 'From Unit', 'From Jack', 'To Unit', 'To Jack'],
          ['1001', 'SW1', 'P01', 'CON1', 'NET'],
        ],
      },
    ];
    const before = read(sheets);
    const now: Plan = {
      ...before,
      units: before.units.map((unit) => (unit.id === 'SW1' ? { ...unit, u: 38 } : unit)),
      settings: before.settings.map((one) => (one.unit === 'CON1' ? { ...one, value: '192.0.2.31' } : one)),
    };
    const back = planToSheets(now, sheets);
    expect(back.left).toEqual([]);
    expect(back.tables[0]?.rows).toEqual([
      ['Unit', 'Rack', 'U', 'Address', 'Amended'],
      ['SW1', 'R1', '38', '192.0.2.2', 'U: was 40'],
      ['CON1', 'R2', '10', '192.0.2.31', 'Address: was 192.0.2.30'],
    ]);
    expect(back.tables[1]?.rows).toEqual(sheets[1]?.rows);
    expect(differs(now, back.tables)).toEqual([]);
  });

  it('amends, strikes and adds circuits in the list of them', () => {
    const sheets = [
      table(HEADER, '2006|R1|SW1|P01|R2|CON1|NET||', '2007|R1|SW1|P02|R2|CON2|NET||', '2050|R1|SW1|P03|R2|CON3|NET||'),
      {
        name: 'Circuits',
        rows: [
          ['Circuit', 'Main or standby', 'Carrier no', 'Hops'],
          ['PGM 1', 'main', 'K-2201', '2006 > 2007'],
          ['PGM 1', 'standby', '', '2050'],
          ['Talk', '', 'K-7', '2050'],
        ],
      },
    ];
    const before = read(sheets);
    expect(planToSheets(before, sheets)).toMatchObject({ amended: 0, left: [] });
    const [main, standby] = before.circuits!;
    const now: Plan = {
      ...before,
      circuits: [
        { ...standby!, role: 'main' },
        { ...main!, hops: ['2006', '2050'], carrier: 'K-2209' },
        { name: 'Return', hops: ['2007'] },
      ],
    };
    const back = planToSheets(now, sheets);
    expect(back.tables[1]?.rows).toEqual([
      ['Circuit', 'Main or standby', 'Carrier no', 'Hops', 'Amended'],
      ['PGM 1', 'main', 'K-2209', '2006, 2050', 'Carrier no: was K-2201; Hops: was 2006 > 2007'],
      ['PGM 1', 'main', '', '2050', 'Main or standby: was standby'],
      ['Talk', '', 'K-7', '2050', 'Struck: no longer in the plan'],
      ['Return', '', '', '2007', 'Added'],
    ]);
    expect([...(back.tables[1]?.marks ?? [])].filter(([, mark]) => mark === 'removed').map(([at]) => at)).toEqual([
      '3,0',
      '3,2',
      '3,3',
    ]);
    const noColumn = { ...now, circuits: [{ ...main!, notes: 'by satellite' }, standby!, before.circuits![2]!] };
    expect(planToSheets(noColumn, sheets).left).toEqual(['circuit PGM 1, main: notes: by satellite, was nothing']);
    // Brought in later with a list of its own, which is no part of this source.
    const [alone] = sheets;
    expect(planToSheets({ ...read([alone!]), circuits: [standby!] }, [alone!]).left).toEqual([
      'circuit PGM 1, standby: over 2050',
    ]);
  });

  it('holds Quillmere with an end moved, its dittos and notes untouched elsewhere', () => {
    const list = quillmere();
    const before = read([list]);
    const now = change(before, '2003', (cable) => ({ ends: toPlace(cable, 'A', 'AIO21', 'O3') }));
    const withJack: Plan = {
      ...now,
      jacks: [...now.jacks, { ...now.jacks.find(({ id }) => id === 'AIO21/O2')!, id: 'AIO21/O3', label: 'O3' }],
    };
    const {
      tables: [out],
    } = planToSheets(withJack, [list]);
    const changed = out?.rows.filter(
      (row, i) => JSON.stringify(row.slice(0, 10)) !== JSON.stringify(list.rows[i]?.slice(0, 10)),
    );
    expect(changed?.map((row) => row[2])).toEqual(['O3']);
  });

  describe('whose columns and cells somebody settled', () => {
    const odd = [
      table(
        'Wiring of the old wing||||',
        'Nr|Where it comes from|Hole|Where it goes|Hole there',
        '1001-1002|SW1|P01-P02|CON1|1-2',
        '2008-2009|SW1|rear?|CON9|NET',
        '1003|SW1|P03|CON3|NET',
        '1004|SW1|P04|CON4|NTE',
        '1005|SW1|P05|CON5|NTE',
      ),
    ];
    const meanings = ['number', 'fromUnit', 'fromJack', 'toUnit', 'toJack'];
    const answers: SheetAnswers = {
      mappings: [
        {
          sheet: 'Run list',
          kind: 'cables',
          headerRow: 2,
          columns: meanings.map((meaning, i) => ({ column: i + 1, meaning })),
        },
      ],
      cells: [
        { sheet: 'Run list', column: 1, row: 4, said: '2008-2009', as: 'literal', text: '2008-2009' },
        { sheet: 'Run list', column: 3, row: 4, said: 'rear?', as: 'typed', text: 'P30' },
        { sheet: 'Run list', column: 5, row: null, said: 'NTE', as: 'typed', text: 'NET' },
      ],
    };
    const settled = readTables(odd, { name: 'List', answers });
    if (settled.type !== 'plan') throw new Error(settled.why);
    const start = settled.plan;

    it('is the very sheet where nothing was amended', () => {
      expect(start.cables.map(({ label }) => label)).toEqual(['1001', '1002', '2008-2009', '1003', '1004', '1005']);
      const back = planToSheets(start, odd, { answers });
      expect(back).toMatchObject({ form: 'source', amended: 0, left: [] });
      expect(back.tables[0]?.rows).toEqual(odd[0]?.rows);
    });

    it('is read by its cells where that is not known', () => {
      expect(planToSheets(start, odd).form).toBe('source');
    });

    it('has an amendment marked alone, and what was settled stays settled below a row that was taken apart', () => {
      const moved = change(start, '1002', (cable) => ({ ends: toPlace(cable, 'B', 'CON1', '7') }));
      const now = change(moved, '1003', (cable) => ({ ends: toPlace(cable, 'A', 'SW1', 'P09') }));
      const {
        tables: [out],
        left,
      } = planToSheets(now, odd, { answers });
      expect(left).toEqual([]);
      expect(out?.rows.slice(2).map((row) => row.slice(0, 5))).toEqual([
        ['1001', 'SW1', 'P01', 'CON1', '1'],
        ['2008-2009', 'SW1', 'rear?', 'CON9', 'NET'],
        ['1003', 'SW1', 'P09', 'CON3', 'NET'],
        ['1004', 'SW1', 'P04', 'CON4', 'NTE'],
        ['1005', 'SW1', 'P05', 'CON5', 'NTE'],
        ['1002', 'SW1', 'P02', 'CON1', '7'],
      ]);
      expect(out?.marks?.get('4,2')).toBe('changed');
      // What was taken out of a row looks like that row.
      expect([...(out?.like ?? [])]).toEqual([[7, 2]]);
    });

    it('has a settled cell written anew where the plan says something else in it since', () => {
      const id = start.cables.find(({ label }) => label === '2008-2009')!.id;
      const other = change(start, id, (cable) => ({ ends: toPlace(cable, 'A', 'SW1', 'P31') }));
      const {
        tables: [out],
        left,
      } = planToSheets(other, odd, { answers });
      expect(left).toEqual([]);
      expect(out?.rows[3]?.slice(0, 3)).toEqual(['2008-2009', 'SW1', 'P31']);
      expect([...(out?.marks?.keys() ?? [])]).toEqual(['3,2']);
    });
  });

  it('tells how far it is, and reads the sheet twice: once before and once after it was written', () => {
    const now = change(plan, '1003', () => ({ circuit: 'Guest 2', length: '12 m' }));
    const many = Array.from({ length: 2_000 }, (_, i) => `${5000 + i}|R1|SW9|P${i}|R2|CON9|N${i}||`);
    const long = [table(...tables[0]!.rows.map((row) => row.join('|')), ...many)];
    const whole = { ...read(long), origin: 'amendments' as const };
    const amended: Plan = {
      ...whole,
      cables: whole.cables.map((one) => now.cables.find(({ id }) => id === one.id) ?? one),
    };
    const told: number[] = [];
    const { left } = planToSheets(amended, long, { told: (share) => told.push(share) });
    // What no column can say is no reason to write and read it again.
    expect(left).toEqual(['cable 1003: length: 12 m, was nothing']);
    expect(told).toEqual([...told].sort((a, b) => a - b));
    expect(told.at(-1)).toBe(1);
    // Every 500 rows of each reading, and between the readings.
    const rows = long[0]!.rows.length - 1;
    expect(told.length).toBe(2 * Math.floor(rows / 500) + 3);
  });

  it('gives any amendment back, as a workbook and as CSV', async () => {
    const rows = Array.from(
      { length: 8 },
      (_, i) => `10${i}|R1|SW1|P0${i + 1}|R2|CON${i}|NET|${i % 3 === 1 ? '"' : `Run ${i}`}|`,
    );
    const source = [table(HEADER, ...rows)];
    const start = read(source);
    const edit = fc.record({
      cable: fc.nat(7),
      what: fc.constantFrom('label', 'circuit', 'notes', 'swap'),
      text: fc.constantFrom('X1', '=1+1', '-12', 'a|b', '0099'),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(edit, { maxLength: 5 }), async (edits) => {
        let now = start;
        for (const { cable, what, text } of edits) {
          const id = start.cables[cable]!.id;
          if (what === 'swap') {
            const other = start.cables[(cable + 1) % 8]!.id;
            const [a, b] = [id, other].map((one) => now.cables.find((each) => each.id === one)!.ends[0]!);
            now = change(now, id, ({ ends }) => ({ ends: [b!, ...ends.slice(1)] }));
            now = change(now, other, ({ ends }) => ({ ends: [a!, ...ends.slice(1)] }));
          } else now = change(now, id, () => ({ [what]: what === 'label' ? `${text}-${cable}` : text }));
        }
        const back = planToSheets(now, source);
        expect(back.left).toEqual([]);
        expect(differs(now, back.tables)).toEqual([]);
        for (const file of [
          { name: 'a.xlsx', bytes: await tablesToXlsx(back.tables) },
          { name: 'a.csv', bytes: tableToCsv(back.tables[0]!) },
        ]) {
          const sheet = await readSheetFile(file.bytes, file.name);
          if (sheet.type !== 'tables') throw new Error(sheet.error.what);
          expect(differs(now, sheet.tables)).toEqual([]);
        }
      }),
      { numRuns: 30 },
    );
  });
});
