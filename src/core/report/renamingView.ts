// A renaming as screens show it: what is half done and nearest, what the jack in hand needs next, what the labels of a
// list look like in walking order. Never offers a step before its time.

import { type AuditId, type EventId, type PlaceId, type UnitId, unitOf } from '../plan/identity.ts';
import { isOnAir } from '../plan/onAir.ts';
import { type NameChange, placeToWords, roomOfUnit } from '../plan/planIndex.ts';
import type { Permission } from '../record/events.ts';
import { takenBy } from '../record/renameNames.ts';
import {
  halfRenamed,
  isHalfDone,
  type RenameEnd,
  type RenameSetting,
  type RenameStatus,
  renamings,
} from '../renaming/renaming.ts';
import type { Fold } from '../rules/fold.ts';
import { isRenameDue, renameHere } from '../walk/renameStep.ts';
import type { JackRename } from './walk/walkRenaming.ts';
import { nextOpen, orderOf } from './walk/walkStops.ts';
import { type WalkView, walkView } from './walk/walkView.ts';
import { otherEnds } from './words/renamingWords.ts';

export interface RenameLine extends RenameStatus {
  /** One sentence per thing that is left. */
  todo: string[];
  /** Settings that still show the old name, with their place in words. */
  pages: (RenameSetting & { at: string })[];
  /** The nearest place with something left, to walk to. */
  place: PlaceId | null;
  /** Every known place with something left, nearest first; `outside` the audit's scope it can be walked all the same. */
  owed: { place: PlaceId; words: string; outside: boolean }[];
  /** From end to end: `COD42 AES OUT to DIO22 I1`. */
  route: string;
}

export interface RenamingView {
  audit: AuditId;
  name: string;
  occasion: string;
  permission: Permission;
  closed: boolean;
  lists: { list: string; name: string; count: number; events: EventId[]; touched: boolean; clash: boolean }[];
  counts: { all: number; untouched: number; half: number; done: number; handedOver: number };
  /** Nearest first. */
  half: RenameLine[];
  untouched: RenameLine[];
  done: RenameLine[];
}

/** Rows of one part that go to the page at most; the counts tell of all. */
const SHOWN = 400;

/** @param from Where the person stands; null before the walk. */
export function renamingView(fold: Fold, audit: AuditId, from: string | null): RenamingView | null {
  const started = fold.started?.payload;
  if (!started) return null;
  const all = renamings(fold);
  const { at } = orderOf(fold);
  const here = from === null ? 0 : (at.get(from)?.index ?? 0);
  const far = (place: PlaceId | null) =>
    place === null ? Number.MAX_SAFE_INTEGER : Math.abs((at.get(place)?.index ?? 1e9) - here);
  const toLine = (status: RenameStatus): RenameLine => {
    const left = endsLeft(status).sort((a, b) => far(a.place) - far(b.place));
    const place = left.find((end) => end.place !== null)?.place ?? null;
    const route = status.ends.map((end) => (end.place === null ? '?' : fold.wordsOf(end.place))).join(' to ');
    const pages = status.settings.filter((one) => !one.done).map((one) => ({ ...one, at: placeWords(fold, one) }));
    return {
      ...status,
      pages,
      todo: todoOf(fold, status, left),
      place,
      owed: left.flatMap(({ place: at }) =>
        at === null ? [] : [{ place: at, words: placeToWords(fold.index, at), outside: !fold.scope.owed.has(at) }],
      ),
      route,
    };
  };
  const near = (a: RenameLine, b: RenameLine) => far(a.place) - far(b.place) || (a.old < b.old ? -1 : 1);
  const half = all.filter(isHalfDone);
  const of = (state: RenameStatus['state']) => all.filter((one) => one.state === state);
  const clashing = new Set(all.filter(({ clash }) => clash).map(({ cable }) => cable));
  const touched = new Set(all.filter(({ state }) => state !== 'untouched').map(keyOf));
  const lists = new Map<string, RenamingView['lists'][number]>();
  for (const { id, payload } of fold.of('renaming-listed')) {
    const list = lists.get(payload.list) ?? {
      list: payload.list,
      name: payload.name,
      count: 0,
      events: [],
      touched: false,
      clash: false,
    };
    lists.set(payload.list, list);
    list.count += payload.renames.length;
    list.events.push(id);
    list.clash ||= payload.renames.some(({ cable }) => clashing.has(cable));
    list.touched ||= payload.renames.some((one) => touched.has(keyOf(one)));
  }
  return {
    audit,
    name: started.name,
    occasion: started.occasion,
    permission: fold.permission,
    closed: fold.closed !== null,
    lists: [...lists.values()],
    counts: {
      all: all.length,
      untouched: of('untouched').length,
      half: half.length,
      done: of('done').length,
      handedOver: half.filter((one) => one.handedOver !== null).length,
    },
    half: half.map(toLine).sort(near).slice(0, SHOWN),
    untouched: of('untouched').map(toLine).sort(near).slice(0, SHOWN),
    done: of('done').map(toLine).slice(0, SHOWN),
  };
}

const keyOf = (one: NameChange): string => `${one.cable} ${one.new}`;

function endsLeft(status: RenameStatus): RenameEnd[] {
  const missing = status.ends.filter((end) => end.newOn === null);
  if (missing.length > 0) return missing;
  return status.ends.filter((end) => end.oldOff === null);
}

