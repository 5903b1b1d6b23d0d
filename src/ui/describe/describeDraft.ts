// What a person is describing, kept as typed, and the events it becomes; and back, for correcting and copying. Pure: no
// services, no markup.
import type { RackId } from '../../core/plan/identity.ts';
import type { UnitSaid } from '../../core/record/described.ts';
import type { DescribedJack } from '../../core/record/describedEvents.ts';
import type { Payload } from '../../core/record/events.ts';
import { type FaceRows, jacksToNotation, labelsToRows, parseJacks, rowsToHow } from '../../core/record/jackNotation.ts';
import { toQuoted } from '../../core/record/quoted.ts';
import { type DescribedRack, type DescribedView, nextU, unitsInTheWay } from '../../core/report/describedView.ts';
import { nameToKey } from '../../core/trade/names.ts';

export interface RackDraft {
  label: string;
  room: string;
  heightU: string;
  numbering: 'bottom-up' | 'top-down';
}
export const NEW_RACK: RackDraft = { label: '', room: '', heightU: '42', numbering: 'bottom-up' };

export interface UnitDraft {
  label: string;
  /** Id of the rack; empty for a unit that stands in a room; null while nobody chose: then the latest rack. */
  rack: RackId | null;
  room: string;
  /** Free U between it and the one above. */
  gap: number;
  /** Typed U, which counts before the gap. */
  u: string;
  heightU: number;
  mounted: 'front' | 'rear';
  face: 'front' | 'rear';
  through: boolean;
  notation: string;
  /** How the jacks are laid out; `kept`: as the unit that is corrected or copied has them. */
  rows: FaceRows | 'kept';
  /** Rows of the face, where it has more than one. */
  rowCount: number;
  description: string;
  serial: string;
  mac: string;
  like: string;
  /** The unit that was copied, for what the line of jacks does not say. */
  from: UnitSaid | null;
  /** The group of like jacks that is being tapped together. */
  group: { count: number; connector: string; direction: 'in' | 'out' | ''; label: string };
}
export const NEW_UNIT: UnitDraft = {
  label: '',
  rack: null,
  room: '',
  gap: 0,
  u: '',
  heightU: 1,
  mounted: 'front',
  face: 'rear',
  through: false,
  notation: '',
  rows: 'one',
  rowCount: 2,
  description: '',
  serial: '',
  mac: '',
  like: '',
  from: null,
  group: { count: 8, connector: 'XLR', direction: 'in', label: '' },
};

/** Where a unit is to stand. A rack may be missing: named a moment ago, or taken back since. */
export type Where = { type: 'rack'; rack: DescribedRack } | { type: 'room' } | { type: 'missing'; rack: RackId };

/** @param usual Rack that counts while nobody chose. */
export function whereOf(draft: Pick<UnitDraft, 'rack'>, view: DescribedView, usual: DescribedRack | null): Where {
  if (draft.rack === null) return usual ? { type: 'rack', rack: usual } : { type: 'room' };
  if (draft.rack === '') return { type: 'room' };
  const rack = view.racks.find(({ id }) => id === draft.rack);
  return rack ? { type: 'rack', rack } : { type: 'missing', rack: draft.rack };
}

/** A unit opened for correction: kept unchanged, it says the same again. */
export function saidToDraft(said: UnitSaid): Partial<UnitDraft> {
  return {
    ...likeToDraft(said),
    label: said.label,
    rack: said.rack ?? '',
    room: said.room ?? '',
    u: said.u === undefined ? '' : String(said.u),
    description: said.description ?? '',
    serial: said.serial ?? '',
    mac: said.mac ?? '',
    like: said.like ?? '',
    from: null,
  };
}

/** What a copy takes over: all but serial number, MAC address and place. */
export function likeToDraft(said: UnitSaid): Partial<UnitDraft> {
  const [face, ...more] = said.faces;
  const labels = said.jacks.map(({ label }) => label);
  const laid = face && more.length === 0 ? rowsToHow(labels, face.rows) : null;
  return {
    notation: jacksToNotation(said.jacks),
    heightU: said.heightU,
    mounted: said.mounted,
    face: face?.face ?? 'rear',
    through: face?.through ?? false,
    rows: said.jacks.length === 0 ? 'one' : (laid?.how ?? 'kept'),
    rowCount: laid?.count ?? 2,
    ...(said.description ? { description: said.description } : {}),
    like: said.label,
    from: said,
  };
}

