// The columns in which this app writes a plan as sheets, and how each cell is written. Texts alone; what is written here
// is read back by ownRead.ts, cell by cell and never guessed. What no sheet carries stands in NOT_CARRIED.
import { placeToParts } from '../../plan/identity.ts';
import type { Cable, CableEnd, Plan } from '../../plan/model.ts';
import type { Table } from '../rows/readTypes.ts';

const END = ['Location', 'Unit', 'Jack', 'Connector', 'Place', 'Unit Written', 'Jack Written'] as const;
const ends = (side: string) => END.map((part) => `${side} ${part}`);

/** First cells of each list. No other schedule has exactly these, so they tell our own sheets from all others. */
export const OWN_TITLES = {
  Cables: [
    'Id',
    'Cable No',
    ...ends('From'),
    ...ends('To'),
    'Further Ends',
    'Signal',
    'Signal Kind',
    'Circuit',
    'Cable Type',
    'Length',
    'L/R',
    'Status',
    'On Air',
    'Notes',
  ],
  Units: [
    'Id',
    'Unit',
    'Room',
    'Rack',
    'U',
    'Height',
    'Mounted',
    'Description',
    'Serial',
    'MAC',
    'Form',
    'Hangs On',
    'Tails',
    'Faces',
    'Implied',
    'Rack Id',
  ],
  Jacks: [
    'Id',
    'Unit',
    'Jack',
    'Connector',
    'Direction',
    'Signal',
    'L/R',
    'Mult',
    'Spare',
    'Implied',
    'Tip',
    'Ring',
    'Notes',
  ],
  Racks: ['Id', 'Rack', 'Room', 'Height', 'Numbering', 'Implied'],
  Settings: ['Unit', 'Jack', 'Setting', 'Value', 'Unit Id', 'Place'],
  Routes: ['Unit Id', 'From Place', 'To Place'],
  Circuits: ['Circuit', 'Main/Standby', 'Carrier No', 'Hops', 'Notes'],
} as const;
export type OwnList = keyof typeof OWN_TITLES;

/** Lists of which a plan without any writes no sheet. */
const IF_ANY: ReadonlySet<OwnList> = new Set(['Routes', 'Circuits']);

/**
 * Fields of the plan that the sheets do not hold, and why: the file that is read makes them anew. A test holds this to
 * the schema.
 */
export const NOT_CARRIED = {
  format: 'the same for every plan',
  version: 'the same for every plan',
  name: 'the name of the file',
  parent: 'the plan in force when the file is taken over',
  origin: 'a plan that is read from a file is from a sheet',
  source: 'the file itself',
  'units.origin': 'the row in the file that is read',
  'jacks.origin': 'the row in the file that is read',
  'cables.origin': 'the row in the file that is read',
  'settings.origin': 'the row in the file that is read',
  'circuits.origin': 'the row in the file that is read',
  guesses: 'belong to the rows of the file before; in our own columns nothing is guessed',
  contradictions: 'derived from cables and jacks',
} as const;

const yes = (value: boolean) => (value ? 'yes' : '');
const json = (value: unknown) => (value === undefined ? '' : JSON.stringify(value));

