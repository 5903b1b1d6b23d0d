// A trunk between two panels, described where it is met: its two ends, what is claimed, followed, dead and spare of its
// fibres, and what coverage, ends left and the report make of it. Panels and statements invented.
import { describe, expect, it } from 'vitest';
import { rangeToMembers } from '../../../src/core/plan/containment.ts';
import { emptyPlan } from '../../../src/core/plan/model.ts';
import { indexPlan } from '../../../src/core/plan/planIndex.ts';
import { type AuditEvent, readEvent } from '../../../src/core/record/events.ts';
import { coverageOf } from '../../../src/core/report/coverage.ts';
import { recordToPlan } from '../../../src/core/report/plan/recordToPlan.ts';
import { reconciliation } from '../../../src/core/report/reconciliation.ts';
import { endsLeft } from '../../../src/core/report/walk/endsLeft.ts';
import {
  colourToSighting,
  fateToSettings,
  landingsFrom,
  leadToSighting,
  type PanelDraft,
  panelToPayload,
  trunkToSighting,
} from '../../../src/core/report/walk/partPayloads.ts';
import { createFold, foldAll } from '../../../src/core/rules/fold.ts';
import { pairsOf, pairsToWords, wiresOf } from '../../../src/core/rules/pairs.ts';
import { at, event, saw, short, started } from './build.ts';

const begin = started({ occasion: 'inherit', plan: null });
const draft: PanelDraft = {
  ...{ form: 'panel', label: 'PP1', room: 'Frame room', rack: '', u: null },
  ...{ count: 24, rows: 1, connector: 'LC', sides: 'one' },
};
const panels = [
  event('unit-described', panelToPayload(draft)),
  event('unit-described', panelToPayload({ ...draft, label: 'PP2', room: 'Studio A' })),
];
const here = landingsFrom({ id: 'PP1', label: 'PP1' }, 'J1 rear', 24)!;
const there = landingsFrom({ id: 'PP2', label: 'PP2' }, 'J1 rear', 24)!;
const trunk = (...ends: string[]) =>
  event('unit-described', panelToPayload({ ...draft, form: 'trunk', label: 'TR1', wires: 'fibres', ends }));
const seenHere = event('sighting', trunkToSighting('TR1', 'MPO', here));
const rear = (panel: string, n: number) => ({ place: at(`${panel} J${n} rear`), words: `${panel} J${n} rear` });
const followed = (a: number, b: number) =>
  event('sighting', leadToSighting(rear('PP1', a), rear('PP2', b), 'followed'));
const words = (events: AuditEvent[]) => {
  const fold = foldAll(emptyPlan, events);
  const cable = fold.index.cables.get('TR1')!;
  return pairsToWords(pairsOf(fold, cable)!, wiresOf(cable));
};

describe('landings of one side of a panel', () => {
  it('are a range with the side behind the numbers', () => {
    expect(here.words).toBe('PP1 J1-J24 rear');
    expect(rangeToMembers(here.place)).toEqual(Array.from({ length: 24 }, (_, i) => at(`PP1 J${i + 1} rear`)));
    const padded = landingsFrom({ id: 'SW1', label: 'SW1' }, 'P01', 12);
    expect(rangeToMembers(padded!.place).at(-1)).toBe(at('SW1 P12'));
    expect(landingsFrom({ id: 'SW1', label: 'SW1' }, 'NET', 12)).toBeNull();
    // Other letters behind a number are part of a name.
    expect(rangeToMembers(at('FR1 1-2-A'))).toEqual([]);
  });
});

