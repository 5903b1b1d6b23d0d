// What one row of a list may stand for: a cable, one of its ends, one of its hops, a pair of cables, a port of a unit. Each
// writes a tidy plan in that shape, with what an engineer reads of it. Common practice, no published source.
import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';
import { type Wanted, wantedOf } from './reading.ts';
import type { Tidy, TidyCable } from './tidy.ts';

interface Shaped {
  tables: Table[];
  wanted: Wanted[];
  anyOrder: boolean;
}

interface RowShape {
  name: string;
  write(tidy: Tidy): Shaped;
}

const SHEET = 'List';
const one = <T>(list: readonly T[], tidy: Tidy): T => list[tidy.pick(list.length)]!;

/** The reading of a cable of which the shape tells no signal and no length. */
function bare(row: number, cable: TidyCable, sheet = SHEET): Wanted {
  const { signal: _, length: __, ...wanted } = wantedOf(sheet, row, cable);
  return wanted;
}

/** One sheet whose rows, below the header, each hold some cells and the cables that are read there. */
function list(header: string[], rows: { cells: string[]; reads: TidyCable[] }[], anyOrder = false): Shaped {
  return {
    tables: [{ name: SHEET, rows: [header, ...rows.map(({ cells }) => cells)] }],
    wanted: rows.flatMap(({ reads }, i) => reads.map((cable) => bare(i + 2, cable))),
    anyOrder,
  };
}

const unitJack = ({ from, to }: TidyCable) => [from.unit.label, from.jack, to.unit.label, to.jack];

const place = (label: string, jack: string): TidyCable['from'] => ({ unit: { label, place: 'R1' }, jack });

/** Unit and jack in one cell, with this between them. */
const inOneCell = (between: string): RowShape => ({
  name: `unit and jack in one cell: "${between}"`,
  write: ({ cables }) =>
    list(
      ['Cable', 'From', 'To'],
      cables.map((cable) => {
        const cell = ({ unit, jack }: TidyCable['from']) => `${unit.label}${between}${jack}`;
        return { cells: [cable.label, cell(cable.from), cell(cable.to)], reads: [cable] };
      }),
    ),
});

