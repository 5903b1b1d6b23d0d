// From what a person taps about a part, a panel, a block, a trunk or a power strip to the events that describe it. Pure;
// what the events come to mean stands in the fold.

import { type CableId, jackToPlace, type PlaceId, type RackId, unitOf } from '../../plan/identity.ts';
import type { Tail } from '../../plan/model.ts';
import type { DescribedJack } from '../../record/describedEvents.ts';
import type { Payload } from '../../record/events.ts';
import { PAIR_SETTING, type PairFate, type wiresOf } from '../../rules/pairs.ts';
import type { Form, Leg } from '../../trade/kinds.ts';
import { nameToKey } from '../../trade/names.ts';
import { type PartSocket, partToName } from '../../trade/parts.ts';

type Unit = Payload<'unit-described'>;
type Said = Payload<'sighting'>;

export interface PartLeg extends PartSocket {
  kind: 'socket' | 'tail';
  /** Where the plug of a tail sits, in place id and words; absent while nobody knows. */
  to?: { place: PlaceId; words: string };
}

export interface PartDraft {
  form: Form;
  label: string;
  plug: string;
  legs: readonly PartLeg[];
}

/** A part at a jack: its description, the look at the jack, and one look at each jack that a tail of it is in. */
export function partToPayloads(
  draft: PartDraft,
  at: { place: PlaceId; words: string },
): { unit: Unit; sightings: Said[] } {
  const label = draft.label.trim() || partToName(at.words, draft.form);
  const id = nameToKey(label);
  const jacks = draft.legs.filter(({ kind }) => kind === 'socket').map(legToJack);
  const tails = draft.legs.filter(({ kind }) => kind === 'tail');
  const isMarked = draft.label.trim() !== '';
  const plug = (connector: string) => ({
    labels: isMarked ? [{ text: label }] : [],
    connector,
    adapter: id,
  });
  const look = (place: PlaceId, words: string, connector: string): Said => ({
    places: [place],
    said: [words],
    state: isMarked ? 'label' : 'unlabelled',
    plugs: [plug(connector)],
    basis: 'seen',
    by: 'tapped',
  });
  return {
    unit: {
      label,
      heightU: 1,
      mounted: 'front',
      form: draft.form,
      at: at.place,
      jacks,
      faces: jacks.length > 0 ? [{ face: 'front', through: false, rows: [jacks.map((jack) => jack.label)] }] : [],
      tails: [
        { end: 'A', connector: draft.plug, place: at.place },
        ...tails.map(
          (tail): Tail => ({
            end: tail.label,
            connector: tail.connector,
            ...(tail.leg ? { leg: tail.leg } : {}),
            ...(tail.to ? { place: tail.to.place } : {}),
          }),
        ),
      ],
    },
    sightings: [
      look(at.place, at.words, draft.plug),
      ...tails.flatMap(({ to, connector }) => (to ? [look(to.place, to.words, connector)] : [])),
    ],
  };
}

function legToJack({ label, connector, leg, direction, signal }: PartSocket): DescribedJack {
  return {
    label,
    connector,
    ...(leg ? { leg } : {}),
    ...(direction ? { direction } : {}),
    ...(signal ? { signal } : {}),
  };
}

/** Legs of a part in their order: left first, then right, then numbers, so that a printed pair reads L and R. */
export function legOf(label: string): Leg | undefined {
  const key = nameToKey(label);
  return key === 'L' ? 'left' : key === 'R' ? 'right' : undefined;
}

export interface PanelDraft {
  form: 'panel' | 'patchbay' | 'punch-block' | 'trunk';
  label: string;
  room: string;
  rack: RackId;
  u: number | null;
  /** Jacks of a panel in a row, pairs of a block or trunk. */
  count: number;
  rows: number;
  connector: string;
  /** What a trunk holds. */
  wires?: ReturnType<typeof wiresOf>;
  /** Ranges of landings where the ends of a trunk are, as far as they are known. */
  ends?: readonly string[];
  /** A block whose two sides are told apart: house wires here, jumpers there. */
  sides: 'one' | 'two';
}

