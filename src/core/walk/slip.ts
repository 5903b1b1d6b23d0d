// Did the auditor's finger slip by a jack, or did the cables? Recognises equal steps between where a label was read
// and where the plan has it, and makes the events that re-anchor what was said. Pure; the person answers.
import type { PlaceId } from '../plan/identity.ts';
import type { Sighting } from '../record/events.ts';
import { type Act, type Visit, visitAt, type WalkMemory, withdrawalsAt } from './memory.ts';

/** A jack as far as a slip is told by it: what the plan has there, and what was read. */
interface JackRead {
  place: PlaceId;
  label: string;
  state: string;
  plan?: string | undefined;
  found?: string | undefined;
}

export interface Slip {
  /** Jacks further on than where the label was read; negative is back. */
  step: number;
  /** What was said and belongs elsewhere, in visiting order. */
  moves: { from: JackRead; to: JackRead }[];
  /** Where it happened; the person may stand before another unit when it is answered. */
  unit?: { id: string; label: string };
}

/** Equal steps from here on raise the question. */
const STEPS_TO_ASK = 2;

function stepAt(order: readonly JackRead[], i: number): number {
  const found = order[i]?.found;
  if (found === undefined || order[i]?.state !== 'label') return 0;
  if (order[i]?.plan === found) return 0;
  const planned = order.findIndex(({ plan }) => plan === found);
  return planned < 0 ? 0 : planned - i;
}

/**
 * The run of equal steps that ends at the jack just spoken about. Asked once a second equal step stands; a run
 * longer than what this visit said is not the auditor's slip alone and is cut to it.
 */
export function slipAt(order: readonly JackRead[], place: PlaceId, said: ReadonlySet<string>): Slip | null {
  const last = order.findIndex((jack) => jack.place === place);
  const step = last < 0 ? 0 : stepAt(order, last);
  if (step === 0) return null;
  let first = last;
  while (first > 0 && stepAt(order, first - 1) === step && said.has(order[first - 1]?.place ?? '')) first--;
  const moves = order.slice(first, last + 1).flatMap((from, i) => {
    const to = order[first + i + step];
    return to && said.has(from.place) ? [{ from, to }] : [];
  });
  // A crossed pair has steps of opposite sign, so it never gets here.
  return moves.length >= STEPS_TO_ASK ? { step, moves } : null;
}

/**
 * "Me": a statement made again where it belongs, with all that it said, and withdrawn where it was; the missed jack is
 * left unseen. What this visit said about the place it goes to gives way as well.
 */
export function reanchor(move: Slip['moves'][number], original: Sighting, visit: Visit, unitLabel: string): Sighting {
  const { withdraws: _, changedSince: __, ...said } = original;
  return {
    ...said,
    places: [move.to.place],
    said: [`${unitLabel} ${move.to.label}`],
    withdraws: withdrawalsAt(visit, [move.from.place, move.to.place]),
  };
}

/**
 * The question after one more statement. One that was not answered stays while its run stands, so that a late answer
 * moves all of it; a run said to be the cables' own is not asked about again.
 */
export function slipAfter(
  order: readonly JackRead[],
  place: PlaceId,
  said: ReadonlySet<string>,
  before: Slip | null,
  cables: PlaceId | null,
): Slip | null {
  const last = before?.moves.at(-1)?.from.place;
  const slip = slipAt(order, place, said) ?? (last === undefined ? null : slipAt(order, last, said));
  return slip?.moves[0]?.from.place === cables ? null : slip;
}

/** What a cause predicts at a jack that nobody has looked at yet: the other half of a crossed pair, or a next step. */
export function predictionAt(order: readonly JackRead[], place: PlaceId): { label: string; why: string } | null {
  const here = order.findIndex((jack) => jack.place === place);
  const jack = order[here];
  if (jack?.state !== 'unseen') return null;
  const [a, b] = [stepAt(order, here - 2), stepAt(order, here - 1)];
  const next = order[here + b];
  if (here >= 2 && b !== 0 && a === b && next?.plan) {
    return { label: next.plan, why: `if all are ${Math.abs(b)} ${Math.abs(b) === 1 ? 'jack' : 'jacks'} on` };
  }
  const partner = order.find((one) => jack.plan !== undefined && one.found === jack.plan && one.plan !== one.found);
  return partner?.plan ? { label: partner.plan, why: 'if the two are crossed' } : null;
}

/** Places that this visit has spoken about one by one; a range is never re-anchored. */
function singlesOf(acts: readonly Act[], visit: Visit): Set<string> {
  const mine = new Set(visit.looks.map(({ event }) => event));
  return new Set(
    acts.flatMap(({ event, kind, places }) =>
      kind === 'sighting' && places.length === 1 && mine.has(event) ? places : [],
    ),
  );
}

/** The question after a statement at `place`. @param order The jacks of its face in visiting order. @param open First asked there. */
export function slipIn(
  order: readonly JackRead[],
  place: PlaceId,
  unit: { id: string; label: string },
  memory: Pick<WalkMemory, 'acts' | 'visit' | 'cables'>,
  open: Slip | null,
): Slip | null {
  const said = singlesOf(memory.acts, visitAt(memory, unit.id));
  const found = slipAfter(order, place, said, open, memory.cables ?? null);
  return found && { ...found, unit };
}
