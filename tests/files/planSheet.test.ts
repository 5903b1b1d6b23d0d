// The schedule as a sheet of our own: written and read again it is the same plan, item by item, ids included, as a
// workbook and as CSV, whatever the cells hold. Invented data.
import fc from 'fast-check';
import { strFromU8, unzipSync } from 'fflate';
import readWorkbook from 'read-excel-file/universal';
import { describe, expect, it } from 'vitest';
import { type Cable, type CableEnd, emptyPlan, type Plan, SIGNALS } from '../../src/core/plan/model.ts';
import { readTables } from '../../src/core/plan/readTables.ts';
import type { ReadPlan, Table } from '../../src/core/plan/readTypes.ts';
import { comparePlans } from '../../src/core/plan/revisions/compare.ts';
import { planToTables } from '../../src/core/plan/sheets/ownColumns.ts';
import { tablesToXlsx, tableToCsv } from '../../src/files/planSheet.ts';
import { readSheetFile } from '../../src/files/sheet.ts';

/** What a label may hold: formulas, quotes, look-alikes, ditto words, ranges, delimiters, blanks at the ends. */
const nasty = fc.oneof(
  fc.constantFrom(
    '=1+1',
    '+48',
    '-12',
    '@SUM(A1)',
    '"',
    'same',
    '0012',
    '1E5',
    '3-4',
    "'x",
    'a;b,c\td',
    'P1-P6',
    'J1/J2',
  ),
  fc.constantFrom(
    ' padded ',
    'two\nlines',
    'spare',
    'on air',
    'TBD',
    '?',
    '__proto__',
    'constructor',
    'x&<y>',
    '_x000D_',
    'Straße',
    '=HYPERLINK("x")',
  ),
  fc.stringMatching(/^[A-Za-z0-9 ._/+-]{1,12}$/),
);
const maybe = fc.option(nasty, { nil: undefined });
const own = <T extends object>(given: T): T =>
  Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) as T;

const anyPlan: fc.Arbitrary<Plan> = fc
  .record({
    racks: fc.uniqueArray(fc.record({ label: nasty, room: maybe, heightU: fc.integer({ min: 1, max: 60 }) }), {
      maxLength: 3,
      selector: ({ label }) => label,
    }),
    units: fc.array(
      fc.record({
        label: nasty,
        room: maybe,
        rack: fc.nat(9),
        u: fc.option(fc.nat(40)),
        serial: maybe,
        jacks: fc.array(nasty, { maxLength: 4 }),
      }),
      { maxLength: 4 },
    ),
    cables: fc.array(
      fc.record({
        label: fc.oneof(nasty, fc.constant('')),
        ends: fc.array(
          fc.record({
            at: fc.option(fc.nat(30)),
            unit: fc.oneof(nasty, fc.constant('')),
            jack: fc.oneof(nasty, fc.constant('')),
            location: maybe,
            connector: maybe,
          }),
          { maxLength: 4 },
        ),
        signal: fc.option(fc.constantFrom(...SIGNALS), { nil: undefined }),
        texts: fc.tuple(maybe, maybe, maybe, maybe, maybe),
        leg: fc.option(fc.constantFrom('left' as const, 'right' as const, 'both' as const, 'mono' as const), {
          nil: undefined,
        }),
        status: fc.constantFrom('in-use' as const, 'spare' as const, 'future' as const),
        onAir: fc.boolean(),
      }),
      { maxLength: 8 },
    ),
    settings: fc.array(fc.record({ at: fc.nat(30), name: nasty, value: nasty }), { maxLength: 3 }),
  })
  .map(({ racks, units, cables, settings }): Plan => {
    // Ids are whatever an earlier revision gave: here they tell nothing.
    const rackIds = racks.map((_, i) => `RK${i}`);
    const jacks = units.flatMap((unit, u) =>
      [...new Set(unit.jacks)].map((label, j) => ({
        id: `UN${u}/J${j}`,
        unit: `UN${u}`,
        label,
        direction: 'in' as const,
        mult: j === 1,
        spare: j === 2,
        implied: j === 0,
      })),
    );
    return {
      ...emptyPlan,
      origin: 'walk',
      name: 'own',
      racks: racks.map(({ label, room, heightU }, i) =>
        own({
          id: `RK${i}`,
          label,
          room,
          heightU,
          numbering: i === 0 ? ('top-down' as const) : ('bottom-up' as const),
          implied: i === 1,
        }),
      ),
      units: units.map(({ label, room, rack, u, serial }, i) =>
        own({
          id: `UN${i}`,
          label,
          room,
          rack: rackIds[rack],
          u: u ?? undefined,
          heightU: 1 + (i % 2),
          mounted: i === 1 ? ('rear' as const) : ('front' as const),
          faces:
            i === 0
              ? [
                  {
                    face: 'rear' as const,
                    rows: [jacks.filter((jack) => jack.unit === 'UN0').map(({ id }) => id)],
                    through: true,
                  },
                ]
              : [],
          serial,
          implied: i === 2,
        }),
      ),
      jacks,
      cables: cables.map(
        ({ label, ends, signal, texts: [signalText, circuit, type, length, notes], leg, status, onAir }, i): Cable =>
          own({
            id: `C~${i}`,
            label,
            ends: ends.map(({ at, unit, jack, location, connector }, e): CableEnd => {
              const place = at === null ? undefined : jacks[at % Math.max(jacks.length, 1)];
              return own({
                end: String.fromCharCode(65 + e),
                place: place?.id ?? null,
                location,
                unit,
                jack,
                connector,
              });
            }),
            signal,
            signalText,
            circuit,
            type,
            length,
            leg,
            status,
            onAir,
            notes,
          }),
      ),
      settings: settings.flatMap(({ at, name, value }) => {
        const jack = jacks[at % Math.max(jacks.length, 1)];
        return jack
          ? [
              { unit: jack.unit, place: jack.id, name, value },
              { unit: jack.unit, name, value },
            ]
          : [];
      }),
    };
  });

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
  it('is read back from its cells as it was, and nothing is guessed or asked', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const read = planOf(planToTables(plan));
        expect(comparePlans(plan, read.plan)).toEqual([]);
        expect(read).toMatchObject({ ids: 'given', questions: [], guesses: [] });
        expect(read.counts.used + read.counts.blank).toBe(read.counts.rowsIn);
      }),
    );
  });

  it('is read back from CSV files as it was', async () => {
    await fc.assert(
      fc.asyncProperty(anyPlan, async (plan) => {
        const files = planToTables(plan).map((table) => ({ name: `${table.name}.csv`, bytes: tableToCsv(table) }));
        expect(comparePlans(plan, planOf(await tablesOf(files)).plan)).toEqual([]);
      }),
    );
  });

  it('is read back from a workbook as it was', async () => {
    await fc.assert(
      fc.asyncProperty(anyPlan, async (plan) => {
        const bytes = await tablesToXlsx(planToTables(plan));
        expect(comparePlans(plan, planOf(await tablesOf([{ name: 'plan.xlsx', bytes }])).plan)).toEqual([]);
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

  it('is no sheet of ours while a list that the others rest on is missing', () => {
    const tables = planToTables({ ...emptyPlan, cables: [] });
    expect(readTables(tables.slice(0, 1), { name: 'x' }).type).toBe('not-a-schedule');
  });
});
