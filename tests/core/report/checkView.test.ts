// The check that settles a cause, as a form: the question with its answers, what each records, and that the record then
// closes the cause, leaves it open or speaks against it. Plans and people are invented; hardware addresses are those
// that RFC 9542 keeps for documentation.
import { describe, expect, it } from 'vitest';
import { explain } from '../../../src/core/causes/explain.ts';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { type Checked, checkDone, checkView, typedAnswer } from '../../../src/core/report/checkView.ts';
import { fixesView } from '../../../src/core/report/fixesView.ts';
import { differencesView } from '../../../src/core/report/reconciliation.ts';
import { type Fold, foldAll } from '../../../src/core/rules/fold.ts';
import type { Signal } from '../../../src/core/trade/kinds.ts';
import { at, event, planOf, saw, started, statement, withSignal } from '../record/build.ts';

const MACS: Record<string, string> = {
  CON32: '00-00-5E-00-53-20',
  MIO31: '00:00:5e:00:53:1f',
  MIO33: '0000.5e00.5321',
};
function swapped(signal: Signal, known = MACS): Fold {
  const plan = planOf([
    ['1003', 'MIO31 NET', 'SW1 P03', withSignal(signal)],
    ['1004', 'CON32 NET', 'SW1 P04', withSignal(signal)],
    ['1005', 'MIO33 NET', 'SW1 P05', withSignal(signal)],
  ]);
  const units = plan.units.map((unit) => (known[unit.id] ? { ...unit, mac: known[unit.id] } : unit));
  return foldAll({ ...plan, units }, [started(), saw('SW1 P03', '1004'), saw('SW1 P04', '1003')]);
}
const P03 = at('SW1 P03');
const record = (said: Checked): AuditEvent =>
  said.kind === 'sighting' ? event('sighting', said.payload) : event('setting-read', said.payload);
const kinds = (fold: Fold) =>
  explain(fold, fold.discrepancies()).causes.map(({ kind, certainty }) => `${kind} ${certainty}`);
const workAt = (fold: Fold) =>
  fixesView(fold, 'a')
    .blocks.flatMap(({ steps }) => steps)
    .find(({ check }) => check !== undefined);
const put = (fold: Fold, said: Checked | null | undefined) => {
  if (!said) throw new Error('no such answer');
  fold.add([record(said)]);
  return fold;
};

describe('the check of two network cables', () => {
  it('asks which device the port shows, with both devices to choose from', () => {
    const view = checkView(swapped('network'), P03)!;
    expect(view.question).toBe('Which device does SW1 P03 show: CON32 or MIO31?');
    expect(view.answers.map(({ words, means }) => [words, means])).toEqual([
      ['CON32', 'Two cables crossed'],
      ['MIO31', 'Labels swapped'],
    ]);
  });
  it('closes the cause, whichever device it is', () => {
    const answer = (i: number) => put(swapped('network'), checkView(swapped('network'), P03)?.answers[i]?.record);
    expect(kinds(answer(0))).toEqual(['crossed confirmed']);
    expect(kinds(answer(1))).toEqual(['labels-exchanged confirmed']);
    expect(checkDone(answer(0), P03)).toEqual({ lines: ['Settled. Two cables crossed.'], settled: true, next: null });
    expect(checkView(answer(0), P03)).toBeNull();
  });
  it('closes it by a hardware address or a name that was typed, in any notation', () => {
    for (const text of ['0000.5e00.5320', '00-00-5e-00-53-20', 'con32', 'CON32 NET'])
      expect(kinds(put(swapped('network'), typedAnswer(swapped('network'), P03, text)))).toEqual(['crossed confirmed']);
    expect(typedAnswer(swapped('network'), P03, 'nobody knows it')).toBeNull();
  });
  it('closes it where the plan knows no hardware address, and where two units have the same', () => {
    for (const known of [{}, { CON32: MACS.CON32!, MIO33: MACS.CON32! }]) {
      const fold = swapped('network', known);
      expect(kinds(put(fold, checkView(fold, P03)?.answers[0]?.record))).toEqual(['crossed confirmed']);
    }
  });
  it('speaks against it where the port shows a third device, and asks at the other jack', () => {
    for (const text of ['MIO33', '00-00-5E-00-53-FF']) {
      const fold = put(swapped('network'), typedAnswer(swapped('network'), P03, text));
      const [cause] = explain(fold, fold.discrepancies()).causes;
      expect(cause).toMatchObject({ kind: 'crossed-or-labels-exchanged', against: [P03] });
      expect(cause?.nextLook?.place).toBe(at('SW1 P04'));
      expect(checkDone(fold, P03)).toMatchObject({
        lines: ['Still open. Crossed, or the labels are swapped: possible. SW1 P03 now speaks against it.'],
        settled: false,
      });
    }
  });
  it('cannot be told: the label stays what it was, and the other jack is asked', () => {
    const fold = put(swapped('network'), checkView(swapped('network'), P03)?.cannotTell);
    expect(fold.stateAt(P03).type).toBe('label');
    expect(kinds(fold)).toEqual(['crossed-or-labels-exchanged possible']);
    expect(explain(fold, fold.discrepancies()).nextLook?.place).toBe(at('SW1 P04'));
    expect(checkDone(fold, P03).lines).toEqual(['Still open. Crossed, or the labels are swapped: possible.']);
    expect(checkDone(fold, P03).next?.place).toBe(at('SW1 P04'));
  });
  it('cannot be told: the cause and the work say who tried and when; at last the cable is followed', () => {
    const P04 = at('SW1 P04');
    const fold = put(swapped('network'), checkView(swapped('network'), P03)?.cannotTell);
    const tried = () => {
      const { causes } = differencesView(fold, 'a').explained;
      expect(workAt(fold)?.tried).toEqual(causes[0]?.tried);
      return causes[0]?.tried.map(({ place, by }) => `${place} ${by}`);
    };
    expect(tried()).toEqual(['SW1 P03 I. Halloran']);
    put(fold, checkView(fold, P04)?.cannotTell);
    expect(tried()).toEqual(['SW1 P03 I. Halloran', 'SW1 P04 I. Halloran']);
    expect(explain(fold, fold.discrepancies()).nextLook).toMatchObject({ place: P03, how: 'follow' });
    put(fold, checkView(fold, P03)?.cannotTell);
    expect(explain(fold, fold.discrepancies()).nextLook).toMatchObject({ place: P04, how: 'follow' });
  });
  it('is the form that its step of the work opens', () => {
    expect(workAt(swapped('network'))?.check).toBe(P03);
  });
});

