// What a workbook shows beside its texts: struck through, filled, commented, hidden. Elements and their meaning: ECMA-376
// part 1, whose section stands beside each check. The workbooks are invented.
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { commentsPart, readComments, readStyleMarks } from '../../src/files/shown/xlsxMarks.ts';
import type { StruckText } from '../../src/files/shown/xlsxRuns.ts';
import { readXlsx } from '../../src/files/xlsx.ts';
import { readSharedStrings } from '../../src/files/xlsxParts.ts';
import { toBook } from './sheets/book.ts';

const HEAD = ['Cable', 'From', 'From Jack', 'To', 'To Jack'];
const ROWS = [
  ['1', 'SW1', 'P01', 'SW2', 'P01'],
  ['2', 'SW1', 'P02', 'SW2', 'P02 P09'],
];

async function tableOf(bytes: Uint8Array) {
  const read = await readXlsx(bytes);
  if (read.type !== 'tables') throw new Error(read.error.what);
  return read.tables[0]!;
}

describe('styles', () => {
  const styles = (fonts: string, fills: string, xfs: string) =>
    `<styleSheet><fonts>${fonts}</fonts><fills>${fills}</fills><cellStyleXfs><xf fontId="1"/></cellStyleXfs>` +
    `<cellXfs>${xfs}</cellXfs><dxfs><dxf><font><strike/></font><fill><patternFill/></fill></dxf></dxfs></styleSheet>`;
  const solid = (colour: string) => `<fill><patternFill patternType="solid"><fgColor ${colour}/></patternFill></fill>`;

  // strike: 18.4.10, a CT_BooleanProperty whose val is true where it is absent.
  it('strike through by the font that they name', () => {
    const fonts = '<font/><font><strike/></font><font><strike val="0"/></font><font><strike val="true"/></font>';
    const xfs = [0, 1, 2, 3].map((font) => `<xf fontId="${font}"/>`).join('');
    expect(readStyleMarks(styles(fonts, '', xfs)).map(({ struck }) => struck)).toEqual([false, true, false, true]);
  });

  // patternFill: 18.8.32; fgColor: 18.8.19; indexed colours: 18.8.27.
  it('fill by the fill that they name; white, the system and other patterns are none', () => {
    const fills = [
      '<fill><patternFill patternType="none"/></fill>',
      '<fill><patternFill patternType="gray125"><fgColor rgb="FFFF0000"/></patternFill></fill>',
      solid('rgb="FFFF9999"'),
      solid('rgb="ffffffff"'),
      solid('theme="5" tint="0.3999"'),
      solid('theme="0"'),
      solid('indexed="13"'),
      solid('indexed="64"'),
    ].join('');
    const xfs = Array.from({ length: 8 }, (_, fill) => `<xf fillId="${fill}"/>`).join('');
    const read = readStyleMarks(styles('', fills, xfs)).map(({ fill }) => fill);
    expect(read).toEqual(['', '', 'FF9999', '', 'theme 5 0.4', '', 'colour 13', '']);
  });
});

describe('texts', () => {
  // r: 18.4.4; rPr: 18.4.7; rPh: 18.4.6.
  it('of which a run is struck through say which part', () => {
    const struck = new Map<number, StruckText>();
    const xml =
      '<sst><si><t>plain</t></si><si><r><rPr><strike/></rPr><t>IN 2 </t></r><r><t>IN 7</t></r><rPh><t>spoken</t></rPh></si>' +
      '<si><r><rPr><strike val="0"/></rPr><t>kept</t></r></si></sst>';
    expect(readSharedStrings(xml, struck)).toEqual(['plain', 'IN 2 IN 7', 'kept']);
    expect([...struck]).toEqual([[1, { kept: 'IN 7', struck: 'IN 2 ' }]]);
  });

  it('struck in part are read without that part, which is told; struck as a whole they are a mark', async () => {
    const looks = { struck: [{ at: 'E3', words: 'P02 ' }, { at: 'D2', words: 'SW2' }, { at: 'B2' }] };
    const table = await tableOf(toBook([{ name: 'A', cells: [HEAD, ...ROWS], looks }]));
    expect(table.rows[2]?.[4]).toBe('P09');
    expect(table.rows[1]?.[3]).toBe('SW2');
    expect(table.notes).toEqual([
      {
        row: 3,
        column: 5,
        kind: 'struck',
        said: 'P02 P09',
        readAs: 'P09, without P02, which is struck through',
      },
    ]);
    expect(table.shown).toEqual([
      { type: 'struck', row: 2, column: 2, to: 2, said: '' },
      { type: 'struck', row: 2, column: 4, to: 4, said: '' },
    ]);
  });
});

