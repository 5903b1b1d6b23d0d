// A plan out of the sheets that this app wrote (ownColumns.ts). Cells are taken word for word: ids stay, a changed unit
// or jack is followed by its name, a new row gets an id by its name. What cannot be taken becomes a question.
//
// Limits: A blank cell and an empty text are one. An edited unit of a row under Jacks is asked about and not followed,
// since the row's id says where the jack is. A workbook cannot hold control characters; CSV can.
import * as z from 'zod/mini';
import { jackToPlace, type PlaceId, type UnitId, unitOf } from '../../plan/identity.ts';
import {
  type Cable,
  type CableEnd,
  type Circuit,
  cableEndSchema,
  faceLayoutSchema,
  type Jack,
  numberingSchema,
  type PlanSetting,
  type Rack,
  roleSchema,
  sideSchema,
  statusSchema,
  tailSchema,
  type Unit,
} from '../../plan/model.ts';
import { directionSchema, formSchema, legSchema, signalSchema } from '../../trade/kinds.ts';
import { nameToKey } from '../../trade/names.ts';
import type { ListKind } from '../meanings.ts';
import { toIgnored } from '../notASchedule.ts';
import type { ReadOptions } from '../readOptions.ts';
import type { Question, ReadCounts, ReadPlan, Table } from '../rows/readTypes.ts';
import { listsToPlan } from '../sheetPlan.ts';
import {
  byName,
  follow,
  isYes,
  type OwnRow,
  optional,
  optionalWord,
  toJson,
  toLabels,
  toNumber,
  toRows,
  withIds,
  wordOf,
} from './ownCells.ts';
import { cellToHops, NO_END, OPEN, OWN_TITLES, type OwnList, placeToNames } from './ownColumns.ts';

const KINDS: Partial<Record<OwnList, ListKind>> = {
  Cables: 'cables',
  Units: 'units',
  Jacks: 'jacks',
  Racks: 'racks',
  Circuits: 'circuits',
};

type Lists = ReadonlyMap<OwnList, { table: Table; rows: OwnRow[] }>;

/** Names of racks, units and jacks to ids and back, as far as the lists were read. */
type Names = {
  unitIds: (name: string) => UnitId | null;
  units: ReadonlyMap<UnitId, string>;
  jacks: ReadonlyMap<PlaceId, string>;
  /** By unit and key of the label; null where a unit has two of that name. */
  places: Map<string, PlaceId | null>;
};

/** Null where the sheets are not ours, or one of the lists that the others rest on is missing. */
export function readOwn(tables: readonly Table[], options: ReadOptions): ReadPlan | null {
  const questions: Question[] = [];
  const lists = findLists(tables, questions);
  if (!lists.has('Cables') || !lists.has('Units') || !lists.has('Jacks') || !lists.has('Racks')) return null;
  const rowsOf = (list: OwnList) => lists.get(list)?.rows ?? [];

  const racks = toRacks(rowsOf('Racks'));
  const units = toUnits(rowsOf('Units'), racks);
  const unitIds = byName(units);
  const labels = toLabels(units);
  const jacks = toJacks(rowsOf('Jacks'), unitIds, labels);
  const names: Names = { unitIds, units: labels, jacks: toLabels([...jacks.values()]), places: placesByName(jacks) };
  const cables = toCables(rowsOf('Cables'), names, jacks);
  const settings = toSettings(rowsOf('Settings'), names);
  const routes = rowsOf('Routes').map((row) => ({
    unit: row.get('Unit Id'),
    from: row.get('From Place'),
    to: row.get('To Place'),
  }));
  const circuits = toCircuits(rowsOf('Circuits'));
  return {
    type: 'plan',
    ids: 'given',
    guesses: [],
    questions,
    counts: toCounts(tables, lists, { cables: cables.length, units: units.length, jacks: jacks.size }),
    plan: listsToPlan(options.name, {
      racks,
      units,
      jacks: [...jacks.values()],
      cables,
      settings,
      routes,
      circuits,
      guesses: [],
    }),
  };
}

function findLists(tables: readonly Table[], questions: Question[]): Lists {
  const lists = new Map<OwnList, { table: Table; rows: OwnRow[] }>();
  for (const table of tables) {
    const list = ownList(table);
    if (list && !lists.has(list)) lists.set(list, { table, rows: toRows(table, OWN_TITLES[list], questions) });
  }
  return lists;
}

function toRacks(rows: readonly OwnRow[]): Rack[] {
  return withIds(rows, (row) => nameToKey(row.get('Rack'))).map(
    ([id, row]): Rack => ({
      id,
      label: row.get('Rack'),
      ...optional('room', row.get('Room')),
      heightU: toNumber(row, 'Height', 42),
      numbering: wordOf(row, 'Numbering', numberingSchema) ?? 'bottom-up',
      implied: isYes(row, 'Implied'),
    }),
  );
}