export const SHAPES: readonly RowShape[] = [
  inOneCell(' '),
  inOneCell(':'),
  inOneCell('/'),
  inOneCell(' - '),
  inOneCell(', '),
  {
    name: 'no header',
    write: ({ cables }) => {
      const { tables, wanted, anyOrder } = list(
        [],
        cables.map((cable) => ({ cells: [cable.label, ...unitJack(cable)], reads: [cable] })),
      );
      const [table] = tables;
      return {
        tables: [{ name: SHEET, rows: table!.rows.slice(1) }],
        wanted: wanted.map((one) => ({ ...one, row: one.row - 1 })),
        anyOrder,
      };
    },
  },
  {
    name: 'a row for each end, with a letter in a column',
    write: ({ cables }) =>
      list(
        ['Cable', 'End', 'Unit', 'Jack'],
        cables.flatMap((cable) => [
          { cells: [cable.label, 'A', cable.from.unit.label, cable.from.jack], reads: [cable] },
          { cells: [cable.label, 'B', cable.to.unit.label, cable.to.jack], reads: [] },
        ]),
        true,
      ),
  },
  {
    name: 'a row for each end, with a letter behind the number',
    write: ({ cables }) =>
      list(
        ['Label', 'Unit', 'Jack'],
        cables.flatMap((cable) => [
          { cells: [`${cable.label}-A`, cable.from.unit.label, cable.from.jack], reads: [cable] },
          { cells: [`${cable.label}-B`, cable.to.unit.label, cable.to.jack], reads: [] },
        ]),
        true,
      ),
  },
  {
    name: 'a sheet for each unit, named by it',
    write: ({ cables }) => {
      const units = [...new Set(cables.map(({ from }) => from.unit.label))];
      const sheets = units.map((unit) => ({ unit, own: cables.filter(({ from }) => from.unit.label === unit) }));
      return {
        tables: sheets.map(({ unit, own }) => ({
          name: unit,
          rows: [
            ['Jack', 'Cable', 'To Unit', 'To Jack'],
            ...own.map(({ label, from, to }) => [from.jack, label, to.unit.label, to.jack]),
          ],
        })),
        wanted: sheets.flatMap(({ unit, own }) => own.map((cable, i) => bare(i + 2, cable, unit))),
        anyOrder: true,
      };
    },
  },
  {
    name: 'two lists side by side',
    write: ({ cables }) => {
      const half = Math.ceil(cables.length / 2);
      const header = ['Cable', 'From Unit', 'From Jack', 'To Unit', 'To Jack'];
      const cells = (cable: TidyCable | undefined) => (cable ? [cable.label, ...unitJack(cable)] : []);
      return list(
        [...header, '', ...header],
        cables.slice(0, half).map((cable, i) => {
          const right = cables[half + i];
          return { cells: [...cells(cable), '', ...cells(right)], reads: right ? [cable, right] : [cable] };
        }),
      );
    },
  },
  {
    name: 'panels between the ends, some rows past one alone',
    write: (tidy) =>
      list(
        ['Cable', 'Source', 'Port', 'Panel', 'Port', 'Panel', 'Port', 'Destination', 'Port'],
        tidy.cables.map((cable, i) => {
          const stops = [place('PNL 1', String(i + 1)), place('PNL 2', String(i + 1))].slice(
            i === 0 ? 0 : tidy.pick(3),
          );
          const cells = [...stops, ...Array.from({ length: 2 - stops.length }, () => place('', ''))];
          const stations = [cable.from, ...stops, cable.to];
          return {
            cells: [
              cable.label,
              ...[cable.from, ...cells, cable.to].flatMap(({ unit, jack }) =>
                unit.label ? [unit.label, jack] : ['', ''],
              ),
            ],
            reads: stations.slice(1).map((to, k): TidyCable => ({ ...cable, from: stations[k]!, to })),
          };
        }),
      ),
  },
  {
    name: 'a slot in front of the jack',
    write: ({ cables }) =>
      list(
        ['Cable', 'From', 'Slot', 'Port', 'To', 'To Jack'],
        cables.map((cable, i) => {
          const slot = String((i % 4) + 1);
          const { from, to } = cable;
          return {
            cells: [cable.label, from.unit.label, slot, from.jack, to.unit.label, to.jack],
            reads: [{ ...cable, from: { unit: from.unit, jack: `Slot ${slot} ${from.jack}` } }],
          };
        }),
      ),
  },
  {
    name: 'numbers under the first of their loom',
    write: ({ cables }) =>
      list(
        ['Cable', 'From Unit', 'From Jack', 'To Unit', 'To Jack'],
        cables.map((cable, i) => {
          const [loom, k] = [`L${Math.floor(i / 3) + 1}`, i % 3];
          const written = k === 0 ? loom : `.${k}`;
          const cells = [written, ...unitJack(cable)];
          return { cells, reads: [{ ...cable, label: k === 0 ? loom : loom + written }] };
        }),
      ),
  },
  {
    name: 'a bay’s jacks with the cable behind each',
    write: ({ cables }) => {
      const { tables, wanted } = list(
        ['Jack', 'Rear cable', 'Rear goes to', 'Normalled to'],
        cables.map((cable, i) => {
          const { to, label } = cable;
          const jack = `A${i + 1}`;
          return {
            cells: [jack, label, `${to.unit.label} ${to.jack}`, `B${i + 1}`],
            reads: [{ ...cable, from: place('PB7', jack) }],
          };
        }),
      );
      return {
        tables: tables.map((table) => ({ ...table, name: 'Patch bay PB7' })),
        wanted: wanted.map((one) => ({ ...one, sheet: 'Patch bay PB7' })),
        anyOrder: true,
      };
    },
  },
  {
    name: 'a pair of cables in a row',
    write: ({ cables, units }) => {
      const [a, b] = units;
      if (!a || !b) return list([], []);
      return list(
        ['Cable', 'From Unit', 'From Jack', 'To Unit', 'To Jack'],
        cables.map((cable, i) => {
          const leg = (letter: string): TidyCable => ({
            ...cable,
            label: `S${100 + i}-${letter}`,
            from: { unit: a, jack: `OUT ${i + 1} ${letter}` },
            to: { unit: b, jack: `IN ${i + 1} ${letter}` },
          });
          const cells = [`S${100 + i}-L/R`, a.label, `OUT ${i + 1} L/R`, b.label, `IN ${i + 1} L/R`];
          return { cells, reads: [leg('L'), leg('R')] };
        }),
      );
    },
  },
  {
    name: 'groups above the titles',
    write: ({ cables }) => {
      const shaped = list(
        ['', 'FROM', '', 'TO', ''],
        [
          { cells: ['Cable', 'Unit', 'Jack', 'Unit', 'Jack'], reads: [] },
          ...cables.map((cable) => ({ cells: [cable.label, ...unitJack(cable)], reads: [cable] })),
        ],
      );
      return shaped;
    },
  },
  {
    name: 'the far end first',
    write: (tidy) => {
      const { cables } = tidy;
      const words = one(
        [
          ['To Unit', 'To Jack', 'From Unit', 'From Jack'],
          ['Destination', 'Port', 'Source', 'Port'],
        ],
        tidy,
      );
      return list(
        ['Cable', ...words],
        cables.map((cable) => {
          const [a = '', b = '', c = '', d = ''] = unitJack(cable);
          return { cells: [cable.label, c, d, a, b], reads: [cable] };
        }),
      );
    },
  },
  {
    name: 'a counter in front',
    write: ({ cables }) =>
      list(
        ['No', 'Cable', 'From Unit', 'From Jack', 'To Unit', 'To Jack'],
        cables.map((cable, i) => ({ cells: [String(i + 1), cable.label, ...unitJack(cable)], reads: [cable] })),
      ),
  },
];
