// Power as it was seen; adapters between plug and jack; panels, blocks, leads. Plans and sightings invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { emptyPlan } from '../../../src/core/plan/model.ts';
import { reconciliation } from '../../../src/core/report/reconciliation.ts';
import {
  colourToSighting,
  leadToSighting,
  panelToPayload,
  partToPayloads,
} from '../../../src/core/report/walk/partPayloads.ts';
import { walkOf } from '../../../src/core/report/walk/walkStops.ts';
import { walkView } from '../../../src/core/report/walk/walkView.ts';
import { discrepancyToWords } from '../../../src/core/report/words/words.ts';
import { createFold, foldAll } from '../../../src/core/rules/fold.ts';
import { powerDiscrepancies, supplyPaths } from '../../../src/core/rules/power.ts';
import { PART_SHAPES, partToName } from '../../../src/core/trade/parts.ts';
import { at, event, planOf, saw, short, started, statement } from './build.ts';

describe('power', () => {
  const strip = (label: string, into: string | null) =>
    event('unit-described', {
      label,
      heightU: 1,
      mounted: 'rear',
      form: 'strip',
      jacks: [{ label: 'OUT 1' }, { label: 'OUT 2' }],
      faces: [],
      tails: [{ end: 'A', ...(into ? { place: at(into) } : {}) }],
    });
  const feed = (label: string) =>
    event('unit-described', {
      label,
      heightU: 1,
      mounted: 'rear',
      form: 'feed',
      jacks: [{ label: '1' }, { label: '2' }],
      faces: [],
    });
  const cord = (inlet: string, outlet: string) => statement([inlet], 'plugged', { joinedTo: at(outlet) });
  const plan = planOf([], [{ at: 'AMP1 AC-A' }, { at: 'AMP1 AC-B' }]);

  it('follows an inlet over a strip to its feed', () => {
    const fold = foldAll(plan, [started(), feed('FEED-A'), strip('ST1', 'FEED-A 1'), cord('AMP1 AC-A', 'ST1 OUT 1')]);
    expect(supplyPaths(fold, 'AMP1')).toEqual([
      { inlet: at('AMP1 AC-A'), outlet: at('ST1 OUT 1'), through: ['ST1', 'FEED-A'], feed: 'FEED-A' },
    ]);
  });
  it('tells both supplies of one unit on one feed, with its caution and nothing to unplug', () => {
    const events = [
      started(),
      feed('FEED-A'),
      strip('ST1', 'FEED-A 1'),
      strip('ST2', 'FEED-A 2'),
      cord('AMP1 AC-A', 'ST1 OUT 1'),
      cord('AMP1 AC-B', 'ST2 OUT 1'),
    ];
    for (const order of [events, [...events].reverse()]) {
      const fold = foldAll(plan, order);
      expect(short(fold.discrepancies())).toEqual(['hazard-seen on-air AMP1']);
      const words = discrepancyToWords(fold.index, fold.discrepancies()[0]!);
      expect(words.title).toBe('Both supplies of one unit on one feed');
      expect(words.line).toContain('both on FEED-A');
      expect(words.line).toContain('Look only');
      expect(words.line).not.toMatch(/unplug (it|them|one)|\bsafe\b/i);
      expect(fold.discrepanciesAt(at('AMP1 AC-A')).map(({ kind }) => kind)).toContain('hazard-seen');
    }
  });
  it('is silent on two feeds, and where the feeds are not known', () => {
    const two = [
      started(),
      feed('FEED-A'),
      feed('FEED-B'),
      cord('AMP1 AC-A', 'FEED-A 1'),
      cord('AMP1 AC-B', 'FEED-B 1'),
    ];
    expect(powerDiscrepancies(foldAll(plan, two))).toEqual([]);
    const unknown = [
      started(),
      strip('ST1', null),
      strip('ST2', null),
      cord('AMP1 AC-A', 'ST1 OUT 1'),
      cord('AMP1 AC-B', 'ST2 OUT 1'),
    ];
    expect(powerDiscrepancies(foldAll(plan, unknown))).toEqual([]);
  });
  it('tells a strip in a strip, a hazard to people', () => {
    const fold = foldAll(plan, [started(), strip('ST1', null), strip('ST2', 'ST1 OUT 2')]);
    expect(short(fold.discrepancies())).toEqual(['hazard-seen people ST2']);
  });
});

