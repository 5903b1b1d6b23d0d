// The walk as it runs, over a station of one switch whose answers are made here (invented): taps, readings, undo,
// pause. Only the services are fakes; flow and rules are the app's own.
import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import type { Services } from '../../../src/ui/services.ts';
import { createFlow } from '../../../src/ui/walk/walkFlow.ts';
import { VISIT_MS } from '../../../src/ui/walk/walkState.ts';

const PLACES = ['SW1/P01', 'SW1/P02', 'SW1/P03', 'SW1/P04'];

/** One unit SW1, jacks planned 1001 … 1004; MIO31 is a unit; the text 10O1 fits two cables. */
function station(kept: unknown = null) {
  const recorded: { kind: string; payload: Record<string, unknown> }[] = [];
  const said = new Map<string, { event: string; label: string | null; state: string }>();
  const drafts = new Map<string, unknown>(kept ? [['walk:a1', kept]] : []);
  let time = 1_000_000;
  const jack = (place: string) => place.slice(4);
  const planOf = (place: string) => String(1001 + PLACES.indexOf(place));
  const open = (after: string | null) => {
    const at = after === null ? 0 : PLACES.indexOf(after) + 1;
    return [...PLACES.slice(at), ...PLACES.slice(0, at)].find((place) => !said.has(place)) ?? null;
  };
  const walkAt = (place: string | null) => {
    const current = place && PLACES.includes(place) ? place : (open(null) ?? 'SW1/P01');
    const look = said.get(current);
    return {
      unit: { id: 'SW1', label: 'SW1' },
      blind: false,
      current: { place: current, jack: jack(current), plan: planOf(current) },
      looks: look ? [{ ...look, author: 'x', at: 0 }] : [],
      face: {
        rows: [PLACES.map((one) => ({ place: one, label: jack(one), plan: planOf(one), state: 'unseen' }))],
        order: PLACES,
      },
    };
  };
  const verdictAt = (place: string) => ({
    variant: said.get(place)?.label === planOf(place) ? 'as-planned' : 'differs',
    place,
    jack: jack(place),
    label: said.get(place)?.label ?? null,
    word: said.get(place)?.state,
    second: '',
    order: null,
    candidates: [],
  });
  const answers: Record<string, (given: never) => unknown> = {
    walk: ({ place }: { place: string | null }) => walkAt(place),
    verdict: ({ place }: { place: string }) => verdictAt(place),
    stated: ({ places, here }: { places: string[]; here: string | null }) => ({
      verdicts: places.map(verdictAt),
      view: walkAt(here !== null && places.includes(here) ? open(here) : here),
      last: walkAt(places[0] ?? null),
    }),
    reading: ({ text }: { text: string }) =>
      text === 'MIO31'
        ? { type: 'unit', id: 'MIO31', label: 'MIO31' }
        : text === '10O1'
          ? {
              type: 'ask',
              candidates: [
                { id: '1001', label: '1001', line: '' },
                { id: 'I001', label: 'I001', line: '' },
              ],
            }
          : { type: 'unknown' },
  };
  const services = {
    changed: signal(0),
    now: () => time,
    log: async () => null,
    ask: async (question: string, given: never) => answers[question]?.(given) ?? null,
    draft: async (key: string) => drafts.get(key) ?? null,
    saveDraft: (key: string, value: unknown) => drafts.set(key, value),
    record: async (kind: string, payload: Record<string, never>) => {
      const event = `e${recorded.length + 1}`;
      recorded.push({ kind, payload });
      if (kind === 'sighting') {
        const { places, plugs, state } = payload as unknown as {
          places: string[];
          plugs: { labels: { text: string }[] }[];
          state: string;
        };
        for (const place of places) said.set(place, { event, state, label: plugs[0]?.labels[0]?.text ?? null });
      }
      if (kind === 'withdrawn') {
        const { target } = payload as unknown as { target: { event: string } };
        for (const [place, look] of said) if (look.event === target.event) said.delete(place);
      }
      return { type: 'saved', event };
    },
  } as unknown as Services;
  const places: string[] = [];
  const flow = createFlow(services, 'a1', (place) => places.push(place));
  return { flow, recorded, places, drafts, wait: (ms: number) => (time += ms) };
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
    await flow.readText('MIO31', 'camera');
    expect(flow.sheet.value).toMatchObject({ type: 'named', what: 'unit', label: 'MIO31' });
    await flow.readText('10O1', 'typed');
    expect(flow.sheet.value).toMatchObject({ type: 'candidates' });
    expect(recorded).toEqual([]);
    await flow.sayLabel('10O1', 'typed', '1001');
    expect(recorded[0]?.payload).toMatchObject({ plugs: [{ labels: [{ text: '10O1', means: '1001' }] }] });
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
    expect(recorded[1]).toEqual({ kind: 'withdrawn', payload: { target: { event: 'e1' }, why: 'undo' } });
    expect(places.at(-1)).toBe('SW1/P02');
    await flow.undo();
    expect(recorded).toHaveLength(2);
  });

  it('reads nothing while the studio is live, and keeps its jack for the return', async () => {
    const { flow, recorded, drafts } = station();
    await flow.begin('SW1/P03');
    flow.pause(true);
    await flow.readText('1003', 'camera');
    expect(recorded).toEqual([]);
    expect(drafts.get('walk:a1')).toMatchObject({ place: 'SW1/P03', paused: true });
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
    const after = station(structuredClone(before.drafts.get('walk:a1')));
    after.wait(away);
    await after.flow.begin(null);
    const { place, paused, visit, acts } = after.flow.memory.value;
    expect({ place, paused, acts: acts.length }).toEqual({ place: 'SW1/P02', paused: true, acts: 1 });
    // A short absence is the same visit, a long one is not: what was said then is another day's look.
    expect(visit?.looks ?? null).toEqual(away > VISIT_MS ? null : [{ event: 'e1', places: ['SW1/P03'] }]);
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
    expect(first.recorded[1]?.payload).toMatchObject({ withdraws: [{ event: 'e1' }] });
    await first.flow.moveTo('SW1/P01');
    first.flow.pause(true);
    first.wait(VISIT_MS + 1);
    first.flow.pause(false);
    await first.flow.sayLabel('1004', 'tapped');
    expect(first.flow.sheet.value).toMatchObject({ type: 'earlier' });
    expect(first.recorded).toHaveLength(2);
    await first.flow.answerEarlier('changed');
    expect(first.recorded[2]?.payload).toMatchObject({ changedSince: ['e2'] });
  });
});
