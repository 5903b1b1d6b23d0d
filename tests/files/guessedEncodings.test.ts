// Encodings told by the letters that come out. Bytes of each letter: WHATWG Encoding Standard, indexes windows-1250,
// windows-1251, windows-1252 and macintosh. Words: everyday ones of each language, from memory; lists invented.
import { describe, expect, it } from 'vitest';
import { readCsv } from '../../src/files/csv.ts';
import { decodeText, type Encoding, encodeText } from '../../src/files/encodings.ts';
import { readSheetFile } from '../../src/files/sheet.ts';

const LISTS: [string, Encoding, string][] = [
  ['German', 'Windows-1252', 'Nr;Von;Nach;Länge\n1;Küche;Büro;5\n2;Tür außen;Höhenregal;7\n'],
  ['French', 'Windows-1252', 'N°;Départ;Arrivée\n1;régie;même étage\n2;antenne;fenêtre à côté\n'],
  ['Danish', 'Windows-1252', 'Nr;Fra;Til\n1;køkken;højttaler på væg\n2;dør;indgang\n'],
  ['Polish', 'Windows-1250', 'Nr;Źródło;Cel;Długość\n1;głośnik;wzmacniacz główny;5\n2;wejście;półka środkowa;7\n'],
  ['Czech', 'Windows-1250', 'Číslo;Zdroj;Cíl\n1;rozvaděč;střecha věže\n2;zesilovač;skříň u dveří\n'],
  ['Hungarian', 'Windows-1250', 'Sorszám;Honnan;Hová\n1;erősítő;fűtött műhely\n2;tető;első állvány\n'],
  ['Russian', 'Windows-1251', 'Номер;Откуда;Куда\n1;усилитель;стойка 2\n2;пульт;крыша\n'],
  ['German of an old Macintosh', 'Macintosh', 'Nr;Von;Nach;Länge\n1;Küche;Büro;5\n2;Tür außen;Höhenregal;7\n'],
  ['French of an old Macintosh', 'Macintosh', 'N°;Départ;Arrivée\n1;régie;même étage\n2;antenne;fenêtre à côté\n'],
];

describe('an encoding that nothing tells', () => {
  it.each(LISTS)('is guessed by its letters: %s', (_, encoding, text) => {
    const bytes = encodeText(text, encoding)!;
    expect(decodeText(bytes)).toEqual({ text, encoding, mark: 0, bad: 0 });
  });

  it('stays UTF-8 with one bad byte, which is read as an old one has it and told', () => {
    const whole = new TextEncoder().encode('Nr;Von;Nach\n1;Küche;Büro\n2;Tür;Höhe\n3;T#r;Keller\n');
    const bytes = whole.map((byte) => (byte === 0x23 ? 0xfc : byte));
    const read = readCsv(bytes);
    expect(read).toMatchObject({ type: 'rows', encoding: 'UTF-8', notes: [{ row: 1, said: '1 byte' }] });
    if (read.type === 'rows') expect(read.rows.map((row) => row[1])).toEqual(['Von', 'Küche', 'Tür', 'Tür']);
  });

  it('is UTF-8 where there is nothing to guess by', () => {
    expect(decodeText(new TextEncoder().encode('Nr,From\n1,SW1 P1\n')).encoding).toBe('UTF-8');
  });

  it('gives way to what a person chooses', async () => {
    const bytes = encodeText('Nr;Von\n1;Żuków\n', 'Windows-1250')!;
    const read = await readSheetFile(bytes, 'x.csv', undefined, 'Windows-1252');
    expect(read).toMatchObject({
      tables: [
        {
          rows: [
            ['Nr', 'Von'],
            ['1', '¯uków'],
          ],
        },
      ],
      text: { encoding: 'Windows-1252' },
    });
  });

  it.each(LISTS)('has a byte for each letter that it reads: %s', (_, encoding) => {
    const bytes = Uint8Array.from({ length: 256 }, (_, i) => i);
    const { text } = decodeText(bytes, encoding);
    expect(encodeText(text, encoding)).toEqual(bytes);
    expect(encodeText('漢', encoding)).toBeNull();
  });
});
