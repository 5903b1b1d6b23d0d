// Building: stages of an end, tests that fail and pass, what is left, changes on purpose. Data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AuditEvent, Payload } from '../../../src/core/record/events.ts';
import { workView } from '../../../src/core/report/workView.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { changesOf, workAt, workLeft } from '../../../src/core/rules/work.ts';
import { at, event, planOf, saw, started } from '../record/build.ts';

const plan = planOf([
  ['1001', 'CON30 NET', 'SW1 P01'],
  ['1002', 'MIO31 NET', 'SW1 P02'],
  ['1010', 'PP1 P11', 'WP2 1', { status: 'future' }],
]);
const begin = started({ occasion: 'build' });
const worked = (words: string, stage: Payload<'worked'>['stage'], more: Partial<Payload<'worked'>> = {}) =>
  event('worked', { cable: '1001', place: at(words), stage, ...more });
const stagesAt = (events: AuditEvent[]) => workAt(foldAll(plan, [begin, ...events]), at('SW1 P01'))[0]!;

describe('an end being built', () => {
  it('wants each stage in turn', () => {
    expect(stagesAt([]).next).toBe('pulled');
    expect(stagesAt([worked('SW1 P01', 'pulled')]).next).toBe('landed');
  });
  it('was landed, pulled and labelled where its label stands, said or not', () => {
    const { done, next } = stagesAt([saw('SW1 P01', '1001')]);
    expect(done).toEqual(['pulled', 'landed', 'labelled']);
    expect(next).toBe('tested');
  });
  it('is not done by a test that failed; the last one counts', () => {
    const failed = worked('SW1 P01', 'tested', { result: 'fail', words: 'pair 3 open' });
    expect(stagesAt([saw('SW1 P01', '1001'), failed])).toMatchObject({
      next: 'tested',
      test: { result: 'fail', words: 'pair 3 open' },
    });
    expect(stagesAt([saw('SW1 P01', '1001'), failed, worked('SW1 P01', 'tested', { result: 'pass' })]).next).toBeNull();
  });
  it('is not landed by its label in another jack', () => {
    expect(stagesAt([saw('SW1 P02', '1001')]).done).toEqual([]);
  });
});

describe('what is left', () => {
  it('names every planned end, nearest first, and nothing that is not expected yet', () => {
    const fold = foldAll(plan, [begin, saw('SW1 P01', '1001'), worked('SW1 P01', 'tested')]);
    expect(workLeft(fold).map(({ label, end }) => label + end)).toEqual(['1001A', '1002A', '1002B']);
    expect(workView(fold, at('SW1 P01')).left[0]).toMatchObject({ label: '1002', end: 'B', words: 'SW1 P02' });
  });
  it('is the same in any order of the acts', () => {
    const act = fc
      .tuple(fc.constantFrom('SW1 P01', 'CON30 NET'), fc.constantFrom('pulled', 'landed', 'tested', 'labelled'))
      .map(([words, stage]) => worked(words, stage as 'pulled'));
    fc.assert(
      fc.property(fc.array(act, { maxLength: 10 }), (acts) => {
        const one = foldAll(plan, [begin, ...acts]);
        const other = foldAll(plan, [...acts].reverse().concat(begin));
        expect(workLeft(other)).toEqual(workLeft(one));
      }),
    );
  });
});

describe('a change on purpose', () => {
  it('carries its reason and, for a lash-up, what it waits for', () => {
    const change = { reason: 'The planned jack is faulty', until: '2026-12-01' };
    const fold = foldAll(plan, [begin, saw('SW1 P02', '1001', { change })]);
    expect(changesOf(fold)).toMatchObject([{ place: at('SW1 P02'), label: '1001', ...change }]);
  });
  it('is gone when the statement is taken back', () => {
    const look = saw('SW1 P02', '1001', { change: { reason: 'x' } });
    const undo = event('withdrawn', { target: { event: look.id }, why: 'undo' });
    expect(changesOf(foldAll(plan, [begin, look, undo]))).toEqual([]);
  });
});
