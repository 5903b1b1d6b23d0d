// Ends that may be one cable by print and marks: laws by property, then what settles an end. Prints, marks and places are
// invented; the foot is 0.3048 m (NIST SP 811), the Ethernet channel 100 m (ISO/IEC 11801-1).
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AuditEvent, Payload } from '../../../src/core/record/events.ts';
import { readEvent } from '../../../src/core/record/events.ts';
import { type Fold, foldAll } from '../../../src/core/rules/fold.ts';
import { jacketsByPlace, textToMark } from '../../../src/core/rules/jackets.ts';
import { type LooseJacket, limitOf, looseJackets, pairEnds } from '../../../src/core/rules/pairing.ts';
import { at, event, planOf, saw, started, statement, withSignal } from '../record/build.ts';

const PRINT = '4 PAIR 23 AWG LSZH 1804';

describe('pairs of ends', () => {
  const near = (a: string, b: string) => (a.length + b.length + a.charCodeAt(0) + b.charCodeAt(0)) % 4;
  const limit = (place: string) => (place.charCodeAt(0) % 3 === 0 ? 100 : null);
  const end = fc.record({
    place: fc.constant(''),
    print: fc.constantFrom(PRINT, '4 pair  23 awg lszh 1804', '2 PAIR 22 AWG'),
    unit: fc.constantFrom('m' as const, 'ft' as const),
    mark: fc.oneof(
      { weight: 5, arbitrary: fc.integer({ min: 0, max: 160 }) },
      { weight: 1, arbitrary: fc.constant(null) },
    ),
    twin: fc.constant(null),
  });
  const ends: fc.Arbitrary<LooseJacket[]> = fc
    .array(end, { maxLength: 9 })
    .map((list) => list.map((one, i) => ({ ...one, place: `${'ABCDEFGHI'[i]}/${'x'.repeat(i % 3)}` })));
  const metresOf = (a: LooseJacket, b: LooseJacket) =>
    Math.abs(Number(a.mark) - Number(b.mark)) * (a.unit === 'ft' ? 0.3048 : 1);
  const samePrint = (a: LooseJacket, b: LooseJacket) =>
    a.unit === b.unit && a.print.toLowerCase().split(' ').join('') === b.print.toLowerCase().split(' ').join('');
  /** By brute force: what may be one cable at all. */
  const may = (a: LooseJacket, b: LooseJacket) =>
    a !== b &&
    samePrint(a, b) &&
    a.mark !== null &&
    b.mark !== null &&
    a.mark !== b.mark &&
    [a, b].every(({ place }) => metresOf(a, b) <= (limit(place) ?? Number.POSITIVE_INFINITY));

  it('hold from both sides, are the same in any order, and name each end once', () => {
    fc.assert(
      fc.property(ends, fc.infiniteStream(fc.nat()), (list, picks) => {
        const found = pairEnds(list, near, limit);
        const [...dice] = picks.take(list.length);
        const shuffled = list.map((one, i) => [dice[i]!, one] as const).sort((a, b) => a[0] - b[0]);
        expect(
          pairEnds(
            shuffled.map(([, one]) => one),
            near,
            limit,
          ),
        ).toEqual(found);
        expect(found.map(({ place }) => place)).toEqual(list.map(({ place }) => place).sort());
        const partners = found.flatMap(({ partner }) => partner?.place ?? []);
        expect(new Set(partners).size).toBe(partners.length);
        for (const one of found) {
          if (!one.partner) continue;
          const other = found.find(({ place }) => place === one.partner?.place);
          expect(other?.partner).toEqual({ ...one.partner, place: one.place });
          expect(one.candidates).toContainEqual({ place: one.partner.place, metres: one.partner.metres });
        }
      }),
      { numRuns: 400 },
    );
  });

  it('name every end that may be it and no other, with the length between the marks', () => {
    let decided = 0;
    let probable = 0;
    fc.assert(
      fc.property(ends, (list) => {
        for (const one of pairEnds(list, near, limit)) {
          const mine = list.find(({ place }) => place === one.place)!;
          const others = list.filter((other) => may(mine, other));
          expect(one.candidates.map(({ place }) => place).sort()).toEqual(others.map(({ place }) => place).sort());
          for (const { place, metres } of one.candidates) {
            expect(metres).toBeGreaterThan(0);
            expect(metres).toBeCloseTo(metresOf(mine, list.find((other) => other.place === place)!), 9);
          }
          expect(one.fitting).toBe(others.length);
          expect(one.shared).toBe(list.filter((other) => samePrint(mine, other)).length);
          if (one.partner) decided += 1;
          if (one.partner?.certainty !== 'probable') continue;
          probable += 1;
          const far = list.find(({ place }) => place === one.partner?.place)!;
          expect([others, list.filter((other) => may(far, other))]).toEqual([[far], [mine]]);
          expect(list.every((other) => !samePrint(mine, other) || other.mark !== null)).toBe(true);
        }
      }),
      { numRuns: 400 },
    );
    // The laws were put to something.
    expect(decided).toBeGreaterThan(probable);
    expect(probable).toBeGreaterThan(0);
  });

  const loose = (place: string, mark: number | null, more: Partial<LooseJacket> = {}): LooseJacket => ({
    place,
    print: PRINT,
    unit: 'm',
    mark,
    twin: null,
    ...more,
  });
  const partners = (list: LooseJacket[], near: (a: string, b: string) => number, limit = () => null as number | null) =>
    pairEnds(list, near, limit).map(({ place, partner }) =>
      [place, partner?.place, partner?.certainty].join(' ').trim(),
    );

  it('are probable where two ends alone bear the print', () => {
    expect(partners([loose('A', 212), loose('B', 226)], () => 3)).toEqual(['A B probable', 'B A probable']);
  });
  it('are no more than possible where the length is odd for the place', () => {
    expect(partners([loose('A', 100), loose('B', 190)], () => 1)).toEqual(['A B possible', 'B A possible']);
  });
  it('stay undecided where a third end could be it as well', () => {
    expect(partners([loose('A', 100), loose('B', 112), loose('C', 143)], () => 3)).toEqual(['A', 'B', 'C']);
  });
  it('are possible where the length suits one rack and the others are elsewhere', () => {
    const near = (a: string, b: string) => (a + b === 'AB' || a + b === 'BA' ? 1 : 3);
    expect(partners([loose('A', 100), loose('B', 103), loose('C', 143)], near)).toEqual([
      'A B possible',
      'B A possible',
      'C',
    ]);
  });
  it('are no more than possible while one end bears the print and no mark', () => {
    expect(partners([loose('A', 100), loose('B', 112), loose('C', null)], () => 3)).toEqual([
      'A B possible',
      'B A possible',
      'C',
    ]);
  });
  it('are none where the marks are equal, the units differ or the limit is passed', () => {
    expect(partners([loose('A', 100), loose('B', 100)], () => 3)).toEqual(['A', 'B']);
    expect(partners([loose('A', 100), loose('B', 112, { unit: 'ft' })], () => 3)).toEqual(['A', 'B']);
    expect(
      partners(
        [loose('A', 100), loose('B', 201)],
        () => 3,
        () => 100,
      ),
    ).toEqual(['A', 'B']);
    expect(
      partners(
        [loose('A', 100), loose('B', 200)],
        () => 3,
        () => 100,
      ),
    ).toEqual(['A B probable', 'B A probable']);
  });
});