function toUnits(rows: readonly OwnRow[], racks: readonly Rack[]): Unit[] {
  const rackIds = byName(racks);
  const rackLabels = toLabels(racks);
  return withIds(rows, (row) => nameToKey(row.get('Unit'))).map(
    ([id, row]): Unit => ({
      id,
      label: row.get('Unit'),
      ...optional('room', row.get('Room')),
      ...optional(
        'rack',
        follow(row, 'Rack', 'Rack Id', rackLabels, (name) => {
          const id = rackIds(name);
          if (id === null) row.ask('Rack', 'Which rack is this?');
          return id ?? '';
        }),
      ),
      ...(row.get('U') === '' ? {} : { u: toNumber(row, 'U', 1) }),
      heightU: toNumber(row, 'Height', 1),
      mounted: wordOf(row, 'Mounted', sideSchema) ?? 'front',
      faces: toJson(row, 'Faces', z.array(faceLayoutSchema), []),
      ...optional('description', row.get('Description')),
      ...optional('serial', row.get('Serial')),
      ...optional('mac', row.get('MAC')),
      ...optionalWord('form', row, 'Form', formSchema),
      ...optional('at', row.get('Hangs On')),
      ...(row.get('Tails') === '' ? {} : { tails: toJson(row, 'Tails', z.array(tailSchema), []) }),
      implied: isYes(row, 'Implied'),
      origin: { sheet: row.sheet, row: row.row },
    }),
  );
}

function toJacks(
  rows: readonly OwnRow[],
  unitIds: Names['unitIds'],
  labels: ReadonlyMap<UnitId, string>,
): Map<PlaceId, Jack> {
  const jackRows = withIds(rows, (row) => jackToPlace(unitIds(row.get('Unit')) ?? row.get('Unit'), row.get('Jack')));
  const jacks = new Map<PlaceId, Jack>();
  for (const [id, row] of jackRows) {
    const unit = unitOf(id);
    if (!labels.has(unit)) {
      row.ask('Unit', 'Which unit is this jack on?');
      continue;
    }
    // The id holds the unit: another unit in the cell would be another jack, which is for a person to say.
    if (row.get('Id') !== '' && unitIds(row.get('Unit')) !== unit && labels.get(unit) !== row.get('Unit')) {
      row.ask('Unit', `It stays on ${labels.get(unit) || unit}. On another unit, give it a row without an Id.`);
    }
    jacks.set(id, {
      id,
      unit,
      label: row.get('Jack'),
      ...optional('connector', row.get('Connector')),
      ...optionalWord('direction', row, 'Direction', directionSchema),
      ...optionalWord('signal', row, 'Signal', signalSchema),
      ...optionalWord('leg', row, 'L/R', legSchema),
      mult: isYes(row, 'Mult'),
      spare: isYes(row, 'Spare'),
      implied: isYes(row, 'Implied'),
      ...(row.get('Tip') + row.get('Ring') === '' ? {} : { wires: { tip: row.get('Tip'), ring: row.get('Ring') } }),
      ...optional('notes', row.get('Notes')),
      origin: { sheet: row.sheet, row: row.row },
    });
  }
  return jacks;
}

function placesByName(jacks: ReadonlyMap<PlaceId, Jack>): Names['places'] {
  const places = new Map<string, PlaceId | null>();
  for (const jack of jacks.values()) {
    const key = `${jack.unit}\n${nameToKey(jack.label)}`;
    places.set(key, places.has(key) ? null : jack.id);
  }
  return places;
}

/** @param jacks Gets those that a cable names and the list of jacks does not. */
function toCables(rows: readonly OwnRow[], names: Names, jacks: Map<PlaceId, Jack>): Cable[] {
  return withIds(rows, (row) => nameToKey(row.get('Cable No')), '~2').map(([id, row]): Cable => {
    return {
      id,
      label: row.get('Cable No'),
      ends: [
        ...toEnd(row, 'A', 'From', names, jacks),
        ...toEnd(row, 'B', 'To', names, jacks),
        ...toJson(row, 'Further Ends', z.array(cableEndSchema), []),
      ],
      ...optionalWord('signal', row, 'Signal Kind', signalSchema),
      ...optional('signalText', row.get('Signal')),
      ...optional('circuit', row.get('Circuit')),
      ...optional('type', row.get('Cable Type')),
      ...optional('length', row.get('Length')),
      ...optionalWord('leg', row, 'L/R', legSchema),
      status: wordOf(row, 'Status', statusSchema) ?? 'in-use',
      onAir: isYes(row, 'On Air'),
      ...optional('notes', row.get('Notes')),
      origin: { sheet: row.sheet, row: row.row },
    };
  });
}

