// Sheets as stations keep them, against what a competent engineer reads in them: each odd cell alone. All examples are
// invented; the habits are common practice, no source.
import { describe, expect, it } from 'vitest';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';

const table = (name: string, ...lines: string[]): Table => ({
  name,
  rows: lines.map((line) => line.split(';')),
});

function read(...tables: Table[]) {
  const result = readTables(tables, { name: 'test' });
  if (result.type !== 'plan') throw new Error(result.why);
  const { used, blank, joined, skipped, rowsIn } = result.counts;
  expect(used + blank + joined + skipped).toBe(rowsIn);
  const told = (row: number, column: string | undefined, said: string, words: string) =>
    `${row} ${column ?? ''}: ${said} -> ${words}`;
  return {
    ...result,
    /** `label: room or rack, unit, jack > …` of each cable. */
    lines: result.plan.cables.map(({ label, ends }) => {
      const words = ends.map(({ location = '', unit, jack, place }) =>
        [location, unit, jack, place === null ? '(nowhere)' : ''].filter((word) => word !== '').join(' · '),
      );
      return `${label}: ${words.join(' > ')}`;
    }),
    guessed: result.guesses.map(({ row, column, said, readAs }) => told(row, column, said, readAs)),
    asked: result.questions.map(({ row, column, said, question }) => told(row, column, said, question)),
  };
}

const ONE = 'Cable;From;To';
const TWO = 'Cable;From;From Jack;To;To Jack';

describe('both ends in one cell each', () => {
  it.each([
    ['RACK1 U12 P03', 'RACK1 U12 · RACK1 U12 · P03'],
    ['RACK1/U12/P03', 'RACK1 U12 · RACK1 U12 · P03'],
    ['RACK1-U12-P03', 'RACK1 U12 · RACK1 U12 · P03'],
    ['RACK1, U14, OUT L', 'RACK1 U14 · RACK1 U14 · OUT L'],
    ['R2 U30 AIO21 I1', 'R2 U30 · AIO21 · I1'],
    ['R2 AIO21 OUT 1', 'R2 · AIO21 · OUT 1'],
    ['MIX OUT L/R', 'MIX · OUT L/R'],
    ['COD42 AES OUT', 'COD42 · AES OUT'],
    ['Studio 1 Desk MIC 1', 'Studio 1 · Desk · MIC 1'],
    ['Rack A DA3 7', 'Rack A · DA3 · 7'],
  ])('%s', (cell, end) => {
    const { lines, guessed } = read(table('S', ONE, `1;${cell};ZZZ 9`));
    expect(lines).toEqual([`1: ${end} > ZZZ · 9`]);
    expect(guessed.some((line) => line.startsWith(`2 From: ${cell} -> `))).toBe(true);
  });
});

describe('a unit whose name ends with a number', () => {
  it.each([
    ['Patch Panel 3', 'Patch Panel 3'],
    ['Mixer 1', 'Mixer 1'],
    ['STA MIC 1', 'STA · MIC 1'],
    ['R2 Main Mixer', 'R2 · Main Mixer'],
    ['Studio A', 'Studio A'],
    ['STA CON30', 'STA · CON30'],
  ])('%s is no unit called by its last word', (cell, end) => {
    expect(read(table('S', TWO, `1;${cell};5;ZZZ;9`)).lines).toEqual([`1: ${end} · 5 > ZZZ · 9`]);
  });
});

describe('a place in a rack without a name', () => {
  const TITLES = 'Cable;From Rack;From U;From Port;To Rack;To U;To Port';
  it('stands for the unit that the list has there', () => {
    const units = table('Gear', 'Rack;U;Size;Equipment ID', 'R1;40;2;SW1', 'R2;30;1;AIO1');
    const { lines, guessed } = read(table('S', TITLES, '1;R1;41;P1;R2;30;I1', '2;R1;41;P2;R2;30;I2'), units);
    expect(lines).toEqual(['1: R1 · SW1 · P1 > R2 · AIO1 · I1', '2: R1 · SW1 · P2 > R2 · AIO1 · I2']);
    expect(guessed.filter((line) => line.includes('the list of units has there'))).toEqual([
      '2 From U: 41 -> SW1, which the list of units has there',
      '2 To U: 30 -> AIO1, which the list of units has there',
    ]);
  });

  it('is a unit called by its place where no list says it', () => {
    const { lines, plan } = read(table('S', TITLES, '1;R1;U40;P1;R2;30;I1'));
    expect(lines).toEqual(['1: R1 · R1 U40 · P1 > R2 · R2 U30 · I1']);
    expect(plan.units.map(({ rack, u }) => [rack, u])).toEqual([
      ['R1', 40],
      ['R2', 30],
    ]);
  });
});

