// The pairs that jackets suggest are a matching: held against the solver HiGHS on random small drums. Prints, marks and
// places are made up; the reference is the solver.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LooseJacket, pairEnds } from '../../../src/core/rules/pairing.ts';
import { lengthSuits } from '../../../src/core/trade/lengths.ts';
import { solve, type Term } from './solver.ts';

const near = (a: string, b: string) => (a.charCodeAt(0) + b.charCodeAt(0)) % 4;
const limit = (place: string) => (place.charCodeAt(0) % 3 === 0 ? 100 : null);

const drums: fc.Arbitrary<LooseJacket[]> = fc
  .array(fc.integer({ min: 0, max: 160 }), { minLength: 2, maxLength: 9, size: 'max' })
  .map((marks) =>
    marks.map((mark, i) => ({
      place: `${'ABCDEFGHI'[i]}/1`,
      print: '4 PAIR 23 AWG',
      unit: 'm' as const,
      mark,
      twin: null,
    })),
  );

interface Edge {
  name: string;
  ends: [string, string];
  strain: number;
}

/** What speaks against each pair, by the words of the rule: the length, and marks that lie between. */
function edgesOf(list: readonly LooseJacket[]): Edge[] {
  const suits = { well: 0, fairly: 1, badly: 3 };
  return list.flatMap((a, i) =>
    list.slice(i + 1).flatMap((b, j): Edge[] => {
      const metres = Math.abs(a.mark! - b.mark!);
      const most = Math.min(...[a, b].map(({ place }) => limit(place) ?? Number.POSITIVE_INFINITY));
      if (metres === 0 || metres > most) return [];
      const between = list.some(({ mark }) => (mark! - a.mark!) * (mark! - b.mark!) < 0);
      const strain = suits[lengthSuits(metres, near(a.place, b.place))] + (between ? 2 : 0);
      return [{ name: `e${i}x${i + 1 + j}`, ends: [a.place, b.place], strain }];
    }),
  );
}

const at = (edges: readonly Edge[], place: string): Term[] =>
  edges.flatMap(({ name, ends }) => (ends.includes(place) ? [{ name, by: 1 }] : []));

describe('pairs of ends', () => {
  it('are the matching with the least against it, and the only one, over the ends that are paired', () => {
    let paired = 0;
    fc.assert(
      fc.property(drums, (list) => {
        const partners = new Map(
          pairEnds(list, near, limit).flatMap(({ place, partner }) =>
            partner ? [[place, partner.place] as const] : [],
          ),
        );
        if (partners.size === 0) return;
        paired += 1;
        const edges = edgesOf(list).filter(({ ends }) => ends.every((place) => partners.has(place)));
        const whole = {
          costs: edges.map(({ name, strain }) => ({ name, by: strain })),
          rows: [...partners.keys()].map((place) => ({ terms: at(edges, place), relation: '=' as const, than: 1 })),
        };
        const ours = edges.filter(({ ends: [a, b] }) => partners.get(a) === b);
        expect(ours.length * 2).toBe(partners.size);
        expect(solve(whole).taken.sort()).toEqual(ours.map(({ name }) => name).sort());
        expect(solve(whole).cost).toBeCloseTo(
          ours.reduce((sum, { strain }) => sum + strain, 0),
          6,
        );
      }),
      { numRuns: 150 },
    );
    expect(paired).toBeGreaterThan(50);
  });

  it('that are called probable are in every largest matching', () => {
    let probable = 0;
    fc.assert(
      fc.property(drums, (list) => {
        const edges = edgesOf(list);
        const most = (allowed: readonly Edge[]) =>
          allowed.length === 0
            ? 0
            : -solve({
                costs: allowed.map(({ name }) => ({ name, by: -1 })),
                rows: list.flatMap(({ place }) => {
                  const terms = at(allowed, place);
                  return terms.length > 0 ? [{ terms, relation: '<=' as const, than: 1 }] : [];
                }),
              }).cost;
        for (const { place, partner } of pairEnds(list, near, limit)) {
          if (partner?.certainty !== 'probable') continue;
          probable += 1;
          const without = edges.filter(({ ends }) => !(ends.includes(place) && ends.includes(partner.place)));
          expect(most(without)).toBeLessThan(most(edges));
        }
      }),
      { numRuns: 150 },
    );
    expect(probable).toBeGreaterThan(10);
  });
});
