// The judge held to the fold: what the page asks about as a contradiction is what the fold calls a conflict, and what
// the person answers leaves the record as they meant it. Laws over random walks; data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plug, Sighting, State } from '../../../src/core/record/events.ts';
import { LOOK_STATES } from '../../../src/core/record/events.ts';
import type { EarlierAnswer } from '../../../src/core/walk/earlier.ts';
import { lastAct } from '../../../src/core/walk/memory.ts';
import { event, planOf } from '../record/build.ts';
import { facts, walker, wholeFacts } from './walker.ts';

const plan = planOf([
  ['1003', 'CON32 NET', 'SW1 P03'],
  ['1004', 'MIO33 NET', 'SW1 P04'],
  ['2004', 'CON34 NET', 'SW1 P05'],
]);
const PLACES = ['SW1/P03', 'SW1/P04', 'SW1/P05'];

const plug = (text: string): Plug => ({ labels: [{ text }] });
/** Labels blank, spaced, of several plugs, chosen among namesakes, and readings of which some characters are missing. */
const plugs: fc.Arbitrary<{ state: State; plugs: Plug[] }> = fc.oneof(
  fc
    .array(fc.constantFrom('1003', '1004', ' 1004 ', '2004', ''), { minLength: 1, maxLength: 2 })
    .map((texts) => ({ state: 'label' as const, plugs: texts.map(plug) })),
  fc.constantFrom('1003', '1004').map((means) => ({
    state: 'label' as const,
    plugs: [{ labels: [{ text: '1OO4', means }] }],
  })),
  fc
    .constantFrom('1???', '2???', '10?4', '?????')
    .map((pattern) => ({ state: 'illegible' as const, plugs: [{ labels: [], pattern }] })),
  fc.constantFrom('unlabelled', 'plugged').map((state) => ({ state: state as State, plugs: [{ labels: [] }] })),
  fc.constantFrom('empty', 'blanked', 'not-visible', 'refused').map((state) => ({ state: state as State, plugs: [] })),
);
const sighting: fc.Arbitrary<Sighting> = fc
  .record({
    places: fc.oneof(
      fc.constantFrom(...PLACES).map((place) => [place]),
      fc.subarray(PLACES, { minLength: 1 }),
    ),
    what: plugs,
    basis: fc.constantFrom('seen' as const, 'seen' as const, 'inferred' as const),
  })
  .map(({ places, what, basis }) => ({ places, said: places, basis, ...what }));

type Step =
  | { type: 'say'; sighting: Sighting; answer: EarlierAnswer }
  | { type: 'other'; sighting: Sighting }
  | { type: 'leave' }
  | { type: 'undo' }
  | { type: 'label'; place: string; put: boolean };
const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({
      type: fc.constant('say' as const),
      sighting,
      answer: fc.constantFrom('misread' as const, 'changed' as const, 'unsure' as const),
    }),
  },
  { weight: 2, arbitrary: fc.record({ type: fc.constant('other' as const), sighting }) },
  fc.constantFrom({ type: 'leave' as const }, { type: 'undo' as const }),
  fc.record({ type: fc.constant('label' as const), place: fc.constantFrom(...PLACES), put: fc.boolean() }),
);
const permission = fc.constantFrom('look' as const, 'touch' as const);
const story = fc.tuple(permission, fc.array(step, { maxLength: 8 }));

/** A walk after all that. */
function walked([may, steps]: [may: 'look' | 'touch', steps: Step[]]) {
  const walk = walker(plan, may);
  for (const one of steps) {
    if (one.type === 'say') walk.say(one.sighting, one.answer);
    else if (one.type === 'other') walk.add(event('sighting', one.sighting, { log: 'other', author: 'R. Quill' }));
    else if (one.type === 'leave') walk.leave();
    else if (one.type === 'undo') walk.undo();
    else {
      const upon = walk
        .fold()
        .stateAt(one.place)
        .looks.map(({ event: id }) => id);
      const payload = { place: one.place, text: '1004', upon };
      walk.add(one.put ? event('label-put', { ...payload, why: 'new' }) : event('label-off', payload));
    }
  }
  return walk;
}

const asked = (walk: ReturnType<typeof walked>, said: Sighting) => {
  const decision = walk.judge(said);
  if (decision.type === 'ask' && decision.question.type === 'earlier') return decision.question;
  return null;
};
const isLook = ({ state, basis }: Sighting) => LOOK_STATES.has(state) && basis !== 'inferred';

