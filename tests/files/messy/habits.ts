// Each habit of people who keep run lists, as a way to write a tidy plan so that a reader has to guess. Beside each
// stands what it hid, and the shape that must come back. The habits are common practice, no published source.
import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';
import { isRack, type Shape, type Tidy, type TidyCable, tidyToShape } from './tidy.ts';
import { at, COLUMNS, type Column, toCells, toCsv, toJackRows, toRows, toUnitRows } from './write.ts';

export interface Hidden {
  sheet?: string;
  row: number;
  column?: string;
  said?: string;
}

export interface Messy {
  /** Tables where the habit is in the cells; bytes where it is in the file. */
  input: Table[] | Uint8Array;
  hidden: Hidden[];
  wanted: Shape;
}

export type Habit = (tidy: Tidy) => Messy | Promise<Messy>;

export const SHEET = 'Run list';
const table = (rows: string[][], name = SHEET): Table => ({ name, rows });
const one = <T>(list: readonly T[], tidy: Tidy): T => list[tidy.pick(list.length)]!;
const DITTOS = ['same', 'same as above', 'ditto', 'do.', '-||-', 'Ditto', '〃'];
const REPEATABLE: Column[] = ['From Loc', 'From Unit', 'To Loc', 'To Unit', 'Signal', 'Type', 'Len'];

/** Replaces cells that repeat the one above; the row above counts as it was meant. */
function repeat(tidy: Tidy, word: () => string): { rows: string[][]; hidden: Hidden[] } {
  const rows = toRows(tidy);
  const hidden: Hidden[] = [];
  const written = rows.map((cells, r) =>
    cells.map((text, c) => {
      const column = COLUMNS[c]!;
      if (r < 2 || !REPEATABLE.includes(column) || text === '' || text !== rows[r - 1]?.[c]) return text;
      const said = word();
      hidden.push({ row: r + 1, column, said });
      return said;
    }),
  );
  return { rows: written, hidden };
}

export const dittoWords: Habit = (tidy) => {
  const { rows, hidden } = repeat(tidy, () => one(DITTOS, tidy));
  return { input: [table(rows)], hidden, wanted: tidyToShape(tidy) };
};

export const loneQuoteMark: Habit = (tidy) => {
  const { rows, hidden } = repeat(tidy, () => '"');
  return { input: toCsv(rows, one([',', ';', '\t', '|'], tidy)), hidden, wanted: tidyToShape(tidy) };
};

/** The unit stands only on the first of its rows; in a text file nothing is left of the merging. */
export const namesOnFirstRowOnly: Habit = (tidy) => {
  const cables = [...tidy.cables].sort((a, b) => a.from.unit.label.localeCompare(b.from.unit.label));
  const rows = toRows({ cables });
  const hidden: Hidden[] = [];
  const written = rows.map((cells, r) => {
    if (r < 2 || cells[at('From Unit')] !== rows[r - 1]?.[at('From Unit')]) return cells;
    hidden.push({ row: r + 1, column: 'From Unit', said: '' });
    return cells.map((text, c) => (c === at('From Unit') || c === at('From Loc') ? '' : text));
  });
  return { input: toCsv(written, ';'), hidden, wanted: tidyToShape({ cables }) };
};

/** Runs of cables whose numbers and jacks count on, on both sides or on one: `1001-1003`, `P01-P03`, `IN 1..3`. */
function runs(tidy: Tidy): TidyCable[][] {
  const [a, b] = tidy.units.length > 1 ? tidy.units : [];
  if (!a || !b) return [];
  const length = 2 + tidy.pick(5);
  const first = 4001 + tidy.pick(50);
  const cables = Array.from(
    { length },
    (_, i): TidyCable => ({
      label: String(first + i),
      from: { unit: a, jack: `T${String(i + 1).padStart(2, '0')}` },
      to: { unit: b, jack: `Q ${i + 5}` },
      signal: 'AES',
      type: '110R',
      length: '5 m',
      status: 'in',
      notes: '',
    }),
  );
  return [cables];
}

const SIGNS = ['-', '–', '..', ' thru ', ' to ', '...'];

