// The columns in which this app writes a plan as sheets, and how each cell is written. Texts alone; what is written here
// is read back by ownRead.ts, cell by cell and never guessed.
import { placeToParts } from '../identity.ts';
import type { Cable, CableEnd, Plan } from '../model.ts';
import type { Table } from '../readTypes.ts';

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
  ],
  Jacks: ['Id', 'Unit', 'Jack', 'Connector', 'Direction', 'Signal', 'L/R', 'Mult', 'Spare', 'Implied'],
  Racks: ['Id', 'Rack', 'Room', 'Height', 'Numbering', 'Implied'],
  Settings: ['Unit', 'Jack', 'Setting', 'Value', 'Unit Id', 'Place'],
  Routes: ['Unit Id', 'From Place', 'To Place'],
} as const;
export type OwnList = keyof typeof OWN_TITLES;

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
      unit.rack === undefined ? '' : nameOf(racks, unit.rack),
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
      place === undefined ? '' : (jacks.get(place) ?? ''),
      name,
      value,
      unit,
      place ?? '',
    ]),
    Routes: (plan.routes ?? []).map(({ unit, from, to }) => [unit, from, to]),
  };
  return (Object.keys(OWN_TITLES) as OwnList[])
    .filter((list) => list !== 'Routes' || rows.Routes.length > 0)
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
    const parts = placeToParts(place);
    const [unitName, jackName] = [
      parts.type === 'jack' ? (units.get(parts.unit) ?? parts.unit) : '',
      jacks.get(place) ?? (parts.type === 'jack' ? parts.jack : ''),
    ];
    return [location, unitName, jackName, connector, place, unit, jack];
  }
}

/** In the place column: the schedule does not say where this end goes, or there is no such end. */
export const OPEN = 'open';
export const NO_END = 'none';

/** A rack by its label, or by its id where the label does not tell it from another. */
function nameOf(names: ReadonlyMap<string, string>, id: string): string {
  const label = names.get(id) ?? id;
  const bearers = [...names].filter(([other, name]) => name === label || other === label);
  return bearers.length <= 1 || bearers.every(([other]) => other === id) ? label : id;
}
