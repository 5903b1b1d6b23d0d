// Two entries that cannot both be true: both values are told with who and when, and nothing is fixed, amended, rolled
// back or counted as decided before somebody checked again. Numbers of differences and the evidence of hazards. Invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { decidedToWords } from '../../../src/core/report/decisionsView.ts';
import { differenceNumbers } from '../../../src/core/report/differenceNumbers.ts';
import { fixesView } from '../../../src/core/report/fixesView.ts';
import { differencesView } from '../../../src/core/report/reconciliation.ts';
import { fingerprint } from '../../../src/core/rules/fingerprints.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from '../record/build.ts';

const plan = planOf([
  ['1007', 'CON30 NET', 'SW1 P07'],
  ['1012', 'MIO31 NET', 'SW1 P12'],
  ['1013', 'MIO32 NET', 'SW1 P13'],
]);
const begun = started({ permission: 'disconnect' });
const one = saw('SW1 P07', '1007');
const other = { ...saw('SW1 P07', '1012'), author: 'R. Quill' } as AuditEvent;
const picture = event(
  'photo',
  { place: at('SW1 P07'), document: 'abc', mime: 'image/jpeg', bytes: 1, width: 1, height: 1 },
  { author: 'R. Quill' },
);
const view = (...events: AuditEvent[]) => differencesView(foldAll(plan, [begun, ...events]), 'a');
const conflictIn = (...events: AuditEvent[]) =>
  view(...events).lines.find(({ kind }) => kind === 'sightings-conflict')!;

describe('entries that contradict each other', () => {
  it('tell both values, each with who, when and its pictures', () => {
    const line = conflictIn(one, other, picture);
    expect(line.line).toBe('SW1 P07: 1007 or 1012? 2 entries differ. Check again.');
    expect(line.conflict?.map(({ words, by, at: when, photos }) => [words, by, when, photos])).toEqual([
      ['1007', 'I. Halloran', one.at, []],
      ['1012', 'R. Quill', other.at, ['abc']],
    ]);
    expect(line.goTo).toEqual({ place: at('SW1 P07'), words: 'SW1 P07' });
  });

  it('of a state and a label name the state; who could not see takes no part', () => {
    const line = conflictIn(one, statement(['SW1 P07'], 'empty'), statement(['SW1 P07'], 'not-visible'));
    expect(line.line).toBe('SW1 P07: 1007 or empty? 2 entries differ. Check again.');
    expect(line.conflict).toHaveLength(2);
  });

  it('offer one step, to check again; a decision on them amends nothing and is not counted', () => {
    const { decision } = conflictIn(one, other);
    for (const choice of ['fix-floor', 'amend-record', 'leave'] as const) {
      const { target, about, facts } = decision;
      const signed = event('decided', { target, about, facts, choice, usual: null, reason: 'sure', by: 'A. Chief' });
      const after = view(one, other, signed);
      expect(after.amendments).toEqual({ ends: [], byHand: [] });
      expect(after.undecided).toBe(0);
      expect(decidedToWords(after.lines, after.undecided)).toBe('1 conflict to check again first.');
      expect(conflictIn(one, other, signed).decision).toMatchObject({ choice: null, disputed: false });
      const { blocks } = fixesView(foldAll(plan, [begun, one, other, signed]), 'a');
      expect(blocks.flatMap(({ steps }) => steps.map(({ action, back, placeId }) => [action, back, placeId]))).toEqual([
        ['test', [], at('SW1 P07')],
      ]);
    }
  });

  it('are settled by taking one back: then there is a difference to decide, or none', () => {
    const misread = (target: AuditEvent) => event('withdrawn', { target: { event: target.id }, why: 'misread' });
    expect(view(one, other, misread(other)).lines).toEqual([]);
    expect(view(one, other, misread(one)).lines.map(({ kind, conflict }) => [kind, conflict])).toContainEqual([
      'wrong-jack',
      null,
    ]);
  });
});

describe('the number of a difference', () => {
  const some = [
    saw('SW1 P07', '1012'),
    saw('SW1 P12', '1007'),
    statement(['SW1 P13'], 'empty'),
    saw('MIO32 NET', 'X1'),
  ];
  const numbersIn = (events: AuditEvent[]) => new Map(view(...events).lines.map(({ id, number }) => [id, number]));

  it('stays while others come and go, whatever arrived first', () => {
    const all = numbersIn(some);
    expect(new Set(all.values()).size).toBe(all.size);
    fc.assert(
      fc.property(fc.shuffledSubarray(some), (events) => {
        for (const [id, number] of numbersIn(events)) if (all.has(id)) expect(number).toBe(all.get(id));
      }),
    );
  });

  it('has five digits; two that would be the same have more, with the five in front', () => {
    const ids = Array.from({ length: 2000 }, (_, i) => `wrong-jack SW1/P${i} 1004`);
    const numbers = differenceNumbers(ids);
    expect(new Set(numbers.values()).size).toBe(2000);
    let longer = 0;
    for (const id of ids) {
      const alone = String(differenceNumbers([id]).get(id));
      expect(alone).toMatch(/^[1-9]\d{4}$/);
      expect(String(numbers.get(id)).startsWith(alone)).toBe(true);
      if (String(numbers.get(id)) !== alone) longer += 1;
    }
    // By the birthday rule some 2000² / 2 / 90,000 pairs of them meet.
    expect(longer).toBeGreaterThan(10);
    expect(longer).toBeLessThan(100);
  });
});

describe('the evidence of a hazard', () => {
  it('is who said it and when, of one seen as of a value read', () => {
    const hazard = event(
      'hazard-seen',
      { place: at('SW1 P07'), hazard: 'strain', note: 'hangs' },
      { author: 'R. Quill' },
    );
    const read = event('setting-read', { unit: 'MIO31', name: 'polarity', value: 'reversed', basis: 'page' });
    const lines = view(hazard, read).lines.map(({ kind, evidence }) => [kind, evidence]);
    expect(lines).toContainEqual(['hazard-seen', [{ at: hazard.at, author: 'R. Quill', basis: 'seen' }]]);
    expect(lines).toContainEqual(['polarity-reversed', [{ at: read.at, author: 'I. Halloran', basis: 'page' }]]);
  });

  it('is all who saw one kind at one place; two kinds there are two, decided under the old id as under their own', () => {
    const seen = (hazard: string, author: string) =>
      event('hazard-seen', { place: at('SW1 P07'), hazard, note: author }, { author });
    const [a, b, c] = [seen('strain', 'R. Quill'), seen('strain', 'I. Halloran'), seen('earth', 'R. Quill')];
    const signed = event('decided', {
      target: { type: 'discrepancy', id: `hazard-seen ${at('SW1 P07')} ` },
      about: 'Strain',
      facts: [fingerprint(`hazard-seen ${at('SW1 P07')} `)],
      choice: 'fix-floor',
      usual: 'fix-floor',
      by: 'A. Chief',
    });
    const after = view(a, b, c, signed);
    expect(after.lines.map(({ kind, evidence }) => [kind, evidence.map(({ author }) => author)]).sort()).toEqual([
      ['hazard-seen', ['R. Quill']],
      ['hazard-seen', ['R. Quill', 'I. Halloran']],
    ]);
    expect(after.lines.map(({ decision }) => decision.choice)).toEqual(['fix-floor', 'fix-floor']);
    expect(after.past).toEqual([]);
  });
});
