// Which plugs to move in which order: never two in one jack, at most one loose plug in the hand, as few movements as
// can be. Knows places and plugs only; what a movement interrupts and who may do it is decided by its caller.
import type { PlaceId } from '../plan/identity.ts';

/** A plug that stands somewhere and belongs elsewhere; `from` is null for one that lies loose. */
export interface PlugMove {
  plug: string;
  from: PlaceId | null;
  to: PlaceId;
  /** How much it hurts while it is out: the one that hurts least waits in the hand. 0 is the least. */
  weight: number;
}

/** `move` is out of one jack and into the next in one go. */
export type Movement =
  | { type: 'move'; plug: string; from: PlaceId; to: PlaceId }
  | { type: 'pull'; plug: string; from: PlaceId }
  | { type: 'plug'; plug: string; to: PlaceId };

interface MovePlan {
  /** One group after the other; within a group the hand may hold one plug. */
  groups: Movement[][];
  /** Plugs whose jack is taken by something that nobody decided to move. */
  blocked: { plug: string; to: PlaceId; by: string }[];
}

/**
 * @param moves One for each plug that is to move; no two have the same target unless it is a mult.
 * @param occupied Plug that stands at a place and stays there; null when nothing does. Places of `moves` are not asked.
 * @param isMult Places that take several plugs.
 */
export function planMoves(
  moves: readonly PlugMove[],
  occupied: (place: PlaceId) => string | null,
  isMult: (place: PlaceId) => boolean,
): MovePlan {
  const wanted = moves.filter(({ from, to }) => from !== to);
  const standing = new Map(wanted.flatMap((one) => (one.from !== null && !isMult(one.from) ? [[one.from, one]] : [])));
  const blocked: MovePlan['blocked'] = [];
  const stuck = new Set<PlugMove>();
  const block = (one: PlugMove, by: string) => {
    if (stuck.has(one)) return;
    stuck.add(one);
    blocked.push({ plug: one.plug, to: one.to, by });
    // Who waits for its jack waits too.
    if (one.from !== null)
      for (const next of wanted) if (next.to === one.from && !isMult(one.from)) block(next, one.plug);
  };
  const aimed = new Map<PlaceId, PlugMove>();
  for (const one of wanted) {
    if (isMult(one.to)) continue;
    const rival = aimed.get(one.to);
    const stays = standing.has(one.to) ? null : occupied(one.to);
    if (rival) block(one, rival.plug);
    else if (stays !== null) block(one, stays);
    else aimed.set(one.to, one);
  }
  const done = new Set<PlugMove>();
  const groups: Movement[][] = [];
  for (const one of wanted) {
    if (done.has(one) || stuck.has(one)) continue;
    const { chain, isCircle } = followed(one, aimed, standing);
    for (const each of chain) done.add(each);
    groups.push(isCircle ? roundTheCircle(chain) : fromTheFreeEnd(chain));
  }
  return { groups, blocked };
}

/** The plugs that wait for each other, the one with a free target last; or all of a circle. */
function followed(
  start: PlugMove,
  aimed: ReadonlyMap<PlaceId, PlugMove>,
  standing: ReadonlyMap<PlaceId, PlugMove>,
): { chain: PlugMove[]; isCircle: boolean } {
  let first = start;
  for (;;) {
    const before = first.from === null ? undefined : aimed.get(first.from);
    if (!before) break;
    first = before;
    if (first === start) break;
  }
  const chain: PlugMove[] = [];
  for (let next: PlugMove | undefined = first; next && !chain.includes(next); next = standing.get(next.to)) {
    chain.push(next);
  }
  return { chain, isCircle: chain.length > 1 && standing.get(chain.at(-1)!.to) === chain[0] };
}

/** Each into the jack that has just become free; a loose one comes last. */
function fromTheFreeEnd(chain: readonly PlugMove[]): Movement[] {
  return [...chain]
    .reverse()
    .map(({ plug, from, to }) => (from === null ? { type: 'plug', plug, to } : { type: 'move', plug, from, to }));
}

/** One waits in the hand while the others go round: the one that hurts least. */
function roundTheCircle(circle: readonly PlugMove[]): Movement[] {
  const held = circle.reduce((a, b) => (b.weight < a.weight ? b : a));
  const at = circle.indexOf(held);
  // Into the held one's jack goes the one before it, and so on round.
  const rest = [...circle.slice(at + 1), ...circle.slice(0, at)].reverse();
  return [
    { type: 'pull', plug: held.plug, from: held.from! },
    ...rest.map(({ plug, from, to }): Movement => ({ type: 'move', plug, from: from!, to })),
    { type: 'plug', plug: held.plug, to: held.to },
  ];
}
