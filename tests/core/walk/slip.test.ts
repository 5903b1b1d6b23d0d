// Slips of the auditor's finger and predictions. Facts of the slip: scenario 1 of the project's own
// field scenarios (invented).
import { describe, expect, it } from 'vitest';
import type { JackView } from '../../../src/core/report/walk/walkView.ts';
import { predictionAt, reanchor, slipAfter, slipAt } from '../../../src/core/walk/slip.ts';

const name = (n: number) => `P${String(n).padStart(2, '0')}`;
/** SW1 P01–P12 planned 1101–1112; `found` maps a jack number to what was read there. */
function face(found: Record<number, string>): JackView[] {
  return Array.from({ length: 12 }, (_, i) => {
    const n = i + 1;
    const read = found[n];
    const plan = String(1100 + n);
    return read
      ? {
          place: `SW1/${name(n)}`,
          label: name(n),
          plan,
          state: 'label',
          found: read,
          mark: read === plan ? 'as-planned' : 'differs',
        }
      : { place: `SW1/${name(n)}`, label: name(n), plan, state: 'unseen' };
  });
}
const all = new Set(face({}).map(({ place }) => place));

describe('a slip', () => {
  const read = { 1: '1101', 2: '1102', 3: '1103', 4: '1105', 5: '1106' };

  it('is asked about at the second equal step, not at the first (scenario 1)', () => {
    expect(slipAt(face({ 1: '1101', 2: '1102', 3: '1103', 4: '1105' }), 'SW1/P04', all)).toBeNull();
    const slip = slipAt(face(read), 'SW1/P05', all);
    expect(slip?.step).toBe(1);
    expect(slip?.moves.map(({ from, to }) => [from.label, to.label])).toEqual([
      ['P04', 'P05'],
      ['P05', 'P06'],
    ]);
  });

  it('asks for all that was said since the missed jack when it is answered late (scenario 1)', () => {
    const late: Record<number, string> = { 1: '1101', 2: '1102', 3: '1103' };
    for (let n = 4; n <= 11; n++) late[n] = String(1101 + n);
    const early = slipAt(face(read), 'SW1/P05', all);
    const slip = slipAfter(face(late), 'SW1/P11', all, early, null);
    const moved = ['P04', 'P05', 'P06', 'P07', 'P08', 'P09', 'P10', 'P11'];
    expect(slip?.moves.map(({ from }) => from.label)).toEqual(moved);
    // A statement in between that is no such step leaves the question standing.
    expect(slipAfter(face({ ...late, 12: '9999' }), 'SW1/P12', all, slip, null)?.moves).toHaveLength(8);
    expect(slipAfter(face({ 1: '1101', 12: '9999' }), 'SW1/P12', all, slip, null)).toBeNull();
  });

  it('is not asked about again once the cables were said to be it', () => {
    expect(slipAfter(face({ ...read, 6: '1107' }), 'SW1/P06', all, null, 'SW1/P04')).toBeNull();
    expect(slipAfter(face({ ...read, 6: '1107' }), 'SW1/P06', all, null, null)?.moves).toHaveLength(3);
  });

  it('of a crossed pair is none: its steps have opposite signs', () => {
    expect(slipAt(face({ 3: '1104', 4: '1103' }), 'SW1/P04', all)).toBeNull();
  });

  it('counts only what this visit said', () => {
    expect(slipAt(face(read), 'SW1/P05', new Set(['SW1/P05']))).toBeNull();
  });

  it('answered with "me" makes a statement again where it belongs, with all that it said', () => {
    const [move] = slipAt(face(read), 'SW1/P05', all)!.moves;
    const visit = { unit: 'SW1', looks: [4, 5].map((n) => ({ event: `e${n}`, places: [`SW1/${name(n)}`] })) };
    const plugs = [{ labels: [{ text: '1105', means: '1105' }], connector: 'RJ45' }];
    const original = { places: ['SW1/P04'], said: ['SW1 P04'], state: 'label' as const, plugs, basis: 'seen' as const };
    expect(reanchor(move!, { ...original, by: 'camera' }, visit, 'SW1')).toEqual({
      ...original,
      by: 'camera',
      places: ['SW1/P05'],
      said: ['SW1 P05'],
      withdraws: [{ event: 'e4' }, { event: 'e5' }],
    });
  });
});

describe('a prediction', () => {
  it('after one half of a crossed pair is the other half', () => {
    expect(predictionAt(face({ 3: '1104' }), 'SW1/P04')).toEqual({ label: '1103', why: 'if the two are crossed' });
    expect(predictionAt(face({ 3: '1104' }), 'SW1/P06')).toBeNull();
  });

  it('after two equal steps is the next step', () => {
    expect(predictionAt(face({ 4: '1105', 5: '1106' }), 'SW1/P06')?.label).toBe('1107');
  });

  it('is not made for a jack that was looked at', () => {
    expect(predictionAt(face({ 3: '1104', 4: '1104' }), 'SW1/P04')).toBeNull();
  });
});
