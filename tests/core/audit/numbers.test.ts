// Temporary numbers: blocks per log, twins with one end or both, and a number given twice by two phones that never met
// (a field scenario). Data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AuditEvent } from '../../../src/core/audit/events.ts';
import { foldAll } from '../../../src/core/audit/fold.ts';
import { type Block, givenTwice, nextNumber, twinsOf, twinToNumber } from '../../../src/core/audit/numbers.ts';
import { emptyPlan } from '../../../src/core/plan/model.ts';
import { recordToPlan } from '../../../src/core/report/recordToPlan.ts';
import { discrepancyToWords } from '../../../src/core/report/words.ts';
import { at, event, saw, started, statement } from './build.ts';

const begin = started({ occasion: 'inherit', plan: null });
const taken = (log: string, block: Block) => event('numbers-taken', block, { log });
/** A bare plug and the number that somebody put on it. */
function put(words: string, text: string, log: string, author = 'I. Halloran'): AuditEvent[] {
  const look = statement([words], 'unlabelled');
  return [look, event('label-put', { place: at(words), text, upon: [look.id], why: 'twin' }, { log, author })];
}

describe('numbers in blocks', () => {
  it('are taken before the first is given, and go on from there', () => {
    const first = nextNumber(foldAll(emptyPlan, [begin]), 'a');
    expect(first).toEqual({ text: 'U-001', take: { prefix: 'U-', first: 1, last: 50, digits: 3 } });
    const events = [begin, taken('a', first.take!), ...put('PP1 P17', 'U-001', 'a')];
    expect(nextNumber(foldAll(emptyPlan, events), 'a')).toEqual({ text: 'U-002', take: null });
    expect(nextNumber(foldAll(emptyPlan, events), 'b').text).toBe('U-051');
  });

  it('say which block has none left when the next one begins in the middle of a walk', () => {
    const small = { prefix: 'U-', first: 1, last: 2, digits: 3 };
    const events = [begin, taken('a', small), ...put('A 1', 'U-001', 'a'), ...put('A 2', 'U-002', 'a')];
    expect(nextNumber(foldAll(emptyPlan, events), 'a')).toEqual({
      text: 'U-051',
      take: { prefix: 'U-', first: 51, last: 100, digits: 3 },
      spent: { old: 'U-001 to U-002', next: 'U-051 to U-100' },
    });
    expect(nextNumber(foldAll(emptyPlan, events), 'b').spent).toBeUndefined();
  });

  it('never give one that was read somewhere, put or printed', () => {
    const events = [
      begin,
      taken('a', { prefix: 'U-', first: 1, last: 2, digits: 3 }),
      saw('A 1', 'U-001'),
      saw('A 2', 'u 2'),
    ];
    expect(nextNumber(foldAll(emptyPlan, events), 'a').text).toBe('U-051');
  });

  it('are never the same on two phones that have met, whatever came in which order', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('a', 'b', 'c'), { maxLength: 40 }), (logs) => {
        const events: AuditEvent[] = [begin];
        const given: string[] = [];
        logs.forEach((log, i) => {
          const { text, take } = nextNumber(foldAll(emptyPlan, [...events].reverse()), log);
          if (take) events.push(taken(log, take));
          events.push(...put(`X ${i}`, text, log));
          given.push(text);
        });
        expect(new Set(given).size).toBe(given.length);
      }),
      { numRuns: 25 },
    );
  });
});

describe('twins', () => {
  it('wait for their other end, and have both once the second one bears them', () => {
    const one = [begin, ...put('SW1 P09', 'U-017', 'a')];
    expect(twinsOf(foldAll(emptyPlan, one))).toEqual([{ text: 'U-017', places: [at('SW1 P09')] }]);
    const both = foldAll(emptyPlan, [...one, saw('PP1 P17', 'U-017')]);
    expect(twinsOf(both)[0]?.places).toEqual([at('PP1 P17'), at('SW1 P09')]);
    expect(both.discrepancies()).toEqual([]);
  });
  it('are told from other labels by their form alone', () => {
    expect([twinToNumber('U-007'), twinToNumber('u 7'), twinToNumber('UX-7'), twinToNumber('1007')]).toEqual([
      7,
      7,
      null,
      null,
    ]);
  });
  it('with a third end are one number on too many', () => {
    const events = [begin, ...put('SW1 P09', 'U-017', 'a'), saw('PP1 P17', 'U-017'), saw('WP2 7', 'U-017')];
    expect(
      foldAll(emptyPlan, events)
        .discrepancies()
        .map(({ kind }) => kind),
    ).toEqual(['duplicate-label']);
  });
});

