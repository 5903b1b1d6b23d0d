// Every discrepancy kind from labels, ends, units, signals, settings and hazards. Severities: the scale of the trade,
// worst applies (common practice, no source). Plans and sightings invented.
import { describe, expect, it } from 'vitest';
import { slotToPlace } from '../../../src/core/plan/identity.ts';
import type { Plan, PlanSetting, Unit } from '../../../src/core/plan/model.ts';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { discrepancyToWords } from '../../../src/core/report/words/words.ts';
import { whichEnd } from '../../../src/core/rules/cableDiscrepancies.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, short, started, statement, withSignal } from '../record/build.ts';

const plan = planOf(
  [
    ['1003', 'CON32 NET', 'SW1 P03', withSignal('network', { onAir: true })],
    ['1004', 'MIO33 NET', 'SW1 P04', withSignal('poe')],
    ['2001', 'SAT1 OUT', 'AIO21 I1', withSignal('line-audio', { type: '2-pair', notes: 'tail T07' })],
    ['2003', 'AIO21 O2', 'HYB41 IN', withSignal('line-audio')],
    ['1010', 'PP1 P11', 'WP2 1', { status: 'spare' }],
  ],
  [
    { at: 'SW1 P09' },
    { at: 'SAT1 OUT', direction: 'out', connector: 'XLR', leg: 'left' },
    { at: 'AIO21 I1', direction: 'in' },
    { at: 'AIO21 O2', direction: 'out' },
    { at: 'HYB41 IN', direction: 'in' },
    { at: 'SW1 P10', spare: true },
  ],
);
const found = (events: AuditEvent[], over: Plan = plan) => short(foldAll(over, events).discrepancies());
const lookRest = (but: string[]) =>
  plan.jacks
    .filter((jack) => !but.some((words) => at(words) === jack.id))
    .map((jack) => {
      const cable = plan.cables.find((one) => one.ends.some((end) => end.place === jack.id));
      const words = jack.id.replace('/', ' ');
      return cable ? saw(words, cable.label) : statement([words], 'empty');
    });

describe('labels', () => {
  it('finds nothing where every label is in its planned jack', () => {
    expect(found([started(), ...lookRest([])])).toEqual([]);
  });
  it('wrong-jack is undecided while the planned jack is not known to be empty', () => {
    expect(found([saw('SW1 P03', '1004')])).toEqual(['wrong-jack undecided 1004']);
  });
  it('wrong-jack is a service fault when the planned jack was seen empty, and on-air for an on-air cable', () => {
    expect(found([saw('SW1 P09', '1004'), statement(['SW1 P04'], 'empty')])).toEqual([
      'empty-jack service 1004',
      'wrong-jack service 1004',
    ]);
    expect(found([saw('SW1 P09', '1003'), statement(['SW1 P03'], 'empty')])).toContain('wrong-jack on-air 1003');
  });
  it('empty-jack takes the severity of the service that hangs on it; a spare that is not plugged is no difference', () => {
    expect(found([statement(['SW1 P03', 'SW1 P04', 'PP1 P11'], 'empty')])).toEqual([
      'empty-jack on-air 1003',
      'empty-jack service 1004',
    ]);
  });
  it('unplanned-cable, and none where a place is inherited and the plan has nothing there', () => {
    expect(found([saw('SW1 P09', '7777')])).toEqual(['unplanned-cable undecided 7777']);
    expect(found([started({ occasion: 'inherit' }), saw('SW1 P09', '7777')])).toEqual([]);
  });
  it('a text that names a unit or rack never becomes a known cable', () => {
    expect(foldAll(plan, [saw('SW1 P09', 'MIO33')]).readingsAt(at('SW1 P09'))[0]?.cable).toBeNull();
  });
  it('unlabelled-cable, probable where the plan has one cable for the jack', () => {
    expect(found([statement(['SW1 P03', 'SW1 P09'], 'unlabelled')])).toEqual([
      'unlabelled-cable record 1003',
      'unlabelled-cable undecided',
    ]);
  });
  it('illegible-label is record where the pattern fits the planned label, else undecided', () => {
    const pattern = (p: string) => ({ plugs: [{ labels: [], pattern: p }] });
    expect(found([statement(['SW1 P03'], 'illegible', pattern('1?03'))])).toEqual(['illegible-label record 1?03']);
    expect(found([statement(['SW1 P03'], 'illegible', pattern('2?03'))])).toEqual(['illegible-label undecided 2?03']);
  });
  it('duplicate-label for a third end, with no wrong-jack beside it', () => {
    expect(found([saw('SW1 P03', '1003'), saw('CON32 NET', '1003'), saw('SW1 P09', '1003')])).toEqual([
      'duplicate-label undecided 1003',
    ]);
  });
  it('old-label-left counts the planned label of two on one plug', () => {
    expect(found([saw('SW1 P03', '0803 | 1003')])).toEqual(['old-label-left record 1003,0803']);
  });
  it('ends-reversed only by end marks', () => {
    expect(found([saw('SW1 P03', '1003-A'), saw('CON32 NET', '1003-B')])).toEqual([
      'ends-reversed record 1003',
      'ends-reversed record 1003',
    ]);
    expect(found([saw('SW1 P03', '1003-B')])).toEqual([]);
  });
  it('left-right-swapped by leg marks', () => {
    expect(found([saw('SAT1 OUT', '2001-R')])).toEqual(['left-right-swapped service 2001']);
    expect(found([saw('SAT1 OUT', '2001-L')])).toEqual([]);
  });
});

