// Renamings that are begun, in the list of work: what is due comes in its order, waits where it has to, and doing what the
// list says makes the renaming done. Data invented after the Quillmere list.
import { describe, expect, it } from 'vitest';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { renamings } from '../../../src/core/renaming/renaming.ts';
import { fixesOf, fixesView } from '../../../src/core/report/fixesView.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from '../record/build.ts';

const plan = planOf(
  [
    ['2004', 'COD41 OUT', 'DIO21 I1'],
    ['2005', 'COD42 OUT', 'DIO22 I1'],
  ],
  [],
  { settings: [{ unit: 'COD42', name: 'source name', value: 'CODEC 2005' }] },
);
const begun = started({ occasion: 'relabel', permission: 'touch' });
const listed = (fresh: string, list = 'list-1') =>
  event('renaming-listed', { list, name: 'Codecs', renames: [{ cable: '2005', old: '2005', new: fresh }] });
const near = saw('COD42 OUT', '3005 | 2005');

function list(...events: AuditEvent[]) {
  const fold = foldAll(plan, [begun, ...events]);
  const { blocks } = fixesOf(fold).list;
  const mine = blocks.filter(({ steps }) => steps.some(({ rename }) => rename));
  const steps = mine.flatMap((block) => block.steps).filter(({ rename }) => rename);
  return {
    fold,
    blocks: mine,
    steps,
    short: steps.map(({ task, to, label, value }) => `${task} ${to} ${value ? value.to : label}`),
  };
}

describe('a renaming under way', () => {
  it('wants the new label on every end, then the old ones off, then the page', () => {
    const { short, steps, fold } = list(listed('3005'), near, saw('DIO22 I1', '2005'));
    expect(short).toEqual([
      `label-put ${at('DIO22 I1')} 3005`,
      `label-off ${at('COD42 OUT')} 2005`,
      `label-off ${at('DIO22 I1')} 2005`,
      'value COD42 CODEC 3005',
    ]);
    expect(steps.at(-1)!.value).toEqual({ name: 'source name', now: 'CODEC 2005', to: 'CODEC 3005' });
    const told = fixesView(fold, 'a').blocks.flatMap((block) => block.steps);
    expect(told.find(({ words }) => words === 'DIO22 I1: put label 3005 on the plug.')?.why).toBe(
      'Renaming 2005 to 3005 is half done.',
    );
    // The way back of a label is the other act.
    expect(told.find(({ words }) => words === 'DIO22 I1: put label 3005 on the plug.')?.back).toEqual([
      'DIO22 I1: take label 3005 off the plug.',
    ]);
  });

  it('puts no label on a plug that nobody has read, and takes none off before', () => {
    expect(list(listed('3005'), near).short).toEqual([`far-end ${at('DIO22 I1')} 2005`]);
    expect(list(listed('3005'), near, statement(['DIO22 I1'], 'empty')).short).toEqual([
      `prove ${at('COD42 OUT')} 2005`,
    ]);
  });

  it('is followed where a new name may be another cable’s, and asked about where two lists disagree', () => {
    // The far end bears 2004 alone, which cable 2004 has by plan.
    const taken = list(listed('2004'), saw('COD42 OUT', '2004 | 2005'), saw('DIO22 I1', '2004'));
    expect(taken.short).toEqual([`prove ${at('DIO22 I1')} 2005`]);
    expect(list(listed('3005'), listed('4005', 'list-2'), near, saw('DIO22 I1', '2005')).short).toEqual([
      `decide ${at('COD42 OUT')} 2005`,
    ]);
  });

  it('waits where nobody may touch', () => {
    const look = event('permission-set', { permission: 'look' });
    const { blocks } = list(listed('3005'), near, saw('DIO22 I1', '2005'), look);
    expect(blocks.map(({ waits }) => waits)).toEqual([{ type: 'permission', needs: 'touch' }]);
  });

  it('is in no list before it is begun or when it is done', () => {
    expect(list(listed('3005'), saw('COD42 OUT', '2005'), saw('DIO22 I1', '2005')).short).toEqual([]);
    const page = event('setting-read', { unit: 'COD42', name: 'source name', value: 'CODEC 3005', basis: 'page' });
    expect(list(listed('3005'), saw('COD42 OUT', '3005'), saw('DIO22 I1', '3005'), page).short).toEqual([]);
  });

  it('is done when what the list says was done, step by step', () => {
    const looks = new Map([
      [at('COD42 OUT'), near],
      [at('DIO22 I1'), saw('DIO22 I1', '2005')],
    ]);
    const events: AuditEvent[] = [listed('3005'), ...looks.values()];
    for (let i = 0; i < 10; i++) {
      const [step] = list(...events).steps;
      if (!step) break;
      if (step.task === 'value') {
        const { name, to } = step.value!;
        events.push(event('setting-read', { unit: `${step.to}`, name, value: to!, basis: 'page' }));
      } else {
        const act = { place: step.to!, text: step.label!, upon: [looks.get(step.to!)!.id] };
        events.push(
          step.task === 'label-put' ? event('label-put', { ...act, why: 'rename' }) : event('label-off', act),
        );
      }
    }
    const { fold, short } = list(...events);
    expect(short).toEqual([]);
    expect(events).toHaveLength(7);
    expect(renamings(fold).map(({ state }) => state)).toEqual(['done']);
  });
});
