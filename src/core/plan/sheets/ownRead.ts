// A plan out of the sheets that this app wrote (ownColumns.ts). Cells are taken word for word: ids stay, a changed unit
// or jack is followed by its name, a new row gets an id by its name. What cannot be taken becomes a question.
import * as z from 'zod/mini';
import { findContradictions } from '../contradictions.ts';
import { jackToPlace, nameToKey, placeToParts } from '../identity.ts';
import {
  type Cable,
  type CableEnd,
  cableEndSchema,
  directionSchema,
  FORMS,
  type Form,
  faceLayoutSchema,
  type Jack,
  legSchema,
  type PlanSetting,
  type Rack,
  SIGNALS,
  type Signal,
  tailSchema,
  type Unit,
} from '../model.ts';
import type { ListKind, Question, ReadCounts, ReadOptions, ReadPlan, Table } from '../readTypes.ts';
import { NO_END, OPEN, OWN_TITLES, type OwnList } from './ownColumns.ts';

type Cells = Map<string, string>;
interface OwnRow {
  sheet: string;
  row: number;
  get(title: string): string;
}

const KINDS: Partial<Record<OwnList, ListKind>> = { Cables: 'cables', Units: 'units', Jacks: 'jacks', Racks: 'racks' };

/** Null where the sheets are not ours, or one of the lists that the others rest on is missing. */
export function readOwn(tables: readonly Table[], options: ReadOptions): ReadPlan | null {
  const lists = new Map<OwnList, { table: Table; rows: OwnRow[] }>();
  for (const table of tables) {
    const list = ownList(table);
    if (list && !lists.has(list)) lists.set(list, { table, rows: toRows(table, OWN_TITLES[list]) });
  }
  if (!lists.has('Cables') || !lists.has('Units') || !lists.has('Jacks') || !lists.has('Racks')) return null;
  const rowsOf = (list: OwnList) => lists.get(list)?.rows ?? [];
  const questions: Question[] = [];
  const ask = ({ sheet, row }: OwnRow, column: string, said: string, question: string) =>
    questions.push({ sheet, row, column, said, question });

  const racks = withIds(rowsOf('Racks'), (row) => nameToKey(row.get('Rack'))).map(
    ([id, row]): Rack => ({
      id,
      label: row.get('Rack'),
      ...optional('room', row.get('Room')),
      heightU: toNumber(row, 'Height', 42),
      numbering: row.get('Numbering') === 'top-down' ? 'top-down' : 'bottom-up',
      implied: isYes(row, 'Implied'),
    }),
  );
  const rackIds = byName(racks);
  const units = withIds(rowsOf('Units'), (row) => nameToKey(row.get('Unit'))).map(
    ([id, row]): Unit => ({
      id,
      label: row.get('Unit'),
      ...optional('room', row.get('Room')),
      ...optional('rack', row.get('Rack') === '' ? '' : (rackIds(row.get('Rack')) ?? row.get('Rack'))),
      ...(row.get('U') === '' ? {} : { u: toNumber(row, 'U', 1) }),
      heightU: toNumber(row, 'Height', 1),
      mounted: row.get('Mounted') === 'rear' ? 'rear' : 'front',
      faces: toJson(row, 'Faces', z.array(faceLayoutSchema), []),
      ...optional('description', row.get('Description')),
      ...optional('serial', row.get('Serial')),
      ...optional('mac', row.get('MAC')),
      ...(isOneOf<Form>(FORMS, row.get('Form')) ? { form: row.get('Form') as Form } : {}),
      ...optional('at', row.get('Hangs On')),
      ...(row.get('Tails') === '' ? {} : { tails: toJson(row, 'Tails', z.array(tailSchema), []) }),
      implied: isYes(row, 'Implied'),
      origin: { sheet: row.sheet, row: row.row },
    }),
  );
  const unitIds = byName(units);
  const labels = new Map(units.map((unit) => [unit.id, unit.label]));
  const jackRows = withIds(rowsOf('Jacks'), (row) =>
    jackToPlace(unitIds(row.get('Unit')) ?? row.get('Unit'), row.get('Jack')),
  );
  const jacks = new Map<string, Jack>();
  for (const [id, row] of jackRows) {
    const parts = placeToParts(id);
    const unit = parts.type === 'jack' ? parts.unit : '';
    if (!labels.has(unit)) {
      ask(row, 'Unit', row.get('Unit'), 'Which unit is this jack on?');
      continue;
    }
    const signal = row.get('Signal');
    jacks.set(id, {
      id,
      unit,
      label: row.get('Jack'),
      ...optional('connector', row.get('Connector')),
      ...parsed('direction', directionSchema, row.get('Direction')),
      ...(isOneOf<Signal>(SIGNALS, signal) ? { signal } : {}),
      ...parsed('leg', legSchema, row.get('L/R')),
      mult: isYes(row, 'Mult'),
      spare: isYes(row, 'Spare'),
      implied: isYes(row, 'Implied'),
      origin: { sheet: row.sheet, row: row.row },
    });
  }
  const places = new Map<string, string | null>();
  for (const jack of jacks.values()) {
    const key = `${jack.unit}\n${nameToKey(jack.label)}`;
    places.set(key, places.has(key) ? null : jack.id);
  }

  const cables = withIds(rowsOf('Cables'), (row) => nameToKey(row.get('Cable No')), '~2').map(([id, row]): Cable => {
    const signal = row.get('Signal Kind');
    const status = row.get('Status');
    return {
      id,
      label: row.get('Cable No'),
      ends: [
        ...toEnd(row, 'A', 'From'),
        ...toEnd(row, 'B', 'To'),
        ...toJson(row, 'Further Ends', z.array(cableEndSchema), []),
      ],
      ...(isOneOf<Signal>(SIGNALS, signal) ? { signal } : {}),
      ...optional('signalText', row.get('Signal')),
      ...optional('circuit', row.get('Circuit')),
      ...optional('type', row.get('Cable Type')),
      ...optional('length', row.get('Length')),
      ...parsed('leg', legSchema, row.get('L/R')),
      status: status === 'spare' || status === 'future' ? status : 'in-use',
      onAir: isYes(row, 'On Air'),
      ...optional('notes', row.get('Notes')),
      origin: { sheet: row.sheet, row: row.row },
    };
  });
  const settings = rowsOf('Settings').flatMap((row): PlanSetting[] => {
    const unit = row.get('Unit Id') || unitIds(row.get('Unit')) || '';
    if (!labels.has(unit)) {
      ask(row, 'Unit', row.get('Unit'), 'Which unit has this setting?');
      return [];
    }
    const place =
      row.get('Place') || (row.get('Jack') === '' ? '' : (places.get(`${unit}\n${nameToKey(row.get('Jack'))}`) ?? ''));
    const origin = { sheet: row.sheet, row: row.row };
    return [{ unit, ...optional('place', place), name: row.get('Setting'), value: row.get('Value'), origin }];
  });
  const routes = rowsOf('Routes').map((row) => ({
    unit: row.get('Unit Id'),
    from: row.get('From Place'),
    to: row.get('To Place'),
  }));

  const used = [...lists.values()].reduce((sum, { rows }) => sum + rows.length, 0);
  const blank = [...lists.values()].reduce((sum, { table, rows }) => sum + table.rows.length - 1 - rows.length, 0);
  const counts: ReadCounts = {
    rowsIn: used + blank,
    used,
    blank,
    joined: 0,
    skipped: 0,
    cables: cables.length,
    units: units.length,
    jacks: jacks.size,
    lists: [...lists].flatMap(([list, { table, rows }]) => {
      const kind = KINDS[list];
      return kind ? [{ sheet: table.name, kind, headerRow: table.firstRow ?? 1, rows: rows.length }] : [];
    }),
    ignored: tables.filter((table) => ![...lists.values()].some((one) => one.table === table)).map(({ name }) => name),
  };
  return {
    type: 'plan',
    ids: 'given',
    guesses: [],
    questions,
    counts,
    plan: {
      format: 'asfound-plan',
      version: 1,
      name: options.name,
      parent: null,
      origin: 'sheet',
      source: null,
      racks,
      units,
      jacks: [...jacks.values()],
      cables,
      settings,
      ...(routes.length > 0 ? { routes } : {}),
      guesses: [],
      contradictions: findContradictions(cables, jacks),
    },
  };

  function toEnd(row: OwnRow, letter: string, side: string): CableEnd[] {
    const cell = (part: string) => row.get(`${side} ${part}`);
    const [place, unit, jack] = [cell('Place'), cell('Unit'), cell('Jack')];
    if (place === NO_END && unit === '' && jack === '') return [];
    const shown = { ...optional('location', cell('Location')), ...optional('connector', cell('Connector')) };
    const known = jacks.get(place);
    if (known && labels.get(known.unit) === unit && known.label === jack) {
      return [{ end: letter, place, ...shown, unit: cell('Unit Written'), jack: cell('Jack Written') }];
    }
    // Left open by the schedule's own words, and not filled in by hand since.
    const isOpen = place === OPEN && cell('Unit Written') === unit && cell('Jack Written') === jack;
    if (isOpen) return [{ end: letter, place: null, ...shown, unit, jack }];
    return [{ end: letter, place: placeFor(row, side, unit, jack), ...shown, unit, jack }];
  }

  function placeFor(row: OwnRow, side: string, unit: string, jack: string): string | null {
    const id = unitIds(unit);
    if (unit === '' && jack === '') return null;
    if (id === null || jack === '') {
      ask(row, `${side} Unit`, `${unit} ${jack}`.trim(), 'Which unit and jack does this end go to?');
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
}

function ownList(table: Table): OwnList | null {
  const [header = []] = table.rows;
  const found = (Object.keys(OWN_TITLES) as OwnList[]).find((list) =>
    OWN_TITLES[list].every((title, i) => header[i]?.trim() === title),
  );
  return found ?? null;
}

function toRows(table: Table, titles: readonly string[]): OwnRow[] {
  return table.rows.slice(1).flatMap((cells, i): OwnRow[] => {
    if (cells.every((cell) => cell === '')) return [];
    const map: Cells = new Map(titles.map((title, column) => [title, cells[column] ?? '']));
    return [{ sheet: table.name, row: (table.firstRow ?? 1) + i + 1, get: (title) => map.get(title) ?? '' }];
  });
}

/** A row without an id is new: it gets one by its name. Two rows never share one. */
function withIds(rows: readonly OwnRow[], name: (row: OwnRow) => string, blank = ''): [id: string, row: OwnRow][] {
  const given = new Set(rows.map((row) => row.get('Id')));
  const taken = new Set<string>();
  return rows.map((row) => {
    const wanted = row.get('Id') || name(row) || blank;
    const isNew = row.get('Id') === '';
    let id = wanted;
    for (let n = 2; taken.has(id) || (isNew && given.has(id)); n += 1) id = `${wanted}~${n}`;
    taken.add(id);
    return [id, row];
  });
}

/** By the label as it stands, else by its key, else by the id; null where two could be meant. */
function byName(items: readonly { id: string; label: string }[]): (name: string) => string | null {
  const exact = new Map<string, string | null>();
  const keys = new Map<string, string | null>();
  const ids = new Set(items.map(({ id }) => id));
  for (const { id, label } of items) {
    exact.set(label, exact.has(label) ? null : id);
    const key = nameToKey(label);
    keys.set(key, keys.has(key) ? null : id);
  }
  return (name) => exact.get(name) ?? keys.get(nameToKey(name)) ?? (ids.has(name) ? name : null);
}

function optional<K extends string>(key: K, value: string): { [P in K]?: string } {
  return value === '' ? {} : ({ [key]: value } as { [P in K]: string });
}

function parsed<K extends string, T>(
  key: K,
  schema: { safeParse(value: unknown): { success: true; data: T } | { success: false } },
  value: string,
): { [P in K]?: T } {
  const read = schema.safeParse(value);
  return read.success ? ({ [key]: read.data } as { [P in K]: T }) : {};
}

function isOneOf<T extends string>(list: readonly T[], value: string): value is T {
  return (list as readonly string[]).includes(value);
}

function isYes(row: OwnRow, title: string): boolean {
  return /^(y|yes|x|1|true)$/i.test(row.get(title).trim());
}

function toNumber(row: OwnRow, title: string, otherwise: number): number {
  const value = Number(row.get(title));
  return row.get(title).trim() === '' || !Number.isFinite(value) ? otherwise : value;
}

function toJson<T>(
  row: OwnRow,
  title: string,
  schema: { safeParse(value: unknown): { success: true; data: T } | { success: false } },
  otherwise: T,
): T {
  if (row.get(title) === '') return otherwise;
  try {
    const read = schema.safeParse(JSON.parse(row.get(title)));
    return read.success ? read.data : otherwise;
  } catch {
    return otherwise;
  }
}