describe('ends', () => {
  it('one-end-labelled by following a cable', () => {
    expect(
      found([
        saw('SW1 P03', '1003', { basis: 'followed', joinedTo: at('CON32 NET') }),
        statement(['CON32 NET'], 'unlabelled'),
      ]),
    ).toEqual(['one-end-labelled record 1003']);
  });
  it('ends-differ by following a cable', () => {
    expect(
      found([saw('SW1 P03', '1003', { basis: 'followed', joinedTo: at('CON32 NET') }), saw('CON32 NET', 'X3')]),
    ).toContain('ends-differ record X3,1003');
  });
  it('abandoned-cable for a loose end that nothing names', () => {
    expect(found([statement(['loose: under the desk'], 'unlabelled')])).toEqual(['abandoned-cable record']);
  });
  it('spare-in-use for a spare cable in another jack, a followed spare, and a spare jack', () => {
    expect(found([saw('SW1 P09', '1010')])).toEqual(['spare-in-use undecided 1010']);
    expect(found([statement(['SW1 P09'], 'unlabelled', { joinedTo: at('PP1 P11') })])).toContain(
      'spare-in-use undecided 1010',
    );
    expect(found([saw('SW1 P10', '8888')])).toContain('spare-in-use undecided 8888');
  });
  it('not-installed only when everything in scope was looked at and nothing unread sits in its jacks', () => {
    const rest = lookRest(['SW1 P04', 'MIO33 NET']);
    const empty = [statement(['SW1 P04'], 'empty'), statement(['MIO33 NET'], 'empty')];
    expect(found([started(), ...rest, ...empty])).toEqual(['not-installed service 1004']);
    expect(found([started(), ...rest.slice(1), ...empty])).toEqual([
      'empty-jack service 1004',
      'empty-jack service 1004',
    ]);
    const hidden = [statement(['SW1 P04'], 'empty'), statement(['MIO33 NET'], 'refused', { reason: 'needs touch' })];
    expect(found([started(), ...rest, ...hidden])).not.toContain('not-installed service 1004');
    const unread = [statement(['SW1 P04'], 'empty'), statement(['MIO33 NET'], 'unlabelled')];
    expect(found([started(), ...rest, ...unread])).not.toContain('not-installed service 1004');
  });
  it('which end: a mark, the plan, the unit, what is left over, else open', () => {
    const fold = foldAll(plan, [saw('CON32 NET', '1003')]);
    const cable = fold.index.cables.get('1003')!;
    expect(whichEnd(fold, cable, at('SW1 P09'), 'A')).toBe('A');
    expect(whichEnd(fold, cable, at('CON32 NET'), null)).toBe('A');
    expect(whichEnd(fold, cable, at('SW1 P09'), null)).toBe('B');
    expect(whichEnd(fold, cable, at('PP1 P12'), null)).toBe('B');
    expect(whichEnd(foldAll(plan, []), cable, at('PP1 P12'), null)).toBeNull();
  });
});

