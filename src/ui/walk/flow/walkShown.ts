// How a walk moves: the jack in hand asked anew, the next one after a statement, and where it goes on when the record
// gives no answer. Shows alone; it records nothing.

import { batch } from '@preact/signals';
import type { PlaceId } from '../../../core/plan/identity.ts';
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import type { WalkMemory } from '../../../core/walk/memory.ts';
import { rangeToVerdict } from '../walkRangeState.ts';
import { unseenWords, type Whereabouts } from '../walkWords.ts';
import type { WalkParts } from './walkParts.ts';

/** What was said, for showing what follows from it. */
export interface Told {
  /** The memory with it. */
  memory: WalkMemory;
  /** The walk as it was said at. */
  at: WalkView;
  places: PlaceId[];
  where: Whereabouts;
}

export type WalkShown = ReturnType<typeof createShown>;

export function createShown(parts: WalkParts) {
  const { services, audit, memory, view, verdict, line, mode, remember, onPlace } = parts;
  let asking = 0;
  /** Where the walk went on to by itself: a person who went elsewhere is done with what was said before. */
  let wentOn: string | null = null;

  async function refresh(): Promise<void> {
    const mine = ++asking;
    const said = verdict.value?.place || undefined;
    try {
      const [nextView, nextVerdict] = await Promise.all([
        services.ask('walk', { audit, place: memory.value.place }),
        said === undefined ? null : services.ask('verdict', { audit, place: said }),
      ]);
      if (mine !== asking) return;
      parts.failed.value = null;
      view.value = nextView;
      if (said !== undefined && verdict.value?.place === said) verdict.value = nextVerdict;
      if (nextView && nextView.current.place !== memory.value.place) {
        remember({ ...memory.value, place: nextView.current.place });
        onPlace(nextView.current.place);
      }
    } catch (error) {
      if (mine === asking) parts.failed.value = error instanceof Error ? error.message : String(error);
    }
  }

  async function moveTo(place: PlaceId | null): Promise<void> {
    if (place !== null && place !== memory.value.place) {
      remember({ ...memory.value, place });
      onPlace(place);
    }
    await refresh();
  }

  /** Shows what was said and goes on: one question, one change of the screen. */
  async function follow(told: Told): Promise<void> {
    const { memory: next, at, places } = told;
    const here = at.current.place;
    const ask = { audit, places, here, memory: next, open: parts.slip.value };
    const answer = await services.ask('stated', ask).catch(() => null);
    if (answer === null) return moveTo(await afterUnseen(parts, told));
    const { verdicts, view: nextView, slip } = answer;
    asking += 1;
    // One change of the screen, not five: on a slow phone each costs what the eye waits for.
    batch(() => {
      // What is not on disk is the bar's business; the verdict is owed all the same.
      line.value = null;
      mode.value = 'walk';
      verdict.value = places.length === 1 ? (verdicts[0] ?? null) : rangeToVerdict(verdicts);
      parts.said.value = verdict.value && { ...verdict.value };
      remember({ ...next, place: nextView?.current.place ?? next.place });
      wentOn = memory.value.place;
      view.value = nextView;
      parts.slip.value = slip;
      if (nextView && nextView.current.place !== here) onPlace(nextView.current.place);
    });
  }

  return {
    refresh,
    moveTo,
    follow,
    /** The jack just spoken about, while the person stands where the walk went on to from it. */
    justSaid: () => (memory.value.place === wentOn ? verdict.value?.place || undefined : undefined),
  };
}

/** Said and written all the same: only the screen cannot follow. Answers where the walk goes on. */
async function afterUnseen(parts: WalkParts, { memory, at, places, where }: Told): Promise<PlaceId> {
  batch(() => {
    parts.line.value = unseenWords(at, places, where);
    parts.mode.value = 'walk';
    parts.verdict.value = null;
    parts.remember(memory);
  });
  const { place } = at.current;
  if (!places.includes(place)) return place;
  const open = await parts.services.ask('nextOpen', { audit: parts.audit, after: place }).catch(() => null);
  return open ?? place;
}