/** What is still missing, in a sentence; null when it can be kept. */
export function rackTrouble(draft: RackDraft): string | null {
  if (draft.label.trim() === '') return 'Scan or type the rack’s label.';
  const height = Number(draft.heightU);
  return Number.isInteger(height) && height >= 1 && height <= 70 ? null : 'Height in U: a whole number from 1 to 70.';
}

export function rackToPayload(draft: RackDraft, corrects: readonly string[]): Payload<'rack-described'> {
  return {
    label: draft.label.trim(),
    ...(draft.room.trim() ? { room: draft.room.trim() } : {}),
    heightU: Number(draft.heightU),
    numbering: draft.numbering,
    ...(corrects.length > 0 ? { corrects: [...corrects] } : {}),
  };
}

/**
 * The U it sits at: typed, else the next free one. Null where what is typed is no number, where the rack has no room, or
 * where it was never said and is not said now.
 */
export function unitToU(draft: UnitDraft, rack: DescribedRack, before: UnitSaid | null): number | null {
  if (draft.u.trim() === '') {
    return before?.rack === rack.id ? null : nextU(rack, draft.heightU, draft.gap, draft.mounted);
  }
  const typed = Number(draft.u);
  return Number.isInteger(typed) ? typed : null;
}

/**
 * What is still missing or cannot be, in a sentence; null when it can be kept.
 * @param own Id of the unit that is corrected.
 */
export function unitTrouble(draft: UnitDraft, where: Where, before: UnitSaid | null, own: string): string | null {
  if (draft.label.trim() === '') return 'Scan or type the unit’s label, or a name you give it.';
  const { problems } = parseJacks(draft.notation);
  const [first] = problems;
  if (first) return `Jacks: “${first.said}”. ${first.why}`;
  if (where.type === 'room') return null;
  if (where.type === 'missing')
    return before?.rack === where.rack ? null : `Rack ${where.rack} is not in the record yet. Wait, or choose another.`;
  const { rack } = where;
  const u = unitToU(draft, rack, before);
  if (u === null) {
    if (draft.u.trim() !== '') return 'Lowest U it takes up: type a whole number.';
    if (before?.rack === rack.id) return null;
    return `Rack ${rack.label} has no free ${draft.heightU} U at the ${draft.mounted}. Type the U, or choose another rack.`;
  }
  if (u < 1 || u + draft.heightU - 1 > rack.heightU)
    return `U${u} is outside ${rack.label}, which has ${rack.heightU} U.`;
  // The plan may be wrong about what sits there; what somebody described on the floor is asked about first.
  const [other] = unitsInTheWay(rack, draft.mounted, u, draft.heightU, own).filter(({ events }) => events.length > 0);
  return other
    ? `${other.label} is already at U${other.u} (${other.heightU} U high). Choose another U, or correct ${other.label} first.`
    : null;
}

/** Faces as they are printed: the line's own rows, else as chosen, else as they were with what came and went. */
export function draftToFaces(
  draft: Pick<UnitDraft, 'notation' | 'rows' | 'rowCount' | 'face' | 'through' | 'from'>,
  before: UnitSaid | null,
): UnitSaid['faces'] {
  const { face, through } = draft;
  const noted = parseJacks(draft.notation);
  if (noted.jacks.length === 0) return [];
  if (noted.rows.length > 1) return [{ face, through, rows: noted.rows }];
  const source = draft.from ?? before;
  if (draft.rows === 'kept' && source) return keptFaces(source, noted.jacks, draft);
  const how = draft.rows === 'kept' ? 'one' : draft.rows;
  const labels = noted.jacks.map(({ label }) => label);
  return [{ face, through, rows: labelsToRows(labels, how, draft.rowCount) }];
}

