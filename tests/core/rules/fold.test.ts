// The fold against the published severities and words of the trade are in the scenario tests; here stand its laws:
// order does not matter, twice is once, one by one equals all at once. Data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { cablesInScope, coverageOf } from '../../../src/core/report/coverage.ts';
import { createFold, type Fold, foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement, withSignal } from '../record/build.ts';

const plan = planOf([
  ['1001', 'CON30 NET', 'SW1 P01', withSignal('network')],
  ['1002', 'MIO31 NET', 'SW1 P02', withSignal('poe')],
  ['1003', 'CON32 NET', 'SW1 P03', withSignal('network', { onAir: true })],
  ['1004', 'MIO33 NET', 'SW1 P04', withSignal('poe')],
  ['2001', 'SAT1 OUT', 'AIO21 I1', withSignal('line-audio')],
  ['2002', 'HYB41 OUT', 'AIO21 I2', withSignal('line-audio')],
  ['1010', 'PP1 P11', 'WP2 1', { status: 'spare' }],
]);
const places = [...plan.jacks.map((jack) => jack.id), at('SW1 P09'), at('loose: tray')];
const words = (place: string) => (place.startsWith('~') ? 'loose: tray' : place.replace('/', ' '));

const label = fc.constantFrom('1001', '1002', '1003', '1004', '2001', '2002', '1010', '1003-A', '100', 'X9', 'SW1');
const someEvent: fc.Arbitrary<AuditEvent> = fc.oneof(
  fc.tuple(fc.constantFrom(...places), label).map(([place, text]) => saw(words(place), text)),
  fc
    .tuple(
      fc.subarray(places, { minLength: 1, maxLength: 4 }),
      fc.constantFrom('empty', 'unlabelled', 'not-visible', 'plugged'),
    )
    .map(([some, state]) => statement(some.map(words), state as 'empty')),
  fc
    .tuple(fc.constantFrom(...places), fc.constantFrom(...places), label)
    .map(([from, to, text]) => saw(words(from), text, { basis: 'followed', joinedTo: to })),
  fc
    .constantFrom('1001', '2101')
    .map((value) => event('setting-read', { unit: 'MIO31', name: 'channel', value, basis: 'page' })),
  fc
    .constantFrom('on', '+48V', 'P48 off')
    .map((value) => event('setting-read', { unit: 'SW1', place: 'SW1/P03', name: 'phantom', value, basis: 'page' })),
  fc.constant(null).map(() => started()),
  fc
    .tuple(fc.constantFrom('X9', 'SW1', 'T07'), fc.constantFrom('P09', 'P30', 'L'), fc.boolean())
    .map(([unit, jack, odd]) => described(unit, odd ? [jack] : [jack, 'P31'])),
  fc
    .constantFrom('R1', '100')
    .map((name) => event('rack-described', { label: name, heightU: 42, numbering: 'top-down' })),
  fc
    .constantFrom('1004', '1005')
    .map((to) =>
      event('renaming-listed', { list: 'n', name: 'n', renames: [{ cable: '1003', old: '1003', new: to }] }),
    ),
  fc.constantFrom('SW1', 'AIO21').map((unit) => event('scope-added', { racks: [], rooms: [], units: [unit] })),
  fc.constantFrom('look', 'touch').map((permission) => event('permission-set', { permission: permission as 'look' })),
);
const described = (label: string, jacks: string[]) =>
  event('unit-described', {
    label,
    heightU: 1,
    mounted: 'front',
    jacks: jacks.map((one) => ({ label: one })),
    faces: [{ face: 'rear', through: false, rows: [jacks] }],
  });
/** Events, some of which withdraw or overtake earlier ones. */
const story: fc.Arbitrary<AuditEvent[]> = fc
  .tuple(
    fc.array(someEvent, { maxLength: 25 }),
    fc.array(fc.tuple(fc.nat(24), fc.nat(24), fc.boolean(), fc.constantFrom(...places)), { maxLength: 8 }),
  )
  .map(([events, after]) => {
    const more = after.flatMap(([i, j, withdraw, place]) => {
      const [a, b] = [events[i], events[j]];
      if (withdraw && a && a.kind !== 'sighting' && a.kind !== 'audit-started') {
        return [event('withdrawn', { target: { event: a.id }, why: 'undo' })];
      }
      if (a?.kind === 'sighting' && b?.kind === 'renaming-listed') {
        const put = { place: a.payload.places[0]!, text: 'U-001', upon: [a.id] };
        return [event('label-put', { ...put, why: 'twin' }), ...(withdraw ? [event('label-off', put)] : [])];
      }
      if (a?.kind !== 'sighting' || b?.kind !== 'sighting') return [];
      if (j % 3 === 0) {
        const over = withdraw ? { withdraws: [{ event: a.id }] } : { changedSince: [a.id] };
        const again = event('sighting', { ...b.payload, ...over });
        return i % 2 === 0 ? [again] : [again, event('withdrawn', { target: { event: again.id }, why: 'undo' })];
      }
      if (withdraw) return [event('withdrawn', { target: { event: a.id, places: [place] }, why: 'misread' })];
      return [event('changed-since', { earlier: a.id, later: b.id, place })];
    });
    return [...events, ...more];
  });

