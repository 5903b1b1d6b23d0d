// The order of plug movements against published results on sorting by exchanges with one spare place, and against the
// optimum found by search. Sources: one spare place is the star graph of Akers and Krishnamurthy (IEEE Trans. Comput.
// 1989; formula from memory), whose distance is moved items + circles; a chain to an empty socket needs one movement
// an item (derived by search here).
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Movement, type PlugMove, planMoves } from '../../../src/core/fixes/moves.ts';

const nobody = () => null;
const never = () => false;
const place = (n: number) => `P${n}`;

function permutations(items: number[]): number[][] {
  if (items.length <= 1) return [items];
  return items.flatMap((one, i) =>
    permutations([...items.slice(0, i), ...items.slice(i + 1)]).map((rest) => [one, ...rest]),
  );
}

/** Plug i stands at place i and belongs to place order[i]. */
const movesOf = (order: readonly number[]): PlugMove[] =>
  order.map((to, i) => ({ plug: `c${i}`, from: place(i), to: place(to), weight: 0 }));

/** Plays movements on a model of the floor and breaks on any rule: an empty hand, a free jack, the right plug. */
function play(
  floor: Map<string, string>,
  movements: readonly Movement[],
): { floor: Map<string, string>; hand: string[] } {
  const hand: string[] = [];
  for (const one of movements) {
    if (one.type === 'plug') {
      expect(hand.splice(hand.indexOf(one.plug), 1)).toEqual([one.plug]);
    } else {
      expect(floor.get(one.from)).toBe(one.plug);
      floor.delete(one.from);
      if (one.type === 'pull') hand.push(one.plug);
    }
    if (one.type !== 'pull') {
      expect(floor.has(one.to)).toBe(false);
      floor.set(one.to, one.plug);
    }
    expect(hand.length).toBeLessThanOrEqual(1);
  }
  return { floor, hand };
}

/** Fewest movements to every floor that n plugs can be brought to, one in the hand at most: breadth-first search. */
function fewestOf(n: number): (order: readonly number[]) => number {
  // State: what stands at each place (−1 for nothing) and in the hand.
  const start = [...Array(n).keys(), -1];
  const steps = new Map([[start.join(), 0]]);
  for (let border = [start]; border.length > 0; ) {
    const next: number[][] = [];
    for (const at of border) {
      for (let from = 0; from <= n; from++) {
        const to = at.indexOf(-1);
        if (from === to) continue;
        const moved = [...at];
        [moved[to], moved[from]] = [at[from]!, -1];
        if (steps.has(moved.join())) continue;
        steps.set(moved.join(), steps.get(at.join())! + 1);
        next.push(moved);
      }
    }
    border = next;
  }
  // Plug i belongs at order[i], and the hand is empty.
  return (order) => steps.get([...Array.from({ length: n }, (_, at) => order.indexOf(at)), -1].join())!;
}

const count = (plan: { groups: Movement[][] }) => plan.groups.flat().length;

