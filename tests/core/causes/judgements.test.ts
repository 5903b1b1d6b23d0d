// What people say about causes: accepted, rejected, in their own words, at odds with each other, and open again once
// new looks say otherwise. Field scenarios where they apply. Invented data.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cause } from '../../../src/core/causes/cause.ts';
import { explain } from '../../../src/core/causes/explain.ts';
import type { Plan } from '../../../src/core/plan/model.ts';
import type { AuditEvent, Payload } from '../../../src/core/record/events.ts';
import { idToFingerprint } from '../../../src/core/rules/fingerprints.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, type CableRow, event, planOf, saw, started, statement, withSignal } from '../record/build.ts';

const explained = (plan: Plan, events: AuditEvent[]) => {
  const fold = foldAll(plan, [started(), ...events]);
  return explain(fold, fold.discrepancies());
};
const shortly = (plan: Plan, events: AuditEvent[]) =>
  explained(plan, events).causes.map(
    ({ kind, certainty, labels }) => `${kind} ${certainty} ${[...labels].sort().join(',')}`,
  );
const states = (plan: Plan, events: AuditEvent[]) => explained(plan, events).judged.map(({ state }) => state);

/** What a person says about a cause as it is shown. */
function say(cause: Cause, judgement: 'accepted' | 'rejected' | 'other', more: Partial<Payload<'cause-judged'>> = {}) {
  return event('cause-judged', {
    cause: idToFingerprint(cause.id),
    about: cause.kind,
    judgement,
    by: 'M. Okafor',
    ...(judgement === 'accepted' ? {} : { reason: 'I did it myself' }),
    ...(judgement === 'other' ? { words: 'the strip of names is one jack off' } : {}),
    evidence: cause.evidence,
    ...more,
  });
}
const takeBack = (one: AuditEvent) => event('withdrawn', { target: { event: one.id }, why: 'undo' });
function causeOf(plan: Plan, events: AuditEvent[], kind: string): Cause {
  const cause = explained(plan, events).causes.find((one) => one.kind === kind);
  if (!cause) throw new Error(`no ${kind} in ${shortly(plan, events).join('; ')}`);
  return cause;
}

function row(count: number, first = 1101): CableRow[] {
  return Array.from({ length: count }, (_, i) => [
    String(first + i),
    `ROOM ${i + 1}`,
    jack(i + 1),
    withSignal('network'),
  ]);
}
const jack = (n: number) => `SW1 P${String(n).padStart(2, '0')}`;

