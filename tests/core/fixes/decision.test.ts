// What the occasion decides where nobody did, and when anything may be decided at all: common practice, no source.
import { describe, expect, it } from 'vitest';
import type { Cause, CauseFacts, Story } from '../../../src/core/causes/cause.ts';
import { chosenFor, type Decision, defaultChoice, isSettled } from '../../../src/core/fixes/decision.ts';
import { makeDiscrepancy } from '../../../src/core/rules/discrepancy.ts';

const wrong = makeDiscrepancy({ kind: 'wrong-jack' }, 'undecided', ['SW1/P03'], ['1004'], []);
const crossed: Story = { kind: 'crossed', by: 'followed' };
const cause = (more: Partial<CauseFacts>, story: Story = crossed): Cause => ({
  ...story,
  id: 'the cause',
  certainty: 'confirmed',
  severity: 'service',
  places: [],
  labels: [],
  explains: [wrong.id],
  against: [],
  predicts: [],
  leftover: [],
  rivals: [],
  nextLook: null,
  judged: [],
  disputed: false,
  evidence: { facts: [], known: [], places: [], looks: [], certainty: 'confirmed' },
  ...more,
});

describe('what the occasion decides', () => {
  it('is the floor after a move and in building, the record in an inherited place', () => {
    expect(defaultChoice('after-move', 'wrong-jack')).toBe('fix-floor');
    expect(defaultChoice('build', 'empty-jack')).toBe('fix-floor');
    expect(defaultChoice('after-move', 'sheet-slipped')).toBe('amend-record');
    expect(defaultChoice('inherit', 'wrong-jack')).toBe('amend-record');
  });
  it('is in relabelling to finish labels, and no word about plugs', () => {
    expect(defaultChoice('relabel', 'old-label-left')).toBe('fix-floor');
    expect(defaultChoice('relabel', 'labels-exchanged')).toBe('fix-floor');
    expect(defaultChoice('relabel', 'crossed')).toBeNull();
    expect(defaultChoice(null, 'old-label-left')).toBeNull();
  });
  it('gives way to what somebody decided, the nearer and the later word first', () => {
    const decided = (type: 'cause' | 'discrepancy', id: string, choice: Decision['choice']): Decision => ({
      target: { type, id },
      choice,
      by: 'I. Halloran',
      reason: 'agreed with operations',
    });
    const byCause = decided('cause', 'the cause', 'amend-record');
    expect(chosenFor([], 'after-move', wrong, cause({})).decision).toBeNull();
    expect(chosenFor([byCause], 'after-move', wrong, cause({}))).toEqual({ choice: 'amend-record', decision: byCause });
    const own = [decided('discrepancy', wrong.id, 'fix-floor'), decided('discrepancy', wrong.id, 'leave'), byCause];
    expect(chosenFor(own, 'after-move', wrong, cause({})).choice).toBe('leave');
  });
});

describe('a cause is settled', () => {
  it('when it was followed, when only the record is wrong, or when a jack was left free', () => {
    expect(isSettled(cause({}), [wrong])).toBe(true);
    expect(
      isSettled(
        cause({ certainty: 'probable', severity: 'record' }, { kind: 'sheet-slipped', rows: [2, 5], offset: 1 }),
        [wrong],
      ),
    ).toBe(true);
    expect(isSettled(cause({ certainty: 'probable', severity: 'undecided' }, { kind: 'chain-moved' }), [wrong])).toBe(
      true,
    );
  });
  it('never while another story fits, or while labels alone speak of plugs', () => {
    expect(isSettled(cause({ rivals: ['another'] }), [])).toBe(false);
    expect(isSettled(cause({ certainty: 'possible' }), [])).toBe(false);
    expect(
      isSettled(cause({ certainty: 'probable', severity: 'on-air' }, { kind: 'rotated', jacks: 3 }), [wrong]),
    ).toBe(false);
    expect(
      isSettled(cause({ certainty: 'probable', severity: 'undecided' }, { kind: 'row-mirrored', unit: 'SW1' }), []),
    ).toBe(false);
  });
});
