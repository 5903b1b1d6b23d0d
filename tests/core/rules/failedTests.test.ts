// A test that failed, and one that nobody made, as differences with their work and as rows of the report. That an end is
// tested after it was mended, and every new end once: common practice, no source. Data invented.
import { describe, expect, it } from 'vitest';
import { planFixes } from '../../../src/core/fixes/fixes.ts';
import type { AuditEvent, Payload } from '../../../src/core/record/events.ts';
import { fixesView } from '../../../src/core/report/fixesView.ts';
import { reconciliation } from '../../../src/core/report/reconciliation.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, short, started, withSignal } from '../record/build.ts';

const plan = planOf([
  ['1001', 'CON30 NET', 'SW1 P01', withSignal('network')],
  ['1002', 'MIO31 NET', 'SW1 P02', withSignal('network', { onAir: true })],
  ['1003', 'CON32 NET', 'SW1 P03', withSignal('network')],
]);
const build = started({ occasion: 'build', permission: 'disconnect' });
const worked = (cable: string, words: string, more: Partial<Payload<'worked'>>) =>
  event('worked', { cable, place: at(words), stage: 'tested', ...more });
const failed = (cable = '1001', words = 'SW1 P01') => worked(cable, words, { result: 'fail', words: 'split pair 3-6' });
const passed = (cable = '1001', words = 'SW1 P01') => worked(cable, words, { result: 'pass' });
const found = (events: AuditEvent[]) => short(foldAll(plan, events).discrepancies());
const kindsAt = (events: AuditEvent[], words: string) =>
  foldAll(plan, events)
    .discrepanciesAt(at(words))
    .map(({ kind }) => kind);

describe('a test that failed', () => {
  it('is a difference of the service, seen at its jack, with the words of the tester', () => {
    const events = [build, saw('SW1 P01', '1001'), failed()];
    expect(found(events)).toEqual(['test-failed service 1001']);
    expect(kindsAt(events, 'SW1 P01')).toEqual(['test-failed']);
    const { lines } = reconciliation(foldAll(plan, events), 'a', 's');
    expect(lines[0]?.line).toBe('SW1 P01: 1001 failed its test: split pair 3-6.');
    expect(lines[0]?.evidence).toMatchObject([{ basis: 'tested' }]);
  });
  it('weighs what hangs on the cable', () => {
    expect(found([build, failed('1002', 'SW1 P02')])).toEqual(['test-failed on-air 1002']);
  });
  it('is told on every occasion, and of a cable that the plan does not have', () => {
    expect(found([started({ occasion: 'inherit' }), failed('7777')])).toEqual(['test-failed service 7777']);
  });
  it('is none any more once the end passed, or it was taken back; a failure after a pass is one', () => {
    expect(found([build, saw('SW1 P01', '1001'), failed(), passed()])).toEqual([]);
    expect(found([build, saw('SW1 P01', '1001'), passed(), failed()])).toEqual(['test-failed service 1001']);
    const one = failed();
    const undo = event('withdrawn', { target: { event: one.id }, why: 'undo' });
    expect(found([build, one, undo])).toEqual([]);
  });
  it('is mended and tested again, with what goes off meanwhile and only where a plug may be moved', () => {
    const events = [build, saw('SW1 P02', '1002'), failed('1002', 'SW1 P02')];
    const view = fixesView(foldAll(plan, events), 'a');
    const steps = view.blocks.flatMap((block) => block.steps);
    expect(steps.map(({ words }) => words)).toEqual([
      'Off-air receiver: listen to the air signal before anything moves.',
      'SW1 P02: repair the end of 1002. The tester said: split pair 3-6.',
      'SW1 P02: test 1002 again, and record the result.',
      'Off-air receiver: listen again. If it is not as before, roll back.',
    ]);
    expect(steps[1]?.interrupts[0]).toContain('1002');
    const only = started({ occasion: 'build', permission: 'look' });
    expect(fixesView(foldAll(plan, [only, ...events.slice(1)]), 'a').blocks[0]?.waits).not.toBeNull();
  });
  it('is put right on the floor on every occasion, never written into the record', () => {
    for (const occasion of ['inherit', 'after-move', 'relabel', 'build'] as const) {
      const fold = foldAll(plan, [started({ occasion, permission: 'disconnect' }), failed()]);
      const list = planFixes(fold, {
        differences: fold.discrepancies(),
        causes: [],
        decisions: [],
        permission: 'disconnect',
        window: null,
        rank: () => 0,
      });
      expect(list.record).toEqual([]);
      expect(list.blocks.flatMap(({ steps }) => steps.map(({ task }) => task))).toEqual(['mend', 'retest']);
    }
  });
});

describe('a test that nobody made', () => {
  it('is a difference of the record where something is built, for each end that is in', () => {
    expect(found([build, saw('SW1 P01', '1001'), saw('CON30 NET', '1001'), passed()])).toEqual([
      'not-tested record 1001',
    ]);
    expect(found([build, worked('1003', 'SW1 P03', { stage: 'landed' })])).toEqual(['not-tested record 1003']);
    expect(found([build, worked('1003', 'SW1 P03', { stage: 'pulled' })])).toEqual([]);
  });
  it('is none elsewhere, unless the cable was worked', () => {
    const moved = started({ occasion: 'after-move' });
    expect(found([moved, saw('SW1 P01', '1001')])).toEqual([]);
    expect(found([moved, worked('1001', 'SW1 P01', { stage: 'labelled' })])).toEqual(['not-tested record 1001']);
  });
  it('does not make a jack differ in the walk, where the label is as planned', () => {
    expect(kindsAt([build, saw('SW1 P01', '1001')], 'SW1 P01')).toEqual([]);
  });
  it('is a test to make', () => {
    const view = fixesView(foldAll(plan, [build, saw('SW1 P01', '1001')]), 'a');
    expect(view.blocks.flatMap(({ steps }) => steps.map(({ words }) => words))).toEqual([
      'SW1 P01: test 1001, and record the result.',
    ]);
  });
});

describe('the report', () => {
  it('counts a jack whose test failed among those that differ, not one where nobody tested yet', () => {
    const differ = (...events: AuditEvent[]) =>
      reconciliation(foldAll(plan, [build, saw('SW1 P01', '1001'), saw('SW1 P02', '1002'), ...events]), 'a', 's')
        .byRack.map((row) => row.differ)
        .reduce((a, b) => a + b, 0);
    expect(differ()).toBe(0);
    expect(differ(failed())).toBe(1);
  });
  it('has a table of every test, the one that a later one replaced too', () => {
    const events = [build, saw('SW1 P01', '1001'), failed(), passed(), failed('1002', 'SW1 P02')];
    const { tests } = reconciliation(foldAll(plan, events), 'a', 's');
    expect(
      tests.map(({ label, end, place, result, words, again }) => [label, end, place, result, words, again]),
    ).toEqual([
      ['1001', 'to end', 'SW1 P01', 'fail', 'split pair 3-6', true],
      ['1001', 'to end', 'SW1 P01', 'pass', null, false],
      ['1002', 'to end', 'SW1 P02', 'fail', 'split pair 3-6', false],
    ]);
  });
});
