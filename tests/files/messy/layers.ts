// Habits that can be laid one over another: each changes a list that is being written, and what an engineer reads in its
// rows stays beside them. Common practice, no published source; knows nothing of the reader.
import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';
import { type Wanted, wantedOf } from './reading.ts';
import type { Tidy, TidyCable } from './tidy.ts';
import { at, COLUMNS, type Column, toCells } from './write.ts';

interface Row {
  /** In the order of `COLUMNS`. */
  cells: string[];
  reads: TidyCable[];
}

/** A list that is being written. */
interface Draft {
  /** Which end of a cable comes first is not told: it stands there from either of them. */
  anyOrder: boolean;
  rows: Row[];
  /** Titles in the order of `COLUMNS`, and a row of groups above them where there is one. */
  titles: string[];
  groups: string[] | null;
  /** Column that stands at each place of the sheet. */
  order: number[];
  above: string[][];
  /** Rows between the others, by the row of the list that they stand in front of. */
  between: Map<number, string[][]>;
  below: string[][];
}

/** Layers of a lower stage are laid first: cables, then rows, then cells, then what stands around them. */
interface Layer {
  name: string;
  stage: 1 | 2 | 3 | 4;
  lay(draft: Draft, tidy: Tidy): void;
}

const one = <T>(list: readonly T[], tidy: Tidy): T => list[tidy.pick(list.length)]!;
const put = ({ cells }: Row, column: Column, text: string) => {
  cells[at(column)] = text;
};
const get = ({ cells }: Row, column: Column) => cells[at(column)] ?? '';

/** Cables whose numbers and jacks count on, in one row. */
function runOf(tidy: Tidy): TidyCable[] {
  const [a, b] = tidy.units;
  if (!a || !b) return [];
  const first = 4001 + tidy.pick(50);
  return Array.from({ length: 2 + tidy.pick(4) }, (_, i) => ({
    label: String(first + i),
    from: { unit: a, jack: `T${String(i + 1).padStart(2, '0')}` },
    to: { unit: b, jack: `Q ${i + 5}` },
    signal: 'AES',
    type: '110R',
    length: '5 m',
    status: 'in',
    notes: '',
  }));
}

function runLayer(name: string, join: (texts: string[], tidy: Tidy) => string): Layer {
  return {
    name,
    stage: 1,
    lay(draft, tidy) {
      const reads = runOf(tidy);
      const [first] = reads;
      if (!first) return;
      const row: Row = { cells: toCells(first), reads };
      const write = (column: Column, of: (cable: TidyCable) => string) => put(row, column, join(reads.map(of), tidy));
      write('Cable No', ({ label }) => label);
      write('From Jack', ({ from }) => from.jack);
      write('To Jack', ({ to }) => to.jack);
      draft.rows.push(row);
    },
  };
}

const SAME = ['same', 'ditto', 'do.', '"', 'same as above'];
const REPEATABLE: Column[] = ['From Loc', 'From Unit', 'To Loc', 'To Unit', 'Signal', 'Type', 'Len'];

const bare = (draft: Draft, row: number, cells: string[]) =>
  draft.between.set(row, [...(draft.between.get(row) ?? []), cells]);

