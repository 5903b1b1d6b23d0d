// Sheets that are neither a workbook of ours nor a text file: OpenDocument and tables of web pages are read, others are
// named with the step that helps. runs.ods was written by LibreOffice 7 out of the workbook of tests/files/back/richBook.ts;
// elements: OpenDocument 1.3 part 3, HTML Living Standard. First bytes: from memory.
import { readFileSync } from 'node:fs';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readTables } from '../../src/core/schedule/readTables.ts';
import { encodeText } from '../../src/files/encodings.ts';
import { readSheetFile } from '../../src/files/sheet.ts';
import { sheetErrorToWords } from '../../src/files/sheetError.ts';

async function tablesOf(bytes: Uint8Array, name: string) {
  const read = await readSheetFile(bytes, name);
  if (read.type !== 'tables') throw new Error(`${read.error.what} ${read.error.where}`);
  return read.tables;
}

const NAMESPACES = ['office', 'table', 'text'].map((one) => `xmlns:${one}="urn:${one}"`).join(' ');

function ods(rows: string, more: Record<string, Uint8Array> = {}): Uint8Array {
  const table = `<table:table table:name="Runs">${rows}</table:table>`;
  const xml = `<office:document-content ${NAMESPACES}><office:body><office:spreadsheet>${table}</office:spreadsheet></office:body></office:document-content>`;
  return zipSync({
    mimetype: [strToU8('application/vnd.oasis.opendocument.spreadsheet'), { level: 0 }],
    'content.xml': strToU8(xml),
    ...more,
  });
}
const cell = (text: string, attributes = '') =>
  `<table:table-cell office:value-type="string" ${attributes}><text:p>${text}</text:p></table:table-cell>`;
const row = (cells: string, attributes = '') => `<table:table-row ${attributes}>${cells}</table:table-row>`;

describe('an OpenDocument sheet', () => {
  it('of another program says what its workbook says: numbers with their zeros, no remarks', async () => {
    const tables = await tablesOf(readFileSync(new URL('../fixtures/runs.ods', import.meta.url)), 'runs.ods');
    expect(tables.map(({ name }) => name)).toEqual(['Runs', 'Sums']);
    const [runs] = tables;
    expect(runs?.rows[0]).toEqual(['Old wing, rev C']);
    expect(runs?.rows[1]?.[0]).toBe('Cable No');
    expect(runs?.rows[3]?.slice(0, 7)).toEqual(['0002', 'SW2', 'P2', 'CON2', 'IN 2', '11', '2 SW2']);
    expect(runs?.merged).toEqual([{ row: 3, column: 8, rows: 2 }]);
    expect(runs?.notes?.find(({ column }) => column === 0)).toMatchObject({ row: 4, said: '1 hidden row' });
    expect(runs?.notes).toContainEqual(
      expect.objectContaining({ row: 4, column: 1, said: '0002', kind: 'number-cell' }),
    );
    const plan = readTables(tables, { name: 'runs' });
    if (plan.type !== 'plan') throw new Error(plan.why);
    expect(plan.plan.cables.map(({ label }) => label)).toEqual(['0001', '0002', '0003', '0004', '0005', '0006']);
  });

  it('has its repeated rows and cells, its lines and blanks', async () => {
    const [table] = await tablesOf(
      ods(
        row(cell('a') + cell('x', 'table:number-columns-repeated="3"') + cell('b')) +
          row('<table:table-cell table:number-columns-repeated="16384"/>', 'table:number-rows-repeated="2"') +
          row(cell('c', 'table:number-columns-spanned="2"') + '<table:covered-table-cell/>' + cell('d')) +
          row(cell('e<text:s text:c="2"/>f</text:p><text:p>g<text:line-break/>h'), 'table:number-rows-repeated="2"') +
          row('<table:table-cell/>', 'table:number-rows-repeated="1048570"'),
      ),
      'x.ods',
    );
    expect(table?.rows).toEqual([['a', 'x', 'x', 'x', 'b'], [], [], ['c', '', 'd'], ['e  f\ng\nh'], ['e  f\ng\nh']]);
  });

  it('that asks for more than there is room for is refused with its place', async () => {
    const many = row(cell('x', 'table:number-columns-repeated="500"'), 'table:number-rows-repeated="190000"');
    for (const [rows, what] of [
      [row(cell('x'), 'table:number-rows-repeated="1000000"'), 'more than 200000 rows'],
      [row(cell('x', 'table:number-columns-repeated="9000"')), 'more than 512 columns'],
      [many, 'rows that repeat too often'],
    ] as const) {
      expect(await readSheetFile(ods(rows), 'x.ods')).toMatchObject({
        error: { type: 'too-large', what, where: 'Runs, row 1' },
      });
    }
  });

  it('that is locked, empty or broken is refused', async () => {
    const locked = { 'META-INF/manifest.xml': strToU8('<m:manifest xmlns:m="m"><m:encryption-data/></m:manifest>') };
    expect(await readSheetFile(ods(row(cell('a')), locked), 'x.ods')).toMatchObject({ error: { type: 'encrypted' } });
    expect(await readSheetFile(ods(''), 'x.ods')).toMatchObject({ error: { type: 'empty' } });
    expect(await readSheetFile(ods('<table:table-row>'), 'x.ods')).toMatchObject({ error: { type: 'damaged' } });
  });
});

