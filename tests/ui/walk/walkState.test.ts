// The rules of a walk: one act one event, visits, earlier looks, undo, what stands at the thumb. Scenario numbers in
// the names are of the project's own field scenarios (invented).
import { describe, expect, it } from 'vitest';
import type { JackView } from '../../../src/core/report/walk/walkView.ts';
import {
  afterSighting,
  earlierDiffering,
  labelToBox,
  labelToShow,
  NEW_MEMORY,
  primaryAt,
  resolveEarlier,
  type Said,
  sentenceToShow,
  toSighting,
  undoLast,
  visitAt,
  withdrawalsAt,
  withoutPlan,
} from '../../../src/ui/walk/walkState.ts';

const jack = (n: number) => `SW1/P${String(n).padStart(2, '0')}`;
const at = (...numbers: number[]): Said['places'] =>
  numbers.map((n) => ({ place: jack(n), words: `SW1 P${String(n).padStart(2, '0')}` }));
const label = (n: number, text: string): Said => ({
  places: at(n),
  state: 'label',
  plugs: [{ labels: [{ text }] }],
  by: 'camera',
});
const NOBODY = { unit: 'SW1', looks: [] };

describe('a statement', () => {
  it('about twenty empty jacks is one event (scenario 11)', () => {
    const numbers = Array.from({ length: 20 }, (_, i) => i + 5);
    const sighting = toSighting({ places: at(...numbers), state: 'empty', by: 'tapped' }, NOBODY);
    expect(sighting.places).toHaveLength(20);
    expect(sighting.places[0]).toBe('SW1/P05');
    expect(sighting.said.at(-1)).toBe('SW1 P24');
    expect(sighting).toMatchObject({ state: 'empty', plugs: [], basis: 'seen' });
    expect(sighting.withdraws).toBeUndefined();
  });

  it('of twenty jacks is taken back in one act, and the walk goes back to the first of them (scenario 11)', () => {
    const sighting = toSighting({ places: at(5, 6, 7), state: 'empty', by: 'tapped' }, NOBODY);
    const memory = afterSighting(NEW_MEMORY, 'e1', sighting, 'SW1');
    const undo = undoLast(memory);
    expect(undo?.payload).toEqual({ target: { event: 'e1' }, why: 'undo' });
    expect(undo?.act.back).toBe('SW1/P05');
    expect(undo?.memory.acts).toEqual([]);
    expect(undo?.memory.visit?.looks).toEqual([]);
    expect(undoLast(undo?.memory ?? NEW_MEMORY)).toBeNull();
  });

  it('made again in the same visit withdraws the look before it', () => {
    const first = toSighting(label(3, '1004'), NOBODY);
    const memory = afterSighting(NEW_MEMORY, 'e1', first, 'SW1');
    const second = toSighting(label(3, '1003'), visitAt(memory, 'SW1'));
    expect(second.withdraws).toEqual([{ event: 'e1' }]);
    const after = afterSighting(memory, 'e2', second, 'SW1');
    expect(after.acts.map(({ event }) => event)).toEqual(['e2']);
    expect(after.visit?.looks).toEqual([{ event: 'e2', places: ['SW1/P03'] }]);
  });

  it('about one jack of a range leaves the rest of the range standing', () => {
    const range = toSighting({ places: at(5, 6, 7), state: 'empty', by: 'tapped' }, NOBODY);
    const memory = afterSighting(NEW_MEMORY, 'e1', range, 'SW1');
    expect(withdrawalsAt(visitAt(memory, 'SW1'), ['SW1/P06'])).toEqual([{ event: 'e1', places: ['SW1/P06'] }]);
    const again = afterSighting(memory, 'e2', toSighting(label(6, '1006'), visitAt(memory, 'SW1')), 'SW1');
    expect(again.acts.map(({ event }) => event)).toEqual(['e1', 'e2']);
    expect(withdrawalsAt(visitAt(again, 'SW1'), ['SW1/P06'])).toEqual([{ event: 'e2' }]);
  });

  it('at another unit begins a new visit, which withdraws nothing of the one before', () => {
    const memory = afterSighting(NEW_MEMORY, 'e1', toSighting(label(3, '1003'), NOBODY), 'SW1');
    const elsewhere = afterSighting(
      memory,
      'e2',
      { ...toSighting(label(3, '2003'), NOBODY), places: ['SW2/P03'] },
      'SW2',
    );
    expect(toSighting(label(3, '1004'), visitAt(elsewhere, 'SW1')).withdraws).toBeUndefined();
  });
});

