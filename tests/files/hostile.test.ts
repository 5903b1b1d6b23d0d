// Files that mean harm, or that came out of an accident: each is refused with a sentence, or read without harm. Cells that
// spreadsheets would run: OWASP, CSV Injection (from memory). Archives: PKWARE APPNOTE. Everything here is invented.
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import writeWorkbook from 'write-excel-file/universal';
import { readTables } from '../../src/core/schedule/readTables.ts';
import { cellToCsv } from '../../src/files/csvOut.ts';
import { readSheetFile } from '../../src/files/sheet.ts';
import { CAPS, sheetErrorToWords } from '../../src/files/sheetError.ts';

const NAME = 'list.xlsx';
/** Processor time that no file here may cost; what else runs on the machine does not count. */
const MOST_MS = 8_000;

async function sentence(bytes: Uint8Array, name = NAME): Promise<string> {
  const before = process.cpuUsage();
  const read = await readSheetFile(bytes, name);
  const { user, system } = process.cpuUsage(before);
  expect((user + system) / 1000).toBeLessThan(MOST_MS);
  if (read.type === 'tables') return 'read';
  const { what, nextStep } = sheetErrorToWords(name, read.error);
  expect(nextStep.length).toBeGreaterThan(20);
  return `${what}${read.error.where === '' ? '' : ` ${read.error.where}`}`;
}

const HEAD = ['Cable', 'From', 'From Jack', 'To', 'To Jack', 'Notes'];
const bytesOf = (text: string) => new TextEncoder().encode(text);

