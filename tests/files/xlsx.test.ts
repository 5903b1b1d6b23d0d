// Workbooks: what comes back as text, what is noted, and what is refused before it is unpacked.
import { strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import writeWorkbook, { type SheetData } from 'write-excel-file/universal';
import { readTables } from '../../src/core/plan/readTables.ts';
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
