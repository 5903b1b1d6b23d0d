// What stands at the thumb. Scenario numbers in the names are of the project's own field scenarios (invented).
import { describe, expect, it } from 'vitest';
import { nextNumber, primaryAt, withoutPlan } from '../../../../src/core/report/walk/offered.ts';
import type { JackView } from '../../../../src/core/report/walk/walkView.ts';

describe('what stands at the thumb', () => {
  const occasion = 'after-move';
  const current = { place: 'SW1/P03', jack: 'P03', plan: '1003', planCable: '1003', done: false, through: null };

  it('is the planned label, one tap, and nothing at all in a blind audit (scenario 12)', () => {
    expect(primaryAt({ blind: false, hasPlan: true, current, occasion })).toEqual({ type: 'reads', label: '1003' });
    expect(primaryAt({ blind: true, hasPlan: true, current, occasion })).toEqual({ type: 'none' });
  });

  it('is Empty where the plan has nothing, and nothing where no plan is to be believed', () => {
    const bare = { blind: false, hasPlan: true, current: { ...current, plan: null } };
    expect(primaryAt({ ...bare, occasion })).toEqual({ type: 'empty' });
    expect(primaryAt({ ...bare, occasion: 'inherit' })).toEqual({ type: 'none' });
    expect(primaryAt({ ...bare, hasPlan: false, occasion: 'build' })).toEqual({ type: 'none' });
  });

  it('offers the next number of a row where no plan tells, and none in a blind audit or twice', () => {
    const jack = (label: string, found?: string): JackView => ({
      ...{ place: `DA1/${label}` as JackView['place'], label, state: found === undefined ? 'unseen' : 'label' },
      ...(found === undefined ? {} : { found }),
    });
    const at = (found: string | undefined, more: { blind?: boolean; last?: string } = {}) => {
      const jacks = [jack('1', found), jack('2'), jack('3', more.last)];
      const face = { rows: [jacks], order: jacks.map(({ place }) => place), mirrored: false };
      return nextNumber({ face, blind: more.blind ?? false, current: { ...current, place: jacks[1]!.place } });
    };
    expect(at('A102')).toBe('A103');
    expect(at('0099')).toBe('0100');
    expect(at('MIC 9')).toBe('MIC 10');
    expect([at(undefined), at('NET'), at('A102', { blind: true }), at('A102', { last: 'A103' })]).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });

  it('and the drawing of a blind audit bear no plan before the jack was spoken about (scenario 12)', () => {
    const unseen: JackView = { place: 'SW1/P03', label: 'P03', state: 'unseen', plan: '1003', mark: 'differs' };
    expect(withoutPlan(unseen)).toEqual({ place: 'SW1/P03', label: 'P03', state: 'unseen', mark: undefined });
    expect(withoutPlan({ ...unseen, state: 'label' }).plan).toBe('1003');
  });
});
