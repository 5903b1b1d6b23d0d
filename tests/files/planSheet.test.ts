// The schedule as a sheet of our own: written and read again it is the same plan, item by item, ids included, as a
// workbook and as CSV, whatever the cells hold. Invented data.
import fc from 'fast-check';
import { strFromU8, unzipSync } from 'fflate';
import readWorkbook from 'read-excel-file/universal';
import { describe, expect, it } from 'vitest';
import { emptyPlan, type Plan } from '../../src/core/plan/model.ts';
import { readTables } from '../../src/core/schedule/readTables.ts';
import type { ReadPlan, Table } from '../../src/core/schedule/rows/readTypes.ts';
import { NOT_CARRIED, planToTables } from '../../src/core/schedule/sheets/ownColumns.ts';
import { tablesToXlsx, tableToCsv } from '../../src/files/planSheet.ts';
import { readSheetFile } from '../../src/files/sheet.ts';
import { pathsIn, pathsOf, wholePlan, without } from '../core/plan/wholePlan.ts';

/** The plan with what every reading makes anew left out, and lists that may be absent there. */
const bare = (plan: Plan) =>
  without({ ...plan, routes: plan.routes ?? [], circuits: plan.circuits ?? [] }, Object.keys(NOT_CARRIED));

function planOf(tables: readonly Table[]): Extract<ReadPlan, { type: 'plan' }> {
  const read = readTables(tables, { name: 'own' });
  if (read.type !== 'plan') throw new Error(read.why);
  return read;
}

async function tablesOf(files: { name: string; bytes: Uint8Array }[]): Promise<Table[]> {
  const tables: Table[] = [];
  for (const { name, bytes } of files) {
    const read = await readSheetFile(bytes, name);
    if (read.type !== 'tables') throw new Error(`${name}: ${read.error.what}`);
    tables.push(...read.tables);
  }
  return tables;
}

