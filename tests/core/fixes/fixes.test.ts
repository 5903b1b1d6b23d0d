// The list played on a model of the floor, on random plants: what is decided is reached, no rule is broken, each on-air
// circuit goes off once, and every point leads back. The rules are common practice in moving plugs, no source; fewest
// movements: one spare place is the star graph of Akers and Krishnamurthy (IEEE Trans. Comput. 1989; formula from
// memory), moved items + circles, and a chain to a free jack needs one an item (derived by search in moves.test.ts).
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explain } from '../../../src/core/causes/explain.ts';
import { wayBackFrom } from '../../../src/core/fixes/back.ts';
import type { FixList } from '../../../src/core/fixes/fixes.ts';
import { isMovement, onAirOf } from '../../../src/core/fixes/step.ts';
import type { Plan } from '../../../src/core/plan/model.ts';
import type { AuditEvent, Permission } from '../../../src/core/record/events.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, type CableRow, planOf, saw, started, statement } from '../record/build.ts';
import { type FloorModel, floorModel, listOf, play, seen } from './floorModel.ts';

const P = (n: number) => `FR1 P${String(n + 1).padStart(2, '0')}`;
const D = (n: number) => `DESK O${String(n + 1).padStart(2, '0')}`;
const label = (n: number) => String(1001 + n);

interface Plant {
  plan: Plan;
  events: AuditEvent[];
  floor: () => FloorModel;
  /** Label to the place it belongs in. */
  home: Map<string, string>;
}

/** Cable i is planned at jack i and found at jack `found[i]`; its circuit is one of a few, some of them on the air. */
function plant(found: readonly number[], followed: readonly boolean[], circuits: readonly number[]): Plant {
  const rows = found.map((_, i): CableRow => {
    const circuit = circuits[i]!;
    return [
      label(i),
      D(i),
      P(i),
      { signal: 'line-audio', onAir: circuit < 3, circuit: circuit < 6 ? `C${circuit}` : undefined! },
    ];
  });
  const jacks = Array.from({ length: found.length + 4 }, (_, i) => ({ at: P(i) }));
  const plan = planOf(rows, jacks);
  const events = [started(), ...found.map((_, i) => saw(D(i), label(i)))];
  for (let n = 0; n < jacks.length; n++) {
    const i = found.indexOf(n);
    if (i < 0) events.push(statement([P(n)], 'empty'));
    else events.push(saw(P(n), label(i), followed[i] && n !== i ? { basis: 'followed', joinedTo: at(D(i)) } : {}));
  }
  return {
    plan,
    events,
    floor: () =>
      floorModel([
        ...found.map((n, i): [string, string] => [at(P(n)), label(i)]),
        ...found.map((_, i): [string, string] => [at(D(i)), `${label(i)} far`]),
      ]),
    home: new Map(found.map((_, i) => [label(i), at(P(i))])),
  };
}

const plants = fc.integer({ min: 1, max: 10 }).chain((n) =>
  fc.record({
    found: fc.shuffledSubarray([...Array(n + 4).keys()], { minLength: n, maxLength: n }),
    followed: fc.array(fc.boolean(), { minLength: n, maxLength: n }),
    circuits: fc.array(fc.nat(9), { minLength: n, maxLength: n }),
    stop: fc.nat(60),
    permission: fc.constantFrom<Permission>('look', 'touch', 'disconnect'),
  }),
);
const stepsOf = (list: FixList) => list.blocks.flatMap(({ steps }) => steps);

