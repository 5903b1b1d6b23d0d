// A workbook given back: only its amended cells are other ones. What the parts mean: ECMA-376 part 1, chapter 18. Read
// back by another reader (read-excel-file) too.
import fc from 'fast-check';
import readWorkbook from 'read-excel-file/universal';
import { describe, expect, it } from 'vitest';
import type { Cable, Plan } from '../../../src/core/plan/model.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';
import type { SheetOut } from '../../../src/core/schedule/sheets/planSheets.ts';
import { planToSheets } from '../../../src/core/schedule/sheets/planToSheets.ts';
import { amendWorkbook } from '../../../src/files/back/workbook.ts';
import { readXlsx } from '../../../src/files/xlsx.ts';
import { partsOf, type RichRow, richBook, zipParts } from './richBook.ts';

const ROWS: RichRow[] = Array.from({ length: 6 }, (_, i) => ({
  number: `${i + 1}`.padStart(4, '0'),
  from: [`SW${(i % 2) + 1}`, `P0${i + 1}`],
  to: [`CON${(i % 2) + 1}`, `IN ${i + 1}`],
  length: 10 * (i + 1),
}));

async function tablesOf(bytes: Uint8Array): Promise<Table[]> {
  const read = await readXlsx(bytes);
  if (read.type !== 'tables') throw new Error(read.error.what);
  return read.tables;
}

async function given(bytes: Uint8Array, source: readonly Table[], out: readonly SheetOut[]) {
  const amended = await amendWorkbook(bytes, source, out);
  if (amended.type !== 'amended') throw new Error(amended.why);
  return amended.bytes;
}

function planOf(tables: readonly Table[]): Plan {
  const read = readTables(tables, { name: 'Runs' });
  if (read.type !== 'plan') throw new Error(read.why);
  return read.plan;
}

const change = (plan: Plan, label: string, to: (cable: Cable) => Partial<Cable>): Plan => ({
  ...plan,
  cables: plan.cables.map((cable) => (cable.label === label ? { ...cable, ...to(cable) } : cable)),
});
const moved = (cable: Cable, jack: string): Cable['ends'] =>
  cable.ends.map((end) => (end.end === 'B' ? { ...end, jack, place: `${end.unit}/${jack}` as typeof end.place } : end));

/** The element of one cell, as it stands in the part. */
const cell = (parts: ReadonlyMap<string, string>, ref: string) =>
  new RegExp(`<c r="${ref}"(?: [^>]*)?(?:/>|>.*?</c>)`).exec(parts.get('xl/worksheets/sheet1.xml') ?? '')?.[0];
const look = (parts: ReadonlyMap<string, string>, ref: string) => {
  const style = Number(/ s="(\d+)"/.exec(cell(parts, ref) ?? '')?.[1]);
  const looks = /<cellXfs[^>]*>(.*)<\/cellXfs>/.exec(parts.get('xl/styles.xml') ?? '')?.[1] ?? '';
  return looks.match(/<xf\b(?:[^>]*\/>|.*?<\/xf>)/g)?.[style];
};

