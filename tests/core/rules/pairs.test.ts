// A cable of 25 pairs between two blocks. Colours: the 25-pair table of "Telephone cable color code" (everything2.com).
// Plan and sightings invented.
import { describe, expect, it } from 'vitest';
import { explain } from '../../../src/core/causes/explain.ts';
import { indexPlan } from '../../../src/core/plan/planIndex.ts';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { reconciliation } from '../../../src/core/report/reconciliation.ts';
import { colourToSighting } from '../../../src/core/report/walk/partPayloads.ts';
import { verdictAt } from '../../../src/core/report/walk/verdict.ts';
import { causeToLine } from '../../../src/core/report/words/causeWords.ts';
import { discrepancyToWords } from '../../../src/core/report/words/words.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { groupsExchanged, pairsOf, pairsToWords } from '../../../src/core/rules/pairs.ts';
import { pairToColours } from '../../../src/core/trade/partsPairs.ts';
import { at, event, planOf, saw, started, statement } from '../record/build.ts';

const plan = planOf([['6001', 'BLK4 1-25', 'BLK1 1-25']]);
const landings = Array.from({ length: 25 }, (_, i) => String(i + 1));
const byColour = () => event('sighting', colourToSighting({ id: 'BLK4', label: 'BLK4' }, landings, '6001'));
const followed = (from: number, to: number) =>
  statement([`BLK4 ${from}`], 'plugged', { basis: 'followed', joinedTo: at(`BLK1 ${to}`) });
const cable = indexPlan(plan).cables.get('6001')!;
const labels = () => [saw('BLK4 1-25', '6001'), saw('BLK1 1-25', '6001')];

describe('colours of the pairs', () => {
  it.each([
    [1, 'white', 'blue'],
    [6, 'red', 'blue'],
    [13, 'black', 'green'],
    [20, 'yellow', 'slate'],
    [25, 'violet', 'slate'],
    [26, 'white', 'blue'],
  ])('pair %i is %s and %s', (pair, tip, ring) => {
    expect(pairToColours(pair)).toEqual({ tip, ring });
  });
  it('red is pairs 6 to 10', () => {
    const tips = [5, 6, 7, 8, 9, 10, 11].map((pair) => pairToColours(pair).tip);
    expect(tips).toEqual(['white', 'red', 'red', 'red', 'red', 'red', 'black']);
  });
});

describe('an order of colours that a station has of its own', () => {
  // The ring first, as some houses count (invented): pair 1 white-blue, 2 red-blue, 6 white-orange.
  const tips = ['white', 'red', 'black', 'yellow', 'violet'];
  const order = ['blue', 'orange', 'green', 'brown', 'slate'].flatMap((ring) => tips.map((tip) => ({ tip, ring })));
  const events = [started(), ...labels(), byColour(), followed(1, 2), followed(2, 1)];

  it('names the pairs, and makes other groups of them', () => {
    const pairs = pairsOf(foldAll(plan, events, { pairOrder: order }), cable)!;
    expect(pairs[5]?.colours).toEqual({ tip: 'white', ring: 'orange' });
    expect(groupsExchanged(pairs)).toEqual({
      tips: ['white', 'red'],
      predicts: [
        [6, 7],
        [11, 12],
        [16, 17],
        [21, 22],
      ],
      look: 11,
    });
    expect(pairsToWords(pairs)).toContain('Possible: the white and red tip groups swapped; then 6 and 7');
    // By the published order both are white: no two groups.
    expect(groupsExchanged(pairsOf(foldAll(plan, events), cable)!)).toBeNull();
  });
  it('of which one colour is alone has no whole group to exchange', () => {
    const uneven = [...order.slice(0, 24), { tip: 'grey', ring: 'slate' }];
    const seen = [started(), ...labels(), followed(25, 21), followed(21, 25)];
    expect(groupsExchanged(pairsOf(foldAll(plan, seen, { pairOrder: uneven }), cable)!)).toBeNull();
  });
});

describe('twenty-five pairs', () => {
  const events = [started(), ...labels(), byColour(), followed(6, 11), followed(11, 6)];
  const fold = foldAll(plan, events);

  it('is one statement for 25 landings, not 25', () => {
    expect(events.filter(({ kind }) => kind === 'sighting')).toHaveLength(5);
    expect((byColour().payload as { places: string[] }).places).toHaveLength(25);
  });
  it('sees both ends and tells pairs 6 and 11 exchanged', () => {
    expect(fold.statusOf('6001').ends.map(({ seen }) => seen)).toEqual(['as-planned', 'as-planned']);
    const lines = fold.discrepancies().map((one) => discrepancyToWords(fold.index, one).line);
    expect(fold.discrepancies().map(({ kind }) => kind)).toEqual(['wrong-jack', 'wrong-jack']);
    expect(lines).toContain('BLK1 11: 6001 pair 6 is here, plan 6001 pair 11. 6001 pair 6 belongs in BLK1 6.');
    expect(fold.statusOf('6001').type).toBe('differs');
  });
  it('says of the others: landed by colour, not proven', () => {
    const pairs = pairsOf(fold, cable)!;
    expect(pairs.filter(({ how }) => how === 'by-colour')).toHaveLength(23);
    const words = pairsToWords(pairs);
    expect(words).toContain('Pairs 6 and 11 swapped.');
    expect(words).toContain('23 landed by colour, not proven.');
    expect(words).not.toMatch(/confirmed|\bsafe\b/);
    expect(verdictAt(fold, at('BLK4 8'))).toMatchObject({ word: 'not proven' });
    expect(verdictAt(fold, at('BLK4 8')).second).toBe(
      'Landed by colour order, not proven. It stays open in the report.',
    );
  });
  it('has it possible that the red and black groups are exchanged, and says which pair to follow', () => {
    expect(groupsExchanged(pairsOf(fold, cable)!)).toEqual({
      tips: ['red', 'black'],
      predicts: [
        [7, 12],
        [8, 13],
        [9, 14],
        [10, 15],
      ],
      look: 8,
    });
    const disproved = foldAll(plan, [...events, followed(8, 8)]);
    expect(groupsExchanged(pairsOf(disproved, cable)!)).toBeNull();
  });
});

