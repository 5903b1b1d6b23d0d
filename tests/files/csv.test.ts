// CSV in and out. Quoting: RFC 4180. Encodings and habits of spreadsheets: common practice, from memory.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { guessDelimiter, quoteDittos, readCsv, textToRows } from '../../src/files/csv.ts';
import { cellToCsv, rowsToCsv, rowsToCsvBytes } from '../../src/files/csvOut.ts';
import { decodeText } from '../../src/files/encodings.ts';
import { CAPS } from '../../src/files/sheetError.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const rowsOf = (input: Uint8Array) => {
  const read = readCsv(input);
  if (read.type !== 'rows') throw new Error(read.error.what);
  return read.rows;
};

describe('encodings', () => {
  it('takes the byte order mark off the first header', () => {
    expect(rowsOf(bytes('\uFEFFCable;From\n1;A'))[0]).toEqual(['Cable', 'From']);
  });

  it('reads UTF-16 in both byte orders', () => {
    const little = new Uint8Array(Buffer.from('\uFEFFa,é', 'utf16le'));
    expect(decodeText(little)).toMatchObject({ text: 'a,é', encoding: 'UTF-16LE' });
    expect(decodeText(new Uint8Array(Buffer.from(little).swap16()))).toMatchObject({
      text: 'a,é',
      encoding: 'UTF-16BE',
    });
  });

  // Cyrillic letters have no zero in their upper byte; blanks and line ends have. A file may be cut within a pair.
  it('reads UTF-16 without a mark in any script', () => {
    const text = 'Кабель;Откуда\r\n1;Студия\r\n';
    const little = Buffer.from(text, 'utf16le');
    expect(decodeText(new Uint8Array(little))).toMatchObject({ text, encoding: 'UTF-16LE' });
    expect(decodeText(new Uint8Array(Buffer.from(little).swap16()))).toMatchObject({ text, encoding: 'UTF-16BE' });
  });

  it('reads a long file whose lines end with a return alone', () => {
    const rows = rowsOf(bytes(Array.from({ length: 4000 }, (_, i) => `${i};a;b;c;d;e;f;g;h;i`).join('\r')));
    expect([rows.length, rows[3999]?.[0]]).toEqual([4000, '3999']);
  });

  it('falls back to the Western code page when bytes are no UTF-8, and names it', () => {
    // Windows-1252: 0xE9 is é, 0x96 is an en dash.
    expect(decodeText(new Uint8Array([0x63, 0xe9, 0x96]))).toMatchObject({ text: 'cé–', encoding: 'Windows-1252' });
  });
});

describe('delimiters', () => {
  it.each([
    ['a;b;c\n1,5;2,5;3', ';'],
    ['a,b,c\n1,2,3', ','],
    ['a\tb\n1\t2', '\t'],
    ['Cable,"Type; jacket",To\n1,"x;y",B', ','],
  ])('guesses from %j', (text, delimiter) => {
    expect(guessDelimiter(text)).toBe(delimiter);
  });
});

describe('the lone quotation mark', () => {
  it('is a ditto, also twice in a row, where a parser would eat a quoted cell', () => {
    expect(textToRows('1004;same;P04;Enet PoE;";";in;\n1006;NET;";P02;";";1', ';')).toEqual([
      ['1004', 'same', 'P04', 'Enet PoE', '"', '"', 'in', ''],
      ['1006', 'NET', '"', 'P02', '"', '"', '1'],
    ]);
  });

  it('leaves cells that are really quoted alone', () => {
    const text = 'a;"b;c";"";"say ""x""";"two\nlines";";begins";d';
    expect(quoteDittos(text, ';')).toBe(text);
    expect(textToRows(text, ';')).toEqual([['a', 'b;c', '', 'say "x"', 'two\nlines', ';begins', 'd']]);
  });

  // What people type into notes. Common practice, no source.
  it('is no quote where nothing closes it, or words follow: no row is swallowed', () => {
    const text = '1;"says 19" rack;a\n2;"never closed;b\n3;"RED" plug;c\n4;""twice"";d\n5;"well closed" ;e\n"6;x;f';
    expect(textToRows(text, ';')).toEqual([
      ['1', '"says 19" rack', 'a'],
      ['2', '"never closed', 'b'],
      ['3', '"RED" plug', 'c'],
      ['4', '""twice""', 'd'],
      ['5', 'well closed', 'e'],
      ['"6', 'x', 'f'],
    ]);
  });

  it('is said where one cell holds what looks like rows', () => {
    const read = readCsv(bytes('a;b;c;d\n1;2;3;"open\n2;2;3;4\n3;2;3;shut"\n'));
    if (read.type !== 'rows') throw new Error('refused');
    expect(read.rows).toHaveLength(2);
    expect(read.notes).toEqual([
      {
        row: 2,
        column: 4,
        said: 'open',
        readAs: 'one cell of 3 lines; a quotation mark may be missing, and rows with it',
      },
    ]);
  });

  it('is found at the end of a line and of the file', () => {
    expect(textToRows('a,"\r\n",b\r\nc,"', ',')).toEqual([
      ['a', '"'],
      ['"', 'b'],
      ['c', '"'],
    ]);
  });
});

