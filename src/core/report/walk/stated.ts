// What the walk shows once something was said: the verdicts, the jack to go on at, and whether the hand slipped or the
// cables did. It reads the record and the walk's memory, and records nothing.
import type { AuditId, PlaceId } from '../../plan/identity.ts';
import { isJack } from '../../plan/identity.ts';
import type { Fold } from '../../rules/fold.ts';
import { lastAct, type WalkMemory } from '../../walk/memory.ts';
import { type Slip, slipIn } from '../../walk/slip.ts';
import { nextToDo, walkWithRenaming } from '../renamingView.ts';
import { visitingOrder } from './offered.ts';
import { type Verdict, verdictAt } from './verdict.ts';
import type { WalkView } from './walkView.ts';

export interface Stated {
  verdicts: Verdict[];
  view: WalkView | null;
  slip: Slip | null;
}

/** What a slip is told by. */
export type SlipMemory = Pick<WalkMemory, 'acts' | 'visit' | 'cables'>;

/** @param open The question about a slip that is open until then. */
export function stated(
  fold: Fold,
  audit: AuditId,
  places: readonly PlaceId[],
  here: PlaceId | null,
  memory: SlipMemory,
  open: Slip | null,
): Stated {
  const [place] = places;
  // What is said in passing (a loose end, a unit, a row elsewhere) leaves the jack in hand.
  const next = here !== null && places.includes(here) ? (nextToDo(fold, here) ?? here) : here;
  const view = walkWithRenaming(fold, audit, next);
  const onUnit = place !== undefined && view?.face.rows.some((row) => row.some((jack) => jack.place === place));
  const last = place === undefined || onUnit ? view : walkWithRenaming(fold, audit, place);
  return {
    verdicts: places.map((one) => verdictAt(fold, one)),
    view,
    slip: place === undefined || !isJack(place) ? open : slipSeen(last, place, memory, open),
  };
}

/** The question as it stood after the last thing said, for a walk that is begun again. */
export function slipLeft(fold: Fold, audit: AuditId, memory: SlipMemory): Slip | null {
  const last = lastAct(memory);
  const [place = ''] = last?.places ?? [];
  if (last?.kind !== 'sighting' || last.places.length !== 1 || !isJack(place)) return null;
  return slipSeen(walkWithRenaming(fold, audit, place), place, memory, null);
}

function slipSeen(last: WalkView | null, place: PlaceId, memory: SlipMemory, open: Slip | null): Slip | null {
  if (!last || last.unit.id !== memory.visit?.unit) return null;
  return slipIn(visitingOrder(last.face), place, last.unit, memory, open);
}