export const rangesOnBothSides: Habit = (tidy) => {
  const [run = []] = runs(tidy);
  const cables = [...tidy.cables, ...run];
  const sign = one(SIGNS, tidy);
  const span = (texts: string[], isShort: boolean) =>
    texts[0] + sign + (isShort ? (texts.at(-1) ?? '').replace(/^\D+/, '') : texts.at(-1));
  const written = toCells(run[0]!);
  written[at('Cable No')] = span(
    run.map(({ label }) => label),
    false,
  );
  written[at('From Jack')] = span(
    run.map(({ from }) => from.jack),
    tidy.pick(2) === 0,
  );
  written[at('To Jack')] = span(
    run.map(({ to }) => to.jack),
    tidy.pick(2) === 0,
  );
  const rows = [...toRows(tidy), written];
  const hidden = [{ row: rows.length, column: 'Cable No', said: written[at('Cable No')] }];
  return { input: [table(rows)], hidden, wanted: tidyToShape({ cables }) };
};

/** The far side says one word for all of them: nobody can tell which goes where. */
export const rangeOnOneSide: Habit = (tidy) => {
  const [run = []] = runs(tidy);
  const written = toCells(run[0]!);
  written[at('Cable No')] = `${run[0]!.label}-${run.at(-1)!.label}`;
  written[at('From Jack')] = `${run[0]!.from.jack}-${run.at(-1)!.from.jack}`;
  written[at('To Jack')] = 'trunk';
  const rows = [...toRows(tidy), written];
  const wanted = tidyToShape({ cables: [...tidy.cables, ...run] });
  for (const cable of wanted.cables.slice(tidy.cables.length)) cable.places[1] = null;
  return {
    input: [table(rows)],
    hidden: [
      { row: rows.length, column: 'To Jack', said: 'trunk' },
      { row: rows.length, column: 'Cable No' },
    ],
    wanted,
  };
};

export const severalCablesInOneCell: Habit = (tidy) => {
  const [run = []] = runs(tidy);
  const join = (texts: string[]) => texts.join(one([', ', '\n', ' & ', '; '], tidy));
  const written = toCells(run[0]!);
  written[at('Cable No')] = join(run.map(({ label }) => label));
  written[at('From Jack')] = join(run.map(({ from }) => from.jack));
  written[at('To Jack')] = join(run.map(({ to }) => to.jack));
  const rows = [...toRows(tidy), written];
  return {
    input: toCsv(rows, ','),
    hidden: [{ row: rows.length, column: 'Cable No' }],
    wanted: tidyToShape({ cables: [...tidy.cables, ...run] }),
  };
};

export const leftAndRightInOneCell: Habit = (tidy) => {
  const legs = ['OUT L/R', 'IN L+R', 'IN ST', 'OUT L/R'];
  const i = tidy.pick(tidy.cables.length);
  const cables = tidy.cables.map((cable, k) =>
    k === i ? { ...cable, from: { ...cable.from, jack: one(legs, tidy) } } : cable,
  );
  return {
    input: [table(toRows({ cables }))],
    hidden: [{ row: i + 2, column: 'From Jack', said: cables[i]!.from.jack }],
    wanted: tidyToShape({ cables }),
  };
};

/** A word in place of the far unit: nothing is connected there, or nobody knows. */
function wordForUnit(words: readonly string[], statusOf: (word: string) => string): Habit {
  return (tidy) => {
    const i = tidy.pick(tidy.cables.length);
    const word = one(words, tidy);
    const rows = toRows(tidy);
    for (const column of ['To Loc', 'To Jack'] as const) rows[i + 1]![at(column)] = '';
    rows[i + 1]![at('To Unit')] = word;
    const wanted = tidyToShape(tidy);
    wanted.cables[i]!.places[1] = null;
    wanted.cables[i]!.status = statusOf(word);
    const left = tidy.cables.flatMap((cable, k) => (k === i ? [cable.from.unit] : [cable.from.unit, cable.to.unit]));
    wanted.units = wanted.units.filter(({ id }) => left.some(({ label }) => label === id));
    return { input: [table(rows)], hidden: [{ row: i + 2, column: 'To Unit', said: word }], wanted };
  };
}