describe('what is read off a jacket', () => {
  const plan = planOf([
    ['1001', 'CON30 NET', 'SW1 P01', withSignal('network')],
    ['2001', 'SAT1 OUT', 'AIO21 I1', withSignal('line-audio')],
  ]);
  const begin = started({ occasion: 'inherit' });
  const read = (
    words: string,
    mark: number,
    more: Partial<Payload<'jacket-read'>> = {},
    about: Partial<AuditEvent> = {},
  ) => event('jacket-read', { place: at(words), print: PRINT, mark, unit: 'm', ...more }, about);
  const bare = (words: string) => statement([words], 'unlabelled');
  const pairs = (fold: Fold) =>
    pairEnds(looseJackets(fold), () => 3, limitOf(fold)).map(({ place, partner }) => [place, partner?.place ?? null]);
  const both = [at('SW1 P01'), at('SW1 P07')];
  const joined = [
    [both[0], both[1]],
    [both[1], both[0]],
  ];
  const facts = (events: AuditEvent[]) => foldAll(plan, [begin, ...events]);

  it('pairs two bare plugs, and what nobody has said anything else about', () => {
    expect(pairs(facts([bare('SW1 P01'), read('SW1 P01', 10), read('SW1 P07', 24)]))).toEqual(joined);
  });
  it('pairs ends across what the plan allows for a network, not beyond', () => {
    expect(pairs(facts([read('SW1 P01', 10), read('CON30 NET', 111)])).map(([, far]) => far)).toEqual([null, null]);
    expect(pairs(facts([read('SAT1 OUT', 10), read('AIO21 I1', 111)])).map(([, far]) => far)).not.toContain(null);
  });
  it('is settled by a label', () => {
    expect(pairs(facts([saw('SW1 P01', '1001'), read('SW1 P01', 10), read('SW1 P07', 24)]))).toEqual([[both[1], null]]);
  });
  it('is settled by a twin at both ends, and not by its first half', () => {
    const looks = [bare('SW1 P01'), bare('SW1 P07')];
    const put = (i: number) =>
      event('label-put', { place: both[i]!, text: 'U-001', upon: [looks[i]!.id], why: 'twin' });
    const first = put(0);
    const half = facts([...looks, read('SW1 P01', 10), read('SW1 P07', 24), first]);
    expect(pairs(half)).toEqual(joined);
    expect(looseJackets(half).map(({ twin }) => twin)).toEqual(['U-001', null]);
    expect(pairs(facts([...looks, read('SW1 P01', 10), read('SW1 P07', 24), first, put(1)]))).toEqual([]);
  });
  it('is settled at both ends by following the cable', () => {
    const followed = statement(['SW1 P01'], 'plugged', { basis: 'followed', joinedTo: at('SW1 P07') });
    expect(pairs(facts([followed, read('SW1 P01', 10), read('SW1 P07', 24)]))).toEqual([]);
  });
  it('says nothing where people disagree about the jack, or several plugs are in it', () => {
    const odd = [bare('SW1 P01'), statement(['SW1 P01'], 'empty')];
    expect(looseJackets(facts([...odd, read('SW1 P01', 10)]))).toEqual([]);
    const two = statement(['SW1 P01'], 'unlabelled', { plugs: [{ labels: [] }, { labels: [] }] });
    expect(looseJackets(facts([two, read('SW1 P01', 10)]))).toEqual([]);
  });
  it('goes with the plug: the jack is empty, or it was changed since', () => {
    expect(jacketsByPlace(facts([read('SW1 P01', 10), statement(['SW1 P01'], 'empty')])).size).toBe(0);
    const [before, after] = [bare('SW1 P01'), bare('SW1 P01')];
    const reading = read('SW1 P01', 10, { upon: [before.id] });
    const changed = event('changed-since', { earlier: before.id, later: after.id, place: both[0]! });
    expect(jacketsByPlace(facts([before, reading, after])).size).toBe(1);
    expect(jacketsByPlace(facts([before, reading, after, changed])).size).toBe(0);
  });
  it('stays where a look was misread, gives way to its correction and comes back with it', () => {
    const before = bare('SW1 P01');
    const reading = read('SW1 P01', 10, { upon: [before.id] });
    const misread = event('withdrawn', { target: { event: before.id }, why: 'misread' });
    const better = read('SW1 P01', 11, { corrects: [reading.id] });
    const undo = event('withdrawn', { target: { event: better.id }, why: 'undo' });
    const marks = (events: AuditEvent[]) =>
      jacketsByPlace(facts(events))
        .get(both[0]!)
        ?.map(({ mark }) => mark);
    expect(marks([before, reading, misread])).toEqual([10]);
    expect(marks([reading, better])).toEqual([11]);
    expect(marks([reading, better, undo])).toEqual([10]);
    expect(marks([reading, event('withdrawn', { target: { event: reading.id }, why: 'undo' })])).toBeUndefined();
  });
  it('has no mark to go by where two people read two', () => {
    const fold = facts([read('SW1 P01', 10), read('SW1 P01', 15), read('SW1 P07', 24)]);
    expect(looseJackets(fold).map(({ mark }) => mark)).toEqual([null, 24]);
    expect(pairs(fold).map(([, far]) => far)).toEqual([null, null]);
  });

  it('never proposes an end that is settled, whatever the order of events', () => {
    const words = ['SW1 P01', 'SW1 P07', 'SW1 P08', 'CON30 NET', 'AIO21 I1'];
    const act = fc.oneof(
      fc.tuple(fc.constantFrom(...words), fc.integer({ min: 0, max: 60 })).map(([place, mark]) => read(place, mark)),
      fc.constantFrom(...words).map(bare),
      fc.tuple(fc.constantFrom(...words), fc.constantFrom('1001', 'U-004')).map(([place, text]) => saw(place, text)),
      fc
        .tuple(fc.constantFrom(...words), fc.constantFrom(...words))
        .map(([from, to]) => statement([from], 'plugged', { basis: 'followed', joinedTo: at(to) })),
      fc.constantFrom(...words).map((place) => statement([place], 'empty')),
    );
    let paired = 0;
    fc.assert(
      fc.property(fc.array(act, { maxLength: 14 }), (acts) => {
        const fold = facts(acts);
        const found = pairs(fold);
        paired += found.filter(([, far]) => far !== null).length;
        expect(pairs(facts([...acts, ...acts].reverse()))).toEqual(found);
        for (const [place] of found) {
          const { type } = fold.stateAt(place!);
          expect(['unseen', 'unlabelled', 'plugged', 'label']).toContain(type);
          expect(fold.joined(place!)).toEqual([]);
          const texts = fold.readingsAt(place!).map(({ text }) => text);
          expect(texts).toEqual(type === 'label' ? ['U-004'] : []);
          if (type === 'label') expect(fold.placesOfUnknown('U-004')).toEqual([place]);
        }
      }),
      { numRuns: 300 },
    );
    expect(paired).toBeGreaterThan(0);
  });

  it('has a mark in digits, as printed', () => {
    expect(['0212', ' 212,5 ', '212.5', '', ' '].map(textToMark)).toEqual([212, 212.5, 212.5, null, null]);
    expect(['212 m', '-3', '1e3', '12.', '10000000'].map(textToMark)).toEqual(Array(5).fill('wrong'));
  });

  it('is read back from its text, and refused beyond its limits', () => {
    const answer = (payload: unknown) => readEvent(JSON.stringify({ ...read('SW1 P01', 10), payload })).type;
    const whole = { place: 'SW1/P01', print: PRINT, unit: 'ft', mark: 0 };
    expect(answer(whole)).toBe('event');
    const wrong = [{ print: '' }, { print: 'x'.repeat(513) }, { mark: -1 }, { mark: 1e7 }, { unit: 'yd' }];
    expect(wrong.map((one) => answer({ ...whole, ...one }))).toEqual(wrong.map(() => 'unreadable'));
  });
});
