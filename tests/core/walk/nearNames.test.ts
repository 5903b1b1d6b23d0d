// A label that looks like some other name, or like a label read before: what is asked, and what the answers leave in the
// record. Plan and labels invented.
import { describe, expect, it } from 'vitest';
import { emptyPlan } from '../../../src/core/plan/model.ts';
import type { ReadLabel, Sighting } from '../../../src/core/record/events.ts';
import { type Fold, foldAll } from '../../../src/core/rules/fold.ts';
import { decide, withLabel } from '../../../src/core/walk/decide.ts';
import { NEW_MEMORY } from '../../../src/core/walk/memory.ts';
import { at, planOf, saw, started, statement } from '../record/build.ts';

const plan = planOf([
  ['1001', 'AIO-1 NET', 'SW1 P01'],
  ['101', 'X8 1', 'SW1 P08'],
  ['IO1', 'X9 1', 'SW1 P09'],
]);
const bears = (words: string, label: ReadLabel) => statement([words], 'label', { plugs: [{ labels: [label] }] });
const read = (fold: Fold, text: string, words = 'SW1 P03') =>
  decide(
    fold,
    NEW_MEMORY,
    { place: at(words), words, unit: 'SW1' },
    {
      ...{ type: 'reading', text, by: 'typed', length: text.length, log: '' },
    },
  );
const labelOf = (decision: ReturnType<typeof read>) =>
  decision.type === 'record' && decision.statement.kind === 'sighting'
    ? decision.statement.payload.plugs[0]?.labels[0]
    : decision;

describe('a label that looks like a unit, a jack or another cable', () => {
  it.each([
    ['A101', 'unit'],
    ['AIO-1', 'unit'],
    ['SW1 P01', 'jack'],
  ])('%s is asked about with the text as it was read', (text, what) => {
    const decision = read(foldAll(plan, [started()]), text);
    expect(decision).toMatchObject({ type: 'ask', question: { type: 'named', what, text, by: 'typed' } });
  });

  it('is a cable of that very name once a person said so, at both ends, and is not asked about again', () => {
    const one = foldAll(plan, [started(), bears('SW1 P03', { text: 'A101', own: true })]);
    expect(one.readingsAt(at('SW1 P03'))[0]).toMatchObject({ text: 'A101', cable: null, candidates: [] });
    expect(labelOf(read(one, 'a101', 'SW1 P04'))).toEqual({ text: 'a101', own: true });
    const both = foldAll(plan, [
      started(),
      bears('SW1 P03', { text: 'A101', own: true }),
      bears('SW1 P04', { text: 'a101', own: true }),
    ]);
    expect([...both.placesOfUnknown('A101')]).toEqual([at('SW1 P03'), at('SW1 P04')]);
  });

  it('is none of the cables that it might be by its folded name', () => {
    const doubtful = foldAll(plan, [started(), saw('SW1 P03', '1O1')]);
    expect(doubtful.readingsAt(at('SW1 P03'))[0]?.candidates).toHaveLength(2);
    const sure = foldAll(plan, [started(), bears('SW1 P03', { text: '1O1', own: true })]);
    expect(sure.readingsAt(at('SW1 P03'))[0]).toMatchObject({ cable: null, candidates: [] });
  });

  it('stays the cable that the plan has by this very name', () => {
    const fold = foldAll(plan, [started(), bears('SW1 P01', { text: '1001', own: true })]);
    expect(fold.readingsAt(at('SW1 P01'))[0]?.cable).toBe('1001');
  });
});

describe('a label that is hardly to be told from one read before, without a plan', () => {
  const begin = started({ occasion: 'inherit' });
  const before = [begin, saw('DA1 1', 'A102')];
  it.each(['A-102', 'a 102', 'AI02', 'A1O2'])('%s is asked: same as A102?', (text) => {
    const decision = read(foldAll(emptyPlan, before), text);
    expect(decision).toMatchObject({
      type: 'ask',
      question: { type: 'near', text, near: [{ label: 'A102', line: expect.stringContaining('1') }] },
    });
  });

  it.each(['A102', 'a102', 'A103', 'B102'])('%s is taken as it stands', (text) => {
    expect(labelOf(read(foldAll(emptyPlan, before), text))).toEqual({ text });
  });

  it('the same cable is one, with what is printed kept; another one is not asked about again', () => {
    const same = foldAll(emptyPlan, [...before, bears('DA2 1', { text: 'A102', printed: 'A-102' })]);
    expect(same.placesOfUnknown('A102')).toHaveLength(2);
    const other = foldAll(emptyPlan, [...before, bears('DA2 1', { text: 'A-102', own: true })]);
    expect(other.placesOfUnknown('A102')).toHaveLength(1);
    expect(labelOf(read(other, 'A-102'))).toEqual({ text: 'A-102', own: true });
  });
});

describe('a label that a helper tells, or that is typed for a loose end', () => {
  const said = (words: string, text: string, more: Partial<Sighting> = {}) =>
    statement([words], 'label', { plugs: [{ labels: [{ text }] }], by: 'typed', ...more }).payload as Sighting;
  const tell = (fold: Fold, sighting: Sighting) =>
    decide(fold, NEW_MEMORY, { place: at('SW1 P03'), words: 'SW1 P03', unit: 'SW1' }, { type: 'statement', sighting });
  const near = foldAll(emptyPlan, [started({ occasion: 'inherit' }), saw('DA1 1', 'A102')]);

  it.each([
    ['by radio', said('DA2 1', 'A-102', { basis: 'told', teller: 'Robin' })],
    ['at a loose end', { ...said('DA2 1', 'A-102'), places: ['~TRAY-OF-R2'], said: ['loose: tray of R2'] }],
  ])('%s is asked: same as A102? The answer is recorded of what it was said of', (_, of) => {
    expect(tell(near, of)).toMatchObject({ type: 'ask', question: { type: 'near', text: 'A-102', of } });
    const same = withLabel(of, { text: 'A102', printed: 'A-102' });
    expect(tell(near, same)).toEqual({ type: 'record', statement: { kind: 'sighting', payload: same } });
  });

  it('is asked about where it is the name of a unit, and is a cable of its own once a person said so', () => {
    const of = said('X8 1', 'A101', { basis: 'told' });
    expect(tell(foldAll(plan, [started()]), of)).toMatchObject({ question: { type: 'named', what: 'unit', of } });
    const own = withLabel(of, { text: 'A101', own: true });
    expect(labelOf(tell(foldAll(plan, [started()]), own))).toEqual({ text: 'A101', own: true });
    const known = foldAll(plan, [started(), bears('SW1 P03', { text: 'A101', own: true })]);
    expect(labelOf(tell(known, of))).toEqual({ text: 'A101', own: true });
  });

  it('is taken as it stands where it was tapped, is clear, or is that of a unit in its rack', () => {
    expect(labelOf(tell(near, said('DA2 1', 'A-102', { by: 'tapped' })))).toEqual({ text: 'A-102' });
    expect(labelOf(tell(near, said('DA2 1', 'A103')))).toEqual({ text: 'A103' });
    const slot = { ...said('DA2 1', 'AIO-1'), places: ['@R2/U4'], said: ['R2 U4'] };
    expect(labelOf(tell(foldAll(plan, [started()]), slot))).toEqual({ text: 'AIO-1' });
  });
});