describe('the schedule in columns of our own', () => {
  it('is tried with every field of the schema, and what is not carried is a field of it', () => {
    const found = new Set(fc.sample(wholePlan, { numRuns: 300, seed: 7 }).flatMap((plan) => pathsIn(plan)));
    const all = pathsOf();
    expect(all.filter((path) => !found.has(path))).toEqual([]);
    expect(all.length).toBeGreaterThan(80);
    expect(Object.keys(NOT_CARRIED).filter((path) => !all.includes(path))).toEqual([]);
  });

  it('is read back from its cells as it was, and nothing is guessed or asked', () => {
    fc.assert(
      fc.property(wholePlan, (plan) => {
        const read = planOf(planToTables(plan));
        expect(bare(read.plan)).toEqual(bare(plan));
        expect(read).toMatchObject({ ids: 'given', questions: [], guesses: [] });
        expect(read.counts.used + read.counts.blank).toBe(read.counts.rowsIn);
      }),
    );
  });

  it('is read back from CSV files as it was', async () => {
    await fc.assert(
      fc.asyncProperty(wholePlan, async (plan) => {
        const files = planToTables(plan).map((table) => ({ name: `${table.name}.csv`, bytes: tableToCsv(table) }));
        expect(bare(planOf(await tablesOf(files)).plan)).toEqual(bare(plan));
      }),
    );
  });

  it('is read back from a workbook as it was', async () => {
    await fc.assert(
      fc.asyncProperty(wholePlan, async (plan) => {
        const bytes = await tablesToXlsx(planToTables(plan));
        expect(bare(planOf(await tablesOf([{ name: 'plan.xlsx', bytes }])).plan)).toEqual(bare(plan));
      }),
      { numRuns: 25 },
    );
  });

  it('holds texts alone in a workbook, by another reader', async () => {
    const plan: Plan = {
      ...emptyPlan,
      cables: [{ id: '0012', label: '0012', ends: [], length: '3-4', notes: '=1+1', status: 'in-use', onAir: false }],
    };
    const [sheet] = await readWorkbook((await tablesToXlsx(planToTables(plan))).buffer);
    const row = sheet?.data[1] ?? [];
    expect(row.filter((cell) => cell !== null).every((cell) => typeof cell === 'string')).toBe(true);
    expect(row).toEqual(expect.arrayContaining(['0012', '3-4', '=1+1']));
  });

  it('marks an amended cell in red and strikes what is gone (ECMA-376 part 1, 18.8.22 fonts)', async () => {
    const marks = new Map([
      ['1,0', 'changed' as const],
      ['2,0', 'removed' as const],
    ]);
    const files = unzipSync(
      await tablesToXlsx([{ name: 'List', rows: [['Cable'], ['1001'], ['1002'], ['1003']], marks }]),
    );
    const fonts = [...strFromU8(files['xl/styles.xml']!).matchAll(/<font>.*?<\/font>/gs)].map(([font]) => font);
    const red = fonts.filter((font) => /b3211a/i.test(font));
    expect(red).toHaveLength(2);
    expect(red.filter((font) => font.includes('<strike'))).toHaveLength(1);
    expect(fonts.some((font) => !/b3211a/i.test(font))).toBe(true);
  });

  it('follows what a person changed in a cell, and gives a new row an id by its name', () => {
    const [cables, ...rest] = planToTables(
      planOf([
        {
          name: 'Cables',
          rows: [
            ['Cable No', 'From Unit', 'From Jack', 'To Unit', 'To Jack'],
            ['1001', 'SW1', 'P01', 'CON1', 'NET'],
            ['1002', 'SW1', 'P02', 'CON2', 'NET'],
          ],
        },
      ]).plan,
    ) as [Table, ...Table[]];
    const column = (title: string) => cables.rows[0]!.indexOf(title);
    const rows = cables.rows.map((row) => [...row]);
    rows[1]![column('From Jack')] = 'P02';
    rows[2]![column('Cable No')] = '2002';
    rows[2]![column('From Jack')] = 'P09';
    const fresh = rows[1]!.map(() => '');
    fresh[column('Cable No')] = '1009';
    fresh[column('From Unit')] = 'SW9';
    fresh[column('From Jack')] = 'P01';
    const read = planOf([{ ...cables, rows: [...rows, fresh] }, ...rest]);
    expect(read.plan.cables.map(({ id, label, ends }) => [id, label, ends[0]?.place])).toEqual([
      ['1001', '1001', 'SW1/P02'],
      ['1002', '2002', 'SW1/P09'],
      ['1009', '1009', null],
    ]);
    expect(read.questions.map(({ said }) => said)).toEqual(['SW9 P01']);
    // P09 was in no list: it is made, and said to be implied.
    expect(read.plan.jacks.find(({ id }) => id === 'SW1/P09')).toMatchObject({ implied: true });
  });

  it('asks about a word that its column does not have, and follows a changed rack, unit and jack', () => {
    const plan: Plan = {
      ...emptyPlan,
      racks: [
        { id: 'R1', label: 'Rack 1', heightU: 42, numbering: 'bottom-up', implied: false },
        { id: 'R2', label: 'Rack 2', heightU: 42, numbering: 'bottom-up', implied: false },
      ],
      units: ['SW1', 'SW2'].map((id) => ({
        id,
        label: id,
        rack: 'R1',
        heightU: 1,
        mounted: 'front' as const,
        faces: [],
        implied: false,
      })),
      jacks: ['SW1/P01', 'SW1/P02', 'SW2/P01'].map((id) => ({
        id,
        unit: id.slice(0, 3),
        label: id.slice(4),
        mult: false,
        spare: false,
        implied: false,
      })),
      settings: [{ unit: 'SW1', place: 'SW1/P01', name: 'gain', value: '30' }],
      circuits: [{ name: 'PGM', role: 'main', hops: ['1001', 'carrier; line'] }],
    };
    const tables = planToTables(plan);
    expect(tables.find(({ name }) => name === 'Circuits')?.rows[1]?.[3]).toBe('["1001","carrier; line"]');
    const put = (list: string, row: number, title: string, text: string) => {
      const { rows } = tables.find(({ name }) => name === list)!;
      rows[row]![rows[0]!.indexOf(title)] = text;
    };
    put('Units', 1, 'Rack', 'Rack 2');
    put('Units', 1, 'Height', 'two');
    put('Units', 2, 'Faces', '[{"face":"rear"');
    put('Units', 2, 'Rack', 'Rack 9');
    put('Jacks', 1, 'Direction', 'inn');
    put('Jacks', 2, 'Unit', 'SW2');
    put('Jacks', 3, 'Spare', 'perhaps');
    put('Settings', 1, 'Unit', 'SW2');
    put('Circuits', 1, 'Main/Standby', 'Standby');
    put('Circuits', 1, 'Hops', '1001; 1002');
    const read = planOf(tables);
    expect(read.questions.map(({ sheet, row, column, said }) => `${sheet} ${row} ${column}: ${said}`)).toEqual([
      'Units 2 Height: two',
      'Units 3 Rack: Rack 9',
      'Units 3 Faces: [{"face":"rear"',
      'Jacks 2 Direction: inn',
      'Jacks 3 Unit: SW2',
      'Jacks 4 Spare: perhaps',
    ]);
    expect(read.plan.units.map(({ rack, heightU }) => [rack, heightU])).toEqual([
      ['R2', 1],
      [undefined, 1],
    ]);
    expect(read.plan.jacks.map(({ id }) => id)).toEqual(['SW1/P01', 'SW1/P02', 'SW2/P01']);
    expect(read.plan.settings).toMatchObject([{ unit: 'SW2', place: 'SW2/P01' }]);
    expect(read.plan.circuits).toMatchObject([{ name: 'PGM', role: 'standby', hops: ['1001', '1002'] }]);
  });

  it('is no sheet of ours while a list that the others rest on is missing', () => {
    const tables = planToTables({ ...emptyPlan, cables: [] });
    expect(readTables(tables.slice(0, 1), { name: 'x' }).type).toBe('not-a-schedule');
  });
});
