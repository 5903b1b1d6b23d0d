// One number off the plan at two jacks is one cable: told once, its jacks held against each other by the plan's rows on
// both units, and put into the plan with both ends where that is decided. Plans and people are invented; what may not
// meet on one connector is told in src/core/trade/signals.ts, with its sources.
import { describe, expect, it } from 'vitest';
import { amendedPlan, amendmentsOf } from '../../../src/core/fixes/amendments.ts';
import { decisionsOf } from '../../../src/core/fixes/decisions.ts';
import type { AuditEvent, Occasion } from '../../../src/core/record/events.ts';
import { verdictAt } from '../../../src/core/report/walk/verdict.ts';
import { discrepancyToWords } from '../../../src/core/report/words/words.ts';
import { idToFingerprint } from '../../../src/core/rules/fingerprints.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, short, started, withSignal } from '../record/build.ts';

const jacks = ['SW1 P20', 'SW1 P21', 'AIO22 I4', 'SW2 P15', 'AIO21 O4', 'DIO23 O4'].map((words) => ({ at: words }));
const plan = planOf(
  [
    ['1001', 'CON30 NET', 'SW1 P01', withSignal('network')],
    ['1031', 'AIO21 NET', 'SW2 P01', withSignal('network')],
    ['2025', 'PB1 J29', 'AIO22 I1', withSignal('line-audio')],
    ['2009', 'AIO21 O1', 'PB1 J7', withSignal('line-audio')],
    ['2103', 'DIO23 O1', 'COD43 AES', withSignal('line-audio')],
  ],
  [
    ...jacks,
    { at: 'AIO22 I1', direction: 'in' },
    { at: 'AIO21 O1', direction: 'out' },
    { at: 'DIO23 O1', direction: 'out' },
  ],
);
const foldOf = (events: AuditEvent[], occasion: Occasion = 'build') =>
  foldAll(plan, [started({ occasion }), ...events]);
const both = (a: string, b: string, label = '7778') => [saw(a, label), saw(b, label)];
const lines = (fold: ReturnType<typeof foldOf>) =>
  fold.discrepancies().map((one) => discrepancyToWords(fold.index, one).line);

describe('one number off the plan at two jacks', () => {
  it('is one cable, in a build and after a move', () => {
    for (const occasion of ['build', 'after-move'] as const) {
      const fold = foldOf(both('SW1 P20', 'SW2 P15'), occasion);
      expect(short(fold.discrepancies())).toEqual(['unplanned-cable undecided 7778']);
      expect(fold.discrepancies()[0]?.places).toEqual([at('SW1 P20'), at('SW2 P15')]);
      expect(lines(fold)).toEqual(['7778 runs from SW1 P20 to SW2 P15, not in the plan.']);
    }
  });
  it('is one in whatever order the ends were read, and two letters of one number are one', () => {
    const [a, b] = [saw('SW1 P20', 'x-7'), saw('SW2 P15', 'X 7')];
    expect(foldOf([a, b]).discrepancies()).toEqual(foldOf([b, a]).discrepancies());
    expect(foldOf([a, b]).discrepancies()).toHaveLength(1);
  });
  it('is a hazard where a network port meets an analogue input, told by the rows of both units', () => {
    for (const occasion of ['build', 'after-move', 'inherit'] as const) {
      const fold = foldOf(both('SW1 P20', 'AIO22 I4'), occasion);
      expect(short(fold.discrepancies())).toContain('signal-clash equipment 7778');
      expect(verdictAt(fold, at('AIO22 I4')).variant).toBe('hazard');
      expect(verdictAt(fold, at('SW1 P20')).variant).toBe('hazard');
      expect(lines(fold)[0]).toMatch(/^7778 runs from AIO22 I4 to SW1 P20, by its label\. A network port meets/);
    }
  });
  it('is a hazard where two outputs meet', () => {
    expect(short(foldOf(both('AIO21 O4', 'DIO23 O4')).discrepancies())).toContain('direction-clash equipment 7778');
  });
  it('says at each jack where the other end is', () => {
    const fold = foldOf(both('SW1 P20', 'SW2 P15'));
    expect(verdictAt(fold, at('SW2 P15')).brief).toContain('Runs to SW1 P20, not in the plan.');
    expect(verdictAt(fold, at('SW1 P20')).brief).toContain('Runs to SW2 P15, not in the plan.');
  });
  it('is two where it stands at both ends of one planned cable, at three jacks, or at one', () => {
    expect(
      foldOf(both('CON30 NET', 'SW1 P01'))
        .discrepancies()
        .map(({ places }) => places.length),
    ).toEqual([1, 1]);
    const three = [...both('SW1 P20', 'SW2 P15'), saw('SW1 P21', '7778')];
    expect(short(foldOf(three).discrepancies()).filter((one) => one.startsWith('unplanned'))).toHaveLength(3);
    expect(foldOf([saw('SW1 P20', '7778')]).discrepancies()).toHaveLength(1);
  });
  it('is followed once: what was followed from end to end is not told a second time', () => {
    const followed = saw('SW1 P20', '7778', { basis: 'followed', joinedTo: at('AIO22 I4') });
    const clashes = foldOf([followed, saw('AIO22 I4', '7778')])
      .discrepancies()
      .filter(({ kind }) => kind === 'signal-clash');
    expect(clashes).toHaveLength(1);
  });
});

describe('adding it to the plan', () => {
  const decided = (id: string) =>
    event('decided', {
      target: { type: 'discrepancy', id: idToFingerprint(id) },
      about: '7778',
      facts: [],
      choice: 'amend-record',
      usual: 'fix-floor',
      reason: 'pulled last week',
      by: 'M. Okafor',
    });
  it.each([
    ['decided of both ends', 'unplanned-cable SW1/P20+SW2/P15 7778'],
    ['decided when one end was known', 'unplanned-cable SW1/P20 7778'],
  ])('puts one cable with both ends into it, %s', (_, id) => {
    const fold = foldOf([...both('SW1 P20', 'SW2 P15'), decided(id)]);
    const differences = fold.discrepancies();
    const { ends, more } = amendmentsOf(fold, differences, [], decisionsOf(fold, differences));
    const made = amendedPlan(
      plan,
      'p',
      ends,
      more.map(({ change }) => change),
    );
    const added = made.plan.cables.filter(({ label }) => label === '7778');
    expect(added.map(({ ends: two }) => two.map(({ place }) => place))).toEqual([[at('SW1 P20'), at('SW2 P15')]]);
    const after = foldAll(made.plan, [started(), ...both('SW1 P20', 'SW2 P15')]);
    expect(after.discrepancies()).toEqual([]);
  });
});
