// An audit moved to another plan revision: an explicit act, free of order, told when two phones disagree. Invented data.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../../src/core/plan/model.ts';
import type { AuditEvent, EventOf } from '../../../src/core/record/events.ts';
import { boundView, moveEffects } from '../../../src/core/report/plan/boundView.ts';
import { reconciliation } from '../../../src/core/report/reconciliation.ts';
import { createStation, type Station } from '../../../src/core/rules/station.ts';
import { keepIds } from '../../../src/core/schedule/revisions/keepIds.ts';
import { event, planOf, saw, started } from './build.ts';

const P0 = planOf([
  ['1001', 'SW1 P01', 'CON1 NET'],
  ['1002', 'SW1 P02', 'CON2 NET'],
  ['1003', 'SW1 P03', 'CON3 NET'],
]);
/** 1001 got another number, 1002 another jack, 1003 is gone. */
const P1 = keepIds(
  P0,
  {
    ...planOf([
      ['2001', 'SW1 P01', 'CON1 NET'],
      ['1002', 'SW1 P09', 'CON2 NET'],
    ]),
    name: 'rev B',
  },
  'p0',
);
const P2 = keepIds(P0, { ...P0, name: 'rev C' }, 'p0');
const PLANS: Record<string, Plan> = { p0: P0, p1: P1, p2: P2 };

const start = started({ plan: 'p0' });
const bound = (plan: string, after: string[], more: Partial<AuditEvent> = {}) =>
  event('audit-bound', { plan, name: PLANS[plan]?.name ?? plan, after }, more) as EventOf<'audit-bound'>;
const looks = [saw('SW1 P01', '2001'), saw('CON1 NET', '2001'), saw('SW1 P09', '1002'), saw('CON2 NET', '1002')];

type Step = { text: string } | { plan: string };

function stationOf(steps: readonly Step[]): Station {
  const station = createStation();
  for (const step of steps) {
    if ('text' in step) station.addTexts([step.text]);
    else station.addPlan(step.plan, PLANS[step.plan]!);
  }
  return station;
}

const textsOf = (events: readonly AuditEvent[]): Step[] => events.map((one) => ({ text: JSON.stringify(one) }));
const all: Step[] = Object.keys(PLANS).map((plan) => ({ plan }));
const factsOf = (station: Station) => ({
  over: station.audit('a')?.fold?.revision,
  found: station.audit('a')?.fold?.discrepancies(),
  view: boundView(station, 'a'),
});

