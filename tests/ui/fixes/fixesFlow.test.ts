// One piece of work from step to step, and back from any of them. Invented data.
import { describe, expect, it } from 'vitest';
import type { FixBlockView, FixStepView } from '../../../src/core/report/fixesView.ts';
import {
  begin,
  isFinished,
  isHandsOn,
  servicesOf,
  stepOn,
  turnBack,
  wayBack,
} from '../../../src/ui/fixes/fixesFlow.ts';
import { airToWords } from '../../../src/ui/fixes/fixesWords.ts';

const step = (n: number, words: string, back: string[]): FixStepView => ({
  n,
  action: 'plug',
  placeId: null,
  from: null,
  to: null,
  label: null,
  words,
  why: '',
  interrupts: [],
  onAir: false,
  beyond: [],
  caution: null,
  needs: 'disconnect',
  back,
});
const block: FixBlockView = {
  id: 'b',
  type: 'work',
  steps: [step(1, 'listen', []), step(2, 'hold a', ['plug a']), step(3, 'phantom on', ['phantom off', 'wait'])],
  waits: null,
  window: null,
  onlyInWindow: false,
  lookAgain: [],
};

describe('a piece of work', () => {
  it('is finished after its last step and goes no further', () => {
    let one = begin(block);
    for (let i = 0; i < 3; i++) {
      expect(isFinished(one)).toBe(false);
      one = stepOn(one)!;
    }
    expect(isFinished(one)).toBe(true);
    expect(stepOn(one)!.done).toBe(3);
  });
  it('has nothing to go back from before anything was changed', () => {
    expect(turnBack(begin(block))).toBeNull();
    expect(turnBack(stepOn(begin(block))!)).toBeNull();
  });
  it('goes back from the last change to the first, each in its turn, and is over then', () => {
    const done = stepOn(stepOn(stepOn(begin(block))!)!)!;
    expect(wayBack(done)).toEqual(['phantom off', 'wait', 'plug a']);
    const turned = turnBack(done)!;
    expect(stepOn(stepOn(turned)!)!.back).toBe(2);
    expect(stepOn(stepOn(stepOn(turned)!)!)).toBeNull();
    expect(isFinished(turned)).toBe(false);
  });
  it('is for hands only where it may be done and changes something', () => {
    expect(isHandsOn(block)).toBe(true);
    expect(isHandsOn({ ...block, waits: 'Waits for a window.' })).toBe(false);
    expect(isHandsOn({ ...block, steps: [step(1, 'look', [])] })).toBe(false);
  });
});

// That nothing is marked on-air does not mean that nothing goes off: common practice, no source.
it('says of work with no on-air mark how many services depend on it, each counted once', () => {
  const totals = { steps: 2, movements: 2, onAir: 0, services: 3, minutes: 1 };
  const off = (...interrupts: string[]) => ({ ...block, steps: [{ ...step(1, 'hold', []), interrupts }] });
  const blocks = [off('2001, MIC 1', '2002, MIC 2'), off('2002, MIC 2', '2003, MIC 3'), off()];
  expect(servicesOf({ blocks })).toEqual(['2001, MIC 1', '2002, MIC 2', '2003, MIC 3']);
  expect(airToWords(totals, servicesOf({ blocks }).length)).toBe('Nothing marked on-air; 3 services depend on it.');
  expect(airToWords({ ...totals, onAir: 1 }, servicesOf({ blocks }).length)).toBe(
    '1 on-air circuit goes off, each counted once; 3 services depend on it in all.',
  );
  expect(airToWords(totals, servicesOf({ blocks: [] }).length)).not.toContain('Nothing marked');
});
