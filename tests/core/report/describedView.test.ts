// What is listed as described, where the next unit would sit, and how far a correction or a copy keeps what was said.
// Data invented; that one U holds one unit of a side is how racks are built (IEC 60297-3-100).
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { emptyPlan } from '../../../src/core/plan/model.ts';
import { describedToPlan } from '../../../src/core/record/described.ts';
import type { AuditEvent, EventOf, Payload } from '../../../src/core/record/events.ts';
import { describedView, likeUnit, nextU, unitsInTheWay } from '../../../src/core/report/describedView.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { FORMS, SIGNALS } from '../../../src/core/trade/kinds.ts';
import { nameToKey } from '../../../src/core/trade/names.ts';
import {
  likeToDraft,
  NEW_UNIT,
  saidToDraft,
  type UnitDraft,
  unitToPayload,
  whereOf,
} from '../../../src/ui/describe/describeDraft.ts';
import { at, event, planOf, saw, started } from '../record/build.ts';

type Unit = Payload<'unit-described'>;
const rack = (label: string, more: Partial<Payload<'rack-described'>> = {}) =>
  event('rack-described', { label, heightU: 12, numbering: 'bottom-up', ...more });
const unit = (label: string, more: Partial<Unit> = {}) =>
  event('unit-described', { label, heightU: 1, mounted: 'front', jacks: [], faces: [], ...more });
const inherited = (events: AuditEvent[]) =>
  foldAll(emptyPlan, [started({ occasion: 'inherit', plan: null }), ...events]);
const viewOf = (events: AuditEvent[]) => describedView(inherited(events), 'a')!;

/** Opens the unit for correction, lets somebody change the draft, and keeps it. */
function corrected(events: AuditEvent[], label: string, change: Partial<UnitDraft> = {}): AuditEvent {
  const fold = inherited(events);
  const view = describedView(fold, 'a')!;
  const said = likeUnit(fold, label)!.own!;
  const draft = { ...NEW_UNIT, ...saidToDraft(said), ...change };
  const ids = fold
    .of('unit-described')
    .filter(({ payload }) => nameToKey(payload.label) === nameToKey(label))
    .map(({ id }) => id);
  return event('unit-described', unitToPayload(draft, whereOf(draft, view, null), said, ids));
}

const name = fc.constantFrom(
  'IN 1',
  'IN 2',
  'XLR 1',
  'IN, L',
  'P01',
  'P02',
  'P03',
  'say "A"',
  'OUT',
  'NET',
  '7',
  '8 x',
);
const optional = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });
const given = <T extends object>(value: T): T =>
  Object.fromEntries(Object.entries(value).filter(([, one]) => one !== undefined)) as T;
const jack = fc
  .record({
    label: name,
    connector: optional(fc.constantFrom('XLR', 'RJ45', 'a plug, odd')),
    direction: optional(fc.constantFrom('in' as const, 'out' as const, 'both' as const, 'none' as const)),
    signal: optional(fc.constantFrom(...SIGNALS)),
    leg: optional(fc.constantFrom('left' as const, 'right' as const, 'both' as const, 'mono' as const)),
    mult: optional(fc.boolean()),
  })
  .map(given);
