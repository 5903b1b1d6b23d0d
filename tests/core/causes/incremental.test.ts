// Causes by groups and from memory are the very same as all derived anew in one group; and one more sighting has only
// the groups solved that it touches. Made-up facilities, no outside source.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explain, explainAnew, workOf } from '../../../src/core/causes/explain.ts';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { idToFingerprint } from '../../../src/core/rules/fingerprints.ts';
import { createFold, type Fold, foldAll } from '../../../src/core/rules/fold.ts';
import { plant } from '../../bench/benchCauses.ts';
import { createRandom, shuffled } from '../../bench/benchFacility.ts';
import { PLANTABLE } from '../../bench/benchMistakes.ts';
import { event, saw, statement } from '../record/build.ts';

const told = (fold: Fold) => JSON.stringify(explain(fold, fold.discrepancies()));
const anew = (fold: Fold) => JSON.stringify(explainAnew(fold, fold.discrepancies()));

/** Looks, follows, settings and withdrawals at places of a facility, some of them against what was planted. */
function further(plan: { cables: { label: string; ends: { place: string | null }[] }[] }, seed: number): AuditEvent[] {
  const random = createRandom(seed);
  const pick = <T>(list: readonly T[]) => list[Math.floor(random() * list.length)]!;
  const words = () => (pick(pick(plan.cables).ends).place ?? 'FR0/P24').replace('/', ' ');
  const made: AuditEvent[] = [];
  for (let i = 0; i < 9; i++) {
    const kind = Math.floor(random() * 5);
    if (kind === 0) made.push(saw(words(), pick(plan.cables).label));
    else if (kind === 1) made.push(statement([words()], 'empty'));
    else if (kind === 2)
      made.push(statement([words()], 'unlabelled', { basis: 'followed', joinedTo: words().replace(' ', '/') }));
    else if (kind === 3)
      made.push(event('setting-read', { unit: 'FR1', name: 'address', value: `192.0.2.${i}`, basis: 'page' }));
    else if (made.length > 0) made.push(event('withdrawn', { target: { event: pick(made).id }, why: 'misread' }));
  }
  return made;
}

describe('causes from memory', () => {
  it('are the same, byte for byte, as all derived anew, after every step of any sequence', () => {
    let compared = 0;
    fc.assert(
      fc.property(fc.nat(1000), fc.constantFrom(0, 0.1, 0.3), (seed, unseen) => {
        const wish = { cables: 700, seed, kinds: PLANTABLE, times: 1, unseen, misread: 0.005 };
        const { plan, events } = plant(wish);
        const random = createRandom(seed + 1);
        const order = shuffled(events.length, random).map((i) => events[i]!);
        const more = further(plan, seed);
        const fold = createFold(plan);
        for (let i = 0; i < order.length; i += 500) {
          fold.add(order.slice(i, i + 500));
          expect(told(fold)).toBe(anew(fold));
        }
        for (const one of more) {
          fold.add([one]);
          expect(told(fold)).toBe(anew(fold));
          compared += 1;
        }
        expect(told(fold)).toBe(anew(foldAll(plan, [...events, ...more])));
      }),
      { numRuns: 4 },
    );
    expect(compared).toBeGreaterThan(20);
  });

  it('are the same where people accepted and rejected causes, in whatever order', () => {
    fc.assert(
      fc.property(fc.nat(1000), (seed) => {
        const { plan, events } = plant({ cables: 600, seed, kinds: PLANTABLE, times: 1, unseen: 0.1 });
        const fold = foldAll(plan, events);
        const random = createRandom(seed);
        const { causes } = explain(fold, fold.discrepancies());
        for (const cause of causes) {
          if (random() < 0.4) continue;
          const judgement = random() < 0.5 ? ('accepted' as const) : ('rejected' as const);
          const common = {
            cause: idToFingerprint(cause.id),
            about: 'words',
            evidence: cause.evidence,
            by: 'M. Okafor',
          };
          fold.add([event('cause-judged', { ...common, judgement, reason: 'asked' })]);
        }
        expect(told(fold)).toBe(anew(fold));
        for (const one of further(plan, seed)) {
          fold.add([one]);
          expect(told(fold)).toBe(anew(fold));
        }
      }),
      { numRuns: 4 },
    );
  });

  it('are solved in many groups, of which one more sighting touches three at most, at any size', () => {
    for (const cables of [1000, 4000]) {
      const { plan, events } = plant({ cables, seed: 5, kinds: PLANTABLE, times: cables / 1000, misread: 0.005 });
      const fold = foldAll(plan, events);
      told(fold);
      const { groups, solved } = workOf(fold);
      expect(groups).toBeGreaterThan(cables / 40);
      expect(solved).toBe(groups);
      told(fold);
      expect(workOf(fold)).toEqual({ groups, solved: 0 });
      const counts: number[] = [];
      for (let i = 0; i < 20; i++) {
        const [from] = plan.cables[(i * 7919) % cables]!.ends;
        const at = (from!.place ?? 'FR0/P24').replace('/', ' ');
        fold.add([i % 2 === 0 ? saw(at, `Y${i}`) : statement([at], 'empty')]);
        told(fold);
        counts.push(workOf(fold).solved);
      }
      expect(Math.max(...counts)).toBeLessThanOrEqual(3);
      expect(Math.max(...counts)).toBeGreaterThan(0);
    }
  });
});
