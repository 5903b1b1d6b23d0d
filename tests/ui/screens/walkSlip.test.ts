// Slips of the auditor's finger, predictions and the row sweep. Facts of the slip: scenario 1 of the project's own
// field scenarios (invented).
import { describe, expect, it } from 'vitest';
import type { JackView } from '../../../src/core/report/walkView.ts';
import { predictionAt, reanchor, slipAt, visitingOrder } from '../../../src/ui/screens/walkSlip.ts';
import { rangeToSentence, touchRange } from '../../../src/ui/walkRangeState.ts';

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

  it('answered late moves all that was said since the missed jack, and leaves nothing differing (scenario 1)', () => {
    const late: Record<number, string> = { 1: '1101', 2: '1102', 3: '1103' };
    for (let n = 4; n <= 11; n++) late[n] = String(1101 + n);
    const slip = slipAt(face(late), 'SW1/P11', all)!;
    expect(slip.moves.map(({ from }) => from.label)).toEqual(['P04', 'P05', 'P06', 'P07', 'P08', 'P09', 'P10', 'P11']);
    const looks = slip.moves.map(({ from }, i) => ({ event: `e${i}`, places: [from.place] }));
    const after = new Map([1, 2, 3].map((n) => [`SW1/${name(n)}`, String(1100 + n)]));
    for (const { places, plugs } of reanchor(slip, { unit: 'SW1', looks }, 'SW1')) {
      after.set(places[0]!, plugs[0]!.labels[0]!.text);
    }
    for (const jack of face({})) {
      expect(after.get(jack.place) ?? null).toBe(jack.label === 'P04' ? null : jack.plan);
    }
  });

  it('of a crossed pair is none: its steps have opposite signs', () => {
    expect(slipAt(face({ 3: '1104', 4: '1103' }), 'SW1/P04', all)).toBeNull();
  });

  it('counts only what this visit said', () => {
    expect(slipAt(face(read), 'SW1/P05', new Set(['SW1/P05']))).toBeNull();
  });

  it('answered with "me" moves each statement and leaves the missed jack unseen (scenario 1)', () => {
    const slip = slipAt(face(read), 'SW1/P05', all)!;
    const visit = {
      unit: 'SW1',
      looks: [
        { event: 'e4', places: ['SW1/P04'] },
        { event: 'e5', places: ['SW1/P05'] },
      ],
    };
    const said = reanchor(slip, visit, 'SW1');
    expect(said.map(({ places, plugs, withdraws }) => [places, plugs[0]?.labels[0]?.text, withdraws])).toEqual([
      [['SW1/P05'], '1105', [{ event: 'e4' }]],
      [['SW1/P06'], '1106', [{ event: 'e5' }]],
    ]);
    expect(said.flatMap(({ places }) => places)).not.toContain('SW1/P04');
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

describe('a face of odd over even', () => {
  it('is visited column by column, another row by row', () => {
    const [a, b, c, d] = face({});
    expect(
      visitingOrder([
        [a!, c!],
        [b!, d!],
      ]).map(({ label }) => label),
    ).toEqual(['P01', 'P02', 'P03', 'P04']);
    expect(
      visitingOrder([
        [a!, b!],
        [c!, d!],
      ]).map(({ label }) => label),
    ).toEqual(['P01', 'P02', 'P03', 'P04']);
  });
});

describe('a row sweep', () => {
  const order = face({}).map(({ place }) => place);

  it('takes two touches, then takes one inside out and back in; outside begins anew', () => {
    const first = touchRange({ first: null, last: null, without: [] }, 'SW1/P05', order);
    const both = touchRange(first, 'SW1/P09', order);
    expect(both).toEqual({ first: 'SW1/P05', last: 'SW1/P09', without: [] });
    const out = touchRange(both, 'SW1/P07', order);
    expect(out.without).toEqual(['SW1/P07']);
    expect(touchRange(out, 'SW1/P07', order).without).toEqual([]);
    expect(touchRange(out, 'SW1/P12', order)).toEqual({ first: 'SW1/P12', last: null, without: [] });
  });

  it('says what is claimed, and tells what the plan has only when it may', () => {
    const jacks = [
      { label: 'P05', planned: true },
      { label: 'P06', planned: false },
    ];
    expect(rangeToSentence(jacks, 'empty', false)).toBe(
      'You say that you looked into each of these 2 jacks and none holds a plug. The plan has a cable in P05.',
    );
    expect(rangeToSentence(jacks, 'empty', true)).not.toContain('plan');
    expect(rangeToSentence(jacks, 'not-visible', false)).toContain('no look');
  });
});