describe('parts at a jack', () => {
  const plan = planOf([
    ['2001', 'SAT1 OUT', 'AIO21 I1'],
    ['2002', 'HYB41 OUT', 'AIO21 I2'],
  ]);
  const here = { place: at('AIO21 I1'), words: 'AIO21 I1' };
  const breakout = PART_SHAPES.find(({ id }) => id === 'rj-2xlr')!;
  const made = (label: string) =>
    partToPayloads(
      {
        form: breakout.form,
        label,
        plug: breakout.plug,
        legs: breakout.sockets.map((one) => ({ ...one, kind: 'socket' as const })),
      },
      here,
    );
  const events = (label: string) => {
    const { unit, sightings } = made(label);
    return [started(), event('unit-described', unit), ...sightings.map((one) => event('sighting', one))];
  };

  it('every shape has a name of its own, a plug and something to go on to', () => {
    expect(new Set(PART_SHAPES.map(({ name }) => name)).size).toBe(PART_SHAPES.length);
    for (const { plug, sockets, tails, source } of PART_SHAPES) {
      expect(plug).not.toBe('');
      expect(sockets.length + tails.length).toBeGreaterThan(0);
      expect(source).not.toBe('');
    }
  });
  it('without a label it has the name of its place, the same on every phone', () => {
    expect(made('').unit.label).toBe('AIO21 I1 tail');
    expect(partToName('SW1 P03', 'pigtail')).toBe('SW1 P03 tail');
  });
  it('its sockets come in the walk right after the unit it hangs on, in its rack', () => {
    const fold = foldAll(plan, events('T07'));
    expect(walkOf(fold).map(({ unit }) => unit)).toEqual(['AIO21', 'T07', 'HYB41', 'SAT1']);
    expect(fold.scope.owed.has(at('T07 L'))).toBe(true);
  });
  it('the cable is where the plan has it when its label is on a socket; both legs are one end', () => {
    const fold = foldAll(plan, [...events('T07'), saw('T07 L', '2001'), saw('T07 R', '2001'), saw('SAT1 OUT', '2001')]);
    expect(fold.statusOf('2001').type).toBe('confirmed');
    expect(short(fold.discrepancies())).toEqual(['undeclared-adapter record T07']);
  });
  it('while its sockets were not looked at, the end is not seen and not wrong', () => {
    const fold = foldAll(plan, events(''));
    expect(fold.statusOf('2001').ends[1]?.seen).toBe('not-seen');
    expect(short(fold.discrepancies())).toEqual(['undeclared-adapter record AIO21 I1 tail']);
  });
  it('is the record where a place is inherited and no plan knows it', () => {
    const fold = foldAll(emptyPlan, events('T07').with(0, started({ occasion: 'inherit', plan: null })));
    expect(fold.discrepancies()).toEqual([]);
  });
  it('a tail in another jack is a statement there', () => {
    const tails = PART_SHAPES.find(({ id }) => id === 'rj-2xlr-tails')!;
    const { unit, sightings } = partToPayloads(
      {
        form: 'breakout',
        label: 'T08',
        plug: 'RJ45',
        legs: tails.tails.map((one, i) => ({
          ...one,
          kind: 'tail' as const,
          ...(i === 0 ? { to: { place: at('SAT1 OUT'), words: 'SAT1 OUT' } } : {}),
        })),
      },
      here,
    );
    expect(sightings.map(({ places }) => places)).toEqual([[at('AIO21 I1')], [at('SAT1 OUT')]]);
    expect(unit.tails?.map(({ end, place }) => [end, place])).toEqual([
      ['A', at('AIO21 I1')],
      ['L', at('SAT1 OUT')],
      ['R', undefined],
    ]);
  });
});

describe('the connector that nothing keys', () => {
  const plan = planOf(
    [['1001', 'CON30 NET', 'SW1 P01', { signal: 'network' }]],
    [{ at: 'SW1 P01', connector: 'RJ45' }],
  );

  it('shows its caution in a build even where the plan names the signal, before anything is plugged', () => {
    const fold = foldAll(plan, [started({ occasion: 'build', permission: 'disconnect' })]);
    expect(walkView(fold, 'a', at('SW1 P01'))?.caution).toContain('plug nothing');
  });
});

