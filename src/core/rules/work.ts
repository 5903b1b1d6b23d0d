// The build occasion: what has been done to each end, what is left, what was changed on purpose and which lash-ups wait
// for their end. Derived from the record; free of order.

import type { CableId, PlaceId } from '../plan/identity.ts';
import type { EventOf, WorkStage } from '../record/events.ts';
import { WORK_STAGES } from '../record/events.ts';
import { nameToKey } from '../trade/names.ts';
import { holds } from './cableDiscrepancies.ts';
import type { Fold } from './foldView.ts';

export interface EndWork {
  cable: CableId;
  label: string;
  end: string;
  place: PlaceId;
  done: WorkStage[];
  /** Null while nobody tested it. */
  test: { result: 'pass' | 'fail'; words: string | null } | null;
  /** The next stage that is missing; null when all four are done and the test passed. */
  next: WorkStage | null;
}

/** Work on the ends at one place, by cable name. A label that stands at its planned jack was landed, said or not. */
export function workAt(fold: Fold, place: PlaceId): EndWork[] {
  return (fold.index.endsAt.get(place) ?? []).map(({ cable, end }) =>
    endWork(fold, { id: cable.id, label: cable.label }, end.end, place, eventsByPlace(fold).get(place) ?? []),
  );
}

/** Every end of the plan in scope that still wants something. Cables that are not expected yet are left out. */
export function workLeft(fold: Fold): EndWork[] {
  const byPlace = eventsByPlace(fold);
  return fold.index.plan.cables.flatMap((cable) =>
    cable.ends.flatMap(({ end, place }): EndWork[] => {
      if (place === null || !fold.scope.has(place) || cable.status !== 'in-use') return [];
      const work = endWork(fold, cable, end, place, byPlace.get(place) ?? []);
      return work.next === null ? [] : [work];
    }),
  );
}

function eventsByPlace(fold: Fold): Map<PlaceId, EventOf<'worked'>[]> {
  const map = new Map<PlaceId, EventOf<'worked'>[]>();
  for (const event of fold.of('worked')) {
    const list = map.get(event.payload.place);
    if (list) list.push(event);
    else map.set(event.payload.place, [event]);
  }
  return map;
}

function endWork(
  fold: Fold,
  cable: { id: CableId; label: string },
  end: string,
  place: PlaceId,
  events: readonly EventOf<'worked'>[],
): EndWork {
  const mine = events.filter(({ payload }) => nameToKey(payload.cable) === nameToKey(cable.label));
  const stages = new Set(mine.map(({ payload }) => payload.stage));
  const stands = holds(fold, place, cable.id);
  if (stands) stages.add('landed').add('labelled').add('pulled');
  // The last test counts: a cable that failed is mended and tested again.
  const tested = mine.filter(({ payload }) => payload.stage === 'tested').at(-1);
  const test = tested ? { result: tested.payload.result ?? 'pass', words: tested.payload.words ?? null } : null;
  const done = WORK_STAGES.filter((stage) => stages.has(stage));
  const missing = WORK_STAGES.find((stage) => !stages.has(stage)) ?? null;
  return {
    cable: cable.id,
    label: cable.label,
    end,
    place,
    done,
    test,
    next: missing ?? (test?.result === 'fail' ? 'tested' : null),
  };
}

/** What was put against the plan on purpose; with `until` it is a lash-up that waits for its end. */
export interface PlannedChange {
  place: PlaceId;
  label: string;
  reason: string;
  until: string | null;
  author: string;
  at: number;
}

export function changesOf(fold: Fold): PlannedChange[] {
  const found: PlannedChange[] = [];
  for (const place of fold.seenPlaces()) {
    for (const look of fold.stateAt(place).looks) {
      if (!look.change) continue;
      const label = look.plugs[0]?.labels[0]?.text ?? '';
      found.push({
        place,
        label,
        reason: look.change.reason,
        until: look.change.until ?? null,
        author: look.author,
        at: look.at,
      });
    }
  }
  return found.sort((a, b) => a.at - b.at || (a.place < b.place ? -1 : 1));
}