const described = fc
  .record({
    jacks: fc.uniqueArray(jack, { maxLength: 10, selector: (one) => nameToKey(one.label) }),
    where: fc.constantFrom({}, { room: 'Studio 3' }, { rack: 'R-9' }, { rack: 'R-9', u: 4 }, { rack: 'GONE', u: 2 }),
    heightU: fc.integer({ min: 1, max: 4 }),
    mounted: fc.constantFrom('front' as const, 'rear' as const),
    description: optional(fc.constantFrom('a mixer, blue')),
    serial: optional(fc.constantFrom('0042')),
    mac: optional(fc.constantFrom('00:00:5E:00:53:01')),
    form: optional(fc.constantFrom(...FORMS)),
    at: optional(fc.constantFrom('MX-1/IN-1')),
    tails: optional(fc.constant<Unit['tails']>([{ end: 'A', connector: 'XLR', place: 'MX-1/IN-1' }, { end: 'L' }])),
    like: optional(fc.constantFrom('DA-1')),
    columns: fc.integer({ min: 1, max: 5 }),
    sides: fc.constantFrom(['rear'], ['front'], ['front', 'rear'], []),
    through: fc.boolean(),
  })
  .map(({ jacks, where, columns, sides, through, ...rest }): Unit => {
    const labels = jacks.map(({ label }) => label);
    const rows = labels.flatMap((_, i) => (i % columns === 0 ? [labels.slice(i, i + columns)] : []));
    const faces = (labels.length === 0 ? [] : sides).map((face) => ({ face: face as 'front', through, rows }));
    return given({ label: 'AMP 2', ...rest, ...where, jacks, faces }) as Unit;
  });

describe('correcting a unit', () => {
  it('opened and kept unchanged is the same unit, whatever was said about it', () => {
    fc.assert(
      fc.property(fc.array(described, { minLength: 1, maxLength: 3 }), (said) => {
        const events = [rack('R 9'), ...said.map((one) => event('unit-described', one))];
        const before = inherited(events).index;
        const after = inherited([...events, corrected(events, 'AMP 2')]).index;
        expect(after.units.get('AMP-2')).toEqual(before.units.get('AMP-2'));
        expect(after.jacksOf.get('AMP-2')).toEqual(before.jacksOf.get('AMP-2'));
      }),
      { numRuns: 100 },
    );
  });

  it('keeps what was said about each jack that stays, and puts a new one beside the others', () => {
    const three = ['A 1', 'B 1', 'C 1', 'D 1', 'E 1', 'F 1'];
    const events = [
      unit('BAY', {
        jacks: three.map((label) => ({ label, signal: 'aes3', leg: 'left' })),
        faces: [
          { face: 'front', through: true, rows: [['A 1', 'B 1'], ['C 1'], ['D 1', 'E 1', 'F 1']] },
          { face: 'rear', through: true, rows: [['B 1', 'A 1'], ['C 1'], ['F 1', 'E 1', 'D 1']] },
        ],
      }),
    ];
    const draft = saidToDraft(likeUnit(inherited(events), 'BAY')!.own!);
    const notation = `${draft.notation!.replace('1 x C 1', '1 x BNC C 2')}`;
    const { payload } = corrected(events, 'BAY', { notation }) as EventOf<'unit-described'>;
    expect(payload.jacks[0]).toEqual({ label: 'A 1', signal: 'aes3', leg: 'left' });
    expect(payload.jacks[2]).toEqual({ label: 'C 2', connector: 'BNC' });
    expect(payload.faces.map(({ rows }) => rows)).toEqual([
      [
        ['A 1', 'B 1'],
        ['D 1', 'E 1', 'F 1', 'C 2'],
      ],
      [
        ['B 1', 'A 1'],
        ['F 1', 'E 1', 'D 1'],
      ],
    ]);
  });

  it('lets the face be laid out anew', () => {
    const events = [unit('SW', { jacks: [{ label: 'P1' }, { label: 'P2' }], faces: [] })];
    const { payload } = corrected(events, 'SW', { rows: 'one' }) as EventOf<'unit-described'>;
    expect(payload.faces).toEqual([{ face: 'rear', through: false, rows: [['P1', 'P2']] }]);
  });
});

