// What a walk remembers: one act one event, visits, what one undo takes back. Scenario numbers in the names are of the
// project's own field scenarios (invented).
import { describe, expect, it } from 'vitest';
import type { Sighting } from '../../../src/core/record/events.ts';
import {
  afterSighting,
  lastAct,
  NEW_MEMORY,
  type Said,
  saidToSighting,
  undoLast,
  type Visit,
  visitAt,
  type WalkMemory,
  withdrawalsAt,
} from '../../../src/core/walk/memory.ts';

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
/** As the judge records it where only looking is allowed: what the visit said there before gives way. */
const toSighting = (said: Said, visit: Visit): Sighting => {
  const sighting = saidToSighting(said);
  const withdraws = withdrawalsAt(visit, sighting.places);
  return withdraws.length > 0 ? { ...sighting, withdraws } : sighting;
};
const afterSaid = (memory: WalkMemory, event: string, sighting: Sighting, unit: string) =>
  afterSighting(memory, event, sighting, unit, event);

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
    const memory = afterSaid(NEW_MEMORY, 'e1', sighting, 'SW1');
    const undo = undoLast(memory);
    expect(undo?.payload).toEqual({ target: { event: 'e1' }, why: 'undo' });
    expect(undo?.act.back).toBe('SW1/P05');
    expect(undo?.memory.acts).toEqual([]);
    expect(undo?.memory.visit?.looks).toEqual([]);
    expect(undoLast(undo?.memory ?? NEW_MEMORY)).toBeNull();
  });

  it('made again in the same visit withdraws the look before it', () => {
    const first = toSighting(label(3, '1004'), NOBODY);
    const memory = afterSaid(NEW_MEMORY, 'e1', first, 'SW1');
    const second = toSighting(label(3, '1003'), visitAt(memory, 'SW1'));
    expect(second.withdraws).toEqual([{ event: 'e1' }]);
    const after = afterSaid(memory, 'e2', second, 'SW1');
    expect(lastAct(after)?.event).toBe('e2');
    expect(after.visit?.looks).toEqual([{ event: 'e2', places: ['SW1/P03'] }]);
    // Undone, the first stands again and can be taken back in its turn.
    const undone = undoLast(after)!.memory;
    expect(undone.visit?.looks).toEqual([{ event: 'e1', places: ['SW1/P03'] }]);
    expect(undoLast(undone)?.act.event).toBe('e1');
    expect(undoLast(undoLast(undone)!.memory)).toBeNull();
  });

  it('about one jack of a range leaves the rest of the range standing', () => {
    const range = toSighting({ places: at(5, 6, 7), state: 'empty', by: 'tapped' }, NOBODY);
    const memory = afterSaid(NEW_MEMORY, 'e1', range, 'SW1');
    expect(withdrawalsAt(visitAt(memory, 'SW1'), ['SW1/P06'])).toEqual([{ event: 'e1', places: ['SW1/P06'] }]);
    const again = afterSaid(memory, 'e2', toSighting(label(6, '1006'), visitAt(memory, 'SW1')), 'SW1');
    expect(again.acts.map(({ event }) => event)).toEqual(['e1', 'e2']);
    expect(undoLast(again)?.memory.visit?.looks).toEqual([{ event: 'e1', places: ['SW1/P05', 'SW1/P07', 'SW1/P06'] }]);
    expect(withdrawalsAt(visitAt(again, 'SW1'), ['SW1/P06'])).toEqual([{ event: 'e2' }]);
  });

  it('at another unit begins a new visit, which withdraws nothing of the one before', () => {
    const memory = afterSaid(NEW_MEMORY, 'e1', toSighting(label(3, '1003'), NOBODY), 'SW1');
    const elsewhere = afterSaid(memory, 'e2', { ...toSighting(label(3, '2003'), NOBODY), places: ['SW2/P03'] }, 'SW2');
    expect(toSighting(label(3, '1004'), visitAt(elsewhere, 'SW1')).withdraws).toBeUndefined();
  });
});