describe('cells', () => {
  it('that look alike side by side are one mark', async () => {
    const looks = { struckRows: [2], fills: { 3: 'FF9999' }, cellFills: { C3: 'AAFFAA' }, hiddenRows: [3] };
    const table = await tableOf(toBook([{ name: 'A', cells: [HEAD, ...ROWS], looks }]));
    expect(table.shown).toEqual([
      { type: 'struck', row: 2, column: 1, to: 5, said: '' },
      { type: 'hidden', row: 3, column: 0, to: 0, said: '' },
      { type: 'fill', row: 3, column: 1, to: 2, said: 'FF9999' },
      { type: 'fill', row: 3, column: 3, to: 3, said: 'AAFFAA' },
      { type: 'fill', row: 3, column: 4, to: 5, said: 'FF9999' },
    ]);
  });

  it('of a sheet that shows nothing beside its texts bear no marks', async () => {
    expect(await tableOf(toBook([{ name: 'A', cells: [HEAD, ...ROWS] }]))).not.toHaveProperty('shown');
  });
});

describe('comments', () => {
  // comment: 18.7.3; the part that holds them: 12.3.3.
  it('are read with their cell, runs joined, from the part that the sheet names', async () => {
    const xml =
      '<comments><commentList><comment ref="B3"><text><r><t>removed </t></r><r><t>3 May</t></r></text></comment></commentList></comments>';
    expect(readComments(xml)).toEqual([{ row: 3, column: 2, text: 'removed 3 May' }]);
    const type = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/comments';
    const named = (target: string) =>
      `<Relationships><Relationship Type="${type}" Target="${target}"/></Relationships>`;
    expect(commentsPart(named('../comments1.xml'))).toBe('xl/comments1.xml');
    expect(commentsPart(named('/xl/comments/comment1.xml'))).toBe('xl/comments/comment1.xml');
    const book = toBook([{ name: 'A', cells: [HEAD, ...ROWS], looks: { comments: { A2: 'ask first' } } }]);
    expect((await tableOf(book)).shown).toEqual([{ type: 'comment', row: 2, column: 1, to: 1, said: 'ask first' }]);
  });
});

describe('hostile workbooks', () => {
  const sheetWith = (rows: string) => {
    const parts = unzipSync(toBook([{ name: 'A', cells: [HEAD, ...ROWS], looks: { fills: { 2: 'FF0000' } } }]));
    const part = 'xl/worksheets/sheet1.xml';
    const xml = strFromU8(parts[part]!).replace(/<sheetData>.*<\/sheetData>/s, `<sheetData>${rows}</sheetData>`);
    return zipSync({ ...parts, [part]: strToU8(xml) });
  };

  it('with marks beyond the caps keep those within', async () => {
    const blank =
      '<row r="2"><c r="A2" s="1"/></row><row r="900000"><c r="A900000" s="1"/><c r="ZZZ900001" s="1"/></row>';
    const read = await readXlsx(
      sheetWith(`<row r="1"><c r="A1" t="inlineStr"><is><t>Cable</t></is></c></row>${blank}`),
    );
    expect(read).toMatchObject({ tables: [{ shown: [{ type: 'fill', row: 2, column: 1, to: 1, said: 'FF0000' }] }] });
  });

  it('with a comment on no cell, or thousands on one, are read all the same', () => {
    const many = '<comment ref="A1"><text><t>x</t></text></comment>'.repeat(5_000);
    expect(readComments(`<comments><comment ref="?"><t>y</t></comment>${many}</comments>`)).toHaveLength(5_000);
  });
});
