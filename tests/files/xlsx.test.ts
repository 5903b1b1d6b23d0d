// Workbooks: what comes back as text, what is noted, and what is refused before it is unpacked. Held against another
// reader (read-excel-file) on what it reads; error cells, merged cells and formats it leaves out (ECMA-376 part 1, 18).
import fc from 'fast-check';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import readWorkbook from 'read-excel-file/universal';
import { describe, expect, it } from 'vitest';
import writeWorkbook, { type SheetData } from 'write-excel-file/universal';
import { readTables } from '../../src/core/schedule/readTables.ts';
import { readSheetFile } from '../../src/files/sheet.ts';
import { readXlsx } from '../../src/files/xlsx.ts';

async function workbook(sheets: { sheet: string; data: SheetData }[]): Promise<Uint8Array> {
  const blob = await writeWorkbook(sheets).toBlob();
  return new Uint8Array(await blob.arrayBuffer());
}

const header = ['Cable', 'From', 'From Jack', 'To', 'To Jack'];

describe('workbooks', () => {
  it('keep leading zeros of text cells, blank rows and the order of their sheets', async () => {
    const read = await readXlsx(
      await workbook([
        { sheet: 'Cables', data: [header, [], ['0012', 'SW1', 'P01', 'SW2', 'P02']] },
        { sheet: 'Units', data: [['Unit', 'Rack', 'U']] },
      ]),
    );
    if (read.type !== 'tables') throw new Error(read.error.what);
    expect(read.tables.map((table) => table.name)).toEqual(['Cables', 'Units']);
    expect(read.tables[0]?.rows[2]?.[0]).toBe('0012');
    expect(read.tables[0]?.notes).toEqual([]);
  });

  it('say where a number or a date stands in place of a name', async () => {
    const date = new Date(Date.UTC(2019, 3, 3));
    const bytes = await workbook([
      { sheet: 'Cables', data: [header, [12, 'SW1', 'P01', 'SW2', { value: date, type: Date, format: 'dd/mm/yyyy' }]] },
    ]);
    const sheet = await readSheetFile(bytes, 'x.xlsx');
    if (sheet.type !== 'tables') throw new Error(sheet.error.what);
    const plan = readTables(sheet.tables, { name: 'x' });
    if (plan.type !== 'plan') throw new Error(plan.why);
    expect(plan.plan.cables[0]).toMatchObject({ label: '12', ends: [{ jack: 'P01' }, { jack: '2019-04-03' }] });
    const noted = plan.guesses.filter((guess) => guess.readAs.includes('the cell is'));
    expect(noted.map(({ row, column, said }) => [row, column, said])).toEqual([
      [2, 'Cable', '12'],
      [2, 'To Jack', '2019-04-03'],
    ]);
  });

  it('are refused before unpacking when the directory announces too much', async () => {
    const bomb = zipSync({
      'xl/workbook.xml': strToU8('<workbook/>'),
      'xl/worksheets/sheet1.xml': new Uint8Array(30_000_000),
    });
    expect(bomb.length).toBeLessThan(100_000);
    expect(await readXlsx(bomb)).toMatchObject({ type: 'sheet-error', error: { type: 'too-large' } });
  });

  it('are told from other archives and from broken ones', async () => {
    expect(await readXlsx(zipSync({ 'a.txt': strToU8('a') }))).toMatchObject({ error: { type: 'not-a-sheet' } });
    const whole = await workbook([{ sheet: 'Cables', data: [header] }]);
    expect(await readXlsx(whole.slice(0, whole.length / 2))).toMatchObject({ error: { type: 'damaged' } });
    const { 'xl/workbook.xml': _, ...rest } = unzipSync(whole);
    expect(await readXlsx(zipSync(rest))).toMatchObject({ error: { type: 'not-a-sheet' } });
    expect(await readXlsx(zipSync({ 'xl/workbook.xml': strToU8('not xml <') }))).toMatchObject({
      error: { type: 'damaged' },
    });
  });

  it('with nothing in them are empty', async () => {
    expect(await readXlsx(await workbook([{ sheet: 'A', data: [] }]))).toMatchObject({ error: { type: 'empty' } });
  });
});

