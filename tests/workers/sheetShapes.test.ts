// What a person is shown of a sheet before saying how it is to be taken: titles, examples, where the header may stand, and
// how many cells say the same. Invented sheets.
import { expect, test } from 'vitest';
import { columnsAs } from '../../src/core/schedule/columns.ts';
import type { ListKind } from '../../src/core/schedule/meanings.ts';
import { MEANINGS } from '../../src/core/schedule/meanings.ts';
import type { Table } from '../../src/core/schedule/rows/readTypes.ts';
import { NO_ANSWERS, withCell, withMapping } from '../../src/core/schedule/sheetAnswers.ts';
import { rowCells, tableToShape } from '../../src/workers/sheetShapes.ts';

const TABLE: Table = {
  name: 'Run list',
  firstRow: 3,
  rows: [
    ['RUN LIST', '', '', '', ''],
    ['Cable', 'From', 'From Jack', 'To', 'To Jack', '', 'Odd word'],
    ['1001', 'SW1', 'P01', 'CON30', 'NET'],
    ['1002', 'SW1', 'P02', 'CON31', 'NET'],
    ['1003', 'SW1', 'P03', 'CON32', 'NET', '', 'x'],
  ],
};

test('Every column with a title or a cell is shown with its meaning and the first texts that differ', () => {
  const shape = tableToShape(TABLE, NO_ANSWERS);
  expect(shape).toMatchObject({ sheet: 'Run list', kind: 'cables', headerRow: 4, rows: 3 });
  expect(shape.columns.map(({ column, title, meaning }) => [column, title, meaning])).toEqual([
    [1, 'Cable', 'number'],
    [2, 'From', 'from'],
    [3, 'From Jack', 'fromJack'],
    [4, 'To', 'to'],
    [5, 'To Jack', 'toJack'],
    [7, 'Odd word', null],
  ]);
  expect(shape.columns[1]?.samples).toEqual(['SW1']);
  expect(shape.columns[0]?.samples).toEqual(['1001', '1002', '1003']);
});

test('Rows that may hold the header are numbered as the spreadsheet numbers them', () => {
  expect(tableToShape(TABLE, NO_ANSWERS).first.slice(0, 2)).toEqual([
    { row: 3, text: 'RUN LIST' },
    { row: 4, text: 'Cable · From · From Jack · To · To Jack · Odd word' },
  ]);
});

test('A sheet that is said to be no list keeps its header row and has no meanings', () => {
  const answers = withMapping(NO_ANSWERS, 'Run list', { sheet: 'Run list', kind: null, headerRow: 4, columns: null });
  const shape = tableToShape(TABLE, answers);
  expect(shape).toMatchObject({ kind: null, headerRow: 4 });
  expect(shape.columns.every(({ meaning }) => meaning === null)).toBe(true);
});

test('A title said otherwise gives its column a meaning, and the sheet is still known by the title in the file', () => {
  const cell = { sheet: 'Run list', column: 7, row: 4, said: 'Odd word', as: 'typed' as const, text: 'Notes' };
  const answers = withCell(NO_ANSWERS, cell);
  const shape = tableToShape(TABLE, answers);
  expect(shape.columns.at(-1)).toMatchObject({ column: 7, title: 'Notes', meaning: 'notes' });
  expect(shape.key).toBe(tableToShape(TABLE, NO_ANSWERS).key);
});

test('The cells of a row come with the number of cells below the header that say the same', () => {
  expect(rowCells(TABLE, 6, NO_ANSWERS).slice(0, 2)).toEqual([
    { column: 1, title: 'Cable', text: '1002', same: 1 },
    { column: 2, title: 'From', text: 'SW1', same: 3 },
  ]);
  expect(rowCells(TABLE, 99, NO_ANSWERS).every(({ text }) => text === '')).toBe(true);
  expect(rowCells(null, 1, NO_ANSWERS)).toEqual([]);
});

/** Titles that the reader knows (common practice, no source), of each kind of list. */
const TITLES: Record<ListKind, string> = {
  cables:
    'Cable No|From|From Location|From Room|From Rack|From U|From Unit|From Jack|From Connector|To|To Location|To Room|To Rack|To U|To Unit|To Jack|To Connector|Signal|Circuit Name|Cable Type|Color|Length|L/R|Status|Notes|Via|Phantom|Gain|Mic Type|Source Name|Channel No',
  units:
    'Unit|Room|Rack|U|Height|Mounted|Jacks|Layout|Jack Face|Description|IP Address|Serial|MAC|Mask|Gateway|Host name|Firmware|Maker|Model|U (top)|Notes',
  jacks:
    'Unit|Room|Jack|Connector|Direction|Signal|Leg|Spare|Mult|Phantom|Gain|Mic|Source Name|Channel|Input no|Printed legend|Strip text|Row|Pair|Tip|Ring|Rear cable|Pair|Normalled to|Normal|Address|Long name|Multicast|Format|Pad|Mode|Logic port|Studios|Share|Fader|Backfeed|Subscribed|Notes',
  racks: 'Rack|Room|Height|Numbered from bottom',
  circuits: "Circuit|Main/standby|Carrier's number|Hops|Notes",
};

test.each(Object.entries(TITLES) as [ListKind, string][])(
  'Every meaning that the reader finds in a list of %s can be chosen by hand, in words of its own',
  (kind, titles) => {
    const offered = MEANINGS[kind].map(([meaning]) => meaning);
    const found = [...columnsAs(kind, titles.split('|')).keys()];
    expect(found.length).toBeGreaterThan(3);
    expect(found.filter((meaning) => !offered.includes(meaning))).toEqual([]);
    const words = MEANINGS[kind].map(([, text]) => text);
    expect(new Set(words).size).toBe(words.length);
  },
);