const SPARE = ['spare', 'SP', 'future', 'N/C', 'NIC', 'unused', '--', 'x', 'SPARE', 'not connected', 'reserved'];
export const spareWords = wordForUnit(SPARE, (word) => (/future|reserved/i.test(word) ? 'future' : 'spare'));
export const unknownWords = wordForUnit(['TBD', '?', '??', 'VIF', 'see dwg', 'tbc', '#REF!', '#N/A'], () => 'in-use');

export const notesBehindNames: Habit = (tidy) => {
  const rows = toRows(tidy);
  const hidden: Hidden[] = [];
  const marks = [' (new)', '*', ' !!', ' (see note 3)', '**'];
  const jackMarks = [...marks, ' moved in june', ' ribbon!!'];
  for (let i = 1; i < rows.length; i += 1) {
    for (const column of ['Cable No', 'From Unit', 'From Jack', 'To Jack'] as const) {
      if (tidy.pick(3) > 0) continue;
      const said = rows[i]![at(column)] + one(column.endsWith('Jack') ? jackMarks : marks, tidy);
      rows[i]![at(column)] = said;
      hidden.push({ row: i + 1, column, said });
    }
  }
  return { input: [table(rows)], hidden, wanted: tidyToShape(tidy) };
};

/** Some with a unit, some without; a title may name one for all. */
export const lengthsInUnits: Habit = (tidy) => {
  const isFeet = tidy.pick(2) === 0;
  const texts = tidy.cables.map(() => one(['22m', '72 ft', "25'", '31 m', '7', '1,5 m', '12'], tidy));
  const cables = tidy.cables.map((cable, i) => ({ ...cable, length: texts[i]! }));
  const rows = toRows({ cables });
  rows[0]![at('Len')] = isFeet ? 'Len (ft)' : 'Len';
  const bare = texts.findIndex((text) => /^\d+$/.test(text));
  const wanted = tidyToShape({ cables });
  for (const cable of wanted.cables) if (isFeet && /^\d+$/.test(cable.length ?? '')) cable.length += ' ft';
  const hidden = bare < 0 ? [] : [{ row: bare + 2, column: rows[0]![at('Len')]!, said: texts[bare]! }];
  return { input: [table(rows)], hidden, wanted };
};

export const namesEatenInText: Habit = (tidy) => {
  const i = tidy.pick(tidy.cables.length);
  const column = one(['Cable No', 'To Jack'] as const, tidy);
  const said = one(['3-Apr', 'Apr-04', '1.00E+05', '03/04/2019', '2019-04-03', '1E+05'], tidy);
  const cables = tidy.cables.map((cable, k) => {
    if (k !== i) return cable;
    return column === 'Cable No' ? { ...cable, label: said } : { ...cable, to: { ...cable.to, jack: said } };
  });
  const wanted = tidyToShape({ cables });
  if (column === 'To Jack')
    wanted.cables[i]!.places[1] = `${cables[i]!.to.unit.label}/${said.toUpperCase().replaceAll(/[-./]/g, '-')}`;
  return { input: toCsv(toRows({ cables }), ';'), hidden: [{ row: i + 2, column, said }], wanted };
};

export const titlesAndTotals: Habit = (tidy) => {
  const title = Array.from({ length: 1 + tidy.pick(4) }, (_, i) => (i === 1 ? [] : [`RUN LIST rev C, page ${i}`]));
  const rows = toRows(tidy);
  const total = ['Total', '', '', `${tidy.cables.length} cables`];
  const again = tidy.pick(2) === 0;
  const body = [...rows, ...(again ? [rows[0]!] : []), [], total];
  const hidden: Hidden[] = [{ row: title.length + body.length, said: 'Total' }];
  if (again) hidden.push({ row: title.length + rows.length + 1, said: 'Cable No' });
  return { input: [table([...title, ...body])], hidden, wanted: tidyToShape(tidy) };
};

export const legendBlock: Habit = (tidy) => {
  const rows = toRows(tidy);
  const legend = [
    [one(['Legend', 'Key:', 'Colour code'], tidy)],
    ['red = moved'],
    ['yellow', 'pulled, not landed', 'ask first'],
  ];
  const start = rows.length + 2;
  const sheet = table([['Abbreviations'], [], ['NIC', 'not in contract']], 'Legend');
  return {
    input: [table([...rows, [], ...legend]), sheet],
    hidden: legend.map((cells, i) => ({ row: start + i, said: cells[0] })),
    wanted: tidyToShape(tidy),
  };
};