function todoOf(fold: Fold, status: RenameStatus, left: readonly RenameEnd[]): string[] {
  const { index } = fold;
  if (status.state === 'done') return [];
  const where = (end: RenameEnd) =>
    end.place === null ? `end ${end.end}, which has no place in the plan` : placeToWords(index, end.place);
  const words = left.map((end) => {
    if (end.unclear) return `${where(end)} reads ${status.new}: new label, or cable ${status.new}? Follow it.`;
    return end.newOn
      ? `${where(end)}: take the old label ${status.old} off.`
      : `${where(end)}: put the new label ${status.new} on.`;
  });
  const settings = status.settings.filter(({ done }) => !done);
  const pages = settings.map((one) => `${placeWords(fold, one)}: change ${one.name} to ${one.new}.`);
  return [...(status.clash ? ['Two lists give it different new names: remove one list.'] : []), ...words, ...pages];
}

function placeWords(fold: Fold, setting: { unit: UnitId; place?: PlaceId | undefined }): string {
  return setting.place
    ? placeToWords(fold.index, setting.place)
    : (fold.index.units.get(setting.unit)?.label ?? setting.unit);
}

export function jackRename(fold: Fold, place: PlaceId): JackRename | null {
  const here = renameHere(fold, place);
  if (!here) return null;
  const { status, end, step, upon, plug, oldText } = here;
  const far = status.ends.find((one) => one.place !== null && one.place !== place)?.place ?? null;
  const other = takenBy(fold.index, status);
  return {
    cable: status.cable,
    old: status.old,
    new: status.new,
    place,
    step,
    bears: end.bears,
    upon,
    plug,
    oldText,
    unclear: end.unclear && end.bears[0] !== undefined && other !== null ? { text: end.bears[0], other } : null,
    others: otherEnds(fold, status, place),
    far: far === null ? null : { place: far, words: placeToWords(fold.index, far) },
    followed: fold.joined(place).some((one) => status.ends.some((other) => other.place === one)),
    onAir: isOnAir(fold, status.cable),
    tired: isTired(fold),
  };
}

/** The walk's slice, with the renaming where there is one. */
export function walkWithRenaming(fold: Fold, audit: AuditId, place: PlaceId | null): WalkView | null {
  const view = walkView(fold, audit, place);
  const listed = fold.index.renames !== undefined;
  if (!view || (!listed && view.occasion !== 'relabel')) return view;
  const here = listed ? jackRename(fold, view.current.place) : null;
  return { ...view, renaming: { here, half: halfRenamed(fold), listed } };
}

/** The jack itself while something is to be done with its labels; else the next one that owes a look or a label. */
export function nextToDo(fold: Fold, after: string | null): string | null {
  if (!fold.index.renames) return nextOpen(fold, after);
  if (after !== null && isRenameDue(fold, after)) return after;
  const { places, at } = orderOf(fold);
  const start = after === null ? 0 : (at.get(after)?.index ?? -1) + 1;
  for (let i = 0; i < places.length; i++) {
    const place = places[(start + i) % places.length]!;
    if (!fold.isSaid(place) || isRenameDue(fold, place)) return place;
  }
  return null;
}

const HOUR = 3_600_000;
/** A longer rest begins the work anew. Common practice, no source. */
const REST = 2 * HOUR;

/** Six hours of label work without a rest, and it is night: the trade's rule of thumb is to stop then. */
export function isTired(fold: Fold): boolean {
  const acts = [...fold.of('label-put'), ...fold.of('label-off')].sort((a, b) => b.at - a.at);
  const [last] = acts;
  if (!last) return false;
  let since = last.at;
  for (const { at } of acts) {
    if (since - at > REST) break;
    since = at;
  }
  const hour = new Date(last.at + last.zone * 60_000).getUTCHours();
  return last.at - since >= 6 * HOUR && (hour >= 22 || hour < 6);
}

/** One label to print: two per end-to-end cable, each with the jack it is for. */
export interface RenamingLabel {
  text: string;
  old: string;
  at: string;
  /** Rack or room where that is, in words. */
  where: string;
}

/** Labels that are not on yet, in the order in which a walk meets their jacks; ends of no known jack come last. */
export function renamingLabels(fold: Fold): RenamingLabel[] {
  const { at } = orderOf(fold);
  const whereOf = (place: PlaceId | null) => {
    const unit = place === null ? undefined : fold.index.units.get(unitOf(place));
    if (!unit) return 'Place not known';
    if (unit.rack) return `Rack ${fold.index.racks.get(unit.rack)?.label ?? unit.rack}`;
    return roomOfUnit(fold.index, unit) ?? 'Room not named';
  };
  return renamings(fold)
    .flatMap((status) => status.ends.filter((end) => end.newOn === null).map((end) => ({ status, end })))
    .map(({ status, end }) => ({
      status,
      end,
      order: end.place === null ? 1e9 + 1 : (at.get(end.place)?.index ?? 1e9),
    }))
    .sort((a, b) => a.order - b.order)
    .map(({ status, end }) => ({
      text: status.new,
      old: status.old,
      at: end.place === null ? `end ${end.end}` : placeToWords(fold.index, end.place),
      where: whereOf(end.place),
    }));
}