describe('my slip, judged', () => {
  const plan = planOf(row(12));
  const walk = [1, 2, 3]
    .map((n) => saw(jack(n), String(1100 + n)))
    .concat(Array.from({ length: 8 }, (_, i) => saw(jack(4 + i), String(1105 + i))));
  const shift = causeOf(plan, walk, 'row-shifted');
  const slip = causeOf(plan, walk, 'hand-slipped');
  const empty = statement([jack(12)], 'empty');

  it('accepted becomes the story, its alternative goes, and how sure the looks are stays', () => {
    const { causes, nextLook, judged } = explained(plan, [...walk, say(shift, 'accepted')]);
    expect(causes).toMatchObject([
      { kind: 'row-shifted', certainty: 'possible', severity: 'undecided', rivals: [], disputed: false },
    ]);
    expect(causes[0]!.judged).toMatchObject([{ judgement: 'accepted', by: 'M. Okafor' }]);
    expect(causes[0]!.id).toBe(shift.id);
    expect(judged.map(({ state }) => state)).toEqual(['stands']);
    // Whoever took the story owes no look for it.
    expect(nextLook).toBeNull();
  });
  it('rejected is no longer offered; the story beside it is left', () => {
    expect(shortly(plan, [...walk, say(shift, 'rejected')]).map((one) => one.split(' ')[0])).toEqual(['hand-slipped']);
    expect(shortly(plan, [...walk, say(slip, 'rejected')]).map((one) => one.split(' ')[0])).toEqual(['row-shifted']);
  });
  it('with both rejected the next best story is told, and with that one too the differences stand for themselves', () => {
    const both = [...walk, say(slip, 'rejected'), say(shift, 'rejected')];
    const chain = causeOf(plan, both, 'chain-moved');
    expect(chain.explains).toEqual(shift.explains);
    const { causes, alone } = explained(plan, [...both, say(chain, 'rejected')]);
    expect(causes).toEqual([]);
    expect(shift.explains.every((id) => alone.includes(id))).toBe(true);
  });
  it('taken back is as if nobody had said it, in whichever order both arrive', () => {
    const said = say(shift, 'rejected');
    for (const events of [
      [...walk, said, takeBack(said)],
      [takeBack(said), said, ...walk],
    ])
      expect(shortly(plan, events)).toEqual(shortly(plan, walk));
  });
  it('the slip accepted is open again once the last jack was seen empty, and says where somebody looked', () => {
    const { causes, judged } = explained(plan, [...walk, say(slip, 'accepted'), empty]);
    expect(causes.map(({ kind }) => kind)).toEqual(['row-shifted']);
    expect(judged).toMatchObject([{ state: 'reopened', newLooks: [at(jack(12))], judgement: { by: 'M. Okafor' } }]);
  });
  it('the shift rejected is open again once what it predicted was seen', () => {
    const { causes, judged } = explained(plan, [...walk, say(shift, 'rejected'), empty]);
    expect(causes.map(({ kind }) => kind)).toContain('row-shifted');
    expect(judged).toMatchObject([{ state: 'reopened', newLooks: [at(jack(12))] }]);
  });
  it('accepted stays accepted while what it predicted comes true', () => {
    const { causes } = explained(plan, [...walk, say(shift, 'accepted'), empty]);
    expect(causes).toMatchObject([{ kind: 'row-shifted', certainty: 'probable', judged: [{ by: 'M. Okafor' }] }]);
  });
  it('two people at odds: both stories shown, undecided, until one takes it back', () => {
    const mine = say(shift, 'accepted');
    const theirs = say(slip, 'accepted', { by: 'L. Brandt' });
    const { causes } = explained(plan, [...walk, mine, theirs]);
    expect(causes.map(({ kind, disputed, severity }) => [kind, disputed, severity]).sort()).toEqual([
      ['hand-slipped', true, 'undecided'],
      ['row-shifted', true, 'undecided'],
    ]);
    expect(states(plan, [...walk, mine, theirs])).toEqual(['disputed', 'disputed']);
    const after = explained(plan, [...walk, mine, theirs, takeBack(theirs)]);
    expect(after.causes).toMatchObject([{ kind: 'row-shifted', disputed: false }]);
  });
});