function picture(fold: Fold): unknown {
  return {
    discrepancies: fold.discrepancies(),
    states: [...fold.seenPlaces()].sort().map((place) => [place, fold.stateAt(place)]),
    at: places.map((place) => fold.discrepanciesAt(place)),
    cables: cablesInScope(fold),
    coverage: coverageOf(fold),
    permission: fold.permission,
    jacks: fold.index.plan.jacks.map(({ id }) => id).sort(),
    owed: [...fold.scope.owed].sort(),
  };
}

describe('the fold', () => {
  it('gives the same picture for shuffled and duplicated events', () => {
    fc.assert(
      fc.property(story, fc.infiniteStream(fc.nat()), (events, picks) => {
        const [...dice] = picks.take(events.length * 2);
        const twice = [...events, ...events];
        const shuffled = twice
          .map((one, i) => [dice[i]!, one] as const)
          .sort((a, b) => a[0] - b[0])
          .map(([, one]) => one);
        expect(picture(foldAll(plan, shuffled))).toEqual(picture(foldAll(plan, events)));
      }),
      { numRuns: 150 },
    );
  });

  it('gives the same picture one by one as all at once', () => {
    fc.assert(
      fc.property(story, (events) => {
        const fold = createFold(plan);
        for (const one of events) fold.add([one]);
        expect(picture(fold)).toEqual(picture(foldAll(plan, events)));
      }),
      { numRuns: 150 },
    );
  });

  it('gives both phones the same picture when their events are exchanged', () => {
    fc.assert(
      fc.property(story, fc.infiniteStream(fc.boolean()), (events, sides) => {
        const [...side] = sides.take(events.length);
        const mine = events.filter((_, i) => side[i]);
        const theirs = events.filter((_, i) => !side[i]);
        const one = createFold(plan);
        one.add(mine);
        one.add(theirs);
        const other = createFold(plan);
        other.add(theirs);
        other.add(mine);
        expect(picture(one)).toEqual(picture(other));
      }),
      { numRuns: 100 },
    );
  });

  it('touches only the cables of the places that a sighting speaks about, however large the plan', () => {
    const rows = Array.from(
      { length: 2000 },
      (_, i) => [`${10000 + i}`, `A${i} O1`, `B${i} I1`] as [string, string, string],
    );
    const fold = createFold(planOf(rows));
    fold.add([started()]);
    const touched = fold.add([saw('B7 I1', '10008')]);
    expect(touched.places.size).toBe(1);
    expect([...touched.cables].sort()).toEqual(['10007', '10008']);
  });
});

describe('corrections', () => {
  it('takes a misread look back without erasing it', () => {
    const look = saw('SW1 P03', '1004');
    const fold = foldAll(plan, [started(), look, event('withdrawn', { target: { event: look.id }, why: 'misread' })]);
    expect(fold.discrepancies()).toEqual([]);
    expect(fold.stateAt(at('SW1 P03')).type).toBe('unseen');
    expect(fold.looks.history(at('SW1 P03')).map(({ fate }) => fate)).toEqual(['withdrawn']);
  });

  it('cannot withdraw a withdrawal', () => {
    const look = saw('SW1 P03', '1004');
    const back = event('withdrawn', { target: { event: look.id }, why: 'misread' });
    const again = event('withdrawn', { target: { event: back.id }, why: 'misread' });
    expect(foldAll(plan, [look, back, again]).stateAt(at('SW1 P03')).type).toBe('unseen');
  });

  it('withdraws a range statement at one jack only', () => {
    const range = statement(['SW1 P01', 'SW1 P02'], 'empty');
    const fold = foldAll(plan, [
      range,
      saw('SW1 P02', '1002', { withdraws: [{ event: range.id, places: [at('SW1 P02')] }] }),
    ]);
    expect(fold.stateAt(at('SW1 P01')).type).toBe('empty');
    expect(fold.stateAt(at('SW1 P02')).type).toBe('label');
    expect(fold.discrepancies().map((d) => d.kind)).toEqual(['empty-jack']);
  });

  it('lets two differing looks stand beside each other until a person decides', () => {
    const [first, second] = [saw('SW1 P03', '1003'), saw('SW1 P03', '1004')];
    const both = foldAll(plan, [first, second]);
    expect(both.discrepancies().map((d) => d.kind)).toEqual(['sightings-conflict']);
    const changed = event('changed-since', { earlier: first.id, later: second.id, place: at('SW1 P03') });
    const after = foldAll(plan, [first, second, changed]);
    expect(after.discrepancies().map((d) => d.kind)).toEqual(['wrong-jack']);
    expect(after.looks.history(at('SW1 P03')).map(({ fate }) => fate)).toEqual(['overtaken', 'stands']);
    expect(after.stateAt(at('SW1 P03')).looks.map((look) => look.asLeft)).toEqual([true]);
  });

  it('does not call a look that says less a conflict', () => {
    const fold = foldAll(plan, [
      statement(['SW1 P03'], 'plugged'),
      saw('SW1 P03', '1003'),
      statement(['SW1 P03'], 'not-visible'),
    ]);
    expect(fold.discrepancies()).toEqual([]);
    expect(fold.statusOf('1003').type).toBe('one-end-seen');
  });
});