describe('held against another reader', () => {
  const text = fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 12 })
    // The writer, not the reader, loses names of a prototype's parts, and what XML cannot hold.
    .filter((one) => !(one in {}) && !/\p{Cc}|[\ufffe\uffff]|_x[0-9a-f]{4}_/iu.test(one));
  const cell = fc.oneof(
    { weight: 5, arbitrary: text },
    fc.integer({ min: -99_999, max: 99_999 }),
    fc.double({ min: 0.001, max: 9_999, noNaN: true }),
    fc.boolean(),
    fc.constantFrom('0012', '<&>"\'', ' a ', 'two\nlines', '=1+1', 'é€'),
    fc.constant(null),
    fc
      .date({ min: new Date('1990-01-01'), max: new Date('2040-01-01'), noInvalidDate: true })
      .map((date) => new Date(Math.floor(date.getTime() / 86_400_000) * 86_400_000)),
  );

  it('gives the same texts, numbers and days', async () => {
    const rows = fc.array(fc.array(cell, { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 8 });
    const written = (value: unknown) => {
      if (value === null || value === undefined) return '';
      if (value instanceof Date) return value.toISOString().slice(0, 10);
      return typeof value === 'boolean' ? String(value).toUpperCase() : String(value);
    };
    await fc.assert(
      fc.asyncProperty(rows, async (data) => {
        const bytes = await workbook([
          {
            sheet: 'A',
            data: data.map((line) =>
              line.map((value) => (value instanceof Date ? { value, type: Date, format: 'yyyy-mm-dd' } : value)),
            ),
          },
        ]);
        const read = await readXlsx(bytes);
        const [other] = await readWorkbook(new Uint8Array(bytes).buffer, {
          parseNumber: (given) => given,
          trim: false,
        });
        const wanted = (other?.data ?? []).map((line) => line.map(written));
        const got = read.type === 'tables' ? (read.tables[0]?.rows ?? []) : [];
        const width = Math.max(0, ...wanted.map((line) => line.length));
        expect(got.map((line) => [...line, ...Array(width - line.length).fill('')])).toEqual(wanted);
      }),
      { numRuns: 80 },
    );
  });
});