describe('own words', () => {
  const plan = planOf(row(12));
  const walk = [2, 1, 3, 4].map((n, i) => saw(jack(i + 1), String(1100 + n)));
  const pair = causeOf(plan, walk, 'crossed-or-labels-exchanged');
  it('stand as a cause of their own on the same facts, by name, and what they replace is not offered', () => {
    const { causes, alone } = explained(plan, [...walk, say(pair, 'other')]);
    expect(causes).toMatchObject([
      {
        kind: 'other',
        certainty: 'unknown',
        explains: pair.explains,
        words: 'the strip of names is one jack off',
      },
    ]);
    expect(causes[0]!.judged).toMatchObject([{ by: 'M. Okafor', reason: 'I did it myself' }]);
    expect(alone).toEqual([]);
  });
  it('of two people differ: both stand, undecided', () => {
    const theirs = say(pair, 'other', { words: 'two cables were renumbered', by: 'L. Brandt' });
    const { causes } = explained(plan, [...walk, say(pair, 'other'), theirs]);
    expect(causes.map((one) => [one.kind === 'other' && one.words, one.disputed]).sort()).toEqual([
      ['the strip of names is one jack off', true],
      ['two cables were renumbered', true],
    ]);
  });
  it('beside an acceptance are a quarrel, beside a plain no they are none', () => {
    const no = say(pair, 'rejected', { by: 'L. Brandt' });
    const yes = say(pair, 'accepted', { as: 'crossed', by: 'L. Brandt' });
    expect(states(plan, [...walk, say(pair, 'other'), yes])).toEqual(['disputed', 'disputed']);
    expect(states(plan, [...walk, say(pair, 'other'), no])).toEqual(['stands', 'stands']);
    expect(explained(plan, [...walk, say(pair, 'other'), no]).causes[0]!.judged).toHaveLength(2);
  });
  it('are overtaken once the cable was followed and the refused story is certain', () => {
    const follow = statement([jack(1)], 'plugged', { basis: 'followed', joinedTo: at('ROOM 2') });
    const { causes, judged } = explained(plan, [...walk, say(pair, 'other'), follow]);
    expect(judged).toMatchObject([{ state: 'reopened', newLooks: [at(jack(1))] }]);
    expect(causes.map(({ kind }) => kind)).toEqual(['crossed']);
  });
  it('about what no longer differs are past, and nothing is shown for them', () => {
    const fixed = [1, 2].map((n) =>
      saw(jack(n), String(1100 + n), { changedSince: walk.slice(0, 2).map(({ id }) => id) }),
    );
    const { causes, judged } = explained(plan, [...walk, say(pair, 'other'), ...fixed]);
    expect(causes).toEqual([]);
    expect(judged.map(({ state }) => state)).toEqual(['past']);
  });
});

describe('accepted and rejected at once', () => {
  const plan = planOf(row(12));
  const walk = [2, 1, 3, 4].map((n, i) => saw(jack(i + 1), String(1100 + n)));
  const pair = causeOf(plan, walk, 'crossed-or-labels-exchanged');
  const yes = say(pair, 'accepted', { as: 'crossed' });
  const no = say(pair, 'rejected', { by: 'L. Brandt', reason: 'they were renumbered in May' });
  it('shows both names and decides nothing', () => {
    const { causes } = explained(plan, [...walk, yes, no]);
    expect(causes).toHaveLength(1);
    expect(causes[0]).toMatchObject({ disputed: true, severity: 'undecided' });
    expect(causes[0]!.judged.map(({ by }) => by).sort()).toEqual(['L. Brandt', 'M. Okafor']);
  });
  it('ends with the one that is left', () => {
    expect(explained(plan, [...walk, yes, no, takeBack(yes)]).causes).toEqual([]);
    const { causes } = explained(plan, [...walk, yes, no, takeBack(no)]);
    expect(causes).toMatchObject([{ kind: 'crossed', certainty: 'possible', disputed: false, id: pair.id }]);
  });
  it('and two stories taken of one cause are a quarrel too', () => {
    const other = say(pair, 'accepted', { as: 'labels-exchanged', by: 'L. Brandt' });
    expect(states(plan, [...walk, yes, other])).toEqual(['disputed', 'disputed']);
    const same = say(pair, 'accepted', { as: 'crossed', by: 'L. Brandt' });
    expect(states(plan, [...walk, yes, same])).toEqual(['stands', 'stands']);
  });
});