describe('a table of a web page, whatever it is called', () => {
  it('is read: letters by name, lines, merged cells, no script', async () => {
    const page = `<html><head><meta charset="utf-8"><style>td{}</style><script>document.write('<table><tr><td>no')</script></head><body>
      <!-- <table><tr><td>no</td></tr></table> -->
      <table border=1><TR><TH>Cable<th>From<TH>To</TR>
      <tr><td>0101</td><td rowspan="2">SW1&nbsp;P1 &amp; P2</td><td>K&uuml;che<br>links</td></tr>
      <tr><td>0102</td><td>&#x42;&#252;ro</td></tr>
      <tr><td colspan=2>sum</td><td>2</td></tr></table></body></html>`;
    const [table, ...others] = await tablesOf(new TextEncoder().encode(page), 'export.xls');
    expect(others).toEqual([]);
    expect(table).toMatchObject({
      name: 'export',
      rows: [
        ['Cable', 'From', 'To'],
        ['0101', 'SW1 P1 & P2', 'Küche\nlinks'],
        ['0102', '', 'Büro'],
        ['sum', '', '2'],
      ],
      merged: [{ row: 2, column: 2, rows: 2 }],
    });
  });

  it('goes by the encoding that the page names, or by its letters', async () => {
    const page = (head: string) => `${head}<table><tr><td>Tür</td><td>Čápi</td></tr></table>`;
    const bytes = encodeText(page('<meta charset=windows-1250>'), 'Windows-1250')!;
    expect((await tablesOf(bytes, 'x.xls'))[0]?.rows).toEqual([['Tür', 'Čápi']]);
  });

  it('with a million open tags costs no more than its bytes', async () => {
    const before = process.cpuUsage().user;
    const bytes = new TextEncoder().encode(`<table>${'<td '.repeat(1_000_000)}`);
    expect((await readSheetFile(bytes, 'x.xls')).type).toBe('sheet-error');
    expect((process.cpuUsage().user - before) / 1000).toBeLessThan(8_000);
  });
});

describe('a sheet that is not read', () => {
  const text = (said: string) => new TextEncoder().encode(said);
  it.each<[string, Uint8Array, string]>([
    ['a PDF', text('%PDF-1.7'), 'copy its table'],
    ['a workbook of the old binary kind (.xls)', new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 1]), 'XLSX or CSV'],
    ['a workbook of the old binary kind (.xls)', new Uint8Array([0x09, 0x04, 0x06, 0, 0, 0, 0x10, 0]), 'XLSX or CSV'],
    [
      'a workbook as XML of 2003',
      text('<?xml version="1.0"?><Workbook xmlns="urn:schemas-example-com:office:spreadsheet"></Workbook>'),
      'XLSX or CSV',
    ],
    ['a sheet of the kind SYLK (.slk)', text('ID;PWXL;N;E\r\nC;X1;Y1;K"a"'), 'XLSX or CSV'],
    ['a sheet of the kind .numbers', zipSync({ 'Index/Document.iwa': strToU8('x') }), 'export it as XLSX'],
    ['a workbook of a binary kind (.xlsb)', zipSync({ 'xl/workbook.bin': strToU8('x') }), 'XLSX or CSV'],
    ['a web page in one file (.mht)', text('MIME-Version: 1.0\r\nContent-Type: multipart/related;'), 'XLSX or CSV'],
    ['a text document or slides', zipSync({ 'word/document.xml': strToU8('x') }), 'XLSX, ODS or CSV'],
  ])('%s is named, with the step that helps', async (what, bytes, step) => {
    const read = await readSheetFile(bytes, 'list.xls');
    if (read.type !== 'sheet-error') throw new Error('It was read.');
    const words = sheetErrorToWords('list.xls', read.error);
    expect(words.what).toContain(what);
    expect(words.nextStep).toContain(step);
  });
});
