// What people decided, by name: about one difference, about all that a cause covers, at odds, taken back; and what of it
// goes into the record. Invented data.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cause } from '../../../src/core/causes/cause.ts';
import { explain } from '../../../src/core/causes/explain.ts';
import { amendedPlan, amendmentsOf } from '../../../src/core/fixes/amendments.ts';
import { chosenFor } from '../../../src/core/fixes/decision.ts';
import { decisionsOf, usualChoice } from '../../../src/core/fixes/decisions.ts';
import type { Plan } from '../../../src/core/plan/model.ts';
import type { AuditEvent, Payload } from '../../../src/core/record/events.ts';
import { byHandToWords, notTakenToWords } from '../../../src/core/report/words/amendWords.ts';
import type { Discrepancy } from '../../../src/core/rules/discrepancy.ts';
import { fingerprint, idToFingerprint } from '../../../src/core/rules/fingerprints.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from '../record/build.ts';

const plan = planOf(
  [
    ['1001', 'ROOM 1', 'SW1 P01'],
    ['1002', 'ROOM 2', 'SW1 P02'],
    ['1003', 'ROOM 3', 'SW1 P03'],
    ['1004', 'ROOM 4', 'SW1 P04'],
  ],
  [{ at: 'SW1 P08' }],
);
const crossedAt = [saw('SW1 P01', '1002'), saw('SW1 P02', '1001')];
const moved = [saw('SW1 P08', '1003'), statement(['SW1 P03'], 'empty')];

function know(events: AuditEvent[], of: Plan = plan) {
  const fold = foldAll(of, events);
  const differences = fold.discrepancies();
  const { causes } = explain(fold, differences);
  return { fold, differences, causes, decisions: decisionsOf(fold, differences) };
}
const begun = (occasion: Payload<'audit-started'>['occasion'] = 'after-move') => started({ occasion });

function decide(
  one: Discrepancy | Cause,
  choice: Payload<'decided'>['choice'],
  more: Partial<Payload<'decided'>> = {},
) {
  const isCause = 'explains' in one;
  return event('decided', {
    target: { type: isCause ? 'cause' : 'discrepancy', id: idToFingerprint(one.id) },
    about: one.kind,
    facts: (isCause ? one.explains : [one.id]).map(fingerprint),
    choice,
    usual: 'fix-floor',
    by: 'M. Okafor',
    ...(choice === 'fix-floor' ? {} : { reason: 'the desk has moved for good' }),
    ...more,
  });
}
const takeBack = (one: AuditEvent) => event('withdrawn', { target: { event: one.id }, why: 'undo' });
const accept = (cause: Cause, as?: string) =>
  event('cause-judged', {
    cause: idToFingerprint(cause.id),
    about: cause.kind,
    judgement: 'accepted',
    ...(as ? { as } : {}),
    by: 'M. Okafor',
    evidence: cause.evidence,
  });