describe('a story that explains more', () => {
  const plan = planOf(row(12));
  const read = (order: number[], from = 0) => order.map((n, i) => saw(jack(from + i + 1), String(1100 + n)));
  const far = Array.from({ length: 12 }, (_, i) => saw(`ROOM ${i + 1}`, String(1101 + i)));
  const first = [...read([2, 1]), ...far];
  const pair = causeOf(plan, first, 'crossed-or-labels-exchanged');
  const yes = say(pair, 'accepted', { as: 'crossed' });
  it('opens what was accepted before it could be seen', () => {
    const { causes, judged } = explained(plan, [...first, yes, ...read([4, 3, 6, 5, 8, 7, 10, 9, 12, 11], 2)]);
    expect(causes.map(({ kind }) => kind)).toEqual(['odd-even-exchanged']);
    expect(judged.map(({ state }) => state)).toEqual(['reopened']);
  });
  it('does not open what was accepted with that story in view', () => {
    const all = [...first, ...read([4, 3, 6, 5, 8, 7, 10, 9, 12, 11], 2)];
    const larger = causeOf(plan, all, 'odd-even-exchanged');
    const evidence = { ...pair.evidence, known: larger.evidence.facts };
    const said = say(pair, 'accepted', { as: 'crossed', evidence });
    expect(states(plan, [...all, said])).toEqual(['stands']);
    expect(explained(plan, [...all, said]).causes.map(({ kind }) => kind)).toContain('crossed');
  });
  it('is not the same one, grown: that stays accepted', () => {
    const some = read([2, 3, 4, 5], 0);
    const shift = causeOf(plan, some, 'row-shifted');
    const { causes, judged } = explained(plan, [...some, say(shift, 'accepted'), ...read([6, 7], 4)]);
    expect(causes).toMatchObject([{ kind: 'row-shifted', judged: [{ by: 'M. Okafor' }] }]);
    expect(causes[0]!.labels).toHaveLength(6);
    expect(judged.map(({ state }) => state)).toEqual(['stands']);
  });
});

describe('a panel between, judged', () => {
  const plan = planOf([['1003', 'CON0 NET', jack(3), withSignal('network')]]);
  const walk = [
    statement([jack(3)], 'unlabelled', { basis: 'followed', joinedTo: at('PP1 P07 front') }),
    saw('PP1 P07 rear', '1003'),
    saw('WP2 7 rear', '1003'),
    statement(['CON0 NET'], 'unlabelled', { basis: 'followed', joinedTo: at('WP2 7 front') }),
  ];
  const hop = causeOf(plan, walk, 'hop-not-on-sheet');
  it('rejected, all that it covered is covered by another story or stands for itself: no fact is lost', () => {
    const { causes, alone } = explained(plan, [...walk, say(hop, 'rejected')]);
    expect(causes.map(({ kind }) => kind)).not.toContain('hop-not-on-sheet');
    const left = new Set([...alone, ...causes.flatMap(({ explains }) => explains)]);
    for (const id of hop.explains) expect(left).toContain(id);
  });
  it('accepted, is the same cause with a name beside it', () => {
    const [cause] = explained(plan, [...walk, say(hop, 'accepted')]).causes;
    expect(cause).toMatchObject({ id: hop.id, certainty: 'confirmed', explains: hop.explains });
    expect(cause!.judged).toHaveLength(1);
  });
});

describe('the poisoned look, judged before it was taken', () => {
  const rows: CableRow[] = [
    ['1003', 'CON32 NET', jack(3), withSignal('network')],
    ['1004', 'MIO33 NET', jack(4), withSignal('poe')],
  ];
  // RFC 9542: 00-00-5E-00-53-00 to -FF are for documentation.
  const mac = '00-00-5E-00-53-33';
  const bare = planOf(rows);
  const plan = { ...bare, units: bare.units.map((unit) => (unit.id === 'MIO33' ? { ...unit, mac } : unit)) };
  const walk = [saw(jack(3), '1004'), saw(jack(4), '1003'), saw('CON32 NET', '1003'), saw('MIO33 NET', '1004')];
  const table = event('setting-read', {
    unit: 'SW1',
    place: at(jack(3)),
    name: 'hardware address learned',
    value: mac,
    basis: 'page',
  });
  const pair = causeOf(plan, walk, 'crossed-or-labels-exchanged');
  it('crossed stays accepted, confirmed now by the address table', () => {
    const { causes, judged } = explained(plan, [...walk, say(pair, 'accepted', { as: 'crossed' }), table]);
    expect(causes).toMatchObject([{ kind: 'crossed', certainty: 'confirmed', judged: [{ as: 'crossed' }] }]);
    expect(judged.map(({ state }) => state)).toEqual(['stands']);
  });
  it('labels exchanged is contradicted by it: open again, the old word still on record', () => {
    const said = say(pair, 'accepted', { as: 'labels-exchanged' });
    expect(explained(plan, [...walk, said]).causes).toMatchObject([
      { kind: 'labels-exchanged', certainty: 'possible', severity: 'undecided' },
    ]);
    const { causes, judged } = explained(plan, [...walk, said, table]);
    expect(causes).toMatchObject([{ kind: 'crossed', certainty: 'confirmed', judged: [] }]);
    expect(judged).toMatchObject([{ state: 'reopened', judgement: { as: 'labels-exchanged', by: 'M. Okafor' } }]);
  });
});

