// Columns of lists whose rows name more than two units: panels between the ends, or several far ends. Titles say which
// columns they are, titles and cells whether it is a chain or a fan.
//
// Limits: An inner panel without a column for its jack is a note (Via). Where neither titles nor cells tell a chain from
// a fan it is asked.
import { saysPassive } from '../../plan/passive.ts';
import { type Columns, columnsAs, titleToKey } from '../columns.ts';
import { MOST_FAR_ENDS, MOST_PANELS } from './rowShape.ts';

type Rows = readonly (readonly string[])[];

interface StationColumns {
  side: 'from' | 'to' | 'panel' | 'any';
  /** The title without the number that counts it. */
  key: string;
  numbered: boolean;
  unit: number;
  jack: number | null;
}

const FROM = /^(from|source|src|origin|a end|end a|near end|von|quelle|desde|origine|origen)\b ?/;
const TO = /^(to|dest|destination|dst|z end|b end|end b|far end|nach|ziel|vers|hasta|destino)\b ?/;
const PANEL = /^(patch ?panel|patch ?bay|patch ?field|patch|pp|panel|pnl|tie ?panel|tie ?line|tie|block|bay)\b ?/;
const UNIT = /^(unit|equip|equipment|device|dev|gear|box)\b ?/;
const UNIT_BEHIND = /^((unit|equip|equipment|device|dev|gear|box|name|id|no) ?)?$/;
const JACK =
  /^(jack|port|pin|terminal|term|position|pos|output|input|channel|socket|outlet|buchse|klemme|termination)( no)?$/;
/** `To 1`, `Panel B`, `Dest #2`. */
const COUNT = /( (no )?(\d|[a-h])|\d)$/;

/** Rows that are looked at where the titles do not tell. */
const ROWS_SEARCHED = 200;

/** The same list with its stations; null where a row has two ends at the most. `asked`: another reading that fits. */
export function stationColumns(columns: Pick<Columns, 'titles' | 'header'>, rows: Rows): Columns | null {
  const stations = findStations(columns.titles);
  const landed = stations.filter(({ jack }) => jack !== null).length;
  if (stations.length < 3 || (landed < 2 && !stations.some(({ side, numbered }) => side === 'to' && numbered)))
    return null;
  const [froms, tos] = (['from', 'to'] as const).map((side) => stations.filter((one) => one.side === side));
  if (!froms || !tos || froms.length > 1) return null;
  if (tos.length > 1 && new Set(tos.map(({ key }) => key)).size > 1) return null;
  const from = froms[0] ?? stations.find(({ side }) => side !== 'to');
  if (!from) return null;
  const others = stations.filter((one) => one !== from);
  const fan = others.every(({ side }) => side !== 'panel') ? asFan(columns, from, others) : null;
  const isFan = tos.length > 1 && tos.every(({ numbered }) => numbered);
  const to = tos[0] ?? others.at(-1);
  const between = others.filter((one) => one !== to);
  const chain =
    to && tos.length <= 1 && between.every(({ jack }) => jack !== null) ? asChain(columns, from, between, to) : null;
  if (!chain || !fan || isFan) return isFan ? fan : (chain ?? fan);
  const cells = rows.slice(columns.header + 1, columns.header + 1 + ROWS_SEARCHED);
  const names = between.flatMap(({ unit }) => cells.flatMap((row) => row[unit]?.trim() || []));
  if (names.length > 0 && names.filter(isPanelName).length * 2 >= names.length) return chain;
  // What fans out has rows of fewer ends.
  const last = others.at(-1);
  const isFull = cells.every((row) => !row[from.unit]?.trim() || !last || row[last.unit]?.trim());
  return isFull ? { ...chain, asked: fan } : { ...fan, asked: chain };
}

const isPanelName = (name: string) => saysPassive(name, '') || /^(pnl|pan|patch|tie|tb|blk)[\s-]?\w{0,3}$/i.test(name);

function findStations(titles: readonly string[]): StationColumns[] {
  const stations: StationColumns[] = [];
  titles.forEach((title, column) => {
    const key = titleToKey(title);
    const last = stations.at(-1);
    const bare = key.replace(COUNT, '');
    const rest = (bare === '' ? key : bare).replace(FROM, '').replace(TO, '').replace(PANEL, '').replace(UNIT, '');
    if (JACK.test(rest.trim())) {
      if (last && last.jack === null) last.jack = column;
      return;
    }
    const side = sideOf(bare);
    if (side) stations.push({ side, key: bare, numbered: bare !== key, unit: column, jack: null });
  });
  return stations;
}

function sideOf(key: string): StationColumns['side'] | null {
  for (const [side, words] of [
    ['from', FROM],
    ['to', TO],
    ['panel', PANEL],
    ['any', UNIT],
  ] as const) {
    if (words.test(key) && UNIT_BEHIND.test(key.replace(words, ''))) return side;
  }
  return null;
}

type Given = Pick<Columns, 'titles' | 'header'>;

function asChain(columns: Given, from: StationColumns, between: StationColumns[], to: StationColumns): Columns | null {
  if (between.length === 0 || between.length > MOST_PANELS) return null;
  const panels = between.map((one, i): [string, StationColumns] => [`panel${i + 1}`, one]);
  const named = withStations(columns, [['from', from], ...panels, ['to', to]]);
  // A column of numbers for each hop.
  const number = named.at.get('number');
  const key = titleToKey(columns.titles[number ?? -1] ?? '').replace(COUNT, '');
  const taken = new Set(named.at.values());
  const more = columns.titles.flatMap((title, i) =>
    i !== number && !taken.has(i) && key !== '' && titleToKey(title).replace(COUNT, '') === key ? [i] : [],
  );
  for (const [i, column] of more.entries())
    if (more.length === between.length) named.at.set(`hop${i + 2}Number`, column);
  return named;
}

function asFan(columns: Given, from: StationColumns, others: StationColumns[]): Columns | null {
  if (others.length > MOST_FAR_ENDS) return null;
  const ends = others.map((one, i): [string, StationColumns] => [i === 0 ? 'to' : `to${i + 1}`, one]);
  return withStations(columns, [['from', from], ...ends]);
}

function withStations({ titles, header }: Given, stations: readonly [string, StationColumns][]): Columns {
  const taken = new Set(stations.flatMap(([, { unit, jack }]) => (jack === null ? [unit] : [unit, jack])));
  const at = columnsAs(
    'cables',
    titles.map((title, column) => (taken.has(column) ? '' : title)),
  );
  for (const [station, { unit, jack }] of stations) {
    at.set(jack === null ? station : `${station}Unit`, unit);
    if (jack !== null) at.set(`${station}Jack`, jack);
  }
  return { kind: 'cables', header, at, titles: [...titles] };
}