function keptFaces(
  source: UnitSaid,
  jacks: readonly DescribedJack[],
  { face, through }: Pick<UnitDraft, 'face' | 'through'>,
): UnitSaid['faces'] {
  const now = new Set(jacks.map(({ label }) => nameToKey(label)));
  const then = new Set(source.jacks.map(({ label }) => nameToKey(label)));
  const isGone = (label: string) => then.has(nameToKey(label)) && !now.has(nameToKey(label));
  const added = jacks.map(({ label }) => label).filter((label) => !then.has(nameToKey(label)));
  return source.faces.map((one, i) => {
    const rows = one.rows.map((row) => row.filter((label) => !isGone(label)));
    // New ones stand behind the others, on the first face; where each of them sits can be said by laying it out anew.
    if (i === 0 && added.length > 0) rows.push([...(rows.pop() ?? []), ...added]);
    const isOnly = source.faces.length === 1;
    return {
      face: isOnly ? face : one.face,
      through: isOnly ? through : one.through,
      rows: rows.filter((row, r) => row.length > 0 || one.rows[r]?.length === 0),
    };
  });
}

/** The line says label, connector and direction; the rest of what was said about a jack goes by its name. */
function draftToJacks(draft: UnitDraft, source: UnitSaid | null): DescribedJack[] {
  const known = new Map(source?.jacks.map((jack) => [nameToKey(jack.label), jack]));
  return parseJacks(draft.notation).jacks.map((jack) => {
    const { label: _, connector: __, direction: ___, ...more } = known.get(nameToKey(jack.label)) ?? jack;
    return { ...jack, ...more };
  });
}

/** @param before What the unit was said to be, where it is corrected. */
export function unitToPayload(
  draft: UnitDraft,
  where: Where,
  before: UnitSaid | null,
  corrects: readonly string[],
  gone: readonly string[] = before?.gone ?? [],
): Payload<'unit-described'> {
  const source = draft.from ?? before;
  const text = (key: 'description' | 'serial' | 'mac' | 'like') =>
    draft[key].trim() ? { [key]: draft[key].trim() } : {};
  const tails = draft.from ? draft.from.tails?.map(({ place: _, ...tail }) => tail) : before?.tails;
  return {
    label: draft.label.trim(),
    ...whereToFacts(draft, where, before),
    heightU: draft.heightU,
    mounted: draft.mounted,
    ...text('description'),
    ...text('serial'),
    ...text('mac'),
    ...(source?.form ? { form: source.form } : {}),
    ...(before?.at === undefined ? {} : { at: before.at }),
    ...text('like'),
    jacks: draftToJacks(draft, source),
    faces: draftToFaces(draft, before),
    ...(tails ? { tails } : {}),
    ...(gone.length > 0 ? { gone: [...gone] } : {}),
    ...(corrects.length > 0 ? { corrects: [...corrects] } : {}),
  };
}

function whereToFacts(draft: UnitDraft, where: Where, before: UnitSaid | null): Pick<UnitSaid, 'rack' | 'u' | 'room'> {
  if (where.type === 'room') return draft.room.trim() ? { room: draft.room.trim() } : {};
  const id = where.type === 'rack' ? where.rack.id : where.rack;
  const u = where.type === 'rack' ? unitToU(draft, where.rack, before) : before?.u;
  const room = before?.rack === id ? before.room : undefined;
  return { rack: id, ...(u === null || u === undefined ? {} : { u }), ...(room ? { room } : {}) };
}

/** Adds a counted group to the line of jacks: "8 x XLR in". A name that would be read as something else is quoted. */
export function withGroup(
  notation: string,
  group: { count: number; connector: string; direction: string; label: string },
): string {
  const label = group.label.trim();
  const write = (name: string) =>
    [`${group.count} x`, group.connector, group.direction, name].filter(Boolean).join(' ');
  const { jacks, problems } = parseJacks(write(label));
  const isMeant = problems.length === 0 && jacks.length === group.count && jacks[0]?.label.startsWith(label);
  const isLegs = /\bL\s*[/+]\s*R$/i.test(label);
  const item = label === '' || isMeant || isLegs ? write(label) : write(toQuoted(label));
  const before = notation.trim().replace(/[,;]$/, '');
  return before === '' ? item : `${before}, ${item}`;
}