describe('files that are no sheet', () => {
  it.each([
    ['a PDF', bytes('%PDF-1.7'), 'printed'],
    ['a PNG picture', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0]), 'not-a-sheet'],
    ['no bytes', new Uint8Array(0), 'empty'],
    ['no text', bytes('\n  \n'), 'empty'],
    ['a workbook of the old binary kind (.xls)', new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1]), 'old-format'],
  ])('%s', (what, input, type) => {
    expect(readCsv(input)).toMatchObject({ type: 'sheet-error', error: { type, what } });
  });

  it('names a locked workbook as locked', () => {
    const locked = new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, ...Buffer.from('EncryptedPackage', 'utf16le')]);
    expect(readCsv(locked)).toMatchObject({ error: { type: 'encrypted' } });
  });

  it('names the line of bytes that are no text', () => {
    expect(readCsv(bytes('a,b\nc\0,d'))).toMatchObject({ error: { type: 'not-a-sheet', where: 'line 2' } });
  });

  it('stops at too many bytes, rows and columns', () => {
    expect(readCsv(new Uint8Array(CAPS.bytes + 1))).toMatchObject({ error: { type: 'too-large' } });
    expect(readCsv(bytes('a,b\n'.repeat(CAPS.rows + 1)))).toMatchObject({
      error: { type: 'too-large', what: '200001 rows' },
    });
    expect(readCsv(bytes(`a,b\n${'x,'.repeat(CAPS.columns)}x`))).toMatchObject({ error: { where: 'row 2' } });
  });
});

describe('writing', () => {
  it.each(['=1+1', '+48V', '-48V', '@SUM(A1)', '\tx', '\rx'])('makes %j harmless', (cell) => {
    expect(cellToCsv(cell).replace(/^"/, '').startsWith("'")).toBe(true);
  });

  it('gives every text back as it was, those that look like formulas and our own escape included', () => {
    const cell = fc.oneof(
      fc.string({ unit: 'grapheme' }).map((text) => text.replaceAll('\0', '')),
      fc.constantFrom('"', '""', ';', ',', "'", "'=x", "''+1", '-A', '+48', '@x', '=1', '\t', '\r\n', ' a '),
    );
    const rows = fc.array(fc.array(cell, { minLength: 2, maxLength: 5 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(rows, fc.constantFrom(',' as const, ';' as const, '\t' as const), (written, delimiter) => {
        expect(textToRows(rowsToCsv(written, delimiter), delimiter)).toEqual(written);
      }),
      { numRuns: 500 },
    );
  });

  it('begins with a byte order mark, which reading takes off', () => {
    const written = rowsToCsvBytes([
      ['Name', 'Größe'],
      ['a', 'b'],
    ]);
    expect([...written.slice(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
    expect(rowsOf(written)[0]).toEqual(['Name', 'Größe']);
  });
});

describe('line ends', () => {
  it('may be mixed: no row is swallowed and no return stays in a cell', () => {
    expect(textToRows('a,b\r\n1,2\n3,4\r5,6\r\n', ',')).toEqual([
      ['a', 'b'],
      ['1', '2'],
      ['3', '4'],
      ['5', '6'],
    ]);
    expect(textToRows('a,b\n1,"2\r\nstill 2"\r\n3,4', ',')).toEqual([
      ['a', 'b'],
      ['1', '2\r\nstill 2'],
      ['3', '4'],
    ]);
    expect(textToRows('19" rack,b\r\nc,5"\r\n', ',')).toEqual([
      ['19" rack', 'b'],
      ['c', '5"'],
    ]);
  });
});

describe('formulas that only keep a text', () => {
  // `="0101"` is how exports keep a spreadsheet from eating zeros: common practice, no source.
  it('are that text, told once per column', () => {
    const read = readCsv(bytes('Cable,From,To\n="0101",SW1,="01"\n"=""0102""",SW1,="02"\n'));
    expect(read).toMatchObject({
      rows: [
        ['Cable', 'From', 'To'],
        ['0101', 'SW1', '01'],
        ['0102', 'SW1', '02'],
      ],
      notes: [
        { row: 2, column: 1, said: '="0101"', readAs: '0101, the text that the formula keeps' },
        { row: 2, column: 3, said: '="01"' },
      ],
    });
  });

  it('and those that are more stay as they are', () => {
    expect(textToRows('=A1,="a"&"b",="1"+1\n', ',')).toEqual([['=A1', '="a"&"b"', '="1"+1']]);
  });
});
