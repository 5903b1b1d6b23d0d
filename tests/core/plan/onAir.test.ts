// What is on the air by the plan: marks in its texts, the station's own words, and all that a marked circuit runs over.
// Invented data; what follows from a mark is common practice, no source.
import { describe, expect, it } from 'vitest';
import { impactOf } from '../../../src/core/impact/impact.ts';
import { plannedLinks, seenLinks } from '../../../src/core/impact/links.ts';
import { slotToPlace } from '../../../src/core/plan/identity.ts';
import type { Plan } from '../../../src/core/plan/model.ts';
import { isOnAir, onAirOf } from '../../../src/core/plan/onAir.ts';
import { indexPlan } from '../../../src/core/plan/planIndex.ts';
import { cableView } from '../../../src/core/report/plan/planView.ts';
import { walkView } from '../../../src/core/report/walk/walkView.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { createStation } from '../../../src/core/rules/station.ts';
import { deskCheck } from '../../../src/core/schedule/desk/deskCheck.ts';
import { USUAL_RULES } from '../../../src/core/schedule/desk/siteRules.ts';
import { at, type CableRow, event, planOf, saw, short, started, statement, withSignal } from '../record/build.ts';

const line = (more = {}) => withSignal('line-audio', more);
const marked = (plan: Plan, airWords: readonly string[] = []) =>
  [...onAirOf({ index: indexPlan(plan), airWords }).cables].sort();

describe('a mark in the plan’s texts', () => {
  it.each([
    ['the cable’s name', 'STL-1', {}],
    ['its circuit', '2001', { circuit: 'transmitter feed left' }],
    ['its signal', '2001', { signalText: 'programme' }],
    ['its note', '2001', { notes: 'via tie 4; do not unplug' }],
    ['the sheet’s own column', '2001', { onAir: true }],
  ])('counts in %s', (_, label, more) => {
    const plan = planOf([
      [label, 'DSK O1', 'PRC I1', line(more)],
      ['2002', 'DSK O2', 'REC I1', line({ circuit: 'logging', notes: 'programming cable behind it' })],
    ]);
    expect(marked(plan)).toEqual([label]);
  });

  it('counts in the note of a jack, and in a list of circuits', () => {
    const rows: CableRow[] = [
      ['2001', 'DSK O1', 'PRC I1', line()],
      ['2002', 'DSK O2', 'REC I1', line()],
      ['2003', 'DSK O3', 'LNK I1', line()],
    ];
    expect(marked(planOf(rows, [{ at: 'REC I1', notes: 'do not move' }]))).toEqual(['2002']);
    expect(marked(planOf(rows, [], { circuits: [{ name: 'Main programme', hops: ['2001', '2003'] }] }))).toEqual([
      '2001',
      '2003',
    ]);
    const hops = [{ name: 'Feed 3', hops: ['2001', 'studio-transmitter link'] }];
    expect(marked(planOf(rows, [], { circuits: hops }))).toEqual(['2001']);
  });

  it('counts by the station’s own words beside the usual ones', () => {
    const plan = planOf([
      ['2001', 'DSK O1', 'PRC I1', line({ circuit: 'PGM 1' })],
      ['2002', 'DSK O2', 'REC I1', line({ circuit: 'air chain' })],
      ['2003', 'DSK O3', 'LNK I1', line({ circuit: 'PGMS' })],
    ]);
    expect(marked(plan)).toEqual(['2002']);
    expect(marked(plan, ['pgm'])).toEqual(['2001', '2002']);
  });

  it('leaves the plan itself as it is', () => {
    const plan = planOf([['2001', 'DSK O1', 'PRC I1', line({ circuit: 'programme' })]]);
    const before = JSON.stringify(plan);
    expect(marked(plan, ['PRC'])).toEqual(['2001']);
    expect(JSON.stringify(plan)).toBe(before);
  });
});