describe('what a workbook knows besides its texts', () => {
  /** The parts of a written workbook, one of them changed. */
  async function changed(data: SheetData, change: (sheetXml: string) => string): Promise<Uint8Array> {
    const parts = unzipSync(await workbook([{ sheet: 'Cables', data }]));
    const part = 'xl/worksheets/sheet1.xml';
    return zipSync({ ...parts, [part]: strToU8(change(strFromU8(parts[part] ?? new Uint8Array()))) });
  }

  it('an error cell is a question and never a blank', async () => {
    const bytes = await changed([header, ['1', 'SW1', 'P01', 'SW2', 12]], (xml) =>
      xml.replace(/<c r="E2"[^>]*><v>12<\/v>/, '<c r="E2" t="e"><f>A9</f><v>#REF!</v>'),
    );
    const sheet = await readSheetFile(bytes, 'x.xlsx');
    if (sheet.type !== 'tables') throw new Error(sheet.error.what);
    const plan = readTables(sheet.tables, { name: 'x' });
    expect(plan).toMatchObject({ questions: [{ row: 2, column: 'To Jack', said: '#REF!' }] });
  });

  it('merged cells are filled down below the header, each one told', async () => {
    const bytes = await workbook([
      {
        sheet: 'Cables',
        data: [
          header,
          ['1', { value: 'R1 SW1', rowSpan: 3 }, 'P01', 'SW2', 'P01'],
          ['2', null, 'P02', 'SW2', 'P02'],
          ['3', null, 'P03', 'SW2', 'P03'],
        ],
      },
    ]);
    const sheet = await readSheetFile(bytes, 'x.xlsx');
    if (sheet.type !== 'tables') throw new Error(sheet.error.what);
    expect(sheet.tables[0]?.merged).toEqual([{ row: 2, column: 2, rows: 3 }]);
    const plan = readTables(sheet.tables, { name: 'x' });
    if (plan.type !== 'plan') throw new Error(plan.why);
    expect(plan.plan.cables.map(({ ends }) => ends[0]?.place)).toEqual(['SW1/P01', 'SW1/P02', 'SW1/P03']);
    const told = plan.guesses.filter(({ readAs }) => readAs === 'R1 SW1, merged with row 2');
    expect(told.map(({ row, column, said }) => [row, column, said])).toEqual([
      [3, 'From', ''],
      [4, 'From', ''],
    ]);
  });

  it('zeros that a format shows in front of a number are part of the name', async () => {
    const bytes = await workbook([
      { sheet: 'Cables', data: [header, [{ value: 12, format: '0000' }, 'SW1', 'P01', 'SW2', 'P02']] },
    ]);
    const read = await readXlsx(bytes);
    if (read.type !== 'tables') throw new Error(read.error.what);
    expect(read.tables[0]?.rows[1]?.[0]).toBe('0012');
    expect(read.tables[0]?.notes).toEqual([
      {
        kind: 'number-cell',
        row: 2,
        column: 1,
        said: '12',
        readAs: '0012, as the sheet shows it; the cell is a number',
      },
    ]);
  });

  // What a sheet shows under each: ECMA-376 part 1, 18.8.31 (format codes).
  it.each([
    ['"C-"0000', 105, 'C-0105'],
    ['000-000', 1_234_567, '1234-567'],
    ['(00) 00', 1203, '(12) 03'],
    ['00\\-00', 1203, '12-03'],
    ['[Red]0000;[Blue]-0000', 101, '0101'],
    ['0" ft"', 22, '22 ft'],
    ['"Rack "0', 3, 'Rack 3'],
    ['h:mm', 0.05, '1:12'],
    ['[h]:mm:ss', 1.0625, '25:30'],
    ['dd.mm.yyyy', 43_558, '2019-04-03'],
    ['0', 12, '12'],
    ['0.00', 1.1, '1.10'],
    ['#,##0.00', 3, '3.00'],
    ['0.0', 1.1, '1.1'],
    ['General', 1.1, '1.1'],
  ])('a number under the format %s is read as it is shown', async (format, value, shown) => {
    const bytes = await workbook([
      { sheet: 'Cables', data: [header, [{ value, format }, 'SW1', 'P01', 'SW2', 'P02']] },
    ]);
    const read = await readXlsx(bytes);
    if (read.type !== 'tables') throw new Error(read.error.what);
    expect(read.tables[0]?.rows[1]?.[0]).toBe(shown);
    expect(read.tables[0]?.notes).toHaveLength(1);
  });

  it('a decimal in a number cell may have lost its zero, and is of a kind of its own', async () => {
    const bytes = await workbook([{ sheet: 'Cables', data: [header, ['1', 'SW1', 1.1, 'SW2', 1.11]] }]);
    const read = await readXlsx(bytes);
    expect(read).toMatchObject({
      tables: [
        {
          notes: [
            { kind: 'trailing-zero', column: 3, said: '1.1', readAs: expect.stringContaining('1.10') },
            { kind: 'number-cell', column: 5, said: '1.11' },
          ],
        },
      ],
    });
  });

  // A formula that is a string constant: ECMA-376 part 1, 18.17.2.2.
  it('a formula that only keeps a text is that text, calculated or not', async () => {
    const bytes = await changed([header, ['1', 'SW1', 'P01', 'SW2', 12]], (xml) =>
      xml.replace(/<c r="E2"[^>]*><v>12<\/v>/, '<c r="E2"><f>"0101"</f>'),
    );
    expect(await readXlsx(bytes)).toMatchObject({
      tables: [{ rows: [header, ['1', 'SW1', 'P01', 'SW2', '0101']], notes: [] }],
    });
  });

  it('a number that the file holds less exactly than the sheet shows it is read as shown', async () => {
    const bytes = await changed([header, ['1', 'SW1', 'P01', 'SW2', 12]], (xml) =>
      xml.replace('<v>12</v>', '<v>1.1000000000000001</v>'),
    );
    expect(await readXlsx(bytes)).toMatchObject({ tables: [{ rows: [header, ['1', 'SW1', 'P01', 'SW2', '1.1']] }] });
  });

  it('hidden columns are read and said, where something stands in them', async () => {
    const bytes = await changed([header, ['1', 'SW1', 'P01', 'SW2', 'P02']], (xml) =>
      xml.replace(
        '<sheetData>',
        '<cols><col min="2" max="3" hidden="1"/><col min="9" max="99" hidden="1"/></cols><sheetData>',
      ),
    );
    expect(await readXlsx(bytes)).toMatchObject({
      tables: [
        { notes: [{ row: 1, column: 0, said: '2 hidden columns: B, C', readAs: expect.stringMatching(/read like/) }] },
      ],
    });
  });

  it('a yes or no in a column of names is said, in one of yes and no it is not', async () => {
    const row = ['1', 'SW1', true, 'SW2', 'P02', true];
    const sheet = await readSheetFile(
      await workbook([{ sheet: 'Cables', data: [[...header, 'On air'], row] }]),
      'x.xlsx',
    );
    if (sheet.type !== 'tables') throw new Error(sheet.error.what);
    const plan = readTables(sheet.tables, { name: 'x' });
    if (plan.type !== 'plan') throw new Error(plan.why);
    const told = plan.guesses.filter(({ readAs }) => readAs.includes('yes or no'));
    expect(told.map(({ column, said }) => [column, said])).toEqual([['From Jack', 'TRUE']]);
  });

  it('a number shown with an exponent may have been a name', async () => {
    const bytes = await workbook([
      { sheet: 'Cables', data: [header, [{ value: 100_000, format: '0.00E+00' }, 'SW1', 'P01', 'SW2', 'P02']] },
    ]);
    const read = await readXlsx(bytes);
    expect(read).toMatchObject({
      tables: [
        { notes: [{ row: 2, column: 1, said: '100000', readAs: expect.stringMatching(/perhaps a name such as 1E5/) }] },
      ],
    });
  });

  it('hidden rows are read and asked about', async () => {
    const bytes = await changed([header, ['1', 'SW1', 'P01', 'SW2', 'P01'], ['2', 'SW1', 'P02', 'SW2', 'P02']], (xml) =>
      xml.replace(/<row r="3"/, '<row r="3" hidden="1"'),
    );
    const sheet = await readSheetFile(bytes, 'x.xlsx');
    if (sheet.type !== 'tables') throw new Error(sheet.error.what);
    const plan = readTables(sheet.tables, { name: 'x' });
    if (plan.type !== 'plan') throw new Error(plan.why);
    expect(plan.plan.cables).toHaveLength(2);
    expect(plan.questions).toEqual([
      {
        kind: 'gone',
        sheet: 'Cables',
        row: 3,
        said: '',
        question: '1 row is hidden (row 3). Is it removed?',
        style: 'hidden',
        rows: [3],
      },
    ]);
  });
});
