// The cables that one row of a shaped list stands for, each as a row that is read like any other.
import { type ListRow, orAside } from '../readCells.ts';
import { chainStations, furtherEnds, type RowShape, type Station } from './rowShape.ts';
import { atStations, viewRow } from './viewRow.ts';

const PARTS = ['', 'Unit', 'Jack'];
const isFilled = (row: ListRow, station: Station) => PARTS.some((part) => row.get(station + part) !== '');

/** Where the cells of a row's ends stand: all of its stations. */
export function stationsOf(at: ReadonlyMap<string, number>): Station[] {
  return [...chainStations(at), ...furtherEnds(at), ...(at.has('side2') ? ['side2'] : [])];
}

/** What the list's title says for all of its rows, where no column does. */
export function textsOf(shapes: readonly RowShape[], at: ReadonlyMap<string, number>): Record<string, string> {
  return Object.fromEntries(
    shapes.flatMap((shape) => (shape.kind === 'titled' && !at.has(shape.meaning) ? [[shape.meaning, shape.text]] : [])),
  );
}

/**
 * One row for each cable.
 * @param texts What no cell of the row says, by meaning.
 */
export function rowToViews(
  row: ListRow,
  at: ReadonlyMap<string, number>,
  shapes: readonly RowShape[],
  texts: Readonly<Record<string, string>>,
): ListRow[] {
  const landing = shapes.find((shape) => shape.kind === 'landing');
  if (landing?.kind === 'landing') return sideViews(row, landing.sides, texts);
  const stations = chainStations(at).filter((one) => one === 'from' || one === 'to' || isFilled(row, one));
  if (stations.length > 2) return hopViews(row, stations, texts);
  return [Object.keys(texts).length === 0 ? row : viewRow(row, (meaning) => meaning, texts)];
}

/** The row for each further to end that is named. */
export function furtherViews(row: ListRow, at: ReadonlyMap<string, number>): ListRow[] {
  return furtherEnds(at)
    .filter((end) => isFilled(row, end))
    .map((end) => viewRow(row, atStations('from', end)));
}

function hopViews(row: ListRow, stations: readonly Station[], texts: Readonly<Record<string, string>>): ListRow[] {
  const hops = stations.length - 1;
  return stations.slice(1).map((to, i) => {
    const from = stations[i] ?? 'from';
    const number = i === 0 ? '' : row.get(`hop${i + 1}Number`);
    return viewRow(row, atStations(from, to), {
      ...texts,
      ...(number === '' ? {} : { number }),
      hop: `${i + 1} of ${hops}`,
      ...(from.startsWith('panel') ? { fromPassage: 'yes' } : {}),
      ...(to.startsWith('panel') ? { toPassage: 'yes' } : {}),
    });
  });
}

/** A cable at each side of the jack, where the row names one: its number, or where it goes. */
function sideViews(row: ListRow, sides: readonly string[], texts: Readonly<Record<string, string>>): ListRow[] {
  const names = (station: string) =>
    ['', 'Unit'].some((part) => {
      const meaning = station + part;
      return (texts[meaning] ?? (orAside(row.get(meaning)) || (station === 'from' ? row.above(meaning) : ''))) !== '';
    });
  const isNamed = (number: string, far: string) =>
    orAside(row.get(number)) !== '' || (names(far) && (far !== 'to' || names('from')));
  if (sides.length === 0) return isNamed('number', 'to') ? [viewRow(row, (meaning) => meaning, texts)] : [];
  return sides.flatMap((side, i) => {
    const [far, number] = i === 0 ? (['to', 'number'] as const) : (['side2', 'side2Number'] as const);
    if (!isNamed(number, far)) return [];
    const toMeaning = atStations('from', far);
    return viewRow(row, (meaning) => (meaning === 'number' ? number : toMeaning(meaning)), {
      ...texts,
      fromJack: `${row.get('fromJack')} ${side}`,
    });
  });
}