describe('decisions', () => {
  const walk = [begun(), ...crossedAt, ...moved];
  const { causes, differences } = know(walk);
  const pair = causes.find(({ kind }) => kind === 'crossed-or-labels-exchanged')!;
  const one = differences.find(({ id }) => id === pair.explains[0])!;

  it('about a cause hold for all that it covered then, and for nothing else', () => {
    const { decisions } = know([...walk, decide(pair, 'fix-floor')]);
    expect(decisions.standing.map(({ target }) => target.id).sort()).toEqual(pair.explains);
    expect(decisions.ofCause(pair)).toMatchObject({
      choice: 'fix-floor',
      disputed: false,
      said: [{ by: 'M. Okafor' }],
    });
    expect(decisions.open).toEqual(differences.map(({ id }) => id).filter((id) => !pair.explains.includes(id)));
  });
  it('about one difference come before those about its cause', () => {
    const { decisions } = know([...walk, decide(pair, 'fix-floor'), decide(one, 'leave')]);
    expect(decisions.ofDifference(one)).toMatchObject({ choice: 'leave', disputed: false });
    expect(chosenFor(decisions.standing, 'after-move', one, pair)).toMatchObject({
      choice: 'leave',
      decision: { by: 'M. Okafor', reason: 'the desk has moved for good' },
    });
  });
  it('of two people that differ decide nothing until one is taken back', () => {
    const theirs = decide(one, 'amend-record', { by: 'L. Brandt' });
    const both = [...walk, decide(one, 'fix-floor'), theirs];
    expect(know(both).decisions.ofDifference(one)).toMatchObject({ choice: null, disputed: true });
    expect(
      new Set(
        know(both)
          .decisions.ofDifference(one)
          .said.map(({ by }) => by),
      ),
    ).toEqual(new Set(['M. Okafor', 'L. Brandt']));
    expect(know(both).decisions.open).toContain(one.id);
    expect(know([...both, takeBack(theirs)]).decisions.ofDifference(one)).toMatchObject({ choice: 'fix-floor' });
  });
  it('of two people that agree bear both names', () => {
    const { decisions } = know([...walk, decide(one, 'fix-floor'), decide(one, 'fix-floor', { by: 'L. Brandt' })]);
    expect(decisions.standing).toMatchObject([{ choice: 'fix-floor', by: 'M. Okafor, L. Brandt' }]);
  });
  it('about a cause outlive its name: the same differences, followed by now', () => {
    const follow = statement(['SW1 P01'], 'plugged', { basis: 'followed', joinedTo: at('ROOM 2') });
    const after = know([...walk, decide(pair, 'fix-floor'), follow]);
    const crossed = after.causes.find(({ kind }) => kind === 'crossed')!;
    expect(crossed.id).not.toBe(pair.id);
    expect(after.decisions.ofCause(crossed)).toMatchObject({ choice: 'fix-floor' });
  });
  it('about what no longer differs are past', () => {
    const right = saw('SW1 P01', '1001', { changedSince: [crossedAt[0]!.id] });
    const first = differences.find(({ id }) => id === 'wrong-jack SW1/P01 1002')!;
    const { decisions } = know([...walk, decide(first, 'fix-floor'), right]);
    expect(decisions.past).toMatchObject([{ by: 'M. Okafor', about: 'wrong-jack' }]);
    expect(decisions.standing).toEqual([]);
  });
  it('do not depend on the order in which they arrive', () => {
    const theirs = decide(pair, 'leave', { by: 'L. Brandt' });
    const events = [...walk, decide(pair, 'fix-floor'), theirs, decide(one, 'fix-floor'), takeBack(theirs)];
    const told = (some: AuditEvent[]) => {
      const { decisions } = know(some);
      return JSON.stringify([decisions.standing, decisions.past, decisions.open, decisions.ofCause(pair)]);
    };
    fc.assert(
      fc.property(fc.shuffledSubarray(events, { minLength: events.length }), (all) => {
        expect(told(all)).toBe(told(events));
      }),
      { numRuns: 40 },
    );
  });
});

describe('a hazard', () => {
  const risky = planOf(
    [['1001', 'ROOM 1', 'SW1 P01', { signal: 'network' }]],
    [
      { at: 'AIO21 I3', signal: 'line-audio' },
      { at: 'SW1 P07', signal: 'poe' },
    ],
  );
  const walk = [
    begun('inherit'),
    statement(['AIO21 I3'], 'unlabelled', { basis: 'followed', joinedTo: at('SW1 P07') }),
  ];
  it('is never usually amended in the record, and stays as bad as it is when somebody leaves it', () => {
    const { fold, differences } = know(walk, risky);
    const hazard = differences.find(({ severity }) => severity === 'equipment')!;
    expect(usualChoice(fold, hazard)).toBe('fix-floor');
    expect(usualChoice(fold, { kind: 'wrong-jack', severity: 'service' })).toBe('amend-record');
    for (const choice of ['leave', 'amend-record'] as const)
      expect(know([...walk, decide(hazard, choice)], risky).differences).toEqual(differences);
  });
});