function toSettings(rows: readonly OwnRow[], { unitIds, units, jacks, places }: Names): PlanSetting[] {
  return rows.flatMap((row): PlanSetting[] => {
    const unit = follow(row, 'Unit', 'Unit Id', units, (name) => unitIds(name) ?? '');
    if (!units.has(unit)) {
      row.ask('Unit', 'Which unit has this setting?');
      return [];
    }
    const onUnit = (name: string) => places.get(`${unit}\n${nameToKey(name)}`) ?? '';
    // On another unit it is the jack of that name there.
    const isMoved = unit !== row.get('Unit Id') && row.get('Unit Id') !== '';
    const place = isMoved ? onUnit(row.get('Jack')) : follow(row, 'Jack', 'Place', jacks, onUnit);
    if (place === '' && row.get('Jack') !== '') row.ask('Jack', 'Which jack has this setting?');
    const origin = { sheet: row.sheet, row: row.row };
    return [{ unit, ...optional('place', place), name: row.get('Setting'), value: row.get('Value'), origin }];
  });
}

function toCircuits(rows: readonly OwnRow[]): Circuit[] {
  return rows.map(
    (row): Circuit => ({
      name: row.get('Circuit'),
      ...optionalWord('role', row, 'Main/Standby', roleSchema),
      ...optional('carrier', row.get('Carrier No')),
      hops: cellToHops(row.get('Hops')),
      ...optional('notes', row.get('Notes')),
      origin: { sheet: row.sheet, row: row.row },
    }),
  );
}

function toCounts(
  tables: readonly Table[],
  lists: Lists,
  made: Pick<ReadCounts, 'cables' | 'units' | 'jacks'>,
): ReadCounts {
  const used = [...lists.values()].reduce((sum, { rows }) => sum + rows.length, 0);
  const blank = [...lists.values()].reduce((sum, { table, rows }) => sum + table.rows.length - 1 - rows.length, 0);
  return {
    rowsIn: used + blank,
    used,
    blank,
    joined: 0,
    skipped: 0,
    ...made,
    lists: [...lists].flatMap(([list, { table, rows }]) => {
      const kind = KINDS[list];
      return kind ? [{ sheet: table.name, kind, headerRow: table.firstRow ?? 1, rows: rows.length }] : [];
    }),
    ignored: tables
      .filter((table) => ![...lists.values()].some((one) => one.table === table))
      .map((table) => toIgnored(table, true)),
  };
}

function toEnd(row: OwnRow, letter: string, side: string, names: Names, jacks: Map<PlaceId, Jack>): CableEnd[] {
  const cell = (part: string) => row.get(`${side} ${part}`);
  const [place, unit, jack] = [cell('Place'), cell('Unit'), cell('Jack')];
  if (place === NO_END && unit === '' && jack === '') return [];
  const shown = { ...optional('location', cell('Location')), ...optional('connector', cell('Connector')) };
  if (place !== '' && place !== OPEN && place !== NO_END) {
    const written = placeToNames(place, names.units, names.jacks);
    if (written.unit === unit && written.jack === jack)
      return [{ end: letter, place, ...shown, unit: cell('Unit Written'), jack: cell('Jack Written') }];
  }
  // Left open by the schedule's own words, and not filled in by hand since.
  const isOpen = place === OPEN && cell('Unit Written') === unit && cell('Jack Written') === jack;
  if (isOpen) return [{ end: letter, place: null, ...shown, unit, jack }];
  return [{ end: letter, place: placeFor(row, side, [unit, jack], names, jacks), ...shown, unit, jack }];
}

function placeFor(
  row: OwnRow,
  side: string,
  [unit, jack]: readonly [unit: string, jack: string],
  { unitIds, places }: Names,
  jacks: Map<PlaceId, Jack>,
): PlaceId | null {
  const id = unitIds(unit);
  if (unit === '' && jack === '') return null;
  if (id === null || jack === '') {
    row.ask(`${side} Unit`, 'Which unit and jack does this end go to?', `${unit} ${jack}`.trim());
    return null;
  }
  const found = places.get(`${id}\n${nameToKey(jack)}`);
  if (found) return found;
  const place = jackToPlace(id, jack);
  if (!jacks.has(place)) {
    jacks.set(place, { id: place, unit: id, label: jack, mult: false, spare: false, implied: true });
    places.set(`${id}\n${nameToKey(jack)}`, place);
  }
  return place;
}

function ownList(table: Table): OwnList | null {
  const [header = []] = table.rows;
  const found = (Object.keys(OWN_TITLES) as OwnList[]).find((list) =>
    OWN_TITLES[list].every((title, i) => header[i]?.trim() === title),
  );
  return found ?? null;
}