describe('copying a unit', () => {
  it('keeps all but serial number, hardware address and place', () => {
    fc.assert(
      fc.property(described, (said) => {
        const events = [rack('R 9'), event('unit-described', said)];
        const { whole } = likeUnit(inherited(events), 'AMP 2')!;
        const draft = { ...NEW_UNIT, label: 'AMP 3', rack: '', ...likeToDraft(whole!) };
        const view = viewOf(events);
        const copy = unitToPayload(draft, whereOf(draft, view, null), null, []);
        const { label, rack: _, u: __, room: ___, serial, mac, at: hung, tails, like, jacks, ...rest } = said;
        const asKept = jacks.map(({ mult, ...one }) => ({ ...one, ...(mult ? { mult } : {}) }));
        expect(copy).toEqual({
          ...rest,
          label: 'AMP 3',
          like: label,
          jacks: asKept,
          ...(tails ? { tails: tails.map(({ place: ____, ...tail }) => tail) } : {}),
        });
      }),
      { numRuns: 100 },
    );
  });

  it('takes a unit of the plan as it stands there', () => {
    const plan = planOf(
      [['1001', 'DA1 IN 1', 'SW1 P01']],
      [{ at: 'DA1 IN 1', connector: 'XLR', signal: 'line-audio' }],
    );
    const { own, whole } = likeUnit(foldAll(plan, [started()]), 'DA1')!;
    expect(own).toBeNull();
    expect(whole).toMatchObject({ jacks: [{ label: 'IN 1', connector: 'XLR', signal: 'line-audio' }] });
    expect(whole?.faces[0]?.rows).toEqual([['IN 1']]);
  });
});

describe('what is described so far', () => {
  it('lists units in rooms, in racks without a U, in racks that nobody named, and what hangs on a jack', () => {
    const view = viewOf([
      rack('R 9'),
      unit('AMP-1', { rack: 'R-9', u: 3 }),
      unit('AMP-2', { rack: 'R-9' }),
      unit('CLOCK', { room: 'Corridor' }),
      unit('LAMP', {}),
      unit('AMP-3', { rack: 'R-8', u: 1 }),
      unit('T07', { form: 'breakout', at: at('AMP-1 IN 1') }),
    ]);
    expect(view.racks[0]!.units.map(({ label }) => label)).toEqual(['AMP-1', 'AMP-2']);
    expect(view.elsewhere.map(({ title, units }) => [title, ...units.map(({ label }) => label)])).toEqual([
      ['Rack R-8, not named yet', 'AMP-3'],
      ['Corridor', 'CLOCK'],
      ['In a room without a name', 'LAMP'],
      ['Plugged into a jack', 'T07'],
    ]);
    expect(view.elsewhere.at(-1)!.units[0]!.at).toBe('AMP-1 IN-1');
  });

  it('counts units of the plan in rooms instead of listing them', () => {
    const fold = foldAll(planOf([['1001', 'DA1 IN 1', 'SW1 P01']]), [started(), unit('LAMP', { room: 'Hall' })]);
    const view = describedView(fold, 'a')!;
    expect(view.elsewhere.map(({ title }) => title)).toEqual(['Hall']);
    expect(view.byPlan).toBe(2);
  });

  it('tells how many jacks of a unit were spoken about, those it no longer has included', () => {
    const first = unit('AMP', { jacks: [{ label: 'IN 1' }, { label: 'IN 2' }] });
    const events = [first, saw('AMP IN 1', '77'), saw('AMP IN 2', '78')];
    expect(viewOf(events).elsewhere[0]!.units[0]).toMatchObject({ said: 2, events: [first.id] });
    const less = unit('AMP', { jacks: [{ label: 'IN 1' }], corrects: [first.id] });
    expect(viewOf([...events, less]).elsewhere[0]!.units[0]!.said).toBe(2);
  });

  it('gives the previous description back when a correction is withdrawn', () => {
    const events = [unit('AMP', { jacks: [{ label: 'IN 1' }], description: 'blue' })];
    const anew = corrected(events, 'AMP', { notation: 'OUT 1', description: 'red' });
    const undo = event('withdrawn', { target: { event: anew.id }, why: 'undo' });
    const units = (all: AuditEvent[]) => inherited(all).index.units.get('AMP')?.description;
    expect(units([...events, anew])).toBe('red');
    expect(units([...events, anew, undo])).toBe('blue');
  });
});