export const LAYERS: readonly Layer[] = [
  runLayer('ranges', (texts) => `${texts[0]}-${texts.at(-1)}`),
  runLayer('several cables in one cell', (texts, tidy) => texts.join(one([', ', '\n', '; '], tidy))),
  {
    name: 'a unit that is spare on one side',
    stage: 1,
    lay({ rows }, tidy) {
      const cable = { ...runOf(tidy)[0]!, status: 'spare' };
      const row: Row = { cells: toCells(cable), reads: [cable] };
      put(row, 'To Loc', '');
      put(row, 'To Unit', 'spare');
      put(row, 'To Jack', '');
      rows.push(row);
    },
  },
  {
    name: 'sorted by unit, names on their first row only',
    stage: 2,
    lay(draft) {
      draft.rows.sort((a, b) => get(a, 'From Unit').localeCompare(get(b, 'From Unit')));
      const units = draft.rows.map((row) => get(row, 'From Unit'));
      draft.rows.forEach((row, i) => {
        if (i === 0 || units[i] !== units[i - 1] || units[i] === 'spare') return;
        put(row, 'From Unit', '');
        put(row, 'From Loc', '');
      });
    },
  },
  {
    name: 'the same cables from their other ends',
    stage: 1,
    lay(draft, tidy) {
      draft.anyOrder = true;
      const twice = draft.rows.flatMap(({ reads }) => (reads.length === 1 ? reads : []));
      for (const cable of twice) {
        if (cable.status === 'spare' || tidy.pick(2) === 0) continue;
        draft.rows.push({ cells: toCells({ ...cable, from: cable.to, to: cable.from }), reads: [] });
      }
    },
  },
  {
    name: 'signs for the same again',
    stage: 3,
    lay({ rows }, tidy) {
      const before = rows.map(({ cells }) => [...cells]);
      rows.forEach((row, i) => {
        for (const column of REPEATABLE) {
          const text = get(row, column);
          if (i > 0 && text !== '' && text !== 'spare' && text === before[i - 1]?.[at(column)] && tidy.pick(2) === 0)
            put(row, column, one(SAME, tidy));
        }
      });
    },
  },
  {
    name: 'notes behind jacks',
    stage: 3,
    lay({ rows }, tidy) {
      for (const row of rows) {
        const jack = get(row, 'To Jack');
        if (/^\S+( \d+)?$/.test(jack) && !/[-,;\n]/.test(jack) && tidy.pick(3) === 0)
          put(row, 'To Jack', `${jack}${one([' (new)', '*', ' (ask first)'], tidy)}`);
      }
    },
  },
  {
    name: 'lengths without their unit',
    stage: 3,
    lay({ rows }) {
      for (const row of rows) {
        put(row, 'Len', get(row, 'Len').replace(' m', ''));
        row.reads = row.reads.map((cable) => ({ ...cable, length: cable.length.replace(' m', '') }));
      }
    },
  },
  {
    name: 'small letters here and there',
    stage: 3,
    lay({ rows }, tidy) {
      for (const row of rows) {
        for (const column of ['From Unit', 'To Unit'] as const)
          if (tidy.pick(3) === 0) put(row, column, get(row, column).toLowerCase());
      }
    },
  },
  {
    name: 'nobody knows the type',
    stage: 3,
    lay({ rows }, tidy) {
      for (const row of rows) if (tidy.pick(3) === 0) put(row, 'Type', one(['?', 'TBC', 'n/k'], tidy));
    },
  },
  {
    name: 'columns in another order',
    stage: 4,
    lay(draft, tidy) {
      const turn = tidy.pick(COLUMNS.length);
      draft.order = draft.order.map((_, i) => draft.order[(i + turn) % draft.order.length]!);
      if (tidy.pick(2) === 0) draft.order.reverse();
    },
  },
  {
    name: 'other titles',
    stage: 4,
    lay(draft, tidy) {
      draft.titles = [...one(TITLES, tidy)];
      draft.groups = null;
    },
  },
  {
    name: 'a title and a date above',
    stage: 4,
    lay(draft, tidy) {
      draft.above.push(
        [one(['Station one', 'Cable schedule', 'RUN LIST rev C'], tidy)],
        ['printed 3/4/19', 'by JD'],
        [],
      );
    },
  },
  {
    name: 'the header on every page',
    stage: 4,
    lay(draft) {
      bare(draft, Math.ceil(draft.rows.length / 2), ['HEADER']);
    },
  },
  {
    name: 'headings between the rows',
    stage: 4,
    lay(draft, tidy) {
      bare(draft, 0, [one(['RACK 2', 'Studio A', 'Trunks'], tidy)]);
      bare(draft, draft.rows.length - 1, [one(['RACK 3', 'Studio B', 'Ties'], tidy)]);
    },
  },
  {
    name: 'a sum and a legend below',
    stage: 4,
    lay(draft, tidy) {
      draft.below.push([one(['Total', 'Totals', 'Sum'], tidy), '', '', String(draft.rows.length)]);
      draft.below.push([], ['Legend'], ['red = moved'], ['yellow', 'pulled, not landed']);
    },
  },
  {
    name: 'blank rows',
    stage: 4,
    lay(draft, tidy) {
      bare(draft, tidy.pick(draft.rows.length), []);
    },
  },
];

/** Titles of the same columns as other people write them. */
const TITLES: readonly (readonly string[])[] = [
  [
    'Wire No',
    'From Location',
    'From Equipment',
    'From Port',
    'To Location',
    'To Equipment',
    'To Port',
    'Signal Type',
    'Cable Type',
    'Length',
    'Status',
    'Remarks',
  ],
  [
    'Cable #',
    'Source Loc',
    'Source Unit',
    'Source Jack',
    'Dest Loc',
    'Dest Unit',
    'Dest Jack',
    'Signal',
    'Wire Type',
    'Len',
    'Stat',
    'Comments',
  ],
  [
    'Kabel Nr.',
    'Von Ort',
    'Von Gerät',
    'Von Buchse',
    'Nach Ort',
    'Nach Gerät',
    'Nach Buchse',
    'Signal',
    'Kabeltyp',
    'Länge',
    'Status',
    'Bemerkung',
  ],
  [
    'CABLE NO.',
    'FROM LOC',
    'FROM UNIT',
    'FROM JACK',
    'TO LOC',
    'TO UNIT',
    'TO JACK',
    'SIGNAL',
    'TYPE',
    'LEN',
    'STAT',
    'NOTES',
  ],
];

/** The sheet with all layers laid over it, and what an engineer reads in it. */
export function layToTable(
  tidy: Tidy,
  layers: readonly Layer[],
): { tables: Table[]; wanted: Wanted[]; anyOrder: boolean } {
  const draft: Draft = {
    anyOrder: false,
    rows: tidy.cables.map((cable) => ({ cells: toCells(cable), reads: [cable] })),
    titles: [...COLUMNS],
    groups: null,
    order: COLUMNS.map((_, i) => i),
    above: [],
    between: new Map(),
    below: [],
  };
  for (const layer of [...layers].sort((a, b) => a.stage - b.stage)) layer.lay(draft, tidy);
  const turned = (cells: readonly string[]) => draft.order.map((column) => cells[column] ?? '');
  const header = turned(draft.titles);
  const rows = [...draft.above, header];
  const wanted: Wanted[] = [];
  draft.rows.forEach(({ cells, reads }, i) => {
    for (const between of draft.between.get(i) ?? []) rows.push(between[0] === 'HEADER' ? header : between);
    rows.push(turned(cells));
    for (const cable of reads) wanted.push(wantedOf(SHEET, rows.length, cable));
  });
  rows.push(...draft.below);
  return { tables: [{ name: SHEET, rows }], wanted, anyOrder: draft.anyOrder };
}

const SHEET = 'Run list';