describe('a trunk', () => {
  it('is one cable with its landings at both ends, whichever phone told which end, in any order', () => {
    const one = [begin, ...panels, trunk(here.place), trunk(there.place)];
    for (const events of [one, [...one].reverse()]) {
      const cable = foldAll(emptyPlan, events).index.cables.get('TR1');
      expect(cable?.ends.map(({ end, place }) => [end, place])).toEqual([
        ['A', here.place],
        ['B', there.place],
      ]);
      expect(cable?.type).toBe('24 fibres');
    }
    const alone = foldAll(emptyPlan, [begin, ...panels, trunk(here.place), seenHere]);
    expect(alone.statusOf('TR1').type).toBe('one-end-seen');
    expect(alone.index.cables.get('TR1')?.ends[1]?.place).toBeNull();
  });

  it('is counted: the far end is wanted until its label is read at one of the landings there', () => {
    const events = [begin, ...panels, trunk(here.place, there.place), seenHere];
    const fold = foldAll(emptyPlan, events);
    expect(coverageOf(fold)).toMatchObject({ cables: 1, oneEnd: 1, bothEnds: 0 });
    expect(endsLeft(fold, here.place, 'I. Halloran').ends.map(({ label, words: at_ }) => `${label} ${at_}`)).toEqual([
      'TR1 PP2 J1-J24 rear',
    ]);
    const both = foldAll(emptyPlan, [...events, saw('PP2 J5 rear', 'TR1')]);
    expect(both.statusOf('TR1').type).toBe('confirmed');
    expect(coverageOf(both)).toMatchObject({ bothEnds: 1 });
    expect(endsLeft(both, here.place, 'I. Halloran').ends).toEqual([]);
    expect(both.discrepancies()).toEqual([]);
  });

  it('is told fibre by fibre or in rows: by order, followed, crossed, dead, spare', () => {
    const base = [begin, ...panels, trunk(here.place, there.place), seenHere];
    const rows = [...Array(24).keys()].map((i) => `J${i + 1} rear`);
    const ordered = event('sighting', colourToSighting({ id: 'PP1', label: 'PP1' }, rows, 'TR1'));
    const places = rangeToMembers(here.place);
    const fate = (fate_: 'dead' | 'spare' | 'good', from: number, to: number) =>
      fateToSettings(places.slice(from - 1, to), fate_).map((one) => event('setting-read', one));
    expect(words(base)).toBe('24 fibres. 24 not seen.');
    expect(words([...base, ordered])).toBe('24 fibres. 24 landed by number, not proven.');
    const all = [
      ...[...base, ordered, followed(3, 4), followed(4, 3), followed(9, 9)],
      ...[...fate('dead', 7, 7), ...fate('spare', 20, 24)],
    ];
    expect(words(all)).toBe(
      '24 fibres. 7 dead. 20 to 24 spare. 1 followed to their own landing. Fibres 3 and 4 swapped. 21 landed by number, not proven.',
    );
    const fold = foldAll(emptyPlan, all);
    expect(short(fold.discrepancies())).toEqual(['wrong-jack service TR1 pair 3', 'wrong-jack service TR1 pair 4']);
    expect(reconciliation(fold, '', '').pairs).toEqual([{ label: 'TR1', words: words(all) }]);
    // Tested again and good: what was said before is past.
    expect(words([...all, ...fate('good', 7, 7)])).not.toContain('dead');
    // The same whatever came first, and told bit by bit as told at once.
    expect(words([...all].reverse())).toBe(words(all));
    const slow = createFold(indexPlan(emptyPlan));
    for (const one of all) slow.add([one]);
    expect(short(slow.discrepancies())).toEqual(short(fold.discrepancies()));
    expect(coverageOf(slow)).toEqual(coverageOf(fold));
  });

  it('goes with its description: taken back, nothing of it is left but what was read', () => {
    const described = trunk(here.place, there.place);
    const fold = createFold(indexPlan(emptyPlan));
    fold.add([begin, ...panels, described, followed(3, 4), followed(4, 3)]);
    expect(short(fold.discrepancies())).toHaveLength(2);
    fold.add([event('withdrawn', { target: { event: described.id }, why: 'undo' })]);
    expect(fold.index.cables.has('TR1')).toBe(false);
    expect(fold.index.jacks.has(here.place)).toBe(false);
    expect(fold.discrepancies()).toEqual([]);
  });

  it('stands in the plan that is made of the record, with the landings of both ends', () => {
    const { plan } = recordToPlan(
      foldAll(emptyPlan, [begin, ...panels, trunk(here.place, there.place), seenHere]),
      'found',
      null,
    );
    expect(plan.cables.map(({ label, ends }) => [label, ...ends.map(({ place }) => place)])).toEqual([
      ['TR1', here.place, there.place],
    ]);
  });

  it('is read by a build that knows the kind of event: nothing new is in it', () => {
    for (const one of [
      trunk(here.place),
      ...fateToSettings([here.place], 'dead').map((s) => event('setting-read', s)),
    ]) {
      expect(readEvent(JSON.stringify(one)).type).toBe('event');
    }
  });
});
