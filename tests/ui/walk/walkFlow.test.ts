// The walk as it runs, over a real record of one switch (invented): taps, readings, undo, pause. Only disk, clock and
// camera are fakes.
import { describe, expect, it } from 'vitest';
import { VISIT_MS, type WalkMemory } from '../../../src/core/walk/memory.ts';
import { WALK } from '../../../src/ui/drafts/walkDrafts.ts';
import { planOf, started } from '../../core/record/build.ts';
import { walkStation } from './walkStation.ts';

const PLACES = ['SW1/P01', 'SW1/P02', 'SW1/P03', 'SW1/P04'];
/** One unit SW1, jacks planned 1001 to 1004; ZIO31 is a unit; the text 10O1 fits two cables. */
const plan = planOf(
  [...PLACES.map((_, i): [string, string, string] => [String(1001 + i), '', `SW1 P0${i + 1}`]), ['I001', '', '']],
  [{ at: 'ZIO31 NET' }],
);

function station(kept: WalkMemory | null = null) {
  const made = walkStation(plan, started());
  if (kept) void made.services.saveDraft('walk:a', kept, WALK);
  const places: string[] = [];
  return { ...made, flow: made.flow((place) => places.push(place)), places };
}

describe('a walk', () => {
  it('takes one tap for a matching jack and goes on to the next open one', async () => {
    const { flow, recorded, places } = station();
    await flow.begin(null);
    await flow.sayLabel('1001', 'tapped');
    expect(recorded).toHaveLength(1);
    expect(recorded[0]?.payload).toMatchObject({
      places: ['SW1/P01'],
      said: ['SW1 P01'],
      state: 'label',
      by: 'tapped',
    });
    expect(flow.verdict.value).toMatchObject({ jack: 'P01', variant: 'as-planned' });
    expect(places.at(-1)).toBe('SW1/P02');
  });

  it('does not speak about the next jack when a tap comes twice', async () => {
    const { flow, recorded } = station();
    await flow.begin(null);
    await Promise.all([flow.sayState('empty'), flow.sayState('empty')]);
    expect(recorded).toHaveLength(1);
    await flow.sayState('empty');
    expect(recorded[1]?.payload).toMatchObject({ places: ['SW1/P02'] });
  });

  it('never makes a cable of the label of a unit, and asks where a text fits two cables', async () => {
    const { flow, recorded } = station();
    await flow.begin(null);
    await flow.readText('ZIO31', 'camera');
    expect(flow.sheet.value).toMatchObject({ type: 'named', what: 'unit', label: 'ZIO31' });
    await flow.readText('10O1', 'typed');
    expect(flow.sheet.value).toMatchObject({ type: 'candidates' });
    expect(recorded).toEqual([]);
    await flow.sayLabel('10O1', 'typed', { means: '1001' });
    expect(recorded[0]?.payload).toMatchObject({ plugs: [{ labels: [{ text: '10O1', means: '1001' }] }] });
  });

  it('asks about a label that a helper tells, records the answer of the far jack, and asks the helper on', async () => {
    const { flow, recorded } = station();
    await flow.begin(null);
    flow.sheet.value = { type: 'radio' };
    const plugs = [{ labels: [{ text: 'ZIO31' }] }];
    const places = [{ place: 'SW1/P04', words: 'SW1 P04' }];
    await flow.tell({ places, state: 'label', plugs, by: 'typed', basis: 'told', teller: 'Robin' });
    const asked = flow.sheet.peek();
    if (asked?.type !== 'named') throw new Error('A unit was told as a cable, and nothing is asked.');
    expect(recorded).toEqual([]);
    // As its sheet closes.
    flow.sheet.value = { type: 'radio' };
    await flow.answerLabel(asked, { text: 'ZIO31', own: true });
    expect(recorded[0]?.payload).toMatchObject({
      places: ['SW1/P04'],
      basis: 'told',
      teller: 'Robin',
      plugs: [{ labels: [{ text: 'ZIO31', own: true }] }],
    });
    expect(flow.sheet.value).toEqual({ type: 'radio' });
    expect(flow.memory.value.place).toBe('SW1/P01');
  });

  it('takes a row back with one undo and returns to its first jack', async () => {
    const { flow, recorded, places } = station();
    await flow.begin(null);
    const row = PLACES.slice(1).map((place) => ({ place, words: `SW1 ${place.slice(4)}` }));
    await flow.say({ places: row, state: 'empty', by: 'tapped' });
    expect(recorded).toHaveLength(1);
    expect(flow.verdict.value).toMatchObject({ jack: 'P02 to P04', variant: 'differs' });
    expect(flow.memory.value.place).toBe('SW1/P01');
    await flow.undo();
    expect(recorded[1]).toMatchObject({ kind: 'withdrawn', payload: { target: { event: 'w1' }, why: 'undo' } });
    expect(places.at(-1)).toBe('SW1/P02');
    await flow.undo();
    expect(recorded).toHaveLength(2);
  });

  it('reads nothing while the studio is live, and keeps its jack for the return', async () => {
    const { flow, recorded, services } = station();
    await flow.begin('SW1/P03');
    flow.pause(true);
    await flow.readText('1003', 'camera');
    expect(recorded).toEqual([]);
    expect(await services.draft('walk:a', WALK)).toMatchObject({ place: 'SW1/P03', paused: true });
    flow.pause(false);
    await flow.readText('1003', 'camera');
    expect(recorded[0]?.payload).toMatchObject({ places: ['SW1/P03'] });
  });

  it('tells each statement once to ear and hand, and not again when the record is asked anew', async () => {
    const { flow } = station();
    const heard: unknown[] = [];
    flow.said.subscribe((said) => said && heard.push(`${said.jack} ${said.variant}`));
    await flow.begin(null);
    await flow.sayLabel('1001', 'tapped');
    await flow.refresh();
    await flow.moveTo('SW1/P01');
    expect(heard).toEqual(['P01 as-planned']);
    await flow.moveTo('SW1/P02');
    await flow.sayLabel('1001', 'tapped');
    await flow.refresh();
    expect(heard).toEqual(['P01 as-planned', 'P02 differs']);
  });

  it.each([
    ['a lock of a minute', 60_000],
    ['a night', 12 * 60 * 60_000],
  ])('comes back paused and at the same jack after %s, also when the app was killed', async (_what, away) => {
    const before = station();
    await before.flow.begin('SW1/P03');
    await before.flow.sayState('unlabelled');
    await before.flow.moveTo('SW1/P02');
    before.flow.pause(true);
    // A kill leaves nothing but what is on disk.
    const after = station(await before.services.draft('walk:a', WALK));
    after.wait(away);
    await after.flow.begin(null);
    const { place, paused, visit, acts } = after.flow.memory.value;
    expect({ place, paused, acts: acts.length }).toEqual({ place: 'SW1/P02', paused: true, acts: 1 });
    // A short absence is the same visit, a long one is not: what was said then is another day's look.
    expect(visit?.looks ?? null).toEqual(away > VISIT_MS ? null : [{ event: 'w1', places: ['SW1/P03'] }]);
    await after.flow.readText('1002', 'camera');
    expect(after.recorded).toEqual([]);
    after.flow.pause(false);
    await after.flow.readText('1002', 'camera');
    expect(after.recorded[0]?.payload).toMatchObject({ places: ['SW1/P02'] });
  });

  it('replaces its own look after a reload, but asks about it after a long absence', async () => {
    const first = station();
    await first.flow.begin('SW1/P01');
    await first.flow.sayLabel('1002', 'tapped');
    await first.flow.moveTo('SW1/P01');
    await first.flow.sayLabel('1001', 'tapped');
    expect(first.recorded[1]?.payload).toMatchObject({ withdraws: [{ event: 'w1' }] });
    await first.flow.moveTo('SW1/P01');
    first.flow.pause(true);
    first.wait(VISIT_MS + 1);
    first.flow.pause(false);
    await first.flow.sayLabel('1004', 'tapped');
    expect(first.flow.sheet.value).toMatchObject({ type: 'earlier' });
    expect(first.recorded).toHaveLength(2);
    await first.flow.answerEarlier('changed');
    expect(first.recorded[2]?.payload).toMatchObject({ changedSince: ['w2'] });
  });
});