describe('the ribbon, judged', () => {
  const plan = planOf(
    [
      ['3002', 'STA MIC2', 'MIO31 M2', withSignal('microphone')],
      ['3003', 'STA MIC3', 'MIO31 M3', withSignal('microphone')],
    ],
    [],
    { settings: [{ unit: 'STA', place: at('STA MIC3'), name: 'microphone', value: 'ribbon' }] },
  );
  const phantom = (n: number, value: string) =>
    event('setting-read', { unit: 'MIO31', place: at(`MIO31 M${n}`), name: 'phantom', value, basis: 'page' });
  const walk = [saw('MIO31 M2', '3003'), saw('MIO31 M3', '3002'), phantom(2, 'on'), phantom(3, 'off')];
  const pair = causeOf(plan, walk, 'crossed-or-labels-exchanged');
  const hazards = (events: AuditEvent[]) =>
    foldAll(plan, [started(), ...events])
      .discrepancies()
      .filter(({ severity }) => severity === 'equipment')
      .map(({ id }) => id);
  it.each([
    say(pair, 'accepted', { as: 'labels-exchanged' }),
    say(pair, 'accepted', { as: 'crossed' }),
    say(pair, 'rejected'),
    say(pair, 'other'),
  ])('keeps its hazard in view and as bad as it is, whatever anybody says', (said) => {
    expect(hazards(walk).length).toBeGreaterThan(0);
    expect(hazards([...walk, said])).toEqual(hazards(walk));
    const { alone, causes } = explained(plan, [...walk, said]);
    for (const id of hazards(walk)) {
      expect(alone).toContain(id);
      expect(causes.flatMap(({ explains }) => explains)).not.toContain(id);
    }
  });
});

describe('the order of events', () => {
  const plan = planOf(row(12));
  const walk = Array.from({ length: 8 }, (_, i) => saw(jack(4 + i), String(1105 + i)));
  const pairWalk = [2, 1, 3].map((n, i) => saw(jack(i + 1), String(1100 + n)));
  const shift = causeOf(plan, [...walk, ...pairWalk], 'row-shifted');
  const pair = causeOf(plan, [...walk, ...pairWalk], 'crossed-or-labels-exchanged');
  const gone = say(pair, 'rejected', { by: 'L. Brandt' });
  const events = [
    started(),
    ...walk,
    ...pairWalk,
    say(shift, 'accepted'),
    say(pair, 'accepted', { as: 'crossed' }),
    say(pair, 'other', { by: 'T. Vance' }),
    gone,
    takeBack(gone),
    statement([jack(12)], 'empty'),
    statement([jack(1)], 'plugged', { basis: 'followed', joinedTo: at('ROOM 2') }),
  ];
  const told = (some: AuditEvent[]) => {
    const fold = foldAll(plan, some);
    return JSON.stringify(explain(fold, fold.discrepancies()));
  };
  it('changes nothing: shuffled, and with some of them twice', () => {
    const whole = told(events);
    fc.assert(
      fc.property(fc.shuffledSubarray(events, { minLength: events.length }), fc.subarray(events), (all, again) => {
        expect(told([...all, ...again])).toBe(whole);
      }),
      { numRuns: 60 },
    );
  });
  it('nor does any choice of what has arrived lose a difference', () => {
    fc.assert(
      fc.property(fc.subarray(events), (some) => {
        const fold = foldAll(plan, some);
        const all = fold.discrepancies();
        const { causes, alone } = explain(fold, all);
        const shown = new Set([...alone, ...causes.flatMap(({ explains }) => explains)]);
        expect(all.filter(({ id }) => !shown.has(id))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});