describe('what a marked circuit runs over', () => {
  it('inherits: each cable of its name, and each hop that a list gives it', () => {
    const plan = planOf(
      [
        ['2001', 'DSK O1', 'PP1 J1', line({ circuit: 'Feed 7', notes: 'ask before you touch' })],
        ['2002', 'PP1 J9', 'PRC I1', line({ circuit: 'feed-7', notes: 'do not unplug' })],
        ['2003', 'PRC O1', 'LNK I1', line()],
        ['2004', 'DSK O2', 'REC I1', line({ circuit: 'Feed 8' })],
      ],
      [],
      { circuits: [{ name: 'Feed 7', hops: ['2003', 'CODEC'] }] },
    );
    expect(marked(plan)).toEqual(['2001', '2002', '2003']);
  });

  it('does not make a kind of lead of one marked lead', () => {
    const net = (more = {}) => withSignal('network', { circuit: 'network', ...more });
    const plan = planOf([
      ['1001', 'SW1 P1', 'SW2 P1', net({ notes: 'ON AIR - do not touch' })],
      ['1002', 'SW1 P2', 'PCA NET', net()],
    ]);
    expect(marked(plan)).toEqual(['1001']);
  });

  it('names its units: those at its ends and those among its hops, not the switches of a marked lead', () => {
    const plan = planOf(
      [
        ['2001', 'DSK O1', 'PRC I1', line({ circuit: 'programme' })],
        ['1001', 'SW1 P1', 'SW2 P1', withSignal('network', { notes: 'do not unplug' })],
        ['2002', 'COD O1', 'REC I1', line({ circuit: 'logging' })],
      ],
      [],
      { circuits: [{ name: 'air chain', hops: ['2001', 'COD'] }] },
    );
    const { units } = onAirOf({ index: indexPlan(plan), airWords: [] });
    expect([...units].sort()).toEqual(['COD', 'DSK', 'PRC']);
  });
});

describe('what feeds a marked circuit', () => {
  const microphone = withSignal('microphone', { circuit: 'host' });

  it('inherits through known ways: a microphone by a panel, a route and the desk', () => {
    const plan = planOf(
      [
        ['3001', 'MIC1 XLR', 'WPA 1 front', microphone],
        ['3002', 'WPA 1 rear', 'DSK M1', withSignal('microphone')],
        ['3003', 'MIC2 XLR', 'DSK M2', withSignal('microphone')],
        ['2001', 'DSK O1', 'PRC I1', line({ circuit: 'programme' })],
      ],
      [],
      { routes: [{ unit: 'DSK', from: at('DSK M1'), to: at('DSK O1') }] },
    );
    expect(marked(plan)).toEqual(['2001', '3001', '3002']);
  });

  it('is not guessed through a unit whose ways nobody wrote down, nor followed forward', () => {
    const plan = planOf([
      ['3001', 'MIC1 XLR', 'DSK M1', microphone],
      ['2001', 'DSK O1', 'PB1 J1 front', line({ circuit: 'programme' })],
      ['2002', 'PB1 J1 rear', 'MON IN', line({ circuit: 'monitor' })],
    ]);
    expect(marked(plan)).toEqual(['2001']);
  });

  it('is found against the order of the sheet, by the direction of the jacks', () => {
    const plan = planOf(
      [
        ['3001', 'DSK M1', 'MIC1 XLR', microphone],
        ['2001', 'PRC I1', 'DSK O1', line({ circuit: 'programme' })],
      ],
      [
        { at: 'DSK M1', direction: 'in' },
        { at: 'PRC I1', direction: 'in' },
        { at: 'DSK O1', direction: 'out' },
      ],
      { routes: [{ unit: 'DSK', from: at('DSK M1'), to: at('DSK O1') }] },
    );
    expect(marked(plan)).toEqual(['2001', '3001']);
  });

  it('comes to an end where a plan leads round in a circle', () => {
    const plan = planOf(
      [
        ['2001', 'A O', 'B I', line({ circuit: 'programme' })],
        ['2002', 'B O', 'A I', line()],
      ],
      [],
      {
        routes: [
          { unit: 'A', from: at('A I'), to: at('A O') },
          { unit: 'B', from: at('B I'), to: at('B O') },
        ],
      },
    );
    expect(marked(plan)).toEqual(['2001', '2002']);
  });
});

