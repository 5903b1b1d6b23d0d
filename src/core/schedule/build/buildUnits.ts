// Racks, units, faces and jacks of the plan out of what the lists say and the cables imply.
//
// Limits: On sheets called after racks whose rows name no place, units of one name are one unit. A unit of which only
// rack and U are written is called by them.

import { jackToPlace, type PlaceId, type RackId, type UnitId } from '../../plan/identity.ts';
import type { FaceLayout, Jack, PlanSetting, Rack, Route, Unit } from '../../plan/model.ts';
import { saysPassive } from '../../plan/passive.ts';
import { type JackGuess, labelToJack } from '../../trade/jacks.ts';
import { nameToKey } from '../../trade/names.ts';
import { USUAL_HEIGHT_U } from '../../trade/rack.ts';
import type { Notebook, RawJack, RawRack } from '../rows/readTypes.ts';
import { createSpellings, type Spellings } from '../rows/spelling.ts';
import type { ResolvedUnit, Units } from './resolveUnits.ts';
import { type NamedAt, tellZeros } from './zeros.ts';

/**
 * @param rooms Room of each rack by its key.
 * @param usual How a rack is counted of which no list says it.
 */
export function buildRacks(
  listed: readonly RawRack[],
  units: readonly ResolvedUnit[],
  rooms: ReadonlyMap<RackId, string>,
  usual: Rack['numbering'],
  notebook: Notebook,
): Rack[] {
  const racks = new Map<RackId, Rack>();
  const add = (label: string, raw: RawRack | null): boolean => {
    const id = nameToKey(label);
    if (racks.has(id)) return false;
    const room = rooms.get(id);
    racks.set(id, {
      id,
      label,
      ...(room === undefined ? {} : { room }),
      heightU: raw?.heightU ?? USUAL_HEIGHT_U,
      numbering: raw?.numbering ?? usual,
      implied: raw === null,
    });
    return true;
  };
  for (const raw of listed) add(raw.label, raw);
  for (const unit of units) {
    if (unit.rack === '' || !add(unit.rack, null)) continue;
    const readAs = `a rack of ${USUAL_HEIGHT_U} U, numbered from the ${usual === 'bottom-up' ? 'bottom' : 'top'}`;
    notebook.guess('rack', unit.sheet, unit.row, undefined, unit.rack, readAs);
  }
  return [...racks.values()];
}

export interface Equipment {
  units: Unit[];
  jacks: Map<PlaceId, Jack>;
  settings: PlanSetting[];
  /** The jack with this label, made when the plan has none yet. */
  jackAt(unit: ResolvedUnit, label: string, at: SheetCell): Jack;
  /** The jack of a list with this label, however it is spelled; null when no list names it. */
  listedJack(unit: ResolvedUnit, label: string): Jack | null;
  /** Rows of jack lists with the jack that each is about. */
  placed: { raw: RawJack; jack: Jack }[];
  /** Rows of jack lists whose unit could not be told. */
  unplaced: number;
  /** What a jack list says of normals. */
  routes: Route[];
  jacksOf(unit: ResolvedUnit): Jack[];
  /** Says which jacks that cables name lack the zeros of the others. */
  tellZeros(): void;
}

/** Where a guess about a cell is written down. */
interface SheetCell {
  sheet: string;
  row: number;
  column: string | undefined;
}

/** What a row of the list of jacks says of one. */
function fillJack(jack: Jack, row: RawJack, origin: NonNullable<Jack['origin']>): void {
  jack.implied = false;
  if (row.connector !== '') jack.connector = row.connector;
  if (row.direction) jack.direction = row.direction;
  if (row.signal) jack.signal = row.signal;
  if (row.leg) jack.leg = row.leg;
  jack.mult ||= row.mult;
  jack.spare ||= row.spare;
  if (row.wires) jack.wires = row.wires;
  if (row.notes !== '') jack.notes = [jack.notes, row.notes].filter(Boolean).join('; ');
  jack.origin ??= origin;
}

function toUnit(unit: ResolvedUnit, faces: Unit['faces'], origin: NonNullable<Unit['origin']>): Unit {
  const { raw } = unit;
  return {
    id: unit.id,
    label: unit.label,
    ...(unit.room === '' ? {} : { room: unit.room }),
    ...(unit.rack === '' ? {} : { rack: nameToKey(unit.rack) }),
    ...(unit.u === null ? {} : { u: unit.u }),
    heightU: raw?.heightU ?? 1,
    mounted: raw?.mounted ?? 'front',
    faces,
    ...(raw && raw.description !== '' ? { description: raw.description } : {}),
    ...(raw && raw.serial !== '' ? { serial: raw.serial } : {}),
    ...(raw && raw.mac !== '' ? { mac: raw.mac } : {}),
    implied: raw === null,
    origin,
  };
}