/** A workbook of one sheet, out of the XML of its rows. */
function workbook(sheetXml: string, more: Record<string, Uint8Array> = {}, sheetName = 'Cables'): Uint8Array {
  const rel = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
  return zipSync({
    'xl/workbook.xml': strToU8(
      `<workbook xmlns:r="${rel}"><sheets><sheet name="${sheetName}" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    ),
    'xl/_rels/workbook.xml.rels': strToU8(
      '<Relationships><Relationship Id="rId1" Target="worksheets/sheet1.xml"/></Relationships>',
    ),
    'xl/worksheets/sheet1.xml': strToU8(sheetXml),
    ...more,
  });
}
const inline = (address: string, text: string) => `<c r="${address}" t="inlineStr"><is><t>${text}</t></is></c>`;
const sheetOf = (rows: string) => `<worksheet><sheetData>${rows}</sheetData></worksheet>`;
const headXml = `<row r="1">${HEAD.map((title, i) => inline(`${'ABCDEF'[i]}1`, title)).join('')}</row>`;

/** Makes the directory and the entries tell that each part is one byte long when unpacked. */
function lieAboutSizes(archive: Uint8Array): Uint8Array {
  const lying = archive.slice();
  const view = new DataView(lying.buffer);
  for (let at = 0; at + 46 < lying.length; at += 1) {
    if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, 1, true);
    if (view.getUint32(at, true) === 0x04034b50) view.setUint32(at + 22, 1, true);
  }
  return lying;
}

describe('archives that unpack to too much', () => {
  const bomb = workbook(sheetOf(''), { 'xl/sharedStrings.xml': new Uint8Array(60_000_000) });

  it('a part of zeros is given up at the cap, whatever the directory announces', async () => {
    expect(bomb.length).toBeLessThan(100_000);
    const most = bomb.length * CAPS.zipRatio + 1_000_000;
    const told = `${NAME}: the file is too large (more than ${most} bytes when unpacked). xl/sharedStrings.xml`;
    expect(await sentence(bomb)).toBe(told);
    expect(await sentence(lieAboutSizes(bomb))).toBe(told);
  });

  it('an archive in the archive is never opened', async () => {
    const nested = workbook(sheetOf(headXml), { 'xl/media/inner.zip': zipSync({ 'a.xml': bomb }), 'xl/b.bin': bomb });
    expect(await sentence(nested)).toBe('read');
  });

  it('too many entries are counted, not unpacked', async () => {
    const entries = Object.fromEntries(Array.from({ length: CAPS.zipEntries + 1 }, (_, i) => [`xl/${i}`, strToU8('')]));
    expect(await sentence(workbook(sheetOf(''), entries))).toBe(
      `${NAME}: the file is too large (${CAPS.zipEntries + 1} entries).`,
    );
  });
});

describe('sheets that are too large', () => {
  it('100 MB', async () => {
    const huge = new Uint8Array(100_000_000).fill(0x20);
    expect(await sentence(huge, 'huge.csv')).toBe('huge.csv: the file is too large (100000000 bytes).');
    huge.set([0x50, 0x4b, 0x03, 0x04]);
    expect(await sentence(huge)).toBe(`${NAME}: the file is too large (100000000 bytes).`);
  });

  it('a million rows, in text and in one cell far down', async () => {
    expect(await sentence(bytesOf('a,b\n'.repeat(1_000_000)), 'rows.csv')).toBe(
      `rows.csv: the file is too large (more than ${CAPS.rows} rows).`,
    );
    expect(await sentence(workbook(sheetOf(`<row r="1048576">${inline('A1048576', 'x')}</row>`)))).toBe(
      `${NAME}: the file is too large (more than ${CAPS.rows} rows). Cables, row 1048576`,
    );
  });

  it('a million columns, in text and in one cell far out', async () => {
    expect(await sentence(bytesOf(`Cable,From,To\n${','.repeat(1_000_000)}`), 'columns.csv')).toBe(
      `columns.csv: the file is too large (more than ${CAPS.columns} columns). row 2`,
    );
    expect(await sentence(workbook(sheetOf(`<row r="1">${inline('XFD1', 'x')}</row>`)))).toBe(
      `${NAME}: the file is too large (more than ${CAPS.columns} columns). Cables, row 1`,
    );
  });

  it('merges over the whole sheet fill no more rows than there are', async () => {
    const merges = '<mergeCell ref="A1:A1048576"/>'.repeat(20_000);
    const xml = `<worksheet><sheetData>${headXml}</sheetData><mergeCells>${merges}</mergeCells></worksheet>`;
    expect(await sentence(workbook(xml))).toBe('read');
  });
});

describe('cells that a spreadsheet would run', () => {
  const COMMAND = "=cmd|' /C calc'!A0";

  it('stay text in a plan and are made harmless on the way out', async () => {
    const csv = bytesOf(`${HEAD.join(',')}\n${COMMAND},R1 SW1,+P01,R2 SW2,-P02,@SUM(A1)`);
    const sheet = await readSheetFile(csv, 'x.csv');
    if (sheet.type !== 'tables') throw new Error(sheet.error.what);
    const read = readTables(sheet.tables, { name: 'x' });
    if (read.type !== 'plan') throw new Error(read.why);
    const [cable] = read.plan.cables;
    expect(cable).toMatchObject({ label: COMMAND, notes: '@SUM(A1)' });
    expect(cable?.ends.map(({ jack }) => jack)).toEqual(['+P01', '-P02']);
    for (const text of [COMMAND, '+P01', '-P02', '@SUM(A1)']) expect(cellToCsv(text)).toMatch(/^"?'/);
  });

  it('in a workbook are neither calculated nor fetched: only the last result is read', async () => {
    const cell = '<c r="A2" t="str"><f>WEBSERVICE("http://192.0.2.1/")</f><v>1001</v></c>';
    const empty = '<c r="F2"><f>HYPERLINK("http://192.0.2.1/")</f></c>';
    const row = `<row r="2">${cell}${inline('B2', 'A')}${inline('C2', 'O1')}${inline('D2', 'B')}${inline('E2', 'I1')}${empty}</row>`;
    const sheet = await readSheetFile(workbook(sheetOf(headXml + row)), NAME);
    if (sheet.type !== 'tables') throw new Error(sheet.error.what);
    expect(sheet.tables[0]?.rows[1]).toEqual(['1001', 'A', 'O1', 'B', 'I1']);
    expect(sheet.tables[0]?.notes).toEqual([
      {
        row: 2,
        column: 6,
        kind: 'file',
        said: '=HYPERLINK("http://192.0.2.1/")',
        readAs: 'a formula whose result is not in the file; left blank',
      },
    ]);
  });
});

describe('names that programs trip over', () => {
  const NAMES = ['__proto__', 'constructor', 'toString', 'hasOwnProperty'];

  it('as headers, sheets, units and numbers are names like any other', async () => {
    const lines = [
      [...HEAD, ...NAMES],
      ...NAMES.map((name) => [name, `R1 ${name}`, name, 'R1 SW1', `P-${name}`, 'x y', ...NAMES]),
    ];
    const rows = lines.map(
      (cells, r) =>
        `<row r="${r + 1}">${cells.map((text, c) => inline(`${'ABCDEFGHIJ'[c]}${r + 1}`, text)).join('')}</row>`,
    );
    const sheet = await readSheetFile(workbook(sheetOf(rows.join('')), {}, '__proto__'), '__proto__');
    if (sheet.type !== 'tables') throw new Error(sheet.error.what);
    const read = readTables(sheet.tables, { name: '__proto__' });
    if (read.type !== 'plan') throw new Error(read.why);
    expect(sheet.tables.map(({ name, rows: read }) => [name, read])).toEqual([['__proto__', lines]]);
    expect(read.plan.cables.map(({ label }) => label)).toEqual(NAMES);
    expect(read.plan.cables.map(({ ends }) => ends[0]?.unit)).toEqual(NAMES);
    expect(Object.keys(Object.prototype)).toEqual([]);
    expect(({} as Record<string, unknown>).label).toBeUndefined();
  });
});

describe('files that are something else', () => {
  const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13];

  it('a picture with the name of a list', async () => {
    expect(await sentence(new Uint8Array(PNG), 'list.csv')).toBe(
      'list.csv: this is not a spreadsheet (a PNG picture).',
    );
  });

  it('bytes of zero in a text', async () => {
    expect(await sentence(bytesOf('Cable,From,To\n1,A,B\n2,\0,B'), 'list.csv')).toBe(
      'list.csv: this is not a spreadsheet (bytes that are no text). line 3',
    );
  });

  it('a workbook cut off anywhere', async () => {
    const rows = Array.from({ length: 200 }, (_, i) => HEAD.map((title) => `${title} ${i} ${(i * 7919) % 1013}`));
    const whole = new Uint8Array(await (await writeWorkbook([{ sheet: 'A', data: rows }]).toBlob()).arrayBuffer());
    expect(await sentence(whole)).toBe('read');
    for (const share of [0.1, 0.5, 0.9, 0.999]) {
      expect(await sentence(whole.slice(0, Math.floor(whole.length * share)))).toBe(
        `${NAME}: the file is damaged (the archive cannot be opened).`,
      );
    }
  });

  it('a workbook whose packed bytes were hit', async () => {
    const rows = Array.from({ length: 200 }, (_, i) => HEAD.map((title) => `${title} ${i} ${(i * 7919) % 1013}`));
    const whole = new Uint8Array(await (await writeWorkbook([{ sheet: 'A', data: rows }]).toBlob()).arrayBuffer());
    for (let at = 200; at < whole.length; at += 997) {
      const hit = whole.slice();
      hit.fill(0xff, at, at + 30);
      expect(await sentence(hit)).toMatch(
        /^(read|list\.xlsx: (the file is (damaged|too large)|this is not a spreadsheet|the file is empty) \(.+\)\..*)$/,
      );
    }
  });
});

describe('XML that means harm', () => {
  it('elements nested hundreds of thousands deep', async () => {
    expect(await sentence(workbook(`<worksheet>${'<a>'.repeat(300_000)}`))).toBe(
      `${NAME}: the file is damaged (elements more than 64 deep). xl/worksheets/sheet1.xml`,
    );
  });

  it('an entity from outside, or one that grows', async () => {
    const outside = `<!DOCTYPE w [<!ENTITY e SYSTEM "file:///etc/hostname">]>${sheetOf(`<row r="1">${inline('A1', '&e;')}</row>`)}`;
    const growing = `<!DOCTYPE w [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>${sheetOf('')}`;
    for (const xml of [outside, growing]) {
      expect(await sentence(workbook(xml))).toBe(
        `${NAME}: the file is damaged (a document type, which no workbook has). xl/worksheets/sheet1.xml`,
      );
    }
    const undeclared = await readSheetFile(
      workbook(sheetOf(`<row r="1">${inline('A1', '&e; &amp; &#233;')}</row>`)),
      NAME,
    );
    expect(undeclared).toMatchObject({ tables: [{ rows: [['&e; & é']] }] });
  });

  it.each([
    ['a tag that never ends', `<worksheet><sheetData${' a="'.repeat(300_000)}`, 'a tag that does not end'],
    ['quotes full of ends', `<worksheet a="${'>'.repeat(900_000)}`, 'a tag that does not end'],
    ['an element that is not closed', '<worksheet><sheetData>', 'elements that are not closed'],
  ])('%s', async (_, xml, what) => {
    expect(await sentence(workbook(xml))).toBe(`${NAME}: the file is damaged (${what}). xl/worksheets/sheet1.xml`);
  });
});