/** A through-panel: every hole seen from its front and, mirrored, from its rear; a block: landings 1 to n, several wires each. */
export function panelToPayload(draft: PanelDraft): Unit {
  const where = {
    ...(draft.rack ? { rack: draft.rack, ...(draft.u === null ? {} : { u: draft.u }) } : {}),
    ...(!draft.rack && draft.room.trim() ? { room: draft.room.trim() } : {}),
  };
  const base = { label: draft.label.trim(), heightU: 1, mounted: 'front' as const, form: draft.form, ...where };
  const { connector } = draft;
  if (draft.form === 'trunk') {
    return {
      ...base,
      description: `${draft.count} ${draft.wires ?? 'pairs'}`,
      jacks: [],
      faces: [],
      tails: [
        { end: 'A', connector, ...at(draft.ends?.[0]) },
        { end: 'B', connector, ...at(draft.ends?.[1]) },
      ],
    };
  }
  const holes = numbers(draft.count, draft.form === 'punch-block' ? '' : 'J');
  if (draft.form === 'punch-block') {
    const two = draft.sides === 'two';
    const house = holes.map((label) => ({ label, connector, mult: true }));
    const jumper = holes.map((label) => ({ label: `${label} jumper`, connector, mult: true }));
    const rows = inRows(holes, draft.rows);
    return {
      ...base,
      jacks: two ? [...house, ...jumper] : house,
      faces: [
        {
          face: 'front',
          through: false,
          rows: two ? [...rows, ...rows.map((row) => row.map((label) => `${label} jumper`))] : rows,
        },
      ],
    };
  }
  const rows = inRows(holes, draft.rows);
  return {
    ...base,
    jacks: ['front', 'rear'].flatMap((side) => holes.map((label) => ({ label: `${label} ${side}`, connector }))),
    faces: [
      { face: 'front', through: true, rows: rows.map((row) => row.map((label) => `${label} front`)) },
      // The same holes from behind: the eye meets the last one first.
      { face: 'rear', through: true, rows: rows.map((row) => row.map((label) => `${label} rear`).reverse()) },
    ],
  };
}

function at(place: PlaceId | undefined): { place?: PlaceId } {
  return place === undefined ? {} : { place };
}

function numbers(count: number, before: string): string[] {
  return Array.from({ length: count }, (_, i) => before + (i + 1));
}

/** The first row takes the first share of the numbers, as bays and blocks are numbered. */
function inRows<T>(items: readonly T[], rows: number): T[][] {
  const length = Math.ceil(items.length / Math.max(1, rows));
  return Array.from({ length: Math.ceil(items.length / length) }, (_, i) => items.slice(i * length, (i + 1) * length));
}

/** "Rows 1–25 landed in colour order": one statement over the landings, inferred, proven for none. */
export function colourToSighting(
  unit: { id: string; label: string },
  landings: readonly string[],
  cable: CableId,
): Said {
  return {
    places: landings.map((label) => jackToPlace(unit.id, label)),
    said: landings.map((label) => `${unit.label} ${label}`),
    state: 'label',
    plugs: [{ labels: [{ text: cable }] }],
    basis: 'inferred',
    order: 'colour',
    by: 'tapped',
  };
}

/** Where so many landings from a first one are, as one place with its words; null where the first bears no number. */
export function landingsFrom(
  unit: { id: string; label: string },
  first: string,
  count: number,
): { place: PlaceId; words: string } | null {
  const match = /^(.*?)(\d+)(\s+(?:front|rear|jumper))?$/i.exec(first.trim());
  if (!match || count < 2) return null;
  const [, before = '', digits = '', side = ''] = match;
  const last = String(Number(digits) + count - 1).padStart(digits.startsWith('0') ? digits.length : 0, '0');
  const label = `${before}${digits}-${before}${last}${side}`;
  return { place: jackToPlace(unit.id, label), words: `${unit.label} ${label}` };
}

/** The end of a trunk where one stands: its label was read at these landings as a whole. */
export function trunkToSighting(label: string, connector: string, at: { place: PlaceId; words: string }): Said {
  return {
    places: [at.place],
    said: [at.words],
    state: 'label',
    plugs: [{ labels: [{ text: label.trim() }], ...(connector.trim() ? { connector: connector.trim() } : {}) }],
    basis: 'seen',
    by: 'tapped',
  };
}

/** "Pair 7 is dead", "pairs 20 to 24 are spare": one reading at each landing. Dead is told by a tester or a tone. */
export function fateToSettings(places: readonly PlaceId[], fate: PairFate | 'good'): Payload<'setting-read'>[] {
  return places.map((place) => ({
    unit: unitOf(place),
    place,
    name: PAIR_SETTING,
    value: fate,
    basis: fate === 'spare' ? 'seen' : 'followed',
  }));
}

/** A lead from one jack of a bay to another, told at both ends by one statement. */
export function leadToSighting(
  from: { place: PlaceId; words: string },
  to: { place: PlaceId; words: string },
  basis: 'followed' | 'seen',
): Said {
  return {
    places: [from.place, to.place],
    said: [from.words, to.words],
    state: 'plugged',
    plugs: [{ labels: [] }],
    basis,
    joinedTo: to.place,
    by: 'tapped',
  };
}