describe('signals and directions', () => {
  it('a network cable in an audio jack is a hazard to equipment, also where the jack is known by its row only', () => {
    expect(found([saw('AIO21 I1', '1004')])).toContain('signal-clash equipment 1004');
    expect(found([saw('AIO21 I3', '1004')])).toContain('signal-clash equipment 1004');
  });
  it('is found by following an unlabelled lead as well', () => {
    expect(found([statement(['AIO21 I3'], 'unlabelled', { basis: 'followed', joinedTo: at('SW1 P09') })])).toContain(
      'signal-clash equipment',
    );
  });
  it('output to output is a hazard to equipment, input to input a service fault', () => {
    expect(found([statement(['SAT1 OUT'], 'unlabelled', { joinedTo: at('AIO21 O2') })])).toContain(
      'direction-clash equipment',
    );
    expect(found([statement(['AIO21 I1'], 'unlabelled', { joinedTo: at('HYB41 IN') })])).toContain(
      'direction-clash service',
    );
  });
});

describe('what the eye sees beside the label', () => {
  it('wrong-connector, wrong-cable-type, undeclared-adapter, and a declared adapter is none', () => {
    const plug = { labels: [{ text: '2001' }] };
    expect(found([statement(['SAT1 OUT'], 'label', { plugs: [{ ...plug, connector: 'jack plug' }] })])).toEqual([
      'wrong-connector service 2001',
    ]);
    expect(found([statement(['SAT1 OUT'], 'label', { plugs: [{ ...plug, cableType: 'Cat 6' }] })])).toEqual([
      'wrong-cable-type service 2001',
    ]);
    expect(found([statement(['SAT1 OUT'], 'label', { plugs: [{ ...plug, adapter: 'pad' }] })])).toEqual([
      'undeclared-adapter record 2001',
    ]);
    expect(found([statement(['SAT1 OUT'], 'label', { plugs: [{ ...plug, adapter: 'T07' }] })])).toEqual([]);
  });
});

describe('units', () => {
  const unit = (label: string, u: number): Unit => ({
    id: label,
    label,
    rack: 'R2',
    u,
    heightU: 1,
    mounted: 'front',
    faces: [],
    implied: false,
  });
  const racked = planOf([], [], {
    racks: [{ id: 'R2', label: 'R2', heightU: 42, numbering: 'bottom-up', implied: false }],
    units: [unit('HYB41', 24), unit('COD42', 22)],
  });
  const sawUnit = (u: number, label: string | null) =>
    event('sighting', {
      places: [slotToPlace('R2', u)],
      said: [`R2 U${u}`],
      state: label ? 'label' : 'empty',
      plugs: label ? [{ labels: [{ text: label }] }] : [],
      basis: 'seen',
    });
  it('unit-moved, unit-replaced, unit-unlisted, unit-not-found', () => {
    expect(found([sawUnit(26, 'HYB41'), sawUnit(24, null)], racked)).toEqual(['unit-moved record HYB41']);
    expect(found([sawUnit(22, 'COD99')], racked)).toEqual(['unit-replaced record COD99']);
    expect(found([sawUnit(30, 'NEW1')], racked)).toEqual(['unit-unlisted record NEW1']);
    expect(found([sawUnit(24, null)], racked)).toEqual(['unit-not-found service HYB41']);
    expect(found([sawUnit(24, 'HYB41')], racked)).toEqual([]);
  });
});