describe('where the next unit sits', () => {
  const shelf = fc.record({
    numbering: fc.constantFrom('bottom-up' as const, 'top-down' as const),
    units: fc.array(
      fc.record({ u: fc.integer({ min: 1, max: 12 }), heightU: fc.integer({ min: 1, max: 3 }), rear: fc.boolean() }),
      { maxLength: 8 },
    ),
    heightU: fc.integer({ min: 1, max: 4 }),
  });
  /** A rack with those of them that fit beside each other, described in this order. */
  const build = ({
    numbering,
    units,
  }: {
    numbering: 'bottom-up' | 'top-down';
    units: { u: number; heightU: number; rear: boolean }[];
  }) => {
    const events: AuditEvent[] = [rack('R 9', { numbering })];
    units.forEach(({ u, heightU, rear }, i) => {
      const mounted = rear ? ('rear' as const) : ('front' as const);
      const now = viewOf(events).racks[0]!;
      if (u + heightU - 1 > 12 || unitsInTheWay(now, mounted, u, heightU, '').length > 0) return;
      events.push(unit(`U-${i}`, { rack: 'R-9', u, heightU, mounted }));
    });
    return viewOf(events).racks[0]!;
  };

  it('is the nearest free place below the unit described last, never one that is taken', () => {
    fc.assert(
      fc.property(shelf, ({ heightU, ...one }) => {
        const r9 = build(one);
        const up = one.numbering === 'bottom-up';
        const free = Array.from({ length: 12 - heightU + 1 }, (_, i) => i + 1).filter(
          (u) => unitsInTheWay(r9, 'front', u, heightU, '').length === 0,
        );
        // From the top of the rack, as the eye goes down.
        const down = up ? free.reverse() : free;
        const { last } = r9;
        const below = down.filter((u) => !last || (up ? u + heightU <= last.u : u >= last.u + last.heightU));
        expect(nextU(r9, heightU, 0, 'front')).toBe(below[0] ?? down[0] ?? null);
      }),
    );
  });

  it('follows a unit described out of order, past what is there', () => {
    const events = [
      rack('R 9'),
      unit('A', { rack: 'R-9', u: 12 }),
      unit('B', { rack: 'R-9', u: 10, heightU: 2 }),
      unit('C', { rack: 'R-9', u: 4 }),
    ];
    expect(nextU(viewOf(events).racks[0]!, 1, 0, 'front')).toBe(3);
    // A is corrected: B sits right below it, so the first free U is below B.
    const again = [...events, corrected(events, 'A')];
    expect(nextU(viewOf(again).racks[0]!, 1, 0, 'front')).toBe(9);
    expect(nextU(viewOf(again).racks[0]!, 1, 2, 'front')).toBe(9);
    expect(nextU(viewOf(again).racks[0]!, 1, 3, 'front')).toBe(8);
    expect(nextU(viewOf(again).racks[0]!, 1, 0, 'rear')).toBe(11);
  });

  it('is in the rack that was named or used last', () => {
    const events = [rack('R 9'), unit('A', { rack: 'R-9', u: 10 })];
    expect(viewOf(events).usual).toBe('R-9');
    expect(viewOf([...events, rack('R 1')]).usual).toBe('R-1');
    expect(viewOf([...events, rack('R 1'), unit('B', { rack: 'R-9', u: 2 })]).usual).toBe('R-9');
    expect(viewOf([unit('C', { room: 'Hall' })]).usual).toBeNull();
  });

  it('goes by the latest description that stands', () => {
    const events = [rack('R 9'), unit('A', { rack: 'R-9', u: 10 }), unit('B', { rack: 'R-9', u: 3 })];
    const last = events[2]!;
    const undo = event('withdrawn', { target: { event: last.id }, why: 'undo' });
    expect(viewOf(events).racks[0]!.last?.label).toBe('B');
    expect(viewOf([...events, undo]).racks[0]!.last?.label).toBe('A');
  });
});

it('describes nothing that nobody described', () => {
  expect(describedToPlan([], [])).toEqual({ racks: [], units: [], jacks: [], cables: [] });
  expect(likeUnit(inherited([]), 'AMP')).toBeNull();
});
