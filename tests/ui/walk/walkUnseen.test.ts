// The record worker fails after a statement was written: it says that it was kept, and the walk goes on.
import { describe, expect, it } from 'vitest';
import type { Services } from '../../../src/ui/services.ts';
import { planOf, started } from '../../core/record/build.ts';
import { walkStation } from './walkStation.ts';

const plan = planOf([
  ['1001', 'A 1', 'SW1 P01'],
  ['1002', 'A 2', 'SW1 P02'],
  ['1003', 'A 3', 'SW1 P03'],
]);

/** The walk of a station whose worker fails at the questions in `failing`. */
function failingWalk() {
  const failing = new Set<string>();
  const made = walkStation(plan, started());
  const ask = made.services.ask as (question: string, given: unknown) => Promise<unknown>;
  made.services.ask = (async (question: string, given: unknown) => {
    if (failing.has(question)) throw new Error('the record worker has ended');
    return ask(question, given);
  }) as Services['ask'];
  return { ...made, failing };
}

describe('a statement whose answer fails after it was written', () => {
  it('is said to be kept, and the walk stands at the next open jack', async () => {
    const { flow, recorded, failing } = failingWalk();
    const walk = flow();
    await walk.begin('SW1/P01');
    failing.add('stated');
    await walk.sayLabel('1001', 'tapped');
    expect(recorded).toHaveLength(1);
    expect(walk.line.value).toBe(
      'SW1 P01: saved, but not compared with the plan. Check it under Differences. Go on with the next jack.',
    );
    expect(walk.verdict.value).toBeNull();
    expect(walk.memory.value.place).toBe('SW1/P02');
    failing.clear();
    await walk.sayLabel('1002', 'tapped');
    expect(walk.verdict.value).toMatchObject({ jack: 'P02', variant: 'as-planned' });
    expect(walk.line.value).toBeNull();
    await walk.undo();
    await walk.undo();
    expect(recorded.filter(({ kind }) => kind === 'withdrawn')).toHaveLength(2);
  });

  it('is said to be kept where the worker answers nothing any more, and can be said on from there later', async () => {
    const { flow, recorded, failing } = failingWalk();
    const walk = flow();
    await walk.begin('SW1/P01');
    for (const question of ['stated', 'nextOpen', 'walk', 'verdict']) failing.add(question);
    await walk.sayLabel('1001', 'tapped');
    expect(recorded).toHaveLength(1);
    expect(walk.line.value).toContain('SW1 P01: saved, but not compared');
    failing.clear();
    await walk.sayState('empty');
    expect(recorded).toHaveLength(2);
  });

  it('does not call kept what is only in memory', async () => {
    const { flow, services, failing } = failingWalk();
    const { record } = services;
    services.record = (async (...given: Parameters<typeof record>) => {
      const { event } = await record(...given);
      return { type: 'not-saved', event, why: 'full' };
    }) as typeof record;
    const walk = flow();
    await walk.begin('SW1/P01');
    failing.add('stated');
    await walk.sayLabel('1001', 'tapped');
    expect(walk.line.value).toContain('SW1 P01: recorded, not on disk yet');
  });
});