describe('legs and pairs', () => {
  it('of a multicore stay with their rows', () => {
    const { plan, guessed } = read(
      table('S', 'Cable;Pair;From;From Jack;To;To Jack', 'M7;1;A;X1;B;X1', 'M7;2;A;X2;B;X2'),
    );
    expect(plan.cables.map(({ notes }) => notes)).toEqual(['pair 1', 'pair 2']);
    expect(guessed).toContain('2 Pair: 1 -> pair 1, kept as a note');
  });

  it('in one cell are two ends', () => {
    expect(read(table('S', TWO, '1;CDP;OUT L/OUT R;MIX;IN 9/IN 10')).lines).toEqual([
      '1: CDP · OUT L > MIX · IN 9 > CDP · OUT R > MIX · IN 10',
    ]);
  });
});

it('a nickname is told at the column of the room', () => {
  const { guessed } = read(
    table(
      'S',
      'Cable;From Room;From Unit;From Jack;To Unit;To Jack',
      '1;Prod 2;M;1;R;1',
      '2;Studio C;M;2;R;2',
      '',
      'Prod 2 = Studio C',
    ),
  );
  expect(guessed).toContain('2 From Room: Prod 2 -> Studio C, as S, row 5 explains');
});

describe('several cables in one row', () => {
  it.each([
    [
      '1105-1108',
      'OUT5-8',
      '5-7',
      ['1105: A · OUT5 > B · 5-7 · (nowhere)'],
      '2 To Jack: 5-7 -> Which 4 jacks does this end go to?',
    ],
    ['1140/1141', 'OUT28/OUT29', '28/29', ['1140: A · OUT28 > B · 28', '1141: A · OUT29 > B · 29'], null],
    ['2110/11', '10/11', '10/11', ['2110: A · 10 > B · 10', '2111: A · 11 > B · 11'], null],
    ['2105 & 2106', 'OUT 5/6', 'IN 5/6', ['2105: A · OUT 5 > B · IN 5', '2106: A · OUT 6 > B · IN 6'], null],
    ['2112 / 2113', 'OUT L/R', 'IN L/R', ['2112: A · OUT L > B · IN L', '2113: A · OUT R > B · IN R'], null],
    ['1201-03', 'J1-J3', '1-3', ['1201: A · J1 > B · 1', '1202: A · J2 > B · 2'], null],
    ['1-002', 'J1', '2', ['1-002: A · J1 > B · 2'], null],
    [
      '1130-1125',
      '30-25',
      '30-25',
      ['1130-1125: A · 30-25 > B · 30-25'],
      '2 Cable: 1130-1125 -> Is this one number, or 6 cables counted downwards?',
    ],
    [
      '10-12',
      'J1',
      '1',
      ['10-12: A · J1 > B · 1'],
      '2 Cable: 10-12 -> Is this one number, or 3 cables? The jacks do not say.',
    ],
  ])('%s from %s to %s', (number, from, to, first, question) => {
    const { lines, asked } = read(table('S', TWO, `${number};A;${from};B;${to}`));
    expect(lines.slice(0, first.length)).toEqual(first);
    expect(asked).toEqual(question === null ? [] : [question]);
  });

  it('are not asked about on a sheet whose numbers have a dash: that is said once', () => {
    const numbers = ['4-1', '4-2', '4-3', '4-5', '4-6', '2-9'];
    const { lines, asked, guessed } = read(table('S', TWO, ...numbers.map((number, i) => `${number};A;J${i};B;${i}`)));
    expect(lines.map((line) => line.split(':')[0])).toEqual(numbers);
    expect(asked).toEqual([]);
    expect(guessed.filter((line) => line.includes('dash'))).toEqual([
      '5 Cable: 4-5 -> one number; others on this sheet have a dash and are no range',
    ]);
  });

  it('under one number are one place, and said so', () => {
    const { guessed } = read(table('S', TWO, '1;A;OUT 5/6;B;1/24'));
    expect(guessed).toEqual(['2 From Jack: OUT 5/6 -> one end at OUT 5/6, since there is one number']);
  });
});