describe('two phones, no network, one number', () => {
  const events = [
    begin,
    ...put('PP1 P17', '1016', 'a', 'I. Halloran'),
    ...put('WP2 7', '1016', 'a', 'I. Halloran'),
    ...put('PRO51 NET', '1016', 'b', 'R. Quill'),
    ...put('SW1 P10', '1016', 'b', 'R. Quill'),
  ];
  it('are two cables, never one with four ends', () => {
    const { plan } = recordToPlan(foldAll(emptyPlan, events), 'found', null);
    expect(plan.cables.map(({ id, label, ends }) => [id, label, ...ends.map(({ place }) => place)])).toEqual([
      ['1016', '1016', at('PP1 P17'), at('WP2 7')],
      ['1016~2', '1016', at('PRO51 NET'), at('SW1 P10')],
    ]);
  });
  it('say who gave it, when and where, the same in any order', () => {
    const fold = foldAll(emptyPlan, events);
    expect(givenTwice(foldAll(emptyPlan, [...events].reverse()))).toEqual(givenTwice(fold));
    const [one] = fold.discrepancies();
    expect(discrepancyToWords(fold.index, one!).line).toMatch(
      /^1016 was given twice: by I\. Halloran, \d\d:\d\d UTC, at PP1 P17 and WP2 7; by R\. Quill, .*PRO51 NET and SW1 P10\. Two cables, not one\.$/,
    );
  });
  it('are recognised by one end each: both phones gave it as a number that they knew from nowhere', () => {
    const both = { prefix: 'U-', first: 1, last: 50, digits: 3 };
    const pair = [
      begin,
      taken('a', both),
      taken('b', both),
      ...put('PP1 P17', 'U-001', 'a', 'I. Halloran'),
      ...put('PRO51 NET', 'U-001', 'b', 'R. Quill'),
    ];
    const fold = foldAll(emptyPlan, pair);
    expect(givenTwice(fold).map(({ givers }) => givers.map(({ author, places }) => [author, ...places]))).toEqual([
      [
        ['I. Halloran', at('PP1 P17')],
        ['R. Quill', at('PRO51 NET')],
      ],
    ]);
    expect(fold.discrepancies().map(({ kind }) => kind)).toEqual(['duplicate-label']);
    expect(twinsOf(fold).map(({ places }) => places)).toEqual([[at('PP1 P17')], [at('PRO51 NET')]]);
    const { plan } = recordToPlan(fold, 'found', null);
    expect(plan.cables.map(({ ends }) => ends.map(({ place }) => place))).toEqual([
      [at('PP1 P17'), null],
      [at('PRO51 NET'), null],
    ]);
  });
  it('keep the second end, which was only read, with whom it was read by', () => {
    const byA = saw('WP2 7', 'U-001');
    const byB = saw('SW1 P10', 'U-001');
    const four = [
      begin,
      ...put('PP1 P17', 'U-001', 'a'),
      ...put('PRO51 NET', 'U-001', 'b'),
      { ...byA, log: 'a' },
      { ...byB, log: 'b' },
    ] as AuditEvent[];
    const ends = recordToPlan(foldAll(emptyPlan, four), 'found', null).plan.cables.map((cable) =>
      cable.ends.map(({ place }) => place),
    );
    expect(ends).toEqual([
      [at('PP1 P17'), at('WP2 7')],
      [at('PRO51 NET'), at('SW1 P10')],
    ]);
  });
  it('are as many cables where two copies of one strip were read off plugs and no phone gave anything', () => {
    const read = (words: string, log: string) => ({ ...saw(words, 'U-017'), log }) as AuditEvent;
    const strips = [begin, read('A 1', 'a'), read('A 2', 'a'), read('B 1', 'b'), read('B 2', 'b')];
    expect(givenTwice(foldAll(emptyPlan, strips))[0]?.givers.map(({ places }) => places)).toEqual([
      [at('A 1'), at('A 2')],
      [at('B 1'), at('B 2')],
    ]);
  });
  it('are no mistake where the second knew of the first end, or the cable was followed from one to the other', () => {
    const first = put('PP1 P17', '1016', 'a');
    const look = statement(['WP2 7'], 'unlabelled');
    const second = (other?: string) =>
      event(
        'label-put',
        { place: at('WP2 7'), text: '1016', upon: [look.id], why: 'twin', ...(other ? { other } : {}) },
        { log: 'b' },
      );
    expect(givenTwice(foldAll(emptyPlan, [begin, ...first, look, second()]))).toHaveLength(1);
    expect(givenTwice(foldAll(emptyPlan, [begin, ...first, look, second(at('PP1 P17'))]))).toEqual([]);
    const followed = statement(['WP2 7'], 'unlabelled', { basis: 'followed', joinedTo: at('PP1 P17') });
    expect(givenTwice(foldAll(emptyPlan, [begin, ...first, look, second(), followed]))).toEqual([]);
  });
  it('say nothing of a number whose first end was taken back', () => {
    const [look, given] = put('PP1 P17', 'U-001', 'a') as [AuditEvent, AuditEvent];
    const undone = event('withdrawn', { target: { event: given.id }, why: 'undo' });
    const events = [begin, look, given, undone, ...put('PRO51 NET', 'U-001', 'b')];
    expect(givenTwice(foldAll(emptyPlan, events))).toEqual([]);
  });
  it('end where the blocks of two phones overlap: after they met, the later block gives none of those', () => {
    const block = { prefix: 'U-', first: 1, last: 50, digits: 3 };
    const events = [begin, taken('a', block), taken('b', block), ...put('PP1 P17', 'U-001', 'a')];
    const fold = foldAll(emptyPlan, events);
    expect(nextNumber(fold, 'a')).toEqual({ text: 'U-002', take: null });
    expect(nextNumber(fold, 'b').text).toBe('U-051');
    expect(nextNumber(fold, 'b').take).toMatchObject({ first: 51, last: 100 });
  });
});