/** @param passed Units between two others in a row: each is a panel, whatever else is said of it. */
export function buildEquipment(
  units: Units,
  jackRows: readonly RawJack[],
  notebook: Notebook,
  passed: ReadonlySet<UnitId>,
): Equipment {
  const jacks = new Map<PlaceId, Jack>();
  const byUnit = new Map<UnitId, Jack[]>();
  const settings: PlanSetting[] = [];
  let unplaced = 0;
  const placed: Equipment['placed'] = [];
  const seen = new Map<PlaceId, NamedAt>();
  const make = (unit: ResolvedUnit, label: string, implied: boolean): Jack => {
    const id = jackToPlace(unit.id, label);
    const known = jacks.get(id);
    if (known) return known;
    const jack: Jack = {
      id,
      unit: unit.id,
      label,
      ...jackByLabel(unit, label, passed.has(unit.id)),
      mult: false,
      spare: false,
      implied,
    };
    jacks.set(id, jack);
    const siblings = byUnit.get(unit.id);
    if (siblings) siblings.push(jack);
    else byUnit.set(unit.id, [jack]);
    return jack;
  };
  const built = units.all.map((unit): Unit => {
    const { raw } = unit;
    const made = (raw?.jacks ?? []).map((label) => make(unit, label, false));
    const origin = { sheet: unit.sheet, row: unit.row };
    for (const { name, value } of raw?.settings ?? []) settings.push({ unit: unit.id, name, value, origin });
    tellJackGuesses(unit, made, notebook);
    const whole = toUnit(unit, made.length === 0 ? [] : [layOut(unit, made, notebook)], origin);
    return passed.has(unit.id) ? { ...whole, form: 'panel' } : whole;
  });
  for (const row of jackRows) {
    const unit = units.find({ unit: row.unit, room: row.room, rack: row.room });
    if (!unit) {
      notebook.ask('unit', row.sheet, row.row, undefined, `${row.unit} ${row.jack}`, 'Which unit is this jack on?');
      unplaced += 1;
      continue;
    }
    const jack = make(unit, row.jack, false);
    const origin = { sheet: row.sheet, row: row.row };
    fillJack(jack, row, origin);
    placed.push({ raw: row, jack });
    addAddress(unit.id, row, settings, notebook);
    for (const { name, value } of row.settings) settings.push({ unit: unit.id, place: jack.id, name, value, origin });
  }
  const names = jackSpellings(byUnit);
  return {
    placed,
    routes: placed.flatMap(({ raw, jack }) => {
      const to = raw.normalled === '' ? undefined : jacks.get(jackToPlace(jack.unit, raw.normalled));
      if (raw.normalled !== '' && !to)
        notebook.ask('jack', raw.sheet, raw.row, undefined, raw.normalled, `Which jack of ${raw.unit} is this?`);
      return to ? [{ unit: jack.unit, from: jack.id, to: to.id }] : [];
    }),
    units: built,
    jacks,
    settings,
    unplaced,
    listedJack(unit, label) {
      const found = names.listed(unit.id)?.find(label);
      const jack = jacks.get(jackToPlace(unit.id, found?.sure ? found.known : label));
      return jack && !jack.implied ? jack : null;
    },
    jackAt(unit, label, { sheet, row, column }) {
      if (jacks.has(jackToPlace(unit.id, label))) return make(unit, label, true);
      const listed = names.listed(unit.id)?.find(label);
      const near = listed?.sure ? listed.known : names.implied(unit.id).find(label)?.known;
      if (near !== undefined) notebook.guess('spelling', sheet, row, column, label, `${near}, spelled another way`);
      else if (listed) notebook.ask('spelling', sheet, row, column, label, `Is this ${listed.known} of ${unit.label}?`);
      const jack = make(unit, near ?? label, true);
      if (jack.implied) {
        names.implied(unit.id).add(jack.label);
        if (!seen.has(jack.id)) seen.set(jack.id, { label: jack.label, sheet, row, column });
      }
      return jack;
    },
    tellZeros() {
      for (const unit of units.all) {
        // A list of the unit's jacks says how they are written.
        if (names.listed(unit.id)) continue;
        tellZeros(
          (byUnit.get(unit.id) ?? []).flatMap(({ id }) => seen.get(id) ?? []),
          unit.label,
          notebook,
        );
      }
    },
    jacksOf: (unit) => byUnit.get(unit.id) ?? [],
  };
}

