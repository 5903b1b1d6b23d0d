// What hangs on a link, by the plan and by what was seen. Invented data; names follow the invented station of the
// fixtures.
import { describe, expect, it } from 'vitest';
import { circuitName, type Impact, impactOf } from '../../../src/core/impact/impact.ts';
import { plannedLinks, seenLinks } from '../../../src/core/impact/links.ts';
import type { Plan, Unit } from '../../../src/core/plan/model.ts';
import { cableReach } from '../../../src/core/report/reachView.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, type CableRow, planOf, saw, started, statement, withSignal } from './build.ts';

const audio = (circuit: string, more = {}) => withSignal('aes3', { circuit, ...more });
const chain: CableRow[] = [
  ['2006', 'DIO22 O4', 'PRO51 IN', audio('PGM1 main', { onAir: true })],
  ['2007', 'PRO51 OUT', 'STL61 IN', audio('PGM1 main', { onAir: true })],
  ['2016', 'DIO22 O5', 'STL62 IN', audio('PGM1 standby')],
  ['2017', 'STL61 MON', 'RX9 IN', audio('Off-air monitor')],
];
const opened = (plan: Plan, cable: string): Impact => {
  const fold = foldAll(plan, [started()]);
  const links = plannedLinks(fold);
  return impactOf(fold, links, links.ofCable(cable));
};
const labels = (reach: Impact) => reach.affected.map(({ link }) => link.label);

describe('what would be interrupted', () => {
  it('stops at a unit whose routes are not known, and says so instead of claiming everything', () => {
    const reach = opened(planOf(chain), '2006');
    expect(labels(reach)).toEqual(['2006']);
    expect(reach.unknownBehind).toEqual(['PRO51']);
  });

  it('goes on through the routes that the plan knows, on air first', () => {
    const routes = [
      { unit: 'PRO51', from: at('PRO51 IN'), to: at('PRO51 OUT') },
      { unit: 'STL61', from: at('STL61 IN'), to: at('STL61 MON') },
    ];
    const reach = opened(planOf(chain, [], { routes }), '2006');
    expect(labels(reach)).toEqual(['2006', '2007', '2017']);
    expect(reach.unknownBehind).toEqual([]);
  });

  it('names the standby of the same service as another path', () => {
    expect(opened(planOf(chain), '2006').otherPaths.map(({ label }) => label)).toEqual(['2016']);
    expect(circuitName('PGM1 - Standby')).toBe(circuitName('PGM1 main'));
  });

  it('follows the direction of the jacks, whichever end the sheet names first', () => {
    const plan = planOf(
      [
        ['1', 'B IN', 'A OUT', audio('X')],
        ['2', 'B OUT', 'C IN', audio('Y')],
      ],
      [
        { at: 'B IN', direction: 'in' },
        { at: 'A OUT', direction: 'out' },
      ],
      { routes: [{ unit: 'B', from: at('B IN'), to: at('B OUT') }] },
    );
    expect(labels(opened(plan, '1'))).toEqual(['1', '2']);
    expect(labels(opened(plan, '2'))).toEqual(['2']);
  });

  it('walks through panels, splits and breakouts like everything else', () => {
    const plan = planOf([
      ['1', 'A OUT', 'PP1 P07 front', audio('X')],
      ['2', 'PP1 P07 rear', 'T07 IN', audio('X')],
      ['3', 'T07 L', 'B IN', audio('X')],
      ['4', 'T07 R', 'C IN', audio('X')],
    ]);
    const units = plan.units.map((unit) => (unit.id === 'T07' ? { ...unit, form: 'breakout' as const } : unit));
    expect(labels(opened({ ...plan, units }, '1'))).toEqual(['1', '2', '3', '4']);
  });

  it('goes through what hangs on a jack, into the unit and out of it', () => {
    const plan = planOf(
      [
        ['1', 'A OUT', 'T1 S', audio('X')],
        ['2', 'K2 L', 'C IN', audio('X')],
        ['3', 'D OUT', 'E IN', audio('X')],
        ['4', 'K2 X', 'F IN', audio('X')],
      ],
      [{ at: 'B IN' }, { at: 'B OUT' }, { at: 'D IN' }],
      {
        routes: [
          { unit: 'B', from: at('B IN'), to: at('B OUT') },
          { unit: 'D', from: at('D IN'), to: at('D OUT') },
        ],
      },
    );
    // An adapter on the input, a breakout on the output, whose tail is plugged into another unit.
    const parts: Record<string, Partial<Unit>> = {
      T1: { form: 'adapter', at: at('B IN') },
      K2: { form: 'breakout', at: at('B OUT'), tails: [{ end: 'C', place: at('D IN') }] },
    };
    const units = plan.units.map((unit) => ({ ...unit, ...parts[unit.id] }));
    const reach = opened({ ...plan, units }, '1');
    expect(labels(reach).sort()).toEqual(['1', '2', '3', '4']);
    expect(reach.unknownBehind).toEqual([]);
    const blind = opened({ ...plan, units, routes: [] }, '1');
    expect(labels(blind)).toEqual(['1']);
    // Not the adapter: the unit behind it is what nobody knows about.
    expect(blind.unknownBehind).toEqual([]);
    const feeding = planOf([...rowsOf(plan), ['9', 'B MON', 'G IN', audio('Y')]], [{ at: 'B IN' }]);
    const withParts = feeding.units.map((unit) => ({ ...unit, ...parts[unit.id] }));
    expect(opened({ ...feeding, units: withParts }, '1').unknownBehind).toEqual(['B']);
  });
});

