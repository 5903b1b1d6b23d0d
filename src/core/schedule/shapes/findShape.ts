// Which shape the rows of a list of cables have: the columns that go with it, and one row as an example of each. Looks at
// the list as a whole; no row is read here.
import { nameToKey } from '../../trade/names.ts';
import { fillIn } from '../byContent/columnsByContent.ts';
import { type Columns, findColumns, SEARCHED_ROWS, titleToKey } from '../columns.ts';
import type { Table } from '../rows/readTypes.ts';
import { endColumns, splitEndMark } from './ends.ts';
import { hasFarEnds, landingColumns } from './landings.ts';
import { chainStations, furtherEnds, type RowShape, type Station } from './rowShape.ts';
import { stationColumns } from './stations.ts';
import { titledShapes, unitOfTitle } from './titled.ts';
import { isStereo, underMother } from './underMother.ts';

type Cells = (row: readonly string[], meaning: string) => string;

/** The list by its titles, where these say that a row is more, or less, than one cable with two ends; else null. */
export function shapesByTitles(table: Table): Columns | null {
  const { rows } = table;
  const found = findColumns(rows);
  const stations = stationsOf(found, rows);
  if (stations) {
    const { asked } = stations;
    return { ...shaped(stations, table, []), ...(asked ? { asked: shaped(asked, table, []) } : {}) };
  }
  if (found?.kind === 'cables' && !isLanding(found)) return withSlots(found, table);
  const ends = endColumns(rows, found?.header ?? null);
  if (ends) return shaped(ends.columns, table, [{ kind: 'end', marked: ends.marked, example: [] }]);
  const landing = landingOf(found, table);
  return landing && shaped(landing.columns, table, [{ kind: 'landing', sides: landing.sides, example: [] }]);
}

/** A slot would be taken for the jack by what stands in its cells: null where no title says it. */
function withSlots(found: Columns, table: Table): Columns | null {
  const at = new Map(found.at);
  addSlots(at, found.titles);
  if (!at.has('fromSlot') && !at.has('toSlot')) return null;
  const isUnit = (key: string) => table.unitNames?.has(key) ?? false;
  return shaped(fillIn({ ...found, at }, table.rows, isUnit), table, []);
}

/** The list with the shapes that its numbers, jacks and titles have. */
export function withHabits(found: Columns, table: Table): Columns {
  return found.kind === 'cables' ? shaped(found, table, []) : found;
}

/** A list of landings, by its own header or, where no row names a list that is known, by one among the first rows. */
function landingOf(found: Columns | null, table: Table): ReturnType<typeof landingColumns> {
  const { rows } = table;
  const headers = found ? [found.header] : rows.slice(0, SEARCHED_ROWS).map((_, i) => i);
  for (const header of headers) {
    for (const titles of [found?.titles ?? [], rows[header] ?? []]) {
      const landing = landingColumns(titles, header);
      if (!landing || !hasFarEnds(rows, landing.columns)) continue;
      const { at } = landing.columns;
      const hasUnits = ['from', 'to'].every((side) => at.has(side) || at.has(`${side}Unit`));
      if (hasUnits || unitOfTitle(table, header) !== null) return landing;
    }
  }
  return null;
}

function stationsOf(found: Columns | null, rows: Table['rows']): Columns | null {
  if (found) return stationColumns(found, rows);
  for (const [header, titles] of rows.slice(0, SEARCHED_ROWS).entries()) {
    const stations = stationColumns({ titles, header }, rows);
    if (stations && (stations.at.has('number') || isWholeChain(stations.at))) return stations;
  }
  return null;
}

/** Unit and jack at every station: a list of chains whose cables nobody numbered. */
function isWholeChain(at: Columns['at']): boolean {
  const stations = chainStations(at);
  return stations.length > 2 && stations.every((one) => at.has(`${one}Unit`) && at.has(`${one}Jack`));
}

/** What was read as a list of cables by one end of its titles, and names a block's row and pair for the other. */
const isLanding = ({ at }: Columns) => !['to', 'toUnit', 'toJack', 'toRack'].some((one) => at.has(one));

/** The shapes of a list whose columns a person set. */
export function shapesByHand(columns: Columns, table: Table): Columns {
  if (columns.kind !== 'cables') return columns;
  const hasTo = [...columns.at.keys()].some((meaning) => /^to(\d|[A-Z]|$)/.test(meaning));
  const isEnd = !hasTo && columns.at.has('number') && columns.at.has('fromUnit');
  const marked = isEnd && endColumns(table.rows, columns.header)?.marked === true;
  return shaped(columns, table, isEnd ? [{ kind: 'end', marked, example: [] }] : []);
}

function shaped(columns: Columns, table: Table, shapes: RowShape[]): Columns {
  const at = new Map(columns.at);
  addPart(at, columns.titles);
  addSlots(at, columns.titles);
  const made = { ...columns, at };
  const cell: Cells = (row, meaning) => row[at.get(meaning) ?? -1]?.trim() ?? '';
  const items = table.rows
    .slice(columns.header + 1)
    .filter((row) => row.filter((text) => text.trim() !== '').length > 1);
  const own = [...shapes, ...shapesOf(made, items, cell)];
  const found = [...own, ...titledShapes(made, table, items, own)];
  return found.length === 0 ? columns : { ...made, shapes: found.map((one) => withExample(one, made, items, cell)) };
}