describe('the order of plug movements', () => {
  it('needs no more than the optimum found by search, for every permutation of up to 6 plugs', () => {
    for (let n = 1; n <= 6; n++) {
      const fewest = fewestOf(n);
      for (const order of permutations([...Array(n).keys()])) {
        const moved = order.filter((to, i) => to !== i).length;
        const circles = circlesOf(order);
        const mine = count(planMoves(movesOf(order), nobody, never));
        expect(mine).toBe(moved + circles);
        expect(mine).toBe(fewest(order));
      }
    }
  });

  it.each([
    // Worst case with one spare place: floor(3n/2) for n from 2 (derived by search).
    [2, 3],
    [3, 4],
    [4, 6],
    [5, 7],
    [6, 9],
  ])('needs at most floor(3n/2) for %i plugs', (n, most) => {
    const all = permutations([...Array(n).keys()]).map((order) => count(planMoves(movesOf(order), nobody, never)));
    expect(Math.max(...all)).toBe(most);
  });

  it.each([
    // Identity, circles of 2 and 3, two of 2, 3 with 2, of 4. Exchanges needed to sort: n − circles, those of one
    // counted (POJ 1674: 2 3 5 4 1 needs 3); movements with one spare place: by search, as above.
    [[0], 0, 0],
    [[1, 0], 1, 3],
    [[1, 2, 0], 2, 4],
    [[1, 0, 3, 2], 2, 6],
    [[1, 2, 0, 4, 3], 3, 7],
    [[1, 2, 3, 0], 3, 5],
    [[1, 2, 4, 3, 0], 3, 5],
  ])('%j: as many exchanges as published, and one movement a plug and circle', (order, exchanges, movements) => {
    const { groups } = planMoves(movesOf(order), nobody, never);
    expect(groups.flat().length).toBe(movements);
    // A circle of k plugs is k − 1 exchanges and k + 1 movements.
    expect(groups.reduce((sum, group) => sum + group.length - 2, 0)).toBe(exchanges);
    expect(order.length - circlesOf(order) - order.filter((to, i) => to === i).length).toBe(exchanges);
  });

  it('moves a chain from its free end, one movement each and nothing in the hand', () => {
    const chain = [0, 1, 2].map((i): PlugMove => ({ plug: `c${i}`, from: place(i), to: place(i + 1), weight: 0 }));
    expect(planMoves(chain, nobody, never).groups).toEqual([
      [
        { type: 'move', plug: 'c2', from: 'P2', to: 'P3' },
        { type: 'move', plug: 'c1', from: 'P1', to: 'P2' },
        { type: 'move', plug: 'c0', from: 'P0', to: 'P1' },
      ],
    ]);
  });

  it('keeps the plug in the hand that hurts least while it is out', () => {
    const circle = movesOf([1, 2, 0]).map((one, i) => ({ ...one, weight: [2, 0, 1][i]! }));
    expect(planMoves(circle, nobody, never).groups[0]![0]).toEqual({ type: 'pull', plug: 'c1', from: 'P1' });
  });

  it('stops before a jack that something else holds, and says who waits for it', () => {
    const moves: PlugMove[] = [
      { plug: 'a', from: 'P1', to: 'P2', weight: 0 },
      { plug: 'b', from: 'P0', to: 'P1', weight: 0 },
      { plug: 'c', from: null, to: 'P9', weight: 0 },
    ];
    const plan = planMoves(moves, (at) => (at === 'P2' ? 'x' : null), never);
    expect(plan.blocked).toEqual([
      { plug: 'a', to: 'P2', by: 'x' },
      { plug: 'b', to: 'P1', by: 'a' },
    ]);
    expect(plan.groups).toEqual([[{ type: 'plug', plug: 'c', to: 'P9' }]]);
    expect(
      planMoves(
        moves,
        (at) => (at === 'P2' ? 'x' : null),
        (at) => at === 'P2',
      ).blocked,
    ).toEqual([]);
  });

  it('reaches what was decided on random floors without breaking a rule', () => {
    const floors = fc.integer({ min: 2, max: 14 }).chain((n) =>
      // Target of each plug among more places than plugs: circles, chains and free jacks alike.
      fc.shuffledSubarray([...Array(n + 4).keys()], { minLength: n, maxLength: n }),
    );
    fc.assert(
      fc.property(floors, (to) => {
        const moves = to.map((at, i): PlugMove => ({ plug: `c${i}`, from: place(i), to: place(at), weight: i % 3 }));
        const before = new Map(moves.map(({ plug, from }) => [from!, plug]));
        const { groups, blocked } = planMoves(moves, nobody, never);
        expect(blocked).toEqual([]);
        const all = groups.flat();
        const after = play(new Map(before), all);
        expect(after.hand).toEqual([]);
        for (const { plug, to: target } of moves) expect(after.floor.get(target)).toBe(plug);
      }),
    );
  });
});

function circlesOf(order: readonly number[]): number {
  const seen = new Set<number>();
  let circles = 0;
  for (let i = 0; i < order.length; i++) {
    if (seen.has(i) || order[i] === i) continue;
    circles += 1;
    for (let at = i; !seen.has(at); at = order[at]!) seen.add(at);
  }
  return circles;
}