describe('words in place of a name', () => {
  it.each([
    ['???;A;1;B;2', '2 Cable: ??? -> Which number is on this cable?'],
    ['#N/A;A;1;B;2', '2 Cable: #N/A -> Which number is on this cable?'],
    ['510 ?;A;1;B;2', '2 Cable: 510 ? -> Is 510 the number of this cable?'],
    ['7;A;1;see dwg 14;2', '2 To: see dwg 14 -> Where does this end go?'],
    ['7;A;1;same as 601;2', '2 To: same as 601 -> Where does this end go?'],
  ])('%s', (row, question) => {
    expect(read(table('S', TWO, row)).asked).toEqual([question]);
  });

  it.each([
    [
      '7;A;Reserved for studio 4;B;2',
      '7: A · (nowhere) > B · 2',
      '2 From Jack: Reserved for studio 4 -> nothing is connected here; the words are kept as a note',
    ],
    ['7;A;15 - left side;B;2', '7: A · 15 > B · 2', '2 From Jack: 15 - left side -> 15, with the note left side'],
    [
      '03. Apr;A;1;B;2',
      '03. Apr: A · 1 > B · 2',
      '2 Cable: 03. Apr -> 03. Apr; a spreadsheet may have made a date of a number',
    ],
    [
      'Mai 04;A;1;B;2',
      'Mai 04: A · 1 > B · 2',
      '2 Cable: Mai 04 -> Mai 04; a spreadsheet may have made a date of a number',
    ],
    [
      '7;A;03.04.2019;B;2',
      '7: A · 03.04.2019 > B · 2',
      '2 From Jack: 03.04.2019 -> 03.04.2019; a spreadsheet may have made a date of a name',
    ],
    ['7;MI\u200bX;1;B;2', '7: MIX · 1 > B · 2', '2 From: MI\u200bX -> MIX, without a sign that nobody can see'],
  ])('%s is kept as what it is', (row, line, guess) => {
    const { lines, guessed } = read(table('S', TWO, row));
    expect(lines).toEqual([line]);
    expect(guessed).toContain(guess);
  });

  it.each(['s.o.', 'wie oben', '↓', '|', '""', '″', 'dto'])('%s repeats the cell above', (sign) => {
    expect(read(table('S', TWO, '1;A;1;B;2', `2;${sign};3;B;4`)).lines[1]).toBe('2: A · 3 > B · 4');
  });
});

describe('a cable that is listed twice', () => {
  it('keeps what only one of its rows says, and asks where they differ', () => {
    const rows = ['701;ALF;1;BET;1;10;;', '701;BET;1;ALF;1;12;110R;behind the panel'];
    const { plan, asked, guessed } = read(table('S', `${TWO};Length;Type;Notes`, ...rows));
    expect(plan.cables.map(({ type, notes, length }) => [type, notes, length])).toEqual([
      ['110R', 'behind the panel', '10'],
    ]);
    expect(asked).toEqual(['3 : 12 -> Row 2 has the length 10. Which is right?']);
    expect(guessed).toContain('3 : 701, also in row 2 -> the same cable seen from its other end');
  });
});

describe('rows that are no cables', () => {
  it.each([
    ['Prepared by: TK;;Checked: MR', 'words about the list, not an item'],
    ['Page 1 of 2;;Rev C', 'words about the list, not an item'],
    ['CTR;=;Central', 'a nickname, not an item'],
    ['Summe;;;;45', 'a sum, not an item'],
  ])('%s', (row, why) => {
    const { lines, guessed } = read(table('S', TWO, '1;A;1;B;2', row));
    expect(lines).toHaveLength(1);
    expect(guessed).toContain(`3 : ${row.split(';')[0]} -> ${why}`);
  });

  it('stand below a title until a blank line', () => {
    const { lines } = read(table('S', TWO, '1;A;1;B;2', 'Rev history', 'A;first issue;TK', '', '2;A;3;B;4'));
    expect(lines).toEqual(['1: A · 1 > B · 2', '2: A · 3 > B · 4']);
  });
});