function shapesOf({ at, titles }: Columns, items: readonly (readonly string[])[], cell: Cells): RowShape[] {
  const shapes: RowShape[] = [];
  const panels = chainStations(at).length - 2;
  if (panels > 0) shapes.push({ kind: 'chain', panels, example: [] });
  const ends = furtherEnds(at).length + 1;
  if (ends > 1) shapes.push({ kind: 'far-ends', ends, example: [] });
  const numbers = items.map((row) => cell(row, 'number'));
  if (
    underMother(items.map((row, i) => ({ number: numbers[i] ?? '', part: cell(row, 'leg') }))).some(
      (one) => one !== null,
    )
  )
    shapes.push({ kind: 'under-mother', example: [] });
  else if (at.has('leg') && hasParts(items, cell))
    shapes.push({ kind: 'part', title: titles[at.get('leg') ?? -1] ?? '', example: [] });
  if (numbers.filter(isStereo).length > 1) shapes.push({ kind: 'stereo', example: [] });
  if (['fromSlot', 'toSlot'].some((meaning) => at.has(meaning))) shapes.push({ kind: 'slot', example: [] });
  return shapes;
}

/** A number that stands on several rows, each with another part. */
function hasParts(items: readonly (readonly string[])[], cell: Cells): boolean {
  const parts = new Map<string, string[]>();
  for (const row of items) {
    const key = nameToKey(cell(row, 'number'));
    if (key !== '') parts.set(key, [...(parts.get(key) ?? []), cell(row, 'leg')]);
  }
  return [...parts.values()].some(
    (list) => list.length > 1 && new Set(list).size === list.length && !list.includes(''),
  );
}

const PART_TITLE = /^(core|conductor|conductor no|core no|wire no|pin|pin no|ader|ader nr|kern|cond|stift|broche)$/;

function addPart(at: Map<string, number>, titles: readonly string[]): void {
  if (at.has('leg')) return;
  const taken = new Set(at.values());
  const column = titles.findIndex((title, i) => !taken.has(i) && PART_TITLE.test(titleToKey(title)));
  if (column >= 0) at.set('leg', column);
}

const SLOT_TITLE = /^(.* )?(slot|card|card slot|blade|module|steckplatz)( no)?$/;

/** A slot stands behind its unit, or says of which side it is; a U is one where a rack stands on that side. */
function addSlots(at: Map<string, number>, titles: readonly string[]): void {
  for (const side of ['from', 'to']) {
    const unit = at.get(`${side}Unit`) ?? at.get(side);
    const jack = at.get(`${side}Jack`);
    const u = at.get(`${side}U`);
    const isSlot = (column: number | undefined) =>
      column !== undefined && SLOT_TITLE.test(titleToKey(titles[column] ?? ''));
    if (isSlot(u) && !at.has(`${side}Rack`) && u !== undefined) {
      at.delete(`${side}U`);
      at.set(`${side}Slot`, u);
    } else if (unit !== undefined && jack !== undefined && jack - unit === 2 && isSlot(unit + 1)) {
      if (![...at.values()].includes(unit + 1)) at.set(`${side}Slot`, unit + 1);
    } else if (unit !== undefined && jack === undefined && isSlot(unit + 1)) {
      // `From, Slot, Port`: the port is behind its slot.
      const taken = new Set(at.values());
      const port = unit + 2;
      if (taken.has(unit + 1) || taken.has(port) || !/^(port|jack|channel|ch|no)$/.test(titleToKey(titles[port] ?? '')))
        continue;
      at.set(`${side}Slot`, unit + 1);
      at.set(`${side}Jack`, port);
    }
  }
}

function withExample(shape: RowShape, { at }: Columns, items: readonly (readonly string[])[], cell: Cells): RowShape {
  const stationText = (row: readonly string[], station: Station) =>
    [cell(row, station), cell(row, `${station}Unit`), cell(row, `${station}Slot`), cell(row, `${station}Jack`)]
      .filter((text) => text !== '')
      .join(' ');
  const fullest = (stations: readonly Station[]) => {
    const texts = items.slice(0, 50).map((row) => stations.map((one) => stationText(row, one)).filter(Boolean));
    return texts.reduce((best, one) => (one.length > best.length ? one : best), texts[0] ?? []);
  };
  const numbers = items.map((row) => cell(row, 'number'));
  switch (shape.kind) {
    case 'chain':
      return { ...shape, example: fullest(chainStations(at)) };
    case 'far-ends':
      return { ...shape, example: fullest(['from', 'to', ...furtherEnds(at)]) };
    case 'end': {
      const key = (text: string) => nameToKey(shape.marked ? splitEndMark(text).label : text);
      const first = items.find((row) => numbers.filter((one) => key(one) === key(cell(row, 'number'))).length === 2);
      const both = items.filter((row) => first && key(cell(row, 'number')) === key(cell(first, 'number')));
      return { ...shape, example: both.map((row) => stationText(row, 'from')) };
    }
    case 'landing':
      return { ...shape, example: fullest(['from', 'to', 'side2']) };
    case 'slot':
      return { ...shape, example: fullest([at.has('fromSlot') ? 'from' : 'to']) };
    case 'part':
      return { ...shape, example: items.slice(0, 2).map((row) => `${cell(row, 'number')} ${cell(row, 'leg')}`.trim()) };
    case 'stereo':
      return { ...shape, example: numbers.filter(isStereo).slice(0, 1) };
    case 'under-mother': {
      const made = underMother(items.map((row, i) => ({ number: numbers[i] ?? '', part: cell(row, 'leg') })));
      const i = made.findIndex((one) => one !== null);
      return { ...shape, example: [numbers[i] || cell(items[i] ?? [], 'leg'), made[i] ?? ''] };
    }
    case 'titled':
      return shape;
  }
}
