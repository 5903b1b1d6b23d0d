// A text file given back: only the bytes of amended cells are other ones. Quoting: RFC 4180. What a spreadsheet makes of
// a cell when it opens such a file is common practice, no source. Invented data.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';
import { amendCsv, spoiledCells } from '../../../src/files/back/csv.ts';
import { readCsv } from '../../../src/files/csv.ts';
import { type Encoding, encodeText } from '../../../src/files/encodings.ts';

const encode = (text: string, encoding: Encoding = 'UTF-8') => encodeText(text, encoding)!;
const joined = (...parts: Uint8Array[]) => new Uint8Array(Buffer.concat(parts));

function tableOf(bytes: Uint8Array): Table {
  const read = readCsv(bytes);
  if (read.type !== 'rows') throw new Error(read.error.what);
  return { name: 'Runs', rows: read.rows };
}

/** The file with cells set, by row and column from 0. */
function amended(bytes: Uint8Array, ...cells: [number, number, string][]): Uint8Array {
  const source = tableOf(bytes);
  const rows = source.rows.map((row) => [...row]);
  for (const [row, column, text] of cells) {
    while (rows.length <= row) rows.push([]);
    while (rows[row]!.length <= column) rows[row]!.push('');
    rows[row]![column] = text;
  }
  const out = amendCsv(bytes, source, { name: 'Runs', rows });
  if (out.type !== 'amended') throw new Error(out.why);
  return out.bytes;
}

const text = (bytes: Uint8Array) => Buffer.from(bytes).toString('utf8');

describe('a text file given back', () => {
  it('keeps its delimiter, quotation marks and line ends', () => {
    const file = 'Nr;From;To\r\n"0101";"SW1; P1" ;CON1\n0102;SW1 P2;"a ""b"""\r';
    expect(text(amended(encode(file), [1, 2, 'CON9']))).toBe(file.replace('CON1', 'CON9'));
    expect(text(amended(encode(file), [1, 1, 'SW2 P1']))).toBe(file.replace('"SW1; P1" ', '"SW2 P1"'));
    expect(text(amended(encode(file), [2, 0, '0103']))).toBe(file.replace('0102', '0103'));
  });

  it('has new cells and rows the way the file has them, with or without an end of its last line', () => {
    expect(text(amended(encode('a,b\n1,2\n'), [2, 0, '3'], [2, 1, '4']))).toBe('a,b\n1,2\n3,4\n');
    expect(text(amended(encode('a,b\r\n1,2'), [2, 0, '3'], [2, 1, '4']))).toBe('a,b\r\n1,2\r\n3,4');
    expect(text(amended(encode('"a"\t"b"\n"1"\t"2"\n'), [1, 2, 'To: was 1']))).toBe(
      '"a"\t"b"\n"1"\t"2"\t"To: was 1"\n',
    );
  });

  it('keeps `sep=` in front and the mark of its encoding', () => {
    const file = '\uFEFFsep=;\r\nNr;To\r\n1;a\r\n';
    expect(text(amended(encode(file), [2, 1, 'b']))).toBe(file.replace('1;a', '1;b'));
  });

  it.each<[Encoding, string]>([
    ['Windows-1252', 'Nr;Ziel;Länge\r\n1;Tür rechts;5\r\n2;Küche;6\r\n'],
    ['UTF-16LE', '\uFEFFNr;Ziel\r\n1;Tür rechts\r\n'],
    ['UTF-16BE', '\uFEFFNr;Ziel\r\n1;Tür rechts\r\n'],
  ])('keeps %s', (encoding, file) => {
    const back = amended(encode(file, encoding), [1, 1, 'Büro']);
    expect(Buffer.compare(back, encode(file.replace('Tür rechts', 'Büro'), encoding))).toBe(0);
  });

  it('keeps a byte that is none of UTF-8 as it was', () => {
    const file = joined(encode('Nr,Raum\n1,Küche\n2,Bücher\n3,Höhe\n4,T'), new Uint8Array([0xfc]), encode('r\n5,x\n'));
    const back = amended(file, [5, 1, 'Öl']);
    expect(back).toEqual(joined(file.subarray(0, file.length - 2), encode('Öl\n')));
  });

  it('keeps an encoding that a person chose', () => {
    const file = encode('Nr;Cíl\n1;Dvůr\n', 'Windows-1250');
    const source: Table = {
      name: 'Runs',
      rows: [
        ['Nr', 'Cíl'],
        ['1', 'Dvůr'],
      ],
    };
    const out = amendCsv(
      file,
      source,
      {
        name: 'Runs',
        rows: [
          ['Nr', 'Cíl'],
          ['1', 'Věž'],
        ],
      },
      'Windows-1250',
    );
    expect(out).toEqual({ type: 'amended', bytes: encode('Nr;Cíl\n1;Věž\n', 'Windows-1250') });
  });

  it('comes back in UTF-8 where its encoding has no place for a letter', () => {
    const file = encode('Nr;Ziel\r\n1;Tür\r\n', 'Windows-1252');
    expect(text(amended(file, [1, 1, 'Łódź']))).toBe('\uFEFFNr;Ziel\r\n1;Łódź\r\n');
  });

  it('changes no other byte, whatever its cells hold', () => {
    const cell = fc.oneof(
      fc.constantFrom('"', '0101', 'a;b', 'x y', '', '=1', "'=1", 'é'),
      // Behind a quotation mark these would look like the end of a ditto's cell; no sheet has them.
      fc.string({ maxLength: 4 }).filter((said) => !/^[,;\t\r\n]/.test(said)),
    );
    fc.assert(
      fc.property(
        fc.array(fc.tuple(cell, cell, cell), { minLength: 2, maxLength: 6 }),
        fc.constantFrom(',', ';', '\t'),
        fc.constantFrom('\n', '\r\n'),
        fc.nat(5),
        (rows, delimiter, end, at) => {
          const quoted = (said: string) => `"${said.replaceAll('"', '""')}"`;
          const lines = [['Nr', 'From', 'To'], ...rows].map((row) => row.map(quoted).join(delimiter) + end);
          const bytes = encode(lines.join(''));
          const row = (at % rows.length) + 1;
          const back = amended(bytes, [row, 1, 'SW9']);
          const same = lines.map((line, i) =>
            i === row
              ? [rows[i - 1]![0], 'SW9', rows[i - 1]![2]].map((one) => quoted(one!)).join(delimiter) + end
              : line,
          );
          expect(text(back)).toBe(same.join(''));
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('what a spreadsheet makes of a text file', () => {
  it('is told by the cells that it would change, each text once', () => {
    const rows = [
      ['Cable', 'From', 'To', 'Length'],
      ['0101', '1E5', '1/2', '12'],
      ['0101', 'P01', '3-4', '12.5'],
      ['A-01', '1.2.26', 'MAR1', '0'],
    ];
    expect(spoiledCells([{ name: 'Runs', rows }])).toEqual({
      n: 7,
      first: [
        { text: '0101', row: 2 },
        { text: '1E5', row: 2 },
        { text: '1/2', row: 2 },
      ],
    });
    expect(spoiledCells([{ name: 'Runs', rows: [['1001', 'SW1 P1', '12', '1.5', 'B3-4', '10/100 port']] }]).n).toBe(0);
  });
});