describe('amendments', () => {
  const walk = [begun('inherit'), ...crossedAt, ...moved];
  const known = know(walk);
  const pair = known.causes.find(({ kind }) => kind === 'crossed-or-labels-exchanged')!;
  const amend = (events: AuditEvent[]) => {
    const { fold, differences, causes, decisions } = know(events);
    return amendmentsOf(fold, differences, causes, decisions);
  };
  const shortly = ({ ends }: ReturnType<typeof amend>) =>
    ends.map(({ label, end, from, to, said }) => `${label} ${end}: ${from} to ${to}, ${said.map(({ by }) => by)}`);

  it('are changes of ends with who and why; an empty jack adds nothing to where its cable was found', () => {
    const mine = known.differences.filter(({ cable }) => cable === '1003');
    expect(mine.map(({ kind }) => kind).sort()).toEqual(['empty-jack', 'wrong-jack']);
    const amendments = amend([...walk, ...mine.map((one) => decide(one, 'amend-record'))]);
    expect(shortly(amendments)).toEqual(['1003 B: SW1/P03 to SW1/P08, M. Okafor']);
    expect(amendments.ends[0]!.said[0]!.reason).toBe('the desk has moved for good');
    expect(amendments.byHand).toEqual([]);
  });
  it('wait while labels alone cannot tell what happened', () => {
    const { ends, byHand } = amend([...walk, decide(pair, 'amend-record')]);
    expect(ends).toEqual([]);
    expect(byHand.map(({ why }) => why)).toEqual(Array(2).fill({ type: 'not-settled' }));
  });
  it('follow the story that somebody accepted', () => {
    expect(shortly(amend([...walk, accept(pair, 'crossed'), decide(pair, 'amend-record')]))).toEqual([
      '1001 B: SW1/P01 to SW1/P02, M. Okafor',
      '1002 B: SW1/P02 to SW1/P01, M. Okafor',
    ]);
    const labels = amend([...walk, accept(pair, 'labels-exchanged'), decide(pair, 'amend-record')]);
    expect(labels.ends).toEqual([]);
    expect(labels.byHand[0]!.why).toEqual({ type: 'labels-wrong' });
  });

  it('make a new document: exchanged ends change places, the parent is named, the plan given is untouched', () => {
    const { ends } = amend([...walk, accept(pair, 'crossed'), decide(pair, 'amend-record')]);
    const before = JSON.stringify(plan);
    const made = amendedPlan(plan, 'abc', ends);
    expect(JSON.stringify(plan)).toBe(before);
    expect(made.plan).toMatchObject({ parent: 'abc', origin: 'amendments', contradictions: [] });
    const placeOf = (label: string) => made.plan.cables.find((cable) => cable.label === label)!.ends[1];
    expect(placeOf('1001')).toEqual({ end: 'B', place: 'SW1/P02', unit: 'SW1', jack: 'P02' });
    expect(placeOf('1002')!.place).toBe('SW1/P01');
    // The floor agrees with it then.
    expect(foldAll(made.plan, [begun(), ...crossedAt]).discrepancies()).toEqual([]);
  });
  it('never puts a second plug into a jack that another cable keeps', () => {
    const { ends } = amend([...walk, accept(pair, 'crossed'), decide(pair, 'amend-record')]);
    const made = amendedPlan(plan, 'abc', ends.slice(0, 1));
    expect(made.plan).toBe(plan);
    expect(made.left).toMatchObject([{ why: { type: 'taken', by: '1002' } }]);
    expect(amendedPlan({ ...plan, cables: [] }, 'abc', ends).left).toHaveLength(2);
  });

  describe('beside ends of cables', () => {
    const wide: Plan = {
      ...planOf([['1001', 'ROOM 1', 'SW1 P01']], [{ at: 'SW1 P08' }, { at: 'SW1 P09' }], {
        racks: [{ id: 'R2', label: 'R2', heightU: 42, numbering: 'bottom-up', implied: false }],
        settings: [{ unit: 'HYB41', place: at('HYB41 M1'), name: 'Gain', value: '50' }],
      }),
    };
    const unit = (label: string, u: number) => ({
      ...wide.units[0]!,
      id: label,
      label,
      rack: 'R2',
      u,
      heightU: 2,
      faces: [],
    });
    const racked: Plan = { ...wide, units: [...wide.units, unit('HYB41', 24), unit('COD42', 20)] };
    const slot = (u: number, label: string) =>
      event('sighting', {
        places: [`@R2/U${u}`],
        said: [`R2 U${u}`],
        state: 'label',
        plugs: [{ labels: [{ text: label }] }],
        basis: 'seen',
      });
    const gain = event('setting-read', {
      unit: 'HYB41',
      place: at('HYB41 M1'),
      name: 'Gain',
      value: '38',
      basis: 'page',
    });
    const seen = [begun(), slot(26, 'HYB41'), gain, saw('SW1 P08', '9001'), saw('SW1 P09', '9001')];
    const amendAll = (events: AuditEvent[]) => {
      const all = know(events, racked).differences.map((one) => decide(one, 'amend-record'));
      const { fold, differences, causes, decisions } = know([...events, ...all], racked);
      return amendmentsOf(fold, differences, causes, decisions);
    };
    it('take the value read, the height found and the cable met, once each, whatever asks for it', () => {
      const { more, byHand } = amendAll(seen);
      expect(byHand).toEqual([]);
      expect(more.map(({ change }) => change)).toEqual([
        { type: 'cable', label: '9001', places: [at('SW1 P08'), at('SW1 P09')] },
        { type: 'setting', unit: 'HYB41', place: at('HYB41 M1'), name: 'Gain', from: '50', to: '38' },
        { type: 'unit', unit: 'HYB41', from: { rack: 'R2', u: 24 }, to: { rack: 'R2', u: 26 } },
      ]);
      const made = amendedPlan(
        racked,
        'abc',
        [],
        more.map(({ change }) => change),
      );
      expect(made.left).toEqual([]);
      expect(made.plan).toMatchObject({ parent: 'abc', origin: 'amendments', settings: [{ value: '38' }] });
      expect(made.plan.units.find(({ id }) => id === 'HYB41')).toMatchObject({ rack: 'R2', u: 26 });
      expect(made.plan.cables.at(-1)).toMatchObject({
        id: '9001',
        label: '9001',
        ends: [
          { end: 'A', place: at('SW1 P08'), unit: 'SW1', jack: 'P08' },
          { end: 'B', place: at('SW1 P09'), unit: 'SW1', jack: 'P09' },
        ],
      });
      // The floor agrees with it then, and amending it again changes nothing.
      expect(foldAll(made.plan, seen).discrepancies()).toEqual([]);
      const again = amendedPlan(
        made.plan,
        'def',
        [],
        more.map(({ change }) => change),
      );
      expect(again).toMatchObject({ more: [], done: 3, left: [] });
      expect(again.plan).toBe(made.plan);
    });
    it('leave out what the plan in force cannot take, in words', () => {
      const changes = amendAll(seen).more.map(({ change }) => change);
      const why = (plan: Plan) => amendedPlan(plan, 'abc', [], changes).left.map((one) => notTakenToWords(one.why));
      expect(why({ ...racked, units: [...racked.units, unit('SAT1', 27)] })).toEqual(['the plan has SAT1 there']);
      expect(why({ ...racked, racks: [{ ...racked.racks[0]!, heightU: 26 }] })).toEqual([
        'the rack has no room for it there',
      ]);
      const [, ...rest] = racked.settings;
      expect(why({ ...racked, settings: rest })).toEqual(['the plan in force has another value']);
      const kept = planOf([['1001', 'ROOM 1', 'SW1 P09']], [{ at: 'SW1 P08' }]);
      expect(why({ ...racked, cables: kept.cables })).toEqual(['the plan has 1001 there']);
    });
    it('are for a person where a number stands at more than two jacks', () => {
      const { more, byHand } = amendAll([begun('after-move'), ...seen.slice(3), saw('SW1 P10', '9001')]);
      expect(more).toEqual([]);
      expect(byHand.map(({ why }) => byHandToWords(why))).toContain('its label is at more than two jacks');
    });
  });
});