describe('a contradiction', () => {
  it('is asked about exactly where the fold would be in conflict, were it kept as it is', () => {
    fc.assert(
      fc.property(story, sighting.filter(isLook), (before, said) => {
        const walk = walked(before);
        const question = asked(walk, said);
        walk.say(said, 'unsure');
        const conflicts = said.places.filter((place) => walk.fold().stateAt(place).type === 'conflict');
        expect([...new Set(question?.earlier.map(({ place }) => place))].sort()).toEqual(conflicts.sort());
      }),
      { numRuns: 150 },
    );
  });

  it('is never made by what is no look, and such a statement asks nothing', () => {
    fc.assert(
      fc.property(
        story,
        sighting.filter((said) => !isLook(said)),
        (before, said) => {
          expect(asked(walked(before), said)).toBeNull();
        },
      ),
    );
  });

  it('misread before leaves no conflict, and nothing of the looks that were taken back', () => {
    fc.assert(
      fc.property(story, sighting.filter(isLook), (before, said) => {
        const walk = walked(before);
        const question = asked(walk, said);
        fc.pre(question !== null);
        walk.say(said, 'misread');
        const fold = walk.fold();
        for (const place of said.places) expect(fold.stateAt(place).type).not.toBe('conflict');
        for (const { event: id, place = '' } of question!.earlier) {
          expect(fold.looks.history(place).find(({ look }) => look.event === id)?.fate).toBe('withdrawn');
        }
      }),
      { numRuns: 150 },
    );
  });

  it('changed since leaves no conflict, and both looks: one as found, one as left', () => {
    fc.assert(
      fc.property(story, sighting.filter(isLook), (before, said) => {
        const walk = walked(before);
        const question = asked(walk, said);
        fc.pre(question !== null);
        const id = walk.say(said, 'changed');
        const fold = walk.fold();
        for (const place of said.places) expect(fold.stateAt(place).type).not.toBe('conflict');
        for (const { event: earlier, place = '' } of question!.earlier) {
          const history = fold.looks.history(place);
          expect(history.find(({ look }) => look.event === earlier)?.fate).toBe('overtaken');
          expect(history.find(({ look }) => look.event === id)).toMatchObject({
            fate: 'stands',
            look: { asLeft: true },
          });
        }
      }),
      { numRuns: 150 },
    );
  });

  it('within one visit is asked about where something may be touched, and replaces its look where it may not', () => {
    const look = (state: State, text?: string): Sighting => ({
      places: ['SW1/P03'],
      said: ['SW1 P03'],
      state,
      plugs: text === undefined ? [] : [plug(text)],
      basis: 'seen',
    });
    for (const may of ['look', 'touch'] as const) {
      const walk = walker(plan, may);
      const first = walk.say(look('empty'), 'unsure');
      const question = asked(walk, look('label', '1007'));
      expect(question?.earlier.map(({ event: id }) => id) ?? null).toEqual(may === 'look' ? null : [first]);
    }
  });
});

describe('undo', () => {
  it('returns the fold to what it was before the act, and the walk to what it could undo then', () => {
    fc.assert(
      fc.property(
        story,
        sighting,
        fc.constantFrom<EarlierAnswer>('misread', 'changed', 'unsure'),
        (before, said, answer) => {
          const walk = walked(before);
          const [facts, act] = [wholeFacts(walk.fold(), PLACES), lastAct(walk.memory())];
          walk.say(said, answer);
          walk.undo();
          expect(wholeFacts(walk.fold(), PLACES)).toEqual(facts);
          expect(lastAct(walk.memory())).toEqual(act);
        },
      ),
      { numRuns: 150 },
    );
  });
});

describe('a slip put right', () => {
  const JACKS = 10;
  const row = planOf(
    Array.from({ length: JACKS }, (_, i) => [
      String(1101 + i),
      `CON${i + 1} NET`,
      `SW1 P${String(i + 1).padStart(2, '0')}`,
    ]),
  );
  const jackAt = (n: number) => `SW1/P${String(n).padStart(2, '0')}`;
  const reads = (at: number, cable: number): Sighting => ({
    places: [jackAt(at)],
    said: [jackAt(at).replace('/', ' ')],
    state: 'label',
    plugs: [plug(String(1100 + cable))],
    basis: 'seen',
    by: 'camera',
  });
  const places = Array.from({ length: JACKS }, (_, i) => jackAt(i + 1));

  it('gives the same facts as if each label had been said at its jack, and one undo gives the slip back', () => {
    const run = fc.record({
      first: fc.integer({ min: 1, max: 6 }),
      count: fc.integer({ min: 2, max: 4 }),
      step: fc.constantFrom(-2, -1, 1, 2),
      before: fc.nat(3),
      permission,
    });
    fc.assert(
      fc.property(run, ({ first, count, step: by, before, permission: may }) => {
        const cables = Array.from({ length: count }, (_, i) => first + i);
        fc.pre(cables.every((n) => n - by >= 1 && n - by <= JACKS));
        const right = Array.from({ length: before }, (_, i) => i + 1).filter((n) => n < Math.min(first, first - by));
        const [slipped, rightly] = [walker(row, may), walker(row, may)];
        for (const n of right) for (const walk of [slipped, rightly]) walk.say(reads(n, n), 'unsure');
        for (const n of cables) {
          slipped.say(reads(n - by, n), 'unsure');
          rightly.say(reads(n, n), 'unsure');
        }
        const as = facts(slipped.fold(), places);
        const slip = slipped.slip(jackAt(cables.at(-1)! - by));
        expect(slip).toMatchObject({ step: by });
        slipped.moveSlip(slip!);
        expect(facts(slipped.fold(), places)).toEqual(facts(rightly.fold(), places));
        slipped.undo();
        expect(facts(slipped.fold(), places)).toEqual(as);
      }),
      { numRuns: 100 },
    );
  });
});
