// Whatever changes in a plan, at one spot anywhere in its schema, is told by the comparison and has words on the screen
// before it is adopted; what is no difference by itself is named with its reason. Invented data.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../../../src/core/plan/model.ts';
import { revisionView } from '../../../../src/core/report/plan/revisionView.ts';
import { changeToKind, comparePlans, NOT_COMPARED } from '../../../../src/core/schedule/revisions/compare.ts';
import { isUnder, oneChangeEach, pathsOf, wholePlan } from '../../plan/wholePlan.ts';
import { plan as tidyPlan } from './planArbitrary.ts';

const LEFT_OUT = Object.keys(NOT_COMPARED);
const lines = (old: Plan, next: Plan) => revisionView(old, next, 'r').groups.flatMap((group) => group.lines);

describe('every field of the plan', () => {
  it('is compared, or named as what is no difference', () => {
    expect(LEFT_OUT.filter((path) => !pathsOf().includes(path))).toEqual([]);
    const changed = new Set<string>();
    fc.assert(
      fc.property(wholePlan, (plan) => {
        expect(comparePlans(plan, structuredClone(plan))).toEqual([]);
        for (const { path, plan: next } of oneChangeEach(plan)) {
          const changes = comparePlans(plan, next);
          if (isUnder(path, LEFT_OUT)) expect(changes, path).toEqual([]);
          else {
            changed.add(path);
            expect(changes.length, path).toBeGreaterThan(0);
            // And the way back.
            expect(comparePlans(next, plan).length, path).toBeGreaterThan(0);
          }
        }
      }),
      { numRuns: 40, seed: 11 },
    );
    expect(pathsOf().filter((path) => !isUnder(path, LEFT_OUT) && !changed.has(path))).toEqual([]);
  });

  it('has a line that says what it is and was', () => {
    fc.assert(
      fc.property(wholePlan, (plan) => {
        for (const { path, plan: next } of oneChangeEach(plan)) {
          if (isUnder(path, LEFT_OUT)) continue;
          const told = lines(plan, next);
          expect(told.length, path).toBeGreaterThan(0);
          for (const { words } of told) {
            expect(words, path).not.toMatch(/\[object|undefined/);
            // `X, was X` tells nobody what changed.
            const [, is, was] = /^[^:]*: (.*), was (.*)$/s.exec(words) ?? [];
            if (is !== undefined) expect(is, `${path}: ${words}`).not.toBe(was);
          }
        }
      }),
      { numRuns: 40, seed: 12 },
    );
  });
});

describe('circuits of two revisions', () => {
  const with_ = (plan: Plan, circuits: Plan['circuits']): Plan => ({ ...plan, circuits });
  const [base] = fc.sample(tidyPlan, { numRuns: 1, seed: 1 }) as [Plan];
  const main = { name: 'PGM 1', role: 'main' as const, carrier: 'K-2201', hops: ['2006', '2007'] };
  const standby = { name: 'PGM 1', role: 'standby' as const, hops: ['2050'] };
  const told = (old: Plan['circuits'], next: Plan['circuits']) =>
    revisionView(with_(base, old), with_(base, next), 'r').groups.flatMap(({ item, kind, lines: list }) =>
      list.map(({ what, words }) => `${item} ${kind} | ${what} | ${words}`),
    );

  it('are told as come, gone, renamed or changed, whatever the order of their rows', () => {
    expect(told([main, standby], [standby, main])).toEqual([]);
    expect(told([main], [main, standby])).toEqual(['circuit added | PGM 1, standby | over 2050']);
    expect(told([main, standby], [standby])).toEqual([
      'circuit removed | PGM 1, main | over 2006, 2007; carrier’s number K-2201',
    ]);
    expect(
      told(
        [main, standby],
        [
          { ...main, role: 'standby' },
          { ...standby, role: 'main' },
        ],
      ),
    ).toEqual([
      'circuit changed | PGM 1, main | main or standby: main, was standby',
      'circuit changed | PGM 1, standby | main or standby: standby, was main',
    ]);
    expect(told([main, standby], [{ ...main, carrier: 'K-2209' }, standby])).toEqual([
      'circuit changed | PGM 1, main | carrier’s number: K-2209, was K-2201',
    ]);
    expect(told([main, standby], [main, { ...standby, hops: ['2051', 'carrier line'] }])).toEqual([
      'circuit changed | PGM 1, standby | runs over: 2051, carrier line, was 2050',
    ]);
    expect(told([main, standby], [{ ...main, name: 'Programme 1' }, standby])).toEqual([
      'circuit renamed | Programme 1, main | was PGM 1',
    ]);
    expect(told([main], [{ ...main, name: 'pgm-1' }])).toEqual(['circuit written | pgm-1, main | was PGM 1']);
    expect(changeToKind(comparePlans(with_(base, [main]), with_(base, undefined))[0]!)).toBe('removed');
  });
});