const rowsOf = (plan: Plan): CableRow[] =>
  plan.cables.map(({ label, ends, signal }) => [
    label,
    `${ends[0]!.unit} ${ends[0]!.jack}`,
    `${ends[1]!.unit} ${ends[1]!.jack}`,
    { signal },
  ]);

describe('a network port', () => {
  const port = (n: number) => `SW1 P0${n}`;
  const net = withSignal('network');
  const rows: CableRow[] = [
    ['1001', 'CON30 NET', port(1), net],
    ['1002', 'MIO31 NET', port(2), net],
    ['1003', 'PLY71 NET', port(3), net],
    ['1005', 'AIO21 NET', 'SW2 P01', net],
    ['1006', 'DIO22 NET', 'SW2 P02', net],
    ['1008', 'SW1 P24', 'SW2 P24', net],
    ['2003', 'AIO21 O2', 'HYB41 IN', withSignal('line-audio', { circuit: 'Mix-minus' })],
  ];
  it('interrupts what hangs on it, and what that unit carries', () => {
    const reach = opened(planOf(rows), '1005');
    expect(reach.network).toEqual({ cutOff: ['AIO21'], closesByRing: false, isUplink: false });
    expect(labels(reach)).toEqual(['1005', '2003']);
  });
  it('tells an uplink, which parts the network', () => {
    const reach = opened(planOf(rows), '1008');
    expect(reach.network).toMatchObject({ isUplink: true, closesByRing: false });
    expect(reach.network?.cutOff).toEqual(['AIO21', 'DIO22', 'SW2']);
  });
  it('tells a ring, which closes by another way after a gap', () => {
    const ring: CableRow[] = [
      ...rows,
      ['1009', 'SW1 P23', 'SW3 P23', net],
      ['1010', 'SW3 P24', 'SW2 P23', net],
      ['1011', 'X NET', 'SW3 P01', net],
    ];
    expect(opened(planOf(ring), '1008').network).toEqual({ cutOff: [], closesByRing: true, isUplink: true });
  });
  it('takes a panel for its holes and no switch, and sees what stands behind them', () => {
    const holes = [1, 2, 3, 4].flatMap((n): CableRow[] => [
      [`${n}A`, n === 4 ? 'SW2 P09' : `WX${n} NET`, `PP1 ${n} rear`, net],
      [`${n}B`, `PP1 ${n} front`, `SW1 P1${n}`, net],
    ]);
    const plan = planOf([...rows.filter(([label]) => label !== '1008'), ...holes]);
    expect(opened(plan, '1A').network).toEqual({ cutOff: ['WX1'], closesByRing: false, isUplink: false });
    expect(opened(plan, '1B').network).toEqual({ cutOff: ['WX1'], closesByRing: false, isUplink: false });
    expect(opened(plan, '4A').network).toMatchObject({ isUplink: true, closesByRing: false });
    expect(opened(plan, '4B').network?.cutOff).toEqual(['AIO21', 'DIO22', 'SW2']);
  });
  it('counts what hangs on a port as that port', () => {
    const plan = planOf([...rows, ['1013', 'WX9 NET', 'T9 S', net]], [{ at: 'SW2 P09' }]);
    const units = plan.units.map((unit) =>
      unit.id === 'T9' ? { ...unit, form: 'adapter' as const, at: at('SW2 P09') } : unit,
    );
    expect(opened({ ...plan, units }, '1013').network?.cutOff).toEqual(['WX9']);
    expect(opened({ ...plan, units }, '1008').network?.cutOff).toContain('WX9');
  });
  it('does not take a unit on two switches for a way between them', () => {
    const dual: CableRow[] = [...rows, ['1012', 'PLY71 NET2', 'SW2 P03', net]];
    expect(opened(planOf(dual), '1008').network).toMatchObject({ closesByRing: false, isUplink: true });
    expect(opened(planOf(dual), '1003').network).toEqual({ cutOff: [], closesByRing: true, isUplink: false });
  });
});

describe('by what was seen', () => {
  const plan = planOf([
    ['2006', 'DIO22 O4', 'PRO51 IN', audio('PGM1', { onAir: true })],
    ['2009', 'X 1', 'Y 1', audio('Other')],
  ]);
  it('is kept apart from the plan, and as old as the older of its two looks', () => {
    const looks = [saw('DIO22 O4', '2006', {}), saw('Z 9', '2006')];
    const fold = foldAll(plan, [started(), ...looks]);
    const [link] = seenLinks(fold).ofCable('2006');
    expect([link?.from, link?.to, link?.basis]).toEqual([at('DIO22 O4'), at('Z 9'), 'seen']);
    expect(link?.at).toBe(looks[0]!.at);
    const { plan: planned, seen } = cableReach(fold, '2006');
    expect(planned.lines[0]?.words).toContain('PRO51 IN');
    expect(seen?.lines[0]?.words).toContain('Z 9');
  });
  it('is nothing where only one end was seen', () => {
    expect(cableReach(foldAll(plan, [started(), saw('DIO22 O4', '2006')]), '2006').seen).toBeNull();
  });
  it('takes a followed path, whatever the labels on it say', () => {
    const bare = statement(['DIO22 O4'], 'unlabelled', { basis: 'followed', joinedTo: at('Y 1') });
    const [link] = seenLinks(foldAll(plan, [started(), bare])).all;
    expect(link).toMatchObject({ basis: 'followed', from: at('DIO22 O4'), to: at('Y 1') });
  });
});
