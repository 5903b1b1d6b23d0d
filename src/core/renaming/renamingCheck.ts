// Checks a list of renames against the plan before anybody accepts it. Says what is wrong with which row; drops and
// decides nothing by itself.

import type { CableId, PlaceId } from '../plan/identity.ts';
import { lookUp } from '../plan/lookUp.ts';
import type { Cable } from '../plan/model.ts';
import { type PlanIndex, placeToWords } from '../plan/planIndex.ts';
import { MAX_LABEL, type Payload, type Rename } from '../record/events.ts';
import { nameToFolded, nameToKey } from '../trade/names.ts';

/** Two names as listed. `row` says where, in words, and names the row for good. */
export interface ListedPair {
  row: string;
  old: string;
  new: string;
}

export type RowProblem =
  | { type: 'unknown-old' | 'same-name' | 'no-new' | 'control-signs' | 'longer-than-label' }
  | { type: 'ask-old'; candidates: { cable: CableId; label: string; line: string }[] }
  | { type: 'old-twice' | 'new-twice'; rows: string[] }
  | { type: 'new-in-use'; at: string }
  | { type: 'listed-before'; new: string };

export type RowWarning =
  | { type: 'read-as'; label: string }
  | { type: 'long'; characters: number }
  | { type: 'look-alike'; other: string }
  | { type: 'names-else'; what: 'unit' | 'rack' | 'jack' }
  | { type: 'out-of-scope'; at: string }
  | { type: 'end-unknown' }
  | { type: 'on-floor'; at: string };

export interface CheckedPair extends ListedPair {
  cable: CableId | null;
  /** Label of the cable as the plan has it. */
  label: string | null;
  ends: string;
  /** Takes the place of another cable's name that is renamed in the same list. */
  exchanges: boolean;
  problems: RowProblem[];
  warnings: RowWarning[];
}

/** Common practice, no source: what one line of a wrap-round cable label takes at a size that can be read. */
const LABEL_TAKES = 16;

interface CheckGiven {
  index: PlanIndex;
  pairs: readonly ListedPair[];
  /** Row to cable id, where a person chose one of several. */
  answers: Readonly<Record<string, string>>;
  /** Renames that stand in this audit already. */
  listed?: readonly Rename[];
  inScope?: (place: PlaceId) => boolean;
  /** Places where a label that nobody knows stands on the floor with this text. */
  unknownAt?: (text: string) => readonly PlaceId[];
}

/**
 * The order of the pairs is kept. A row without problems can be taken, all such rows together; a row that needs the
 * name of one that cannot be taken cannot be taken either.
 */
export function checkRenames(given: CheckGiven): CheckedPair[] {
  for (let blocked = new Set<string>(); ; ) {
    const rows = checkOnce(given, blocked);
    const now = new Set(rows.filter(({ problems }) => problems.length > 0).map(({ row }) => row));
    if (now.size === blocked.size) return rows;
    blocked = now;
  }
}

function checkOnce(given: CheckGiven, blocked: ReadonlySet<string>): CheckedPair[] {
  const { index, answers } = given;
  const found = given.pairs.map((pair) => ({ pair, ...oldOf(index, pair, answers[pair.row]) }));
  const rest: Rest = {
    byCable: groupBy(found, ({ cable }) => cable?.id ?? ''),
    byNew: groupBy(found, ({ pair }) => nameToKey(pair.new)),
    folded: groupBy(found, ({ pair }) => nameToFolded(pair.new)),
    moving: new Set(found.flatMap(({ cable, pair }) => (cable && !blocked.has(pair.row) ? [cable.id] : []))),
    before: new Map(given.listed?.map((one) => [one.cable, one])),
  };
  return found.map(({ pair, cable, problems, warnings }): CheckedPair => {
    const fresh = pair.new.trim();
    const told: Told = { problems: [...problems], warnings: [...warnings] };
    if (fresh === '') told.problems.push({ type: 'no-new' });
    else checkText(fresh, rest, told);
    const exchanges = fresh !== '' && checkPlan(fresh, cable, given, rest, told);
    if (cable) checkCable(cable, fresh, given, rest, told);
    return {
      ...pair,
      new: fresh,
      cable: cable?.id ?? null,
      label: cable?.label ?? null,
      ends: cable ? linesOf(index, cable) : '',
      exchanges,
      ...told,
    };
  });
}

/** What is told of one row. */
type Told = Pick<CheckedPair, 'problems' | 'warnings'>;

/** The other rows, by what a row is held against. */
interface Rest {
  byCable: ReadonlyMap<string, readonly { pair: ListedPair }[]>;
  byNew: ReadonlyMap<string, readonly { pair: ListedPair }[]>;
  folded: ReadonlyMap<string, readonly { pair: ListedPair }[]>;
  /** Cables whose names this list frees. */
  moving: ReadonlySet<CableId>;
  before: ReadonlyMap<CableId, Rename>;
}