describe('columns', () => {
  it('of one row per jack give cables where only the far end is called so', () => {
    const { lines } = read(
      table('S', 'Panel;Jack;Cable;Far End;Far End Jack', 'PB7;1;3101;AMX1;O1', ';2;3102;AMX1;O2'),
    );
    expect(lines).toEqual(['3101: PB7 · 1 > AMX1 · O1', '3102: PB7 · 2 > AMX1 · O2']);
  });

  it('for the jack and for the plug may both be called Conn', () => {
    const { plan } = read(
      table('S', 'Cable;From Equip;From Conn;To Equip;To Conn;Conn A;Conn B', '1;A;OUT 1;B;IN 1;XF;XM'),
    );
    expect(plan.cables[0]?.ends.map(({ jack, connector }) => [jack, connector])).toEqual([
      ['OUT 1', 'XF'],
      ['IN 1', 'XM'],
    ]);
  });

  it('of lengths ask where a figure is no length', () => {
    expect(read(table('S', `${TWO};Len (ft)`, '1;A;1;B;2;25-30', `2;A;3;B;4;22' 6"`)).asked).toEqual([
      '2 Len (ft): 25-30 -> How long is this?',
    ]);
  });
});

describe('files that hold no schedule say why', () => {
  const why = (...lines: string[]) => {
    const result = readTables([table('S', ...lines)], { name: 'test' });
    if (result.type === 'plan') throw new Error('read');
    return `${result.why} ${result.nextStep}`;
  };
  it('with titles and nothing below', () => {
    expect(why('', TWO)).toMatch(/^Row 2 of S names the columns of a list, but no row below it/);
  });
  it('with the titles below each other', () => {
    expect(why('Cable;1001;1002', 'From;MX;MX', 'From Jack;1;2', 'To;DA;DA', 'To Jack;1;2')).toMatch(
      /^The column names run downwards in S/,
    );
  });
  it('with sources above destinations', () => {
    expect(why('Src\\Dst;DA1;DA2', 'MX O1;X;', 'MX O2;;X')).toMatch(/^No row within the first 20 of S/);
  });
});

describe('a column called Type', () => {
  const cells = (...types: string[]) =>
    read(table('S', `${TWO};Type`, ...types.map((type, i) => `${i + 1};A;${i + 1};B;${i + 1};${type}`)));

  it('holds the signal where its cells name signals, and that is told as one guess', () => {
    const { plan, guessed } = cells('Mic', 'AES', 'Line', 'GPIO');
    expect(plan.cables.map(({ signal }) => signal)).toEqual(['microphone', 'aes3', 'line-audio', 'closure']);
    expect(plan.cables.map(({ type }) => type)).toEqual([undefined, undefined, undefined, undefined]);
    expect(guessed).toContain('1 Type: Type -> signal of the cable, since its cells name signals');
  });

  it.each([
    [['Cat6', 'Cat6', 'Cat5e', 'Cat6A']],
    [['audio pair', '8 pair audio', 'mic multicore', 'audio quad']],
    [['110R AES', '75R coax', '110R AES', 'RG59']],
    // Too few to tell.
    [['Mic', 'Line']],
    // As many that name none.
    [['Mic', 'Line', 'AES', 'black', 'thick', 'grey']],
  ])('holds the type of cable where they name cables: %s', (types) => {
    const { plan, guessed } = cells(...types);
    expect(plan.cables.map(({ type }) => type)).toEqual(types);
    expect(guessed.filter((line) => line.includes('its cells name signals'))).toEqual([]);
  });

  it('stays the type of cable beside a column of signals', () => {
    const { plan } = read(
      table(
        'S',
        `${TWO};Signal;Type`,
        ...['Mic', 'Line', 'AES'].map((word, i) => `${i};A;${i};B;${i};network;${word}`),
      ),
    );
    expect(plan.cables.map(({ type, signal }) => `${type} ${signal}`)).toEqual([
      'Mic network',
      'Line network',
      'AES network',
    ]);
  });
});