describe('why pairs are exchanged', () => {
  it('crossed is confirmed, for they were followed; the tip groups stay possible beside it, and one look tells', () => {
    const fold = foldAll(plan, [started(), ...labels(), byColour(), followed(6, 11), followed(11, 6)]);
    const { causes } = explain(fold, fold.discrepancies());
    expect(causes.map(({ kind, certainty }) => [kind, certainty])).toEqual(
      expect.arrayContaining([
        ['crossed', 'confirmed'],
        ['groups-exchanged', 'possible'],
      ]),
    );
    const groups = causes.find(({ kind }) => kind === 'groups-exchanged')!;
    expect(groups.predicts).toHaveLength(8);
    expect(groups.predicts).toContainEqual({ place: at('BLK1 12'), label: '6001 pair 7' });
    expect(groups.nextLook).toMatchObject({ place: at('BLK4 8') });
    expect(groups.nextLook?.expect.map(({ sees }) => sees)).toEqual([
      { type: 'place', place: at('BLK1 13') },
      { type: 'place', place: at('BLK1 8') },
    ]);
    expect(causeToLine(fold.index, groups)).toContain('red and black tip groups of 6001');
  });
  it('two crossings have one story beside them; a pair followed to its own landing ends it', () => {
    const two = [
      started(),
      ...labels(),
      byColour(),
      followed(6, 11),
      followed(11, 6),
      followed(7, 12),
      followed(12, 7),
    ];
    const kinds = (events: AuditEvent[]) => {
      const fold = foldAll(plan, events);
      return explain(fold, fold.discrepancies()).causes.filter(
        (one) => one.kind === 'groups-exchanged' && one.of.type === 'tips' && one.of.tips.join() === 'red,black',
      ).length;
    };
    expect(kinds(two)).toBe(1);
    expect(kinds([...two, followed(8, 8)])).toBe(0);
  });
});

describe('by colour order alone', () => {
  it('confirms nothing and sees no end', () => {
    const fold = foldAll(plan, [started(), byColour()]);
    expect(fold.statusOf('6001').type).toBe('not-seen');
    expect(fold.discrepancies()).toEqual([]);
    expect(reconciliation(fold, 'a', '').confirmed).toEqual([]);
  });
  it('is no look where the plan has a cable for each landing', () => {
    const single = planOf([['6101', 'BLK4 1', 'A 1']]);
    const fold = foldAll(single, [
      started(),
      event('sighting', colourToSighting({ id: 'BLK4', label: 'BLK4' }, ['1'], '6101')),
    ]);
    expect(fold.statusOf('6101')).toMatchObject({ type: 'not-verified', reason: 'landed by colour order, not proven' });
    expect(reconciliation(fold, 'a', '').notLooked.find(({ place }) => place === 'BLK4 1')?.reason).toBe(
      'landed by colour order, not proven',
    );
  });
  it('gives way to what was seen, in whatever order the two arrive', () => {
    const empty = statement(['BLK4 9'], 'empty');
    const all: AuditEvent[] = [started(), ...labels(), byColour(), empty];
    for (const order of [all, [...all].reverse()]) {
      const fold = foldAll(plan, order);
      expect(fold.stateAt(at('BLK4 9')).type).toBe('empty');
      expect(fold.discrepancies().map(({ kind, places }) => `${kind} ${places[0]}`)).toEqual([
        `empty-jack ${at('BLK4 9')}`,
      ]);
    }
  });
  it('a label read at both blocks confirms the cable; its pairs stay unproven', () => {
    const fold = foldAll(plan, [started(), ...labels(), byColour()]);
    expect(fold.statusOf('6001').type).toBe('confirmed');
    expect(pairsToWords(pairsOf(fold, cable)!)).toBe('25 pairs. 25 landed by colour, not proven.');
  });
  it('the report tells the pairs apart from the cable', () => {
    const { pairs, confirmed } = reconciliation(foldAll(plan, [started(), ...labels(), byColour()]), 'a', '');
    expect(pairs).toEqual([{ label: '6001', words: '25 pairs. 25 landed by colour, not proven.' }]);
    expect(confirmed).toEqual(['6001']);
  });
  it('a landing followed to its own proves that pair', () => {
    const fold = foldAll(plan, [started(), ...labels(), byColour(), followed(3, 3)]);
    expect(fold.discrepancies()).toEqual([]);
    expect(pairsOf(fold, cable)![2]?.how).toBe('followed');
  });
});