describe('a workbook given back', () => {
  it('is the same in every part where nothing was amended', async () => {
    const bytes = richBook(ROWS);
    const tables = await tablesOf(bytes);
    expect(partsOf(await given(bytes, tables, planToSheets(planOf(tables), tables).tables))).toEqual(partsOf(bytes));
  });

  it('has its amendments in the cells, tinted and noted, and all else as it was', async () => {
    const bytes = richBook(ROWS);
    const tables = await tablesOf(bytes);
    const plan = planOf(tables);
    const now = change(
      change(plan, '0003', (cable) => ({ ends: moved(cable, 'IN 9') })),
      '0005',
      () => ({ length: '77', label: '0055' }),
    );
    const without = { ...now, cables: now.cables.filter(({ label }) => label !== '0002') };
    const { tables: out, form } = planToSheets(without, tables);
    expect(form).toBe('source');
    const back = await given(bytes, tables, out);
    const [was, is] = [partsOf(bytes), partsOf(back)];
    // The new jack, in its cell's own look with a tint behind it.
    expect(cell(is, 'E5')).toContain('>IN 9<');
    expect(look(is, 'E5')).toContain('borderId="1"');
    expect(look(is, 'E5')).toContain('applyFill="1"');
    // A number stays a number, shown with its four figures.
    expect(cell(is, 'A7')).toMatch(/^<c r="A7" s="\d+"><v>55<\/v><\/c>$/);
    expect(look(is, 'A7')).toContain('numFmtId="164"');
    expect(cell(is, 'F7')).toMatch(/<v>77<\/v>/);
    // A row that is gone is struck, not taken out.
    const font = Number(/fontId="(\d+)"/.exec(look(is, 'B4') ?? '')?.[1]);
    expect(is.get('xl/styles.xml')?.match(/<font>.*?<\/font>/g)?.[font]).toContain('<strike/>');
    // The word stands in a column of its own, which the filter takes in.
    expect(cell(is, 'I2')).toContain('Amended');
    expect(cell(is, 'I4')).toContain('Struck: no longer in the plan');
    expect(cell(is, 'I5')).toContain('To Jack: was IN 3');
    expect(is.get('xl/worksheets/sheet1.xml')).toContain('<autoFilter ref="A2:I8"/>');
    expect(is.get('xl/workbook.xml')).toContain('Runs!$A$2:$I$8</definedName>');
    // Everything else of the part is there, letter by letter.
    for (const kept of ['<cols>', '<pane ', '<mergeCells', '<conditionalFormatting', '<dataValidations', ' hidden="1"'])
      expect(is.get('xl/worksheets/sheet1.xml')).toContain(kept);
    const touched = [...is].filter(([name, part]) => was.get(name) !== part).map(([name]) => name);
    expect(touched.sort()).toEqual(['xl/styles.xml', 'xl/workbook.xml', 'xl/worksheets/sheet1.xml']);
    expect([...was.keys()].filter((name) => !is.has(name))).toEqual([]);
    expect(is.get('xl/workbook.xml')).toContain('fullCalcOnLoad="1"');
    const [runs] = await readWorkbook(back.buffer);
    expect(runs?.data[4]?.slice(0, 5)).toEqual([3, 'SW1', 'P03', 'CON1', 'IN 9']);
    expect(planOf(await tablesOf(back)).cables.map(({ label }) => label)).toEqual([
      '0001',
      '0003',
      '0004',
      '0055',
      '0006',
    ]);
  });

  it('has new rows at the end, in the looks and kinds of the row above', async () => {
    const bytes = richBook(ROWS);
    const tables = await tablesOf(bytes);
    const plan = planOf(tables);
    const fresh = { ...plan.cables[0]!, id: '0099', label: '0099', length: '12' };
    const { origin: _, ...added } = { ...fresh, ends: moved(fresh, 'IN 99') };
    const { tables: out } = planToSheets({ ...plan, cables: [...plan.cables, added as Cable] }, tables);
    const is = partsOf(await given(bytes, tables, out));
    expect(cell(is, 'A9')).toMatch(/<v>99<\/v>/);
    expect(look(is, 'A9')).toContain('numFmtId="164"');
    expect(cell(is, 'E9')).toContain('>IN 99<');
    expect(cell(is, 'I9')).toContain('Added');
    expect(is.get('xl/worksheets/sheet1.xml')).toContain('<dimension ref="A1:I9"/>');
    expect(is.get('xl/worksheets/sheet1.xml')).toContain('<autoFilter ref="A2:I9"/>');
  });

  it('hands a shared formula on when its first cell becomes a value, and drops the order of calculation', async () => {
    const bytes = richBook(ROWS);
    const source = await tablesOf(bytes);
    const rows = source[0]!.rows.map((row) => [...row]);
    rows[2]![6] = 'by hand';
    const is = partsOf(await given(bytes, source, [{ ...source[0]!, rows }, source[1]!]));
    expect(cell(is, 'G3')).not.toContain('<f');
    expect(cell(is, 'G3')).toContain('by hand');
    expect(cell(is, 'G5')).toContain('<f>A5&amp;&quot; &quot;&amp;$B5</f>');
    expect(is.has('xl/calcChain.xml')).toBe(false);
    expect(is.get('[Content_Types].xml')).not.toContain('calcChain');
    expect(is.get('xl/_rels/workbook.xml.rels')).not.toContain('calcChain');
  });

  it('takes a merge apart where a cell under it gets a value, and no other', async () => {
    const bytes = richBook(ROWS);
    const source = await tablesOf(bytes);
    const rows = source[0]!.rows.map((row) => [...row]);
    rows[3]![7] = 'in the ceiling';
    const is = partsOf(await given(bytes, source, [{ ...source[0]!, rows }, source[1]!]));
    expect(is.get('xl/worksheets/sheet1.xml')).toContain('<mergeCells count="1"><mergeCell ref="A1:H1"/></mergeCells>');
    expect(cell(is, 'H4')).toContain('in the ceiling');
  });

  it('widens a table by the column of notes, so that sorting keeps a row together', async () => {
    const relation = (id: string, type: string, target: string) =>
      `<Relationship Id="${id}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/${type}" Target="${target}"/>`;
    const parts = Object.fromEntries(
      [...partsOf(richBook(ROWS))].map(([name, part]) => [name, Uint8Array.from(Buffer.from(part, 'latin1'))]),
    ) as Record<string, string | Uint8Array>;
    const columns = ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H'].map(
      (name, i) => `<tableColumn id="${i + 1}" name="${name}"/>`,
    );
    parts['xl/worksheets/_rels/sheet1.xml.rels'] =
      `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${relation('rId9', 'table', '/xl/tables/table1.xml')}</Relationships>`;
    parts['xl/tables/table1.xml'] =
      `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="1" name="T" displayName="T" ref="A2:H8"><autoFilter ref="A2:H8"/><tableColumns count="8">${columns.join('')}</tableColumns></table>`;
    const bytes = zipParts(parts);
    const tables = await tablesOf(bytes);
    const { tables: out } = planToSheets(
      change(planOf(tables), '0003', (one) => ({ ends: moved(one, 'IN 9') })),
      tables,
    );
    const table = partsOf(await given(bytes, tables, out)).get('xl/tables/table1.xml');
    expect(table).toContain('displayName="T" ref="A2:I8"><autoFilter ref="A2:I8"/><tableColumns count="9">');
    expect(table).toContain('<tableColumn id="8" name="H"/><tableColumn id="9" name="Amended"/></tableColumns>');
  });

  it('is not amended in place where a formula covers several cells, and says so', async () => {
    const parts = Object.fromEntries(partsOf(richBook(ROWS)));
    const name = 'xl/worksheets/sheet1.xml';
    parts[name] = parts[name]!.replace(
      /<f t="shared" ref="G3:G8" si="0">.*?<\/f>/,
      '<f t="array" ref="G3:G8">A3:A8</f>',
    );
    parts[name] = parts[name].replaceAll('<f t="shared" si="0"/>', '');
    const bytes = zipParts(parts);
    const source = await tablesOf(bytes);
    const rows = source[0]!.rows.map((row) => [...row]);
    rows[3]![6] = 'by hand';
    expect(await amendWorkbook(bytes, source, [{ ...source[0]!, rows }, source[1]!])).toEqual({
      type: 'not-in-place',
      why: 'a formula over several cells',
    });
  });

  it('reads the same in every cell that was not amended, whatever was', async () => {
    const bytes = richBook(ROWS);
    const source = await tablesOf(bytes);
    const untouched = [
      'xl/comments1.xml',
      'xl/media/image1.png',
      'xl/worksheets/sheet2.xml',
      'xl/drawings/drawing1.xml',
    ];
    const edit = fc.record({
      row: fc.nat(9),
      column: fc.nat(9),
      text: fc.oneof(
        fc.constantFrom(
          '',
          '0101',
          '12',
          '1E5',
          '=A1',
          'a\nb',
          '_x0041_',
          ' padded ',
          'é & <b> "q"',
          '\u{1f50c}',
          '77.5',
        ),
        fc.string({ maxLength: 8 }),
      ),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 8 }), async (edits) => {
        const rows = source[0]!.rows.map((row) => [...row]);
        const marks = new Map<string, 'changed' | 'removed'>();
        for (const { row, column, text } of edits) {
          // A cell of a merge shows nothing but the first one's text.
          if (row === 0 || (row === 3 && column === 7)) continue;
          while (rows.length <= row) rows.push([]);
          while (rows[row]!.length <= column) rows[row]!.push('');
          // What XML cannot hold is not asked for.
          rows[row]![column] = text.replace(/(?!\n)\p{C}/gu, '');
          marks.set(`${row},${column}`, 'changed');
        }
        const back = await given(bytes, source, [{ name: 'Runs', rows, marks }, source[1]!]);
        const read = await tablesOf(back);
        const trimmed = (table: Table) =>
          table.rows
            .map((row) => row.join('\t').replace(/\t+$/, ''))
            .join('\n')
            .trimEnd();
        expect(trimmed(read[0]!)).toBe(trimmed({ ...source[0]!, rows }));
        const [was, is] = [partsOf(bytes), partsOf(back)];
        for (const name of untouched) expect(is.get(name)).toBe(was.get(name));
      }),
      { numRuns: 60 },
    );
  });
});