/** The new name itself, and beside those of the other rows. */
function checkText(text: string, { byNew, folded }: Rest, { problems, warnings }: Told): void {
  if (/\p{Cc}|\p{Cf}/u.test(text)) problems.push({ type: 'control-signs' });
  if (text.length > MAX_LABEL) problems.push({ type: 'longer-than-label' });
  else if ([...text].length > LABEL_TAKES) warnings.push({ type: 'long', characters: [...text].length });
  const twins = byNew.get(nameToKey(text)) ?? [];
  if (twins.length > 1) problems.push({ type: 'new-twice', rows: twins.map((one) => one.pair.row) });
  const alike = (folded.get(nameToFolded(text)) ?? []).find((one) => nameToKey(one.pair.new) !== nameToKey(text));
  if (alike) warnings.push({ type: 'look-alike', other: alike.pair.new });
}

/** The new name beside those of the plan and of the floor. @returns whether it takes a name that this list frees. */
function checkPlan(
  text: string,
  cable: Cable | null,
  { index, unknownAt }: CheckGiven,
  { moving }: Rest,
  { problems, warnings }: Told,
): boolean {
  let takes = false;
  for (const named of index.names.key.get(nameToKey(text)) ?? []) {
    if (named.type !== 'cable') {
      warnings.push({ type: 'names-else', what: named.type });
      continue;
    }
    const other = index.cables.get(named.id);
    // The index may know names that are only being given: they are nobody's yet.
    if (!other || other.id === cable?.id || nameToKey(other.label) !== nameToKey(text)) continue;
    if (moving.has(other.id)) takes = true;
    else problems.push({ type: 'new-in-use', at: linesOf(index, other) });
  }
  const alike = (index.names.folded.get(nameToFolded(text)) ?? []).find(
    ({ type, id, label }) => type === 'cable' && !moving.has(id) && nameToKey(label) !== nameToKey(text),
  );
  if (alike) warnings.push({ type: 'look-alike', other: alike.label });
  const [place] = unknownAt?.(text) ?? [];
  if (place !== undefined) warnings.push({ type: 'on-floor', at: placeToWords(index, place) });
  return takes;
}

/** The cable that gets the name. */
function checkCable(
  cable: Cable,
  fresh: string,
  { index, inScope }: CheckGiven,
  { byCable, before }: Rest,
  { problems, warnings }: Told,
): void {
  const twins = byCable.get(cable.id) ?? [];
  if (twins.length > 1) problems.push({ type: 'old-twice', rows: twins.map((one) => one.pair.row) });
  if (cable.label === fresh) problems.push({ type: 'same-name' });
  const earlier = before.get(cable.id);
  if (earlier) problems.push({ type: 'listed-before', new: earlier.new });
  for (const { place } of cable.ends) {
    if (place === null) warnings.push({ type: 'end-unknown' });
    else if (inScope && !inScope(place)) warnings.push({ type: 'out-of-scope', at: placeToWords(index, place) });
  }
}

function linesOf(index: PlanIndex, cable: Cable): string {
  return cable.ends
    .map((end) => (end.place ? placeToWords(index, end.place) : [end.unit, end.jack].filter(Boolean).join(' ') || '?'))
    .join(' to ');
}

/** The cable that a row means by its old name, or why none. */
function oldOf(at: PlanIndex, pair: ListedPair, answer: string | undefined) {
  const nothing: { cable: null; problems: RowProblem[]; warnings: RowWarning[] } = {
    cable: null,
    problems: [],
    warnings: [],
  };
  const chosen = answer === undefined ? undefined : at.cables.get(answer);
  if (chosen) return { ...nothing, cable: chosen };
  const look = lookUp(at.names, pair.old, 'cable');
  // A mark of one end names the cable too, but a list renames cables.
  const named = look.type === 'found' ? [look.named] : look.type === 'ask' ? look.candidates : [];
  const cables = named.flatMap(({ type, id, label }) => {
    const cable = type === 'cable' ? at.cables.get(id) : undefined;
    // Names that are only being given do not count as old ones.
    return cable && cable.label === label ? [cable] : [];
  });
  const [only] = cables;
  const how = look.type === 'none' ? null : look.how;
  if (!only) return { ...nothing, problems: [{ type: 'unknown-old' as const }] };
  if (cables.length === 1 && (how === 'exact' || how === 'key')) {
    const asWritten = only.label === pair.old.trim();
    return { ...nothing, cable: only, warnings: asWritten ? [] : [{ type: 'read-as' as const, label: only.label }] };
  }
  const candidates = cables.map((cable) => ({ cable: cable.id, label: cable.label, line: linesOf(at, cable) }));
  return { ...nothing, problems: [{ type: 'ask-old' as const, candidates }] };
}

function groupBy<T>(list: readonly T[], keyOf: (one: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const one of list) {
    const key = keyOf(one);
    if (key === '') continue;
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return groups;
}

/** Leaves room for the envelope beside the payload: an event's text has at most 65,536 characters. */
const PAYLOAD_AT_MOST = 60_000;

/** Payloads of one list; a long one comes as several. Empty when there is nothing to rename. */
export function renamesToEvents(list: string, name: string, renames: readonly Rename[]): Payload<'renaming-listed'>[] {
  const parts: Rename[][] = [];
  const head = JSON.stringify({ list, name, renames: [] }).length;
  let size = Number.POSITIVE_INFINITY;
  for (const one of renames) {
    const more = JSON.stringify(one).length + 1;
    if (size + more > PAYLOAD_AT_MOST) {
      parts.push([]);
      size = head;
    }
    parts.at(-1)!.push(one);
    size += more;
  }
  return parts.map((part) => ({ list, name, renames: part }));
}
