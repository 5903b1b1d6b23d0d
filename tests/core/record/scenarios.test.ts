// Field scenarios with exact facts and right outcomes. Invented data; names follow the invented station of the
// fixtures.
import { describe, expect, it } from 'vitest';
import { lookUp, planToNames } from '../../../src/core/plan/lookUp.ts';
import { verdictAt } from '../../../src/core/report/walk/verdict.ts';
import { jackToView, walkView } from '../../../src/core/report/walk/walkView.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, short, started, statement } from './build.ts';

describe('the loose end', () => {
  const plan = planOf([
    ['4001', 'LIO23 L1', 'TALA 1-4', { onAir: true, signal: 'closure' }],
    ['4002', 'LIO23 L2', 'PLY71 GPIO', { signal: 'closure' }],
  ]);
  const walk = [
    started(),
    statement(['LIO23 L1', 'TALA 1-4'], 'empty'),
    saw('LIO23 L2', '4002'),
    saw('PLY71 GPIO', '4002'),
    saw('loose: tray of R2', '4001'),
  ];
  it('is pulled, not landed: neither not installed nor abandoned, and its empty jacks are explained by it', () => {
    const fold = foldAll(plan, walk);
    expect(short(fold.discrepancies())).toEqual(['not-landed on-air 4001']);
    expect(fold.statusOf('4001').ends.map((end) => end.seen)).not.toContain('as-planned');
  });
  it('says so in words with the place in words', () => {
    const verdict = verdictAt(foldAll(plan, walk), at('loose: tray of R2'));
    expect(verdict.second).toContain('tray of R2');
    expect(verdict.second).toContain('until it is connected');
  });
});

describe('look-alikes', () => {
  const plan = planOf(
    [
      ['0101', 'A O1', 'B I1'],
      ['101', 'A O2', 'B I2'],
      ['1001', 'A O3', 'B I3'],
      ['I001', 'A O4', 'B I4'],
    ],
    [{ at: 'C I1' }, { at: 'C 11' }],
  );
  const names = planToNames(plan);
  it('scanning 101 is exactly 101', () => {
    expect(lookUp(names, '101')).toMatchObject({ type: 'found', named: { id: '101' }, how: 'exact' });
    expect(lookUp(names, '0101')).toMatchObject({ type: 'found', named: { id: '0101' }, how: 'exact' });
  });
  it('IO01 with the letter O asks which of two', () => {
    const found = lookUp(names, 'IO01', 'cable');
    expect(found.type === 'ask' && found.candidates.map(({ id }) => id).sort()).toEqual(['1001', 'I001']);
  });
  it('IO01 stays a question in the record too, even at the jack of one of them', () => {
    const fold = foldAll(plan, [saw('B I3', 'IO01')]);
    expect(fold.readingsAt(at('B I3'))[0]?.cable).toBeNull();
    expect(verdictAt(fold, at('B I3'))).toMatchObject({ variant: 'question' });
    const said = statement(['B I3'], 'label', { plugs: [{ labels: [{ text: 'IO01', means: '1001' }] }] });
    expect(verdictAt(foldAll(plan, [said]), at('B I3'))).toMatchObject({ variant: 'as-planned', label: 'IO01' });
  });
  it('I1 never becomes 11', () => {
    expect(at('C I1')).not.toBe(at('C 11'));
    expect(lookUp(names, 'C I1')).toMatchObject({ type: 'found', named: { id: at('C I1') } });
  });
});

describe('twenty empty ports', () => {
  const ports = Array.from({ length: 24 }, (_, i) => `SW2 P${String(i + 1).padStart(2, '0')}`);
  const plan = planOf(
    [['1005', 'AIO21 NET', 'SW2 P01']],
    ports.map((words) => ({ at: words })),
  );
  const range = statement(ports.slice(4), 'empty');
  it('are one event, and taking it back is one event as well', () => {
    const fold = foldAll(plan, [started(), range]);
    expect(ports.slice(4).map((words) => fold.stateAt(at(words)).type)).toEqual(Array(20).fill('empty'));
    const undone = foldAll(plan, [started(), range, event('withdrawn', { target: { event: range.id }, why: 'undo' })]);
    expect([...undone.seenPlaces()]).toEqual([]);
  });
});

describe('blind checking', () => {
  const plan = planOf([
    ['1003', 'CON32 NET', 'SW1 P03'],
    ['1004', 'MIO33 NET', 'SW1 P04'],
  ]);
  it('shows no expected label anywhere before the statement, and all of it after', () => {
    const fold = foldAll(plan, [started({ blind: true })]);
    const view = walkView(fold, 'a', at('SW1 P03'));
    expect(JSON.stringify(view)).not.toMatch(/100[34]/);
    expect(view?.current).toMatchObject({ plan: null, planCable: null, through: null });
    expect(jackToView(fold, at('SW1 P04'), true).plan).toBeUndefined();
    fold.add([saw('SW1 P03', '1004')]);
    expect(
      walkView(fold, 'a', at('SW1 P03'))
        ?.face.rows.flat()
        .find((jack) => jack.found),
    ).toMatchObject({ plan: '1003' });
  });
});