describe('an earlier look', () => {
  const look = (event: string, state: string, text: string | null) => ({
    event,
    author: 'I. Halloran',
    at: 0,
    label: text,
    state,
  });

  it('of another visit that says another label is asked about', () => {
    const sighting = toSighting(label(3, '1004'), NOBODY);
    expect(earlierDiffering([look('old', 'label', '1003')], NOBODY, sighting)).toHaveLength(1);
    expect(earlierDiffering([look('old', 'label', '1004')], NOBODY, sighting)).toEqual([]);
    expect(earlierDiffering([look('old', 'empty', null)], NOBODY, sighting)).toHaveLength(1);
  });

  it('of the same visit is not asked about, and one that was no look contradicts nothing', () => {
    const sighting = toSighting(label(3, '1004'), NOBODY);
    const visit = { unit: 'SW1', looks: [{ event: 'mine', places: ['SW1/P03'] }] };
    expect(earlierDiffering([look('mine', 'label', '1003')], visit, sighting)).toEqual([]);
    expect(earlierDiffering([look('old', 'not-visible', null)], NOBODY, sighting)).toEqual([]);
    expect(earlierDiffering([look('old', 'plugged', null)], NOBODY, sighting)).toEqual([]);
  });

  it('misread is withdrawn at this jack only; changed since stays and is named; unsure leaves both', () => {
    const sighting = toSighting(label(3, '1004'), NOBODY);
    const earlier = [look('old', 'label', '1003')];
    expect(resolveEarlier(sighting, earlier, 'misread').withdraws).toEqual([{ event: 'old', places: ['SW1/P03'] }]);
    expect(resolveEarlier(sighting, earlier, 'changed').changedSince).toEqual(['old']);
    expect(resolveEarlier(sighting, earlier, 'unsure')).toEqual(sighting);
  });
});

describe('what stands at the thumb', () => {
  const occasion = 'after-move';
  const current = { place: 'SW1/P03', jack: 'P03', plan: '1003', planCable: '1003', done: false, through: null };

  it('is the planned label, one tap, and nothing at all in a blind audit (scenario 12)', () => {
    expect(primaryAt({ blind: false, current, occasion })).toEqual({ type: 'reads', label: '1003' });
    expect(primaryAt({ blind: true, current, occasion })).toEqual({ type: 'none' });
  });

  it('is Empty where the plan has nothing, and nothing where no plan is to be believed', () => {
    const bare = { blind: false, current: { ...current, plan: null } };
    expect(primaryAt({ ...bare, occasion })).toEqual({ type: 'empty' });
    expect(primaryAt({ ...bare, occasion: 'inherit' })).toEqual({ type: 'none' });
  });

  it('and the drawing of a blind audit bear no plan before the jack was spoken about (scenario 12)', () => {
    const unseen: JackView = { place: 'SW1/P03', label: 'P03', state: 'unseen', plan: '1003', mark: 'differs' };
    expect(withoutPlan(unseen)).toEqual({ place: 'SW1/P03', label: 'P03', state: 'unseen', mark: undefined });
    expect(withoutPlan({ ...unseen, state: 'label' }).plan).toBe('1003');
  });
});

describe('a label on the screen', () => {
  it('of ten thousand characters is cut and says so', () => {
    const shown = labelToShow('A'.repeat(10_000));
    expect(shown).toBe(`${'A'.repeat(16)}… (10000 characters)`);
  });

  it('that is merely long keeps its end, where labels of one series differ', () => {
    const long = (n: number) => `STUDIO-A/PROGRAMME/LEFT/TO/TRANSMITTER/FEED/${n}`;
    expect(labelToShow(long(1000))).toBe('STUDIO-A/…TTER/FEED/1000');
    expect(labelToBox(long(1000))).toBe('STUDI…EED/1000');
    expect(labelToShow(long(1001))).not.toBe(labelToShow(long(1000)));
    expect(labelToBox(long(1001))).not.toBe(labelToBox(long(1000)));
  });

  it('counts a letter with its accents as one and never parts them', () => {
    const letter = 'e\u030a\u0301';
    expect(labelToBox(letter.repeat(14))).toBe(letter.repeat(14));
    expect(labelToBox(letter.repeat(15))).toBe(`${letter.repeat(5)}…${letter.repeat(8)}`);
  });

  it('shows control and direction signs by their number and stays text', () => {
    expect(labelToShow('10\u202e03\u0007')).toBe('10[U+202E]03[U+0007]');
    expect(labelToShow('<b>1</b>')).toBe('<b>1</b>');
  });
});

describe('a sentence of the record', () => {
  it('that quotes a hostile label keeps its own words and shortens the quote', () => {
    const label = `<i>${'X'.repeat(600)}`;
    const shown = sentenceToShow(`${label} is not in the plan. Plan has 1003 here.`, label);
    expect(shown).toContain('is not in the plan. Plan has 1003 here.');
    expect(shown.length).toBeLessThan(100);
    expect(labelToBox(label)).toBe('<i>XXXXXXX…');
    expect(labelToBox('NET-PRI-A-1003')).toBe('NET-PRI-A-1003');
  });
});