/** The whole plan as sheets of text. The same plan gives the same cells. */
export function planToTables(plan: Plan): Table[] {
  const units = new Map(plan.units.map((unit) => [unit.id, unit.label]));
  const jacks = new Map(plan.jacks.map((jack) => [jack.id, jack.label]));
  const racks = new Map(plan.racks.map((rack) => [rack.id, rack.label]));
  const rows: Record<OwnList, string[][]> = {
    Cables: plan.cables.map(cableToRow),
    Units: plan.units.map((unit) => [
      unit.id,
      unit.label,
      unit.room ?? '',
      unit.rack === undefined ? '' : (racks.get(unit.rack) ?? unit.rack),
      String(unit.u ?? ''),
      String(unit.heightU),
      unit.mounted,
      unit.description ?? '',
      unit.serial ?? '',
      unit.mac ?? '',
      unit.form ?? '',
      unit.at ?? '',
      json(unit.tails),
      unit.faces.length === 0 ? '' : json(unit.faces),
      yes(unit.implied),
      unit.rack ?? '',
    ]),
    Jacks: plan.jacks.map((jack) => [
      jack.id,
      units.get(jack.unit) ?? jack.unit,
      jack.label,
      jack.connector ?? '',
      jack.direction ?? '',
      jack.signal ?? '',
      jack.leg ?? '',
      yes(jack.mult),
      yes(jack.spare),
      yes(jack.implied),
      jack.wires?.tip ?? '',
      jack.wires?.ring ?? '',
      jack.notes ?? '',
    ]),
    Racks: plan.racks.map((rack) => [
      rack.id,
      rack.label,
      rack.room ?? '',
      String(rack.heightU),
      rack.numbering,
      yes(rack.implied),
    ]),
    Settings: plan.settings.map(({ unit, place, name, value }) => [
      units.get(unit) ?? unit,
      place === undefined ? '' : (jacks.get(place) ?? place),
      name,
      value,
      unit,
      place ?? '',
    ]),
    Routes: (plan.routes ?? []).map(({ unit, from, to }) => [unit, from, to]),
    Circuits: (plan.circuits ?? []).map(({ name, role = '', carrier = '', hops, notes = '' }) => [
      name,
      role,
      carrier,
      hopsToCell(hops),
      notes,
    ]),
  };
  return (Object.keys(OWN_TITLES) as OwnList[])
    .filter((list) => !IF_ANY.has(list) || rows[list].length > 0)
    .map((name) => ({ name, rows: [[...OWN_TITLES[name]], ...rows[name]] }));

  function cableToRow(cable: Cable): string[] {
    const end = (letter: string) => cable.ends.find((one) => one.end === letter);
    const further = cable.ends.filter((one) => one.end !== 'A' && one.end !== 'B');
    return [
      cable.id,
      cable.label,
      ...endToCells(end('A')),
      ...endToCells(end('B')),
      further.length === 0 ? '' : json(further),
      cable.signalText ?? '',
      cable.signal ?? '',
      cable.circuit ?? '',
      cable.type ?? '',
      cable.length ?? '',
      cable.leg ?? '',
      cable.status,
      yes(cable.onAir),
      cable.notes ?? '',
    ];
  }

  /** Unit and jack by their names, so that a cell can be changed; other words of the schedule stand behind. */
  function endToCells(end: CableEnd | undefined): string[] {
    if (!end) return ['', '', '', '', NO_END, '', ''];
    const { location = '', unit, jack, connector = '', place } = end;
    if (place === null) return [location, unit, jack, connector, OPEN, unit, jack];
    const names = placeToNames(place, units, jacks);
    return [location, names.unit, names.jack, connector, place, unit, jack];
  }
}

/** What the cells of an end show for a place: labels, or what its id tells where no list has it. */
export function placeToNames(
  place: string,
  units: ReadonlyMap<string, string>,
  jacks: ReadonlyMap<string, string>,
): { unit: string; jack: string } {
  const parts = placeToParts(place);
  if (parts.type !== 'jack') return { unit: '', jack: jacks.get(place) ?? '' };
  return { unit: units.get(parts.unit) ?? parts.unit, jack: jacks.get(place) ?? parts.jack };
}

/** In the place column: the schedule does not say where this end goes, or there is no such end. */
export const OPEN = 'open';
export const NO_END = 'none';

/** Hops as a person writes them; word for word where a hop would not come back from that. */
function hopsToCell(hops: readonly string[]): string {
  const plain = hops.join('; ');
  const back = cellToHops(plain);
  return back.length === hops.length && back.every((hop, i) => hop === hops[i]) ? plain : json(hops);
}

export function cellToHops(cell: string): string[] {
  if (cell.startsWith('[')) {
    try {
      const hops: unknown = JSON.parse(cell);
      if (Array.isArray(hops) && hops.every((hop) => typeof hop === 'string')) return hops;
    } catch {
      // A hop that begins so is a hop.
    }
  }
  return cell
    .split(';')
    .map((hop) => hop.trim())
    .filter((hop) => hop !== '');
}
