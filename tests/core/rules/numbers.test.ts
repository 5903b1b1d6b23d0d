// Temporary numbers: blocks per log, twins with one end or both, and a number given twice by two phones that never met
// (a field scenario). Data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { emptyPlan } from '../../../src/core/plan/model.ts';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { recordToPlan } from '../../../src/core/report/plan/recordToPlan.ts';
import { discrepancyToWords } from '../../../src/core/report/words/words.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import {
  type Block,
  duplicateNumbers,
  nextNumber,
  numberToText,
  twinsOf,
  twinToNumber,
} from '../../../src/core/rules/numbers.ts';
import { at, event, saw, started, statement } from '../record/build.ts';

/** The first audit of the station, begun on log a. */
const begin: AuditEvent = { ...started({ occasion: 'inherit', plan: null }), log: 'a' };
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
    // Nobody but the founder counts up from 1.
    expect(twinToNumber(nextNumber(foldAll(emptyPlan, events), 'b').text)).toBeGreaterThan(10_000);
  });

  it('go on with the block taken last, as with a strip whose first number was set by hand', () => {
    const strip = { prefix: 'U-', first: 351, last: 400, digits: 3 };
    const own = { prefix: 'U-', first: 1, last: 50, digits: 3 };
    const events = [begin, taken('a', own), ...put('A 1', 'U-001', 'a'), taken('a', strip)];
    expect(nextNumber(foldAll(emptyPlan, events), 'a')).toEqual({ text: 'U-351', take: null });
    const other = [begin, taken('a', own), ...put('A 1', 'U-001', 'a'), taken('b', strip)];
    expect(nextNumber(foldAll(emptyPlan, other), 'a').text).toBe('U-002');
    expect(nextNumber(foldAll(emptyPlan, other), 'b').text).toBe('U-351');
  });

  it('never begin again in a later audit of the station: a number is on one cable of the whole of it', () => {
    const first = [begin, taken('a', { prefix: 'U-', first: 1, last: 50, digits: 3 }), ...put('A 1', 'U-001', 'a')];
    const later = foldAll(emptyPlan, [{ ...started({ occasion: 'inherit', plan: null }), log: 'b' }]);
    expect(nextNumber(later, 'a', [foldAll(emptyPlan, first)])).toEqual({ text: 'U-002', take: null });
    // Who began only the later one is no founder.
    expect(twinToNumber(nextNumber(later, 'b', [foldAll(emptyPlan, first)]).text)).toBeGreaterThan(10_000);
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

describe('logs that never met', () => {
  /** What a log gives out that knows of nobody but the founder. */
  const alone = foldAll(emptyPlan, [begin]);
  const firstNumbers = (log: string, many: number, fold = alone): string[] => {
    const { take } = nextNumber(fold, log);
    return Array.from({ length: many }, (_, i) => numberToText(take!, take!.first + i));
  };

  it('give no number that another one gives in its first 50, but for the chance that is told', () => {
    // k logs beside the founder, 1,799 blocks: a pair shares one with about k(k - 1) / 2 / 1,799 (birthday problem).
    const [logs, runs] = [5, 400];
    let clashes = 0;
    fc.assert(
      fc.property(fc.uniqueArray(fc.uuid(), { minLength: logs, maxLength: logs }), (ids) => {
        const given = ['a', ...ids].flatMap((log) => firstNumbers(log, 50));
        if (new Set(given).size < given.length) clashes += 1;
        expect(firstNumbers(ids[0]!, 50, foldAll(emptyPlan, [begin]))).toEqual(given.slice(50, 100));
        expect(given.filter((text) => !/^U-(\d{3}|\d{5})$/.test(text))).toEqual([]);
      }),
      { numRuns: runs, seed: 7 },
    );
    // 2.2 are to be expected; more than 9 in 400 would come by chance once in some ten thousand runs.
    expect(clashes).toBeLessThanOrEqual(9);
  });

  it('are spread over all the blocks: 2,000 logs meet about as often as chance has it', () => {
    const firsts = new Map<string, number>();
    for (let i = 0; i < 2000; i++) {
      const [text = ''] = firstNumbers(`log-${i}-${(i * 7919).toString(36)}`, 1);
      firsts.set(text, (firsts.get(text) ?? 0) + 1);
    }
    // Of 1,799 boxes 2,000 balls leave 1,799 * e^(-2000/1799) = 592 empty.
    expect(Math.abs(1799 - firsts.size - 592)).toBeLessThan(70);
  });

  it('pass over a block that is known to be taken, whoever took it', () => {
    const { take } = nextNumber(foldAll(emptyPlan, [begin]), 'x');
    const met = foldAll(emptyPlan, [begin, taken('y', take!)]);
    const other = nextNumber(met, 'x').take!;
    expect(other.first > take!.last || other.last < take!.first).toBe(true);
    expect(nextNumber(met, 'x')).toEqual(nextNumber(met, 'x'));
    const read = foldAll(emptyPlan, [begin, saw('A 1', numberToText(take!, take!.first + 7))]);
    expect(nextNumber(read, 'x').take?.first).toBe(other.first);
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
    expect(duplicateNumbers(foldAll(emptyPlan, [...events].reverse()))).toEqual(duplicateNumbers(fold));
    const [one] = fold.discrepancies();
    expect(discrepancyToWords(fold.index, one!).line).toMatch(
      /^1016 was given twice: by I\. Halloran, \d\d:\d\d UTC, at PP1 P17 and WP2 7; by R\. Quill, .*PRO51 NET and SW1 P10\. Two cables, not one\.$/,
    );
  });
  it('are told whatever people are called', () => {
    const named = [
      begin,
      ...put('PP1 P17', '1016', 'a', 'Halloran, I.; day shift'),
      ...put('WP2 7', '1016', 'a', 'Halloran, I.; day shift'),
      ...put('PRO51 NET', '1016', 'b', 'R. Quill'),
      ...put('SW1 P10', '1016', 'b', 'R. Quill'),
    ];
    const fold = foldAll(emptyPlan, named);
    expect(discrepancyToWords(fold.index, fold.discrepancies()[0]!).line).toMatch(
      /^1016 was given twice: by Halloran, I\.; day shift, \d\d:\d\d UTC, at PP1 P17 and WP2 7; by R\. Quill, /,
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
    expect(
      duplicateNumbers(fold).map(({ issuers }) => issuers.map(({ author, places }) => [author, ...places])),
    ).toEqual([
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
    expect(duplicateNumbers(foldAll(emptyPlan, strips))[0]?.issuers.map(({ places }) => places)).toEqual([
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
    expect(duplicateNumbers(foldAll(emptyPlan, [begin, ...first, look, second()]))).toHaveLength(1);
    expect(duplicateNumbers(foldAll(emptyPlan, [begin, ...first, look, second(at('PP1 P17'))]))).toEqual([]);
    const followed = statement(['WP2 7'], 'unlabelled', { basis: 'followed', joinedTo: at('PP1 P17') });
    expect(duplicateNumbers(foldAll(emptyPlan, [begin, ...first, look, second(), followed]))).toEqual([]);
  });
  it('say nothing of a number whose first end was taken back', () => {
    const [look, given] = put('PP1 P17', 'U-001', 'a') as [AuditEvent, AuditEvent];
    const undone = event('withdrawn', { target: { event: given.id }, why: 'undo' });
    const events = [begin, look, given, undone, ...put('PRO51 NET', 'U-001', 'b')];
    expect(duplicateNumbers(foldAll(emptyPlan, events))).toEqual([]);
  });
  it('end where the blocks of two phones overlap: after they met, the later block gives none of those', () => {
    const block = { prefix: 'U-', first: 1, last: 50, digits: 3 };
    const events = [begin, taken('a', block), taken('b', block), ...put('PP1 P17', 'U-001', 'a')];
    const fold = foldAll(emptyPlan, events);
    expect(nextNumber(fold, 'a')).toEqual({ text: 'U-002', take: null });
    const { text, take } = nextNumber(fold, 'b');
    expect(take?.first).toBeGreaterThan(10_000);
    expect(text).toBe(`U-${take?.first}`);
  });
});
