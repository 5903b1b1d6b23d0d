// What a person is describing, kept as typed, and the events it becomes. Pure: no services, no markup.
import type { Payload } from '../../core/audit/events.ts';
import { type FaceRows, labelsToRows, parseJacks } from '../../core/plan/jackNotation.ts';
import { toQuoted } from '../../core/plan/quoted.ts';
import { type DescribedRack, nextU } from '../../core/report/describedView.ts';

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
  rack: string | null;
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
  rows: FaceRows;
  description: string;
  serial: string;
  mac: string;
  like: string;
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
  description: '',
  serial: '',
  mac: '',
  like: '',
};

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

/** The U it sits at: typed, else below the last one. Null in a room, or where what is typed is no number. */
export function unitToU(draft: UnitDraft, rack: DescribedRack | undefined): number | null {
  if (!rack) return null;
  if (draft.u.trim() === '') return nextU(rack, draft.heightU, draft.gap);
  const typed = Number(draft.u);
  return Number.isInteger(typed) ? typed : null;
}

export function unitTrouble(draft: UnitDraft, rack: DescribedRack | undefined): string | null {
  if (draft.label.trim() === '') return 'Scan or type the unit’s label, or a name you give it.';
  const { problems } = parseJacks(draft.notation);
  const [first] = problems;
  if (first) return `Jacks: “${first.said}”. ${first.why}`;
  if (!rack) return null;
  const u = unitToU(draft, rack);
  if (u === null) return 'The U it sits at: a whole number.';
  if (u < 1 || u + draft.heightU - 1 > rack.heightU)
    return `U${u} is outside ${rack.label}, which has ${rack.heightU} U.`;
  return null;
}

/** Rows of labels as the face is printed: the notation's own two rows, else as chosen. */
export function draftToRows(draft: Pick<UnitDraft, 'notation' | 'rows'>): string[][] {
  const { jacks, rows } = parseJacks(draft.notation);
  if (rows.length > 1) return rows;
  return jacks.length === 0
    ? []
    : labelsToRows(
        jacks.map(({ label }) => label),
        draft.rows,
      );
}

export function unitToPayload(
  draft: UnitDraft,
  rack: DescribedRack | undefined,
  corrects: readonly string[],
): Payload<'unit-described'> {
  const { jacks } = parseJacks(draft.notation);
  const rows = draftToRows(draft);
  const u = unitToU(draft, rack);
  const text = (key: 'description' | 'serial' | 'mac' | 'like') =>
    draft[key].trim() ? { [key]: draft[key].trim() } : {};
  return {
    label: draft.label.trim(),
    ...(rack ? { rack: rack.id, ...(u === null ? {} : { u }) } : draft.room.trim() ? { room: draft.room.trim() } : {}),
    heightU: draft.heightU,
    mounted: draft.mounted,
    ...text('description'),
    ...text('serial'),
    ...text('mac'),
    ...text('like'),
    jacks,
    faces: rows.length > 0 ? [{ face: draft.face, through: draft.through, rows }] : [],
    ...(corrects.length > 0 ? { corrects: [...corrects] } : {}),
  };
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
