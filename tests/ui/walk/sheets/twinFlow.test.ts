// Twins during the walk, over a real record: a strip read right after "No label", and an offer that was put off. Data
// invented.
import { describe, expect, it } from 'vitest';
import { twinsView } from '../../../../src/core/report/walk/twinsView.ts';
import { resumed, VISIT_MS } from '../../../../src/core/walk/memory.ts';
import type { WalkFlow } from '../../../../src/ui/walk/walkFlowType.ts';
import { at, planOf, started, statement } from '../../../core/record/build.ts';
import { walkStation } from '../walkStation.ts';

const plan = planOf(
  [['U-040', 'CON9 NET', 'SW1 P08']],
  ['P09', 'P10', 'P11'].map((jack) => ({ at: `SW1 ${jack}` })),
);
const touching = (permission: 'look' | 'touch' = 'touch') =>
  walkStation(plan, started({ permission, occasion: 'inherit' }));
async function noLabelAtP09(flow: WalkFlow): Promise<void> {
  await flow.begin(at('SW1 P09'));
  await flow.sayState('unlabelled');
  expect(flow.memory.value.place).toBe(at('SW1 P10'));
}
const bears = (walk: ReturnType<typeof walkStation>, words: string) =>
  walk
    .fold()
    .readingsAt(at(words))
    .map(({ text }) => text);

describe('a strip read right after "No label"', () => {
  it('goes on the plug just spoken about, named first, and the walk stays where it went on to', async () => {
    const walk = touching();
    const flow = walk.flow();
    await noLabelAtP09(flow);
    await flow.readText('U-017', 'camera');
    expect(bears(walk, 'SW1 P09')).toEqual(['U-017']);
    expect(walk.fold().isSaid(at('SW1 P10'))).toBe(false);
    expect(flow.verdict.value).toMatchObject({ jack: 'P09', label: 'U-017' });
    expect(flow.memory.value.place).toBe(at('SW1 P10'));
    expect(walk.recorded.at(-1)).toMatchObject({ kind: 'label-put', payload: { why: 'twin' } });
    expect(walk.recorded.at(-1)?.payload).not.toHaveProperty('other');
  });

  it('is taken back by one undo, which goes back to that jack', async () => {
    const walk = touching();
    const flow = walk.flow();
    await noLabelAtP09(flow);
    await flow.readText('U-017', 'wedge');
    await flow.undo();
    expect(flow.line.value).toBe('Undone: tag U-017.');
    expect(walk.fold().stateAt(at('SW1 P09')).type).toBe('unlabelled');
    expect(flow.memory.value.place).toBe(at('SW1 P09'));
  });

  it('tells the first end where this phone knows it, so that nobody is taken to have given the number twice', async () => {
    const walk = touching();
    const look = walk.add('sighting', statement(['PP1 P17'], 'unlabelled').payload, { log: 'b', author: 'R. Quill' });
    const put = { place: at('PP1 P17'), text: 'U-017', upon: [look], why: 'twin' };
    walk.add('label-put', put, { log: 'b', author: 'R. Quill' });
    const flow = walk.flow();
    await noLabelAtP09(flow);
    await flow.readText('u 17', 'camera');
    expect(walk.recorded.at(-1)?.payload).toMatchObject({ place: at('SW1 P09'), other: at('PP1 P17') });
    expect(flow.verdict.value?.second).toContain('other end at PP1 P17');
    expect(twinsView(walk.fold(), null, 'l').given).toEqual([]);
  });

  it('speaks about the next jack once the plug has a number, the offer was put off, or the person went elsewhere', async () => {
    const numbered = touching();
    const one = numbered.flow();
    await noLabelAtP09(one);
    await one.readText('U-017', 'camera');
    await one.readText('U-018', 'camera');
    expect([bears(numbered, 'SW1 P09'), bears(numbered, 'SW1 P10')]).toEqual([['U-017'], ['U-018']]);

    const putOff = touching();
    const two = putOff.flow();
    await noLabelAtP09(two);
    two.notNow(at('SW1 P09'));
    await two.readText('U-017', 'camera');
    expect(bears(putOff, 'SW1 P10')).toEqual(['U-017']);

    const gone = touching();
    const three = gone.flow();
    await noLabelAtP09(three);
    await three.moveTo(at('SW1 P11'));
    await three.readText('U-017', 'camera');
    expect(bears(gone, 'SW1 P11')).toEqual(['U-017']);
  });

  it('speaks about the next jack where only looking is allowed, the plan knows the number, or the jack was typed for', async () => {
    const looking = touching('look');
    const one = looking.flow();
    await noLabelAtP09(one);
    await one.readText('U-017', 'camera');
    expect(bears(looking, 'SW1 P10')).toEqual(['U-017']);

    const planned = touching();
    const two = planned.flow();
    await noLabelAtP09(two);
    await two.readText('U-040', 'camera');
    expect(bears(planned, 'SW1 P10')).toEqual(['U-040']);

    const typed = touching();
    const three = typed.flow();
    await noLabelAtP09(three);
    await three.readText('U-017', 'typed');
    expect(bears(typed, 'SW1 P10')).toEqual(['U-017']);
  });
});

describe('an offer that was put off', () => {
  it('stays so for that jack over a reload, until the walk is resumed', async () => {
    const walk = touching();
    const flow = walk.flow();
    await noLabelAtP09(flow);
    flow.notNow(at('SW1 P09'));
    const again = walk.flow();
    await again.begin(null);
    expect(again.memory.value.notNow).toEqual([at('SW1 P09')]);
    const { at: kept } = again.memory.value;
    expect(resumed(again.memory.value, kept + VISIT_MS + 1).notNow).toEqual([]);
    again.pause(true);
    expect(again.memory.value.notNow).toEqual([at('SW1 P09')]);
    again.pause(false);
    expect(again.memory.value.notNow).toEqual([]);
  });

  it('leaves the plug among those that are owed a number', async () => {
    const walk = touching();
    const flow = walk.flow();
    await noLabelAtP09(flow);
    flow.notNow(at('SW1 P09'));
    const owed = () => twinsView(walk.fold(), null, 'l').owed.map(({ words }) => words);
    expect(owed()).toEqual(['SW1 P09']);
    await flow.moveTo(at('SW1 P09'));
    await flow.readText('U-017', 'camera');
    expect(owed()).toEqual([]);
    expect(walk.recorded.at(-1)).toMatchObject({ kind: 'label-put', payload: { place: at('SW1 P09'), why: 'twin' } });
  });
});