describe('settings and hazards', () => {
  const settings: PlanSetting[] = [
    { unit: 'MIO31', place: at('MIO31 M1'), name: 'phantom', value: 'off' },
    { unit: 'MIO31', place: at('MIO31 M1'), name: 'microphone', value: 'ribbon' },
    { unit: 'MIO31', place: at('MIO31 M2'), name: 'phantom', value: 'on' },
    { unit: 'MIO31', name: 'address', value: '192.0.2.31' },
    { unit: 'MIO33', name: 'address', value: '192.0.2.33' },
    { unit: 'MIO31', name: 'serial', value: 'S-1' },
  ];
  const mics = planOf(
    [
      ['3001', 'MIC1 XLR', 'MIO31 M1'],
      ['3002', 'MIC2 XLR', 'MIO31 M2'],
      ['1004', 'MIO33 NET', 'SW1 P04'],
    ],
    [],
    { settings },
  );
  const read = (name: string, value: string, place?: string) =>
    event('setting-read', { unit: 'MIO31', ...(place ? { place: at(place) } : {}), name, value, basis: 'page' });
  it('phantom-hazard when 48 V reads on at a ribbon microphone', () => {
    expect(found([read('phantom', 'on', 'MIO31 M1')], mics)).toEqual(['phantom-hazard equipment']);
    expect(found([read('phantom', 'off', 'MIO31 M1')], mics)).toEqual([]);
  });
  it('phantom-hazard when the ribbon is plugged where the plan has 48 V on', () => {
    expect(found([saw('MIO31 M2', '3001')], mics)).toContain('phantom-hazard equipment 3001');
  });
  it('setting-differs, duplicate-address and unit-replaced by serial', () => {
    expect(found([read('address', '192.0.2.33')], mics)).toEqual([
      'duplicate-address on-air 192.0.2.33',
      'setting-differs on-air',
    ]);
    expect(found([read('serial', 'S-2')], mics)).toEqual(['unit-replaced record']);
    expect(found([read('address', '192.0.2.31')], mics)).toEqual([]);
  });
  it('duplicate-channel needs at least one page that was really read', () => {
    const twice = planOf([], [], {
      settings: [
        { unit: 'A', place: 'A/I1', name: 'channel', value: '2101' },
        { unit: 'B', place: 'B/I1', name: 'channel', value: '2201' },
      ],
    });
    const page = event('setting-read', { unit: 'B', place: 'B/I1', name: 'channel', value: '2101', basis: 'page' });
    expect(found([page], twice)).toEqual(['duplicate-channel on-air 2101', 'setting-differs on-air']);
  });
  it('polarity-reversed and left-right-swapped from a tester', () => {
    expect(found([read('polarity', 'reversed'), read('legs', 'swapped')], mics)).toEqual([
      'left-right-swapped service',
      'polarity-reversed service',
    ]);
  });
  it('hazard-seen carries the severity of the list and is never hidden', () => {
    expect(found([event('hazard-seen', { place: at('SW1 P04'), hazard: 'mains', note: 'cover off' })], mics)).toEqual([
      'hazard-seen people',
    ]);
  });
});

describe('the plan', () => {
  it('plan-contradiction comes with its rows', () => {
    const torn = planOf(
      [
        ['1', 'A O1', 'B I1'],
        ['2', 'C O1', 'B I1'],
      ],
      [],
      {
        contradictions: [
          {
            type: 'jack-claimed-twice',
            cables: ['1', '2'],
            places: ['B/I1'],
            rows: [
              { sheet: 'Cables', row: 2 },
              { sheet: 'Cables', row: 3 },
            ],
          },
        ],
      },
    );
    const fold = foldAll(torn, []);
    const [only] = fold.discrepancies();
    expect(only?.kind).toBe('plan-contradiction');
    expect(discrepancyToWords(fold.index, only!).line).toContain('Cables row 2, Cables row 3');
  });
});