describe('panels, blocks and leads', () => {
  const draft = {
    form: 'patchbay' as const,
    label: 'PB2',
    room: '',
    rack: 'R2',
    u: 34,
    count: 6,
    rows: 2,
    connector: 'TT',
    sides: 'one' as const,
  };

  it('a bay is one set of holes seen from two sides, mirrored from behind', () => {
    const { faces, jacks } = panelToPayload(draft);
    expect(jacks).toHaveLength(12);
    expect(faces[0]?.rows).toEqual([
      ['J1 front', 'J2 front', 'J3 front'],
      ['J4 front', 'J5 front', 'J6 front'],
    ]);
    expect(faces[1]?.rows[0]).toEqual(['J3 rear', 'J2 rear', 'J1 rear']);
    expect(faces.every(({ through }) => through)).toBe(true);
  });
  it('landings of a block are numbered and take several wires, on two sides where they are told apart', () => {
    const block = panelToPayload({ ...draft, form: 'punch-block', label: 'BLK4', count: 25, rows: 5, sides: 'two' });
    expect(block.jacks).toHaveLength(50);
    expect(block.jacks.every(({ mult }) => mult)).toBe(true);
    expect(block.jacks[0]?.label).toBe('1');
    expect(block.faces[0]?.rows).toHaveLength(10);
  });
  it('a trunk has two connectors and its pairs in words', () => {
    expect(panelToPayload({ ...draft, form: 'trunk', label: 'TR1', count: 25, connector: 'D-sub 50' })).toMatchObject({
      description: '25 pairs',
      tails: [{ end: 'A' }, { end: 'B' }],
    });
  });
  it('a lead is one statement for both jacks and joins them from either side', () => {
    const lead = event(
      'sighting',
      leadToSighting({ place: at('PB1 J1'), words: 'PB1 J1' }, { place: at('PB1 J27'), words: 'PB1 J27' }, 'followed'),
    );
    const fold = foldAll(emptyPlan, [started(), lead]);
    expect(fold.joined(at('PB1 J1'))).toEqual([at('PB1 J27')]);
    expect(fold.joined(at('PB1 J27'))).toEqual([at('PB1 J1')]);
    expect(fold.discrepancies()).toEqual([]);
  });
});

describe('free of order', () => {
  const plan = planOf(
    [
      ['2001', 'SAT1 OUT', 'AIO21 I1'],
      ['6001', 'BLK4 1-25', 'BLK1 1-25'],
    ],
    [{ at: 'AMP1 AC-A' }, { at: 'AMP1 AC-B' }],
  );
  const shape = PART_SHAPES.find(({ id }) => id === 'rj-2xlr')!;
  const legs = shape.sockets.map((one) => ({ ...one, kind: 'socket' as const }));
  const hung = partToPayloads(
    { form: shape.form, label: 'T07', plug: shape.plug, legs },
    { place: at('AIO21 I1'), words: 'AIO21 I1' },
  );
  const landings = Array.from({ length: 25 }, (_, i) => String(i + 1));
  const strip = event('unit-described', {
    label: 'ST1',
    heightU: 1,
    mounted: 'rear',
    form: 'strip',
    jacks: [{ label: 'OUT 1' }, { label: 'OUT 2' }],
    faces: [],
    tails: [{ end: 'A' }],
  });
  const sockets = event('unit-described', hung.unit);
  const events = [
    started(),
    sockets,
    ...hung.sightings.map((one) => event('sighting', one)),
    saw('T07 L', '2001'),
    saw('T07 R', '2001'),
    event(
      'unit-described',
      panelToPayload({
        form: 'punch-block',
        label: 'BLK4',
        room: 'Frame room',
        rack: '',
        u: null,
        count: 25,
        rows: 1,
        connector: 'IDC',
        sides: 'one',
      }),
    ),
    event('sighting', colourToSighting({ id: 'BLK4', label: 'BLK4' }, landings, '6001')),
    saw('BLK4 1-25', '6001'),
    statement(['BLK4 6'], 'plugged', { basis: 'followed', joinedTo: at('BLK1 11') }),
    statement(['BLK1 6'], 'plugged', { basis: 'followed', joinedTo: at('BLK4 11') }),
    statement(['BLK4 9'], 'empty'),
    strip,
    statement(['AMP1 AC-A'], 'plugged', { joinedTo: at('ST1 OUT 1') }),
    statement(['ST1 OUT 2'], 'plugged', { joinedTo: at('AMP1 AC-B') }),
    event('withdrawn', { target: { event: sockets.id }, why: 'undo' }),
  ];
  const picture = (fold: ReturnType<typeof foldAll>) => ({
    found: fold.discrepancies(),
    cables: ['2001', '6001'].map((id) => fold.statusOf(id)),
    walk: walkOf(fold).map(({ unit, places }) => [unit, places]),
    pairs: reconciliation(fold, 'a', '').pairs,
  });

  it('any order, one by one, twice: the same as all at once', () => {
    fc.assert(
      fc.property(
        fc
          .subarray(events, { minLength: 3 })
          .chain((some) => fc.tuple(fc.constant(some), fc.shuffledSubarray(some, { minLength: some.length }))),
        ([some, shuffled]) => {
          const whole = foldAll(plan, some);
          const single = createFold(plan);
          for (const one of shuffled) single.add([one]);
          for (const one of shuffled) single.add([one]);
          expect(picture(single)).toEqual(picture(whole));
        },
      ),
      { numRuns: 150 },
    );
  });
});
