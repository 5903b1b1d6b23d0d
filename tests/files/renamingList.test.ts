// A list of old and new names as the file readers give it: workbook, separated text in any of its ways. Data invented.
import { describe, expect, it } from 'vitest';
import writeWorkbook, { type SheetData } from 'write-excel-file/universal';
import { readRenames } from '../../src/core/renaming/renamingRead.ts';
import { readSheetFile } from '../../src/files/sheet.ts';

async function read(bytes: Uint8Array, name: string) {
  const sheet = await readSheetFile(bytes, name);
  if (sheet.type !== 'tables') throw new Error(sheet.error.what);
  return readRenames(sheet.tables);
}
const text = (lines: string) => read(new TextEncoder().encode(lines), 'pasted');
const names = ({ pairs }: Awaited<ReturnType<typeof read>>) => pairs.map((one) => `${one.old} ${one.new}`);

describe('a renaming list from a file', () => {
  it('keeps zeros in front of names in a workbook, and tells of cells that are numbers', async () => {
    const data: SheetData = [
      ['Current no', 'Becomes', 'Remark'],
      ['0012', 'MIC-12', 'text'],
      [{ value: 2005, type: Number }, '3005', 'number'],
    ];
    const blob = await writeWorkbook([{ sheet: 'Names', data }]).toBlob();
    const list = await read(new Uint8Array(await blob.arrayBuffer()), 'names.xlsx');
    expect(names(list)).toEqual(['0012 MIC-12', '2005 3005']);
    expect(list.guesses.map(({ row }) => row)).toEqual(['row 3']);
  });

  it('takes commas, semicolons, tabs and arrows, with heads or without', async () => {
    for (const lines of [
      '2004,2005\n2005,2004',
      'Alt;Neu\n2004;2005\n2005;2004',
      '2004\t2005\n2005\t2004',
      '2004 -> 2005\n2005 → 2004',
    ]) {
      expect(names(await text(lines))).toEqual(['2004 2005', '2005 2004']);
    }
  });
});