/** On a panel a name such as `IN 1` says what comes by; a row of it points neither way. */
function jackByLabel({ raw, label: unit }: ResolvedUnit, label: string, isPassed: boolean): JackGuess {
  const { direction, ...guess } = labelToJack(label, raw?.description);
  const isPassive = isPassed || raw?.through || saysPassive(unit, raw?.description ?? '');
  return direction === undefined || isPassive ? guess : { direction, ...guess };
}

/** A list of sources repeats the unit's address beside each input: kept once, asked about where two differ. */
function addAddress(unit: UnitId, row: RawJack, settings: PlanSetting[], notebook: Notebook): void {
  if (row.address === '') return;
  const known = settings.find((one) => one.unit === unit && one.name === 'address' && one.place === undefined);
  const { sheet } = row;
  if (!known) settings.push({ unit, name: 'address', value: row.address, origin: { sheet, row: row.row } });
  else if (known.value !== row.address) {
    notebook.ask(
      'which-is-right',
      sheet,
      row.row,
      undefined,
      row.address,
      `Another row gives ${row.unit} the address ${known.value}. Which is right?`,
    );
  }
}

/** Spellings of each unit's jacks, made only for units that are asked for. */
function jackSpellings(byUnit: ReadonlyMap<UnitId, readonly Jack[]>) {
  const listed = new Map<UnitId, Spellings | null>();
  const implied = new Map<UnitId, Spellings>();
  return {
    /** Null for a unit without listed jacks. */
    listed(unit: UnitId): Spellings | null {
      const known = listed.get(unit);
      if (known !== undefined) return known;
      const jacks = (byUnit.get(unit) ?? []).filter((jack) => !jack.implied);
      const names = jacks.length === 0 ? null : createSpellings(false);
      for (const jack of jacks) names?.add(jack.label);
      listed.set(unit, names);
      return names;
    },
    implied(unit: UnitId): Spellings {
      const names = implied.get(unit) ?? createSpellings(true, false);
      implied.set(unit, names);
      return names;
    },
  };
}

/** One line per unit and reading, not one per jack. */
function tellJackGuesses(unit: ResolvedUnit, jacks: readonly Jack[], notebook: Notebook): void {
  const byReading = new Map<string, string[]>();
  for (const jack of jacks) {
    const words = [jack.direction, jack.signal, jack.connector].filter((word) => word !== undefined);
    if (words.length === 0) continue;
    const reading = words.join(', ');
    byReading.set(reading, [...(byReading.get(reading) ?? []), jack.label]);
  }
  for (const [reading, labels] of byReading) {
    const said = labels.length > 2 ? `${labels[0]} … ${labels.at(-1)}` : labels.join(', ');
    notebook.guess('jack-read', unit.sheet, unit.row, 'Jacks', said, reading);
  }
}

/** Printed order of the jacks on the face that has them. */
function layOut(unit: ResolvedUnit, jacks: readonly Jack[], notebook: Notebook): FaceLayout {
  const raw = unit.raw;
  const ids = jacks.map((jack) => jack.id);
  const isPortRow = (ids.length === 24 || ids.length === 48) && jacks.every((jack) => /^P\d+$/i.test(jack.label));
  const layout = raw?.layout ?? (isPortRow ? 'odd-over-even' : 'one-row');
  const face = raw?.jackFace ?? (layout === 'odd-over-even' || raw?.through ? 'front' : 'rear');
  const guessed = [
    ...(raw?.layout ? [] : [layout === 'odd-over-even' ? 'odd over even' : 'one row']),
    ...(raw?.jackFace ? [] : [`jacks on the ${face}`]),
  ];
  if (guessed.length > 0) notebook.guess('unit', unit.sheet, unit.row, 'Layout', '', guessed.join(', '));
  const half = Math.ceil(ids.length / 2);
  const rows =
    layout === 'odd-over-even'
      ? [ids.filter((_, i) => i % 2 === 0), ids.filter((_, i) => i % 2 === 1)]
      : layout === 'two-rows'
        ? [ids.slice(0, half), ids.slice(half)]
        : [ids];
  return { face, rows, through: raw?.through ?? false };
}