describe('an audit and its plan revision', () => {
  it('stays on its own when another plan comes into force', () => {
    const adopted = event('plan-adopted', { revision: 'p1', name: 'rev B', bytes: 1 }, { audit: undefined as never });
    const station = stationOf([...all, ...textsOf([start, ...looks, adopted])]);
    expect(station.audit('a')?.fold?.revision).toBe('p0');
    expect(boundView(station, 'a')?.targets).toMatchObject([{ revision: 'p1', why: 'in-force', here: true }]);
  });

  it('is moved by an event: what was seen of a renumbered cable stays with it', () => {
    const station = stationOf([...all, ...textsOf([start, ...looks])]);
    const before = station.audit('a')?.fold;
    expect(before?.discrepancies().map(({ kind }) => kind)).toContain('unplanned-cable');
    station.addTexts([JSON.stringify(bound('p1', []))]);
    const fold = station.audit('a')?.fold;
    expect(fold?.revision).toBe('p1');
    expect(fold?.discrepancies()).toEqual([]);
    expect(fold?.statusOf('1001').type).toBe('confirmed');
    expect(reconciliation(fold!, 'a', 'S').plan).toMatchObject({ revision: 'p1', moves: [{ name: 'rev B' }] });
  });

  it('says beforehand which verdicts change, and changes none by saying it', () => {
    const station = stationOf([...all, ...textsOf([start, ...looks])]);
    const effects = moveEffects(station, 'a', 'p1');
    expect(effects?.cables).toEqual([
      { what: 'Was: differs; becomes: as planned at both ends', n: 2, lines: ['1002', '2001'] },
    ]);
    expect(effects?.appear).toEqual([]);
    const gone = station.audit('a')?.fold?.discrepancies().length;
    expect(effects?.vanish.reduce((sum, { n }) => sum + n, 0)).toBe(gone);
    expect(effects?.places).toEqual({ before: 6, after: 4 });
    expect(station.audit('a')?.fold?.revision).toBe('p0');
    expect(moveEffects(station, 'a', 'p9')).toBeNull();
    // The same as what then is.
    station.addTexts([JSON.stringify(bound('p1', []))]);
    expect(moveEffects(station, 'a', 'p1')).toMatchObject({ cables: [], appear: [], vanish: [] });
  });

  it('waits over the plan before while the new one has not arrived, and says so', () => {
    const station = stationOf([{ plan: 'p0' }, ...textsOf([start, ...looks, bound('p1', [])])]);
    expect(station.audit('a')?.fold?.revision).toBe('p0');
    expect(boundView(station, 'a')).toMatchObject({
      over: { revision: 'p0' },
      awaited: { revision: 'p1', name: 'rev B' },
    });
    expect(station.plansWanted()).toEqual(['p1']);
    // Where the other one is not on the phone, the one that stands in is wanted too.
    const bare = stationOf(textsOf([start, bound('p1', [])]));
    expect(bare.plansWanted()).toEqual(['p1']);
    expect(bare.plansWanted(new Set(['p1']))).toEqual(['p1', 'p0']);
    station.addPlan('p1', P1);
    expect(station.audit('a')?.fold?.revision).toBe('p1');
    expect(boundView(station, 'a')?.awaited).toBeNull();
  });

  it('gives one answer where two phones moved it apart, tells it, and a further move settles it', () => {
    const one = bound('p1', [], { author: 'A. Quill', at: 5000 });
    const two = bound('p2', [], { author: 'B. Mere', at: 6000 });
    for (const order of [
      [one, two],
      [two, one],
    ]) {
      const station = stationOf([...all, ...textsOf([start, ...order])]);
      const view = boundView(station, 'a');
      expect(view).toMatchObject({ over: { revision: 'p2' }, disputed: true, after: [two.id, one.id] });
      expect(view?.moves.map(({ author, counts }) => [author, counts])).toEqual([
        ['B. Mere', true],
        ['A. Quill', false],
      ]);
      expect(view?.targets.map(({ revision, why }) => [revision, why])).toEqual([
        ['p2', 'disputed'],
        ['p1', 'disputed'],
      ]);
      // Its clock is behind both: it names them, and that is what counts.
      station.addTexts([JSON.stringify(bound('p1', view!.after, { at: 10 }))]);
      expect(boundView(station, 'a')).toMatchObject({ over: { revision: 'p1' }, disputed: false });
    }
  });

  it('is no dispute when both moved it to the same plan, and a move taken back does not count', () => {
    const [one, two] = [bound('p1', []), bound('p1', [])];
    const station = stationOf([...all, ...textsOf([start, one, two])]);
    expect(boundView(station, 'a')?.disputed).toBe(false);
    const undo = (target: string) => event('withdrawn', { target: { event: target }, why: 'undo' });
    station.addTexts([undo(one.id), undo(two.id)].map((text) => JSON.stringify(text)));
    expect(station.audit('a')?.fold?.revision).toBe('p0');
  });

  it('does not depend on the order in which events and plans come', () => {
    const first = bound('p1', [], { at: 5000 });
    const second = bound('p2', [first.id], { at: 4000 });
    const apart = bound('p1', [], { at: 4500 });
    const withdrawn = event('withdrawn', { target: { event: looks[1]!.id }, why: 'undo' });
    const steps: Step[] = [...all, ...textsOf([start, ...looks, first, second, apart, withdrawn])];
    const wanted = factsOf(stationOf(steps));
    expect(wanted.over).toBe('p1');
    fc.assert(
      fc.property(fc.shuffledSubarray(steps, { minLength: steps.length }), (order) => {
        expect(factsOf(stationOf(order))).toEqual(wanted);
      }),
    );
  });

  it('takes the later of a circle of moves that name each other, in either order', () => {
    const ids = ['x1', 'x2'] as const;
    const circle = [bound('p1', [ids[1]], { id: ids[0] }), bound('p2', [ids[0]], { id: ids[1] })];
    for (const moves of [circle, [...circle].reverse()])
      expect(stationOf([...all, ...textsOf([start, ...moves])]).audit('a')?.fold?.revision).toBe('p2');
  });
});
