// Habits that live in a workbook: merged cells, numbers and dates made out of names, a sheet for each rack. Common
// practice, no published source.
import type { SheetData } from 'write-excel-file/universal';
import type { Habit, Hidden } from './habits.ts';
import { SHEET } from './habits.ts';
import { tidyToShape } from './tidy.ts';
import { at, COLUMNS, toCells, toRows, toXlsx } from './write.ts';

/** The unit and its place are merged over its rows. */
export const mergedCells: Habit = async (tidy) => {
  const cables = [...tidy.cables].sort((a, b) => a.from.unit.label.localeCompare(b.from.unit.label));
  const rows = toRows({ cables });
  const hidden: Hidden[] = [];
  const data: SheetData = rows.map((cells, r) =>
    cells.map((text, c) => {
      if (r === 0 || (c !== at('From Unit') && c !== at('From Loc'))) return text;
      const unit = (row: number) => rows[row]?.[at('From Unit')];
      if (unit(r) === unit(r - 1) && r > 1) {
        hidden.push({ row: r + 1, column: COLUMNS[c], said: '' });
        return null;
      }
      let rowSpan = 1;
      while (unit(r + rowSpan) === unit(r)) rowSpan += 1;
      return rowSpan > 1 ? { value: text, rowSpan } : text;
    }),
  );
  return { input: await toXlsx([{ sheet: SHEET, data }]), hidden, wanted: tidyToShape({ cables }) };
};

/** What was typed as 3-4 is a date, 1E5 is a number; what was typed as 0012 is 12, or is shown with its zeros. */
export const namesEatenInCells: Habit = async (tidy) => {
  const i = tidy.pick(tidy.cables.length);
  const column = tidy.pick(2) === 0 ? ('Cable No' as const) : ('To Jack' as const);
  const kinds = [
    {
      cell: { value: new Date(Date.UTC(2019, 3, 3)), type: Date, format: 'd-mmm' },
      shown: '2019-04-03',
      said: '2019-04-03',
    },
    { cell: { value: 100_000, format: '0.00E+00' }, shown: '100000', said: '100000' },
    { cell: 12, shown: '12', said: '12' },
    { cell: { value: 12, format: '0000' }, shown: '0012', said: '12' },
  ];
  const { cell, shown, said } = kinds[tidy.pick(kinds.length)]!;
  const cables = tidy.cables.map((cable, k) => {
    if (k !== i) return cable;
    return column === 'Cable No' ? { ...cable, label: shown } : { ...cable, to: { ...cable.to, jack: shown } };
  });
  const data: SheetData = toRows({ cables }).map((cells, r) =>
    cells.map((text, c) => (r === i + 1 && c === at(column) ? cell : text)),
  ) as SheetData;
  const hidden = [{ row: i + 2, column, said }];
  return { input: await toXlsx([{ sheet: SHEET, data }]), hidden, wanted: tidyToShape({ cables }) };
};

/** One sheet for each place, its columns in an order of its own; a cable between two of them stands on both. */
export const sheetPerRack: Habit = async (tidy) => {
  const places = [...new Set(tidy.cables.map(({ from }) => from.unit.place))];
  const hidden: Hidden[] = [];
  const sheets = places.map((place) => {
    const turn = tidy.pick(COLUMNS.length);
    const order = COLUMNS.map((_, c) => (c + turn) % COLUMNS.length);
    if (tidy.pick(2) === 0) order.reverse();
    const own = tidy.cables.filter(({ from }) => from.unit.place === place);
    const visitors = tidy.cables.filter(({ from, to }) => to.unit.place === place && from.unit.place !== place);
    const rows = [[...COLUMNS], ...[...own, ...visitors].map(toCells)];
    return { sheet: place, visitors, data: rows.map((cells) => order.map((c) => cells[c] ?? '')) };
  });
  const wanted = tidyToShape(tidy);
  const seen = new Set<string>();
  const order: string[] = [];
  for (const { sheet, data } of sheets) {
    const number = data[0]!.indexOf('Cable No');
    data.slice(1).forEach((cells, i) => {
      const label = cells[number]!;
      if (seen.has(label)) hidden.push({ sheet, row: i + 2 });
      else order.push(label);
      seen.add(label);
    });
  }
  wanted.cables.sort((a, b) => order.indexOf(a.label) - order.indexOf(b.label));
  const input = await toXlsx(sheets.map(({ sheet, data }) => ({ sheet, data })));
  return { input, hidden, wanted };
};

/** A notes sheet and a legend between the lists. */
export const sheetsThatAreNoLists: Habit = async (tidy) => ({
  input: await toXlsx([
    { sheet: 'Read me', data: [['Ask before you pull anything.'], [null], ['Revision', 'C']] },
    { sheet: SHEET, data: toRows(tidy) },
    {
      sheet: 'Legend',
      data: [
        ['red', 'moved'],
        ['yellow', 'pulled'],
      ],
    },
  ]),
  hidden: [],
  wanted: tidyToShape(tidy),
});