export const twoHeaderRows: Habit = (tidy) => {
  const [, ...body] = toRows(tidy);
  const groups = ['', 'From', '', '', 'To', '', '', '', '', '', '', ''];
  const titles = ['Cable No', 'Loc', 'Unit', 'Jack', 'Loc', 'Unit', 'Jack', 'Signal', 'Type', 'Len', 'Stat', 'Notes'];
  return { input: [table([groups, titles, ...body])], hidden: [], wanted: tidyToShape(tidy) };
};

export const headerInRowFour: Habit = (tidy) => ({
  input: toCsv([['Station one'], ['printed 3/4/19', 'by JD'], [], ...toRows(tidy)], ';'),
  hidden: [],
  wanted: tidyToShape(tidy),
});

/** The same cable once more, seen from its other end. */
export const mirrorRows: Habit = (tidy) => {
  const twice = tidy.cables.filter(() => tidy.pick(2) === 0);
  const rows = [...toRows(tidy), ...twice.map((cable) => toCells({ ...cable, from: cable.to, to: cable.from }))];
  const hidden = twice.map((_, i) => ({ row: tidy.cables.length + 2 + i }));
  return { input: [table(rows)], hidden, wanted: tidyToShape(tidy) };
};

/** A room under another name, which a legend explains or the unit list gives away. */
function nickname(isExplained: boolean): Habit {
  return (tidy) => {
    const room = tidy.units.find(({ place }) => !isRack(place))?.place;
    const rows = toRows(tidy);
    const hidden: Hidden[] = [];
    const told = new Set<string>();
    for (const [i, cells] of rows.entries()) {
      for (const side of ['From', 'To'] as const) {
        if (room === undefined || cells[at(`${side} Loc`)] !== room || tidy.pick(2) > 0) continue;
        cells[at(`${side} Loc`)] = 'Prod 2';
        // Explained once for all; asked for each unit that is found there.
        const what = isExplained ? '' : cells[at(`${side} Unit`)]!;
        if (!told.has(what)) hidden.push({ row: i + 1, sheet: SHEET });
        told.add(what);
      }
    }
    const legend = isExplained ? [table([[`Prod 2 = ${room}`]], 'Legend')] : [];
    const units = isExplained ? [] : [table(toUnitRows(tidy), 'Units')];
    return { input: [table(rows), ...legend, ...units], hidden, wanted: tidyToShape(tidy) };
  };
}
export const nicknameExplained = nickname(true);
export const nicknameAgainstUnitList = nickname(false);

/** Case, blanks and hyphens come and go; a letter stands for a figure. Lists of units and jacks hold the real names. */
export const spellingDrift: Habit = (tidy) => {
  const rows = toRows(tidy);
  const hidden: Hidden[] = [];
  const told = new Set<string>();
  const loosely = (text: string) => text.replace(/(?<=\p{L}) ?(?=\d)/u, one(['-', ' ', '', '_'], tidy));
  for (const [i, cells] of rows.entries()) {
    if (i === 0) continue;
    for (const side of ['From', 'To'] as const) {
      for (const part of ['Unit', 'Jack'] as const) {
        const c = at(`${side} ${part}`);
        const real = cells[c]!;
        let said = loosely(real);
        if (part === 'Unit' && tidy.pick(4) === 0) said = said.replaceAll('I', '1').replace(/0$/, 'O');
        if (tidy.pick(2) === 0) said = said.toLowerCase();
        cells[c] = said;
        const key = (text: string) => text.toUpperCase().replaceAll(/[-_ ]/g, '-');
        // A unit's spelling is told where it first stands; case, and one separator for another, are the same name.
        if (key(said) === key(real) || (part === 'Unit' && told.has(key(said)))) continue;
        if (part === 'Unit') told.add(key(said));
        hidden.push({ row: i + 1, sheet: SHEET, said });
      }
    }
  }
  const lists = [table(toUnitRows(tidy), 'Units'), table(toJackRows(tidy), 'Jacks')];
  return { input: [table(rows), ...lists], hidden, wanted: tidyToShape(tidy) };
};