describe('the list on random floors', () => {
  it('reaches what the plan says where every plug was followed, in as few movements as can be', () => {
    fc.assert(
      fc.property(plants, ({ found, circuits }) => {
        const one = plant(
          found,
          found.map(() => true),
          circuits,
        );
        const steps = stepsOf(listOf(one.plan, one.events));
        const after = play(one.floor(), steps);
        for (const [text, place] of one.home) expect(after.plugs.get(place)).toEqual([text]);
        const moved = found.filter((n, i) => n !== i).length;
        expect(steps.filter(isMovement).length).toBe(moved + circlesOf(found));
      }),
      { numRuns: 30 },
    );
  });

  it('never breaks a rule, moves nothing that labels alone speak of, and leads back from every point', () => {
    fc.assert(
      fc.property(plants, ({ found, followed, circuits, stop }) => {
        const one = plant(found, followed, circuits);
        const list = listOf(one.plan, one.events);
        const steps = stepsOf(list);
        const done = steps.slice(0, stop % (steps.length + 1));
        const half = play(one.floor(), done);
        play(half, wayBackFrom(done));
        expect(seen(half)).toEqual(seen(one.floor()));
        const after = play(one.floor(), steps);
        found.forEach((n, i) => {
          // A circle of which nothing was followed is undecided: each of its plugs stays where it is.
          const circle = circleOf(found, i);
          if (circle && !circle.some((each) => followed[each])) expect(after.plugs.get(at(P(n)))).toEqual([label(i)]);
        });
        // What moves is decided, on the screens as well as here.
        const fold = foldAll(one.plan, one.events);
        const differences = fold.discrepancies();
        const told = [...explain(fold, differences).causes, ...differences];
        for (const { about } of steps.filter(isMovement)) {
          expect(about.map((id) => told.find((each) => each.id === id)!.severity)).not.toContain('undecided');
        }
        const waits = stepsOf(list).filter(({ task }) => task === 'settle').length;
        const open = found.some(
          (n, i) => n !== i && !circleOf(found, i)?.some((each) => followed[each]) && circleOf(found, i),
        );
        if (open) expect(waits).toBeGreaterThan(0);
      }),
      { numRuns: 30 },
    );
  });

  it('takes each on-air circuit off once, in steps of one block, and listens before and after', () => {
    fc.assert(
      fc.property(plants, ({ found, circuits }) => {
        const one = plant(
          found,
          found.map(() => true),
          circuits,
        );
        const { blocks } = listOf(one.plan, one.events);
        const off = blocks.flatMap(({ steps }) => [...onAirOf(steps)]);
        expect(new Set(off).size).toBe(off.length);
        for (const { steps } of blocks.filter((block) => block.steps.some(isMovement))) {
          expect(steps[0]!.task).toBe('listen-before');
          expect(steps.at(-1)!.task).toBe('listen-after');
        }
      }),
      { numRuns: 30 },
    );
  });

  it('does nothing beyond the permission, and drops nothing either', () => {
    fc.assert(
      fc.property(plants, ({ found, followed, circuits, permission }) => {
        const one = plant(found, followed, circuits);
        const list = listOf(one.plan, one.events, { permission });
        const all = listOf(one.plan, one.events);
        expect(stepsOf(list).length).toBe(stepsOf(all).length);
        const rank = { look: 0, touch: 1, disconnect: 2 };
        for (const { waits, steps } of list.blocks) {
          const needs = Math.max(...steps.map((step) => rank[step.needs]));
          expect(waits === null).toBe(needs <= rank[permission]);
        }
      }),
      { numRuns: 30 },
    );
  });
});

describe('every order of up to 4 plugs', () => {
  it('needs moved + circles movements with one in the hand; up to 6 in moves.test.ts', () => {
    for (let n = 2; n <= 4; n++) {
      for (const order of permutations([...Array(n).keys()])) {
        const one = plant(
          order,
          order.map(() => true),
          order.map(() => 9),
        );
        const steps = stepsOf(listOf(one.plan, one.events));
        const moved = order.filter((to, i) => to !== i).length;
        expect(steps.filter(isMovement).length, order.join()).toBe(moved + circlesOf(order));
        play(one.floor(), steps);
      }
    }
  });
});

function permutations(items: number[]): number[][] {
  if (items.length <= 1) return [items];
  return items.flatMap((one, i) =>
    permutations([...items.slice(0, i), ...items.slice(i + 1)]).map((rest) => [one, ...rest]),
  );
}

/** The cables that stand in each other's jacks round to `start`; null where the way ends at a free jack. */
function circleOf(found: readonly number[], start: number): number[] | null {
  const circle = [start];
  for (let at = found[start]!; at !== start; at = found[at]!) {
    if (at >= found.length || circle.includes(at)) return null;
    circle.push(at);
  }
  return circle.length > 1 ? circle : null;
}

function circlesOf(found: readonly number[]): number {
  const circles = found.map((_, i) =>
    circleOf(found, i)
      ?.sort((a, b) => a - b)
      .join(),
  );
  return new Set(circles.filter((one) => one !== undefined)).size;
}