describe('whoever judges by it', () => {
  const plan = planOf([
    ['2001', 'DSK O1', 'PRC I1', line({ circuit: 'transmitter feed' })],
    ['2002', 'DSK O2', 'REC I1', line({ circuit: 'PGM 1' })],
    ['1001', 'PRC NET', 'SW1 P1', withSignal('network')],
    ['1002', 'PCA NET', 'SW1 P2', withSignal('network')],
    ['1003', 'PCB NET', 'SW1 P3', withSignal('network')],
  ]);

  it('sees it in what goes off, by the plan and as seen, also with the network of a unit', () => {
    const fold = foldAll(plan, [started(), saw('DSK O1', '2001'), saw('PRC I1', '2001')]);
    expect(plannedLinks(fold).ofCable('2001')[0]?.onAir).toBe(true);
    expect(plannedLinks(fold).ofCable('2002')[0]?.onAir).toBe(false);
    expect(seenLinks(fold).ofCable('2001')[0]?.onAir).toBe(true);
    const links = plannedLinks(fold);
    const { affected } = impactOf(fold, links, links.ofCable('1001'));
    expect(affected.map(({ link }) => [link.label, link.onAir])).toEqual([
      ['2001', true],
      ['1001', false],
    ]);
    const own = foldAll(fold.index, [started()], { airWords: ['PGM'] });
    expect(plannedLinks(own).ofCable('2002')[0]?.onAir).toBe(true);
    expect(plannedLinks(fold).ofCable('2002')[0]?.onAir).toBe(false);
  });

  it('sees it in differences, and in the walk’s warning', () => {
    const looks = [statement(['DSK O1'], 'empty'), statement(['DSK O2'], 'empty')];
    const fold = foldAll(plan, [started(), ...looks]);
    expect(short(fold.discrepancies())).toEqual(['empty-jack on-air 2001', 'empty-jack service 2002']);
    expect(walkView(fold, 'a', at('DSK O1'))?.onAir).toBe(true);
    expect(walkView(fold, 'a', at('DSK O2'))?.onAir).toBe(false);
    const own = foldAll(plan, [started(), ...looks], { airWords: ['PGM'] });
    expect(short(own.discrepancies())).toEqual(['empty-jack on-air 2001', 'empty-jack on-air 2002']);
  });

  it('sees it in a unit of the chain that is gone from its rack', () => {
    const units = plan.units.map((unit, i) => ({ ...unit, room: undefined, rack: 'R1', u: 10 + i }));
    const racks = [{ id: 'R1', label: 'R1', heightU: 42, numbering: 'bottom-up' as const, implied: false }];
    const slots = ['PRC', 'REC'].map((id) => slotToPlace('R1', 10 + plan.units.findIndex((unit) => unit.id === id)));
    const gone = slots.map((place) =>
      event('sighting', { places: [place], said: [place], state: 'empty', plugs: [], basis: 'seen' }),
    );
    const fold = foldAll({ ...plan, racks, units } as Plan, [started(), ...gone]);
    expect(short(fold.discrepancies())).toEqual(['unit-not-found on-air PRC', 'unit-not-found service REC']);
  });

  it('sees it in the desk check', () => {
    const twice = planOf([
      ['2001', 'DSK O1', 'PRC I1', line({ circuit: 'PGM 1' })],
      ['2002', 'DSK O2', 'REC I1', line({ circuit: 'logging', length: '2 m' })],
    ]);
    const clash = {
      ...twice,
      jacks: twice.jacks.map((jack) => ({ ...jack, direction: 'in' as const, implied: false })),
    };
    const severities = (airWords?: string[]) =>
      deskCheck(clash, { ...USUAL_RULES, airWords }).map(({ kind, severity }) => `${kind} ${severity}`);
    expect(severities()).toEqual(['direction-clash service', 'direction-clash service']);
    expect(severities(['PGM'])).toEqual(['direction-clash on-air', 'direction-clash service']);
  });

  it('hears of new words of the station at once, in every audit and on the cable’s page', () => {
    const station = createStation();
    station.addPlan('p', plan);
    const adopted = event('plan-adopted', { revision: 'p', name: 'test', bytes: 1 }, { audit: undefined });
    station.addTexts([adopted, started(), statement(['DSK O2'], 'empty')].map((one) => JSON.stringify(one)));
    const now = () => [short(station.audit('a')!.fold!.discrepancies()), cableView(station, '2002')!.onAir];
    expect(now()).toEqual([['empty-jack service 2002'], false]);
    const rules = event('rules-set', { rules: { ...USUAL_RULES, airWords: ['PGM'] } }, { audit: undefined });
    station.addTexts([JSON.stringify(rules)]);
    expect(now()).toEqual([['empty-jack on-air 2002'], true]);
    expect(isOnAir({ index: station.planOf('p')!, airWords: ['PGM'] }, '2002')).toBe(true);
  });
});