describe('one label in a wrong jack, which no cause covers', () => {
  const wrong = () =>
    foldAll(
      planOf([
        ['1003', 'MIO31 NET', 'SW1 P03', withSignal('line-audio')],
        ['1004', 'CON32 NET', 'SW1 P04', withSignal('line-audio')],
      ]),
      [started(), saw('SW1 P03', '1004'), statement(['SW1 P04'], 'unlabelled')],
    );
  it('is followed by a form of its own from the work: where each of the two cables would lead', () => {
    const step = fixesView(wrong(), 'a')
      .blocks.flatMap(({ steps }) => steps)
      .find(({ check }) => check === P03);
    expect(step?.words).toMatch(/^SW1 P03: /);
    const view = checkView(wrong(), P03);
    expect(view?.answers.map(({ words, means }) => [words, means])).toEqual([
      ['CON32 NET', 'It is 1004'],
      ['MIO31 NET', 'It is 1003, the label is wrong'],
    ]);
    const told = put(wrong(), view?.answers[1]?.record);
    expect(told.joined(P03)).toEqual([at('MIO31 NET')]);
    // No plug is wrong: nobody is sent to move it.
    const steps = fixesView(told, 'a').blocks.flatMap((block) => block.steps);
    expect(steps.filter(({ action, from }) => action !== 'test' && from === 'SW1 P03')).toEqual([]);
    expect(steps.map(({ words }) => words)).toContainEqual(expect.stringMatching(/^SW1 P03: decide about 1004/));
  });
  it('stays open where it cannot be told, and says who tried', () => {
    const fold = put(wrong(), checkView(wrong(), P03)?.cannotTell);
    expect(checkDone(fold, P03)).toEqual({ lines: ['Still open: SW1 P03.'], settled: false, next: null });
    expect(workAt(fold)?.tried?.map(({ by }) => by)).toEqual(['I. Halloran']);
  });
});

describe('the check of two other cables', () => {
  it.each(['line-audio', 'closure'] as const)('%s: what was heard or followed closes the cause', (signal) => {
    const view = checkView(swapped(signal), P03)!;
    expect(view.answers.map(({ words }) => words)).toEqual(['CON32 NET', 'MIO31 NET']);
    expect(kinds(put(swapped(signal), view.answers[0]?.record))).toEqual(['crossed confirmed']);
    expect(kinds(put(swapped(signal), view.answers[1]?.record))).toEqual(['labels-exchanged confirmed']);
    expect(kinds(put(swapped(signal), typedAnswer(swapped(signal), P03, 'CON32 NET')))).toEqual(['crossed confirmed']);
  });
});

describe('a look that a story predicts', () => {
  const jack = (n: number) => `SW1 P${String(n).padStart(2, '0')}`;
  const rows = Array.from({ length: 12 }, (_, i): [string, string, string, object] => [
    String(1101 + i),
    `ROOM ${i + 1}`,
    jack(i + 1),
    withSignal('network'),
  ]);
  const slipped = () =>
    foldAll(planOf(rows), [
      started(),
      ...[1, 2, 3].map((n) => saw(jack(n), String(1100 + n))),
      ...Array.from({ length: 8 }, (_, i) => saw(jack(4 + i), String(1105 + i))),
    ]);
  const P12 = at('SW1 P12');
  it('is asked with what would be there, and each answer is a statement at that jack', () => {
    const view = checkView(slipped(), P12)!;
    expect(view.question).toBe('What is in SW1 P12: 1112 or nothing plugged?');
    expect(kinds(put(slipped(), view.answers[1]?.record))).toEqual(['row-shifted probable']);
    const stays = put(slipped(), view.answers[0]?.record);
    expect(kinds(stays)).not.toContain('row-shifted probable');
    expect(stays.stateAt(P12).type).toBe('label');
    const typed = typedAnswer(slipped(), P12, '7777');
    expect(typed).toMatchObject({
      payload: { places: [P12], state: 'label', plugs: [{ labels: [{ text: '7777' }] }] },
    });
  });
});
