// Rows of the report, one table each: tests of ends, how far a renaming is, moves of the audit to another plan, racks,
// cables with one end, pairs, remarks. The document lays them out.
import type { AuditId, PlaceId } from '../plan/identity.ts';
import { placeToWords, rackOfPlace } from '../plan/planIndex.ts';
import { bindingOf } from '../record/binding.ts';
import type { Fold } from '../rules/fold.ts';
import { pairsOf, pairsToWords, wiresOf } from '../rules/pairs.ts';
import { isLookedAt } from '../rules/planDiscrepancies.ts';
import { type EndTest, testsOf } from '../rules/testDiscrepancies.ts';
import type { CableLine } from './coverage.ts';
import { endToWords } from './decisionsView.ts';
import { type RenameLine, type RenamingView, renamingView } from './renamingView.ts';
import { walkOf } from './walk/walkStops.ts';
import { notLookedToWords } from './words/openWords.ts';
import { listed } from './words/plain.ts';

export interface ReportTest extends Pick<EndTest, 'label' | 'place' | 'result' | 'words' | 'author' | 'at' | 'again'> {
  /** In words; empty where the plan does not say. */
  end: string;
}

export interface ReportRenaming {
  counts: Pick<RenamingView['counts'], 'all' | 'done' | 'half' | 'untouched'>;
  half: Pick<RenameLine, 'old' | 'new' | 'todo' | 'handedOver' | 'place'>[];
}

export interface PlanMove {
  author: string;
  at: number;
  name: string;
}

export function testRows(fold: Fold): ReportTest[] {
  return testsOf(fold).map(({ label, end, place, result, words, author, at, again }) => ({
    label,
    end: end === null ? '' : endToWords(end),
    place: fold.wordsOf(place),
    result,
    words,
    author,
    at,
    again,
  }));
}

export function renamingOf(fold: Fold, audit: AuditId): ReportRenaming | null {
  const view = renamingView(fold, audit, null);
  if (!view || view.counts.all === 0) return null;
  const { all, done, half, untouched } = view.counts;
  return {
    counts: { all, done, half, untouched },
    half: view.half.map((one) => ({
      old: one.old,
      new: one.new,
      todo: one.todo,
      handedOver: one.handedOver,
      place: one.place,
    })),
  };
}

export function movesOf(fold: Fold): PlanMove[] {
  if (!fold.started) return [];
  return bindingOf(fold.started, fold.of('audit-bound')).heads.map(({ author, at, payload }) => ({
    author,
    at,
    name: payload.name,
  }));
}

/** Racks and rooms as far as they were looked at, and every place that was not, with the reason. */
export function racksLookedAt(fold: Fold, differing: ReadonlySet<PlaceId>) {
  const racks = new Map<string, { label: string; places: number; seen: number; differ: number }>();
  const notLooked: { place: string; reason: string }[] = [];
  for (const { places, room } of walkOf(fold)) {
    for (const place of places) {
      const rack = rackOfPlace(fold.index, place);
      const label = rack ? `Rack ${fold.index.racks.get(rack)?.label ?? rack}` : (room ?? 'Room not named');
      const row = racks.get(label) ?? { label, places: 0, seen: 0, differ: 0 };
      racks.set(label, row);
      row.places += 1;
      if (differing.has(place)) row.differ += 1;
      if (isLookedAt(fold, place)) row.seen += 1;
      else notLooked.push({ place: placeToWords(fold.index, place), reason: notLookedToWords(fold.stateAt(place)) });
    }
  }
  return { byRack: [...racks.values()], notLooked };
}

/** Cables that were seen at one end, and where the others are. */
export function oneEndRows(fold: Fold, lines: readonly CableLine[]): { label: string; missing: string }[] {
  return lines
    .filter(({ status }) => status.type === 'one-end-seen')
    .map(({ label, status }) => {
      const missing = status.ends.filter(({ seen }) => seen !== 'as-planned');
      const words = missing.map(({ place }) =>
        place ? placeToWords(fold.index, place) : 'an end that has no place in the plan',
      );
      return { label, missing: listed(words) };
    });
}

/** Cables that land pair by pair, where anything is known of a pair. */
export function pairRows(fold: Fold, lines: readonly CableLine[]): { label: string; words: string }[] {
  return lines.flatMap(({ id, label }) => {
    const cable = fold.index.cables.get(id);
    const pairs = cable && pairsOf(fold, cable);
    const known = pairs?.some(({ how, fate }) => how !== 'not-seen' || fate !== null);
    return cable && pairs && known ? [{ label, words: pairsToWords(pairs, wiresOf(cable)) }] : [];
  });
}

/** Notes that stand beside no difference, and what was said on closing. */
export function remarkRows(fold: Fold, explained: ReadonlySet<string>) {
  const notes = fold.of('note').filter(({ payload }) => !explained.has(payload.text));
  const closings = fold.of('audit-closed').filter(({ payload }) => payload.remark !== '');
  return [
    ...notes.map(({ payload, at, author }) => ({
      place: payload.place ? fold.wordsOf(payload.place) : null,
      text: payload.text,
      at,
      author,
    })),
    ...closings.map(({ payload, at, author }) => ({ place: 'on closing', text: payload.remark, at, author })),
  ];
}
