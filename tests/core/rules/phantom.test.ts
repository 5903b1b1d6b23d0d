// Phantom power in whatever words, and the hazards that follow at once. P48 is that of IEC 61938; what it harms and the
// order of muting, switching and waiting are trade practice, no published value. Plans and people are invented.
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../../src/core/plan/model.ts';
import { verdictAt } from '../../../src/core/report/walk/verdict.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import { listOf } from '../fixes/floorModel.ts';
import { at, event, planOf, saw, short, started, withSignal } from '../record/build.ts';

const mic = (more: Partial<Plan> = {}) =>
  planOf(
    [
      ['3003', 'MIC3 XLR', 'MIO31 M3', withSignal('microphone')],
      ['3004', 'MIC4 XLR', 'MIO31 M4', withSignal('microphone')],
      ['2047', 'PLA1 OUT', 'MIO31 LINE1', withSignal('line-audio')],
      ['2048', 'PLA2 OUT', 'MIO31 LINE2', { type: 'RCA lead' }],
    ],
    [],
    {
      settings: [
        { unit: 'MIO31', place: at('MIO31 M3'), name: 'phantom', value: '48V OFF' },
        { unit: 'MIO31', place: at('MIO31 M3'), name: 'microphone', value: 'ribbon' },
        { unit: 'MIO31', place: at('MIO31 M4'), name: '+48V', value: 'yes' },
      ],
      ...more,
    },
  );
const read = (place: string, value: string, name = 'phantom') =>
  event('setting-read', { unit: 'MIO31', place: at(place), name, value, basis: 'page' });
const foldOf = (events: ReturnType<typeof read>[], plan = mic()) => foldAll(plan, [started(), ...events]);
const found = (events: ReturnType<typeof read>[], plan = mic()) => short(foldOf(events, plan).discrepancies());

const ON = ['on', 'On', 'yes', '+48V', '48 V', '+48 v', 'P48', 'phantom', '48V on', 'Phantom power: on', '1'];
const OFF = ['off', 'no', '48V OFF', '+48 off', 'P48 off', 'no phantom', '—', '-', '0'];

describe('phantom power', () => {
  it.each(ON)('“%s” is on: a hazard at a ribbon at once', (text) => {
    expect(found([read('MIO31 M3', text)])).toEqual(['phantom-hazard equipment']);
    expect(found([read('MIO31 M4', text)])).toEqual([]);
  });
  it.each(OFF)('“%s” is off', (text) => {
    expect(found([read('MIO31 M3', text)])).toEqual([]);
    expect(found([read('MIO31 M4', text)])).toEqual(['setting-differs service']);
  });
  it('is a hazard on a line source and on an unbalanced one', () => {
    expect(found([read('MIO31 LINE1', '+48V')])).toEqual(['phantom-hazard equipment']);
    expect(found([read('MIO31 LINE2', 'on', 'P48')])).toEqual(['phantom-hazard equipment']);
  });
  it('is a hazard where the plug of a line source was read in an input that has it', () => {
    expect(found([saw('MIO31 M4', '2047')])).toContain('phantom-hazard equipment 2047');
    expect(found([saw('MIO31 M4', '3003')])).toContain('phantom-hazard equipment 3003');
    expect(found([saw('MIO31 M4', '3004')])).toEqual([]);
  });
  it('knows a ribbon by the description of its unit, its name or a note, without a column for signals', () => {
    const named = (how: Partial<Plan['units'][number]>) => {
      const bare = planOf([['3003', 'MIC3 XLR', 'MIO31 M3']]);
      return { ...bare, units: bare.units.map((unit) => (unit.id === 'MIC3' ? { ...unit, ...how } : unit)) };
    };
    expect(found([read('MIO31 M3', 'on')], named({ description: 'ribbon microphone' }))).toEqual([
      'phantom-hazard equipment',
    ]);
    expect(found([read('MIO31 M3', 'on')], named({ label: 'Old ribbon' }))).toEqual(['phantom-hazard equipment']);
    expect(found([read('MIO31 M3', 'on')], named({ description: 'microphone' }))).toEqual([]);
    const noted = planOf([['3003', 'MIC3 XLR', 'MIO31 M3', { notes: 'ribbon!!' }]]);
    expect(found([read('MIO31 M3', 'on')], noted)).toEqual(['phantom-hazard equipment']);
    const flat = planOf([['77', 'PC1 J1', 'DRV J1', { notes: 'ribbon cable' }]]);
    expect(
      found(
        [event('setting-read', { unit: 'DRV', place: at('DRV J1'), name: 'phantom', value: 'on', basis: 'seen' })],
        flat,
      ),
    ).toEqual([]);
  });
  it('says the hazard at the jack, what to do before any plug moves, and what hangs there', () => {
    const verdict = verdictAt(foldOf([saw('MIO31 M3', '3003'), read('MIO31 M3', '+48V')]), at('MIO31 M3'));
    expect(verdict.variant).toBe('hazard');
    expect(`${verdict.second} ${verdict.order}`).toMatch(/ribbon.*mute the channel and the monitors.*then.*off.*wait/i);
  });
  it('taken back, the hazard of the plug goes with it', () => {
    const on = read('MIO31 M3', 'on');
    const plan = mic({ settings: [{ unit: 'MIO31', place: at('MIO31 M3'), name: 'microphone', value: 'ribbon' }] });
    const fold = foldOf([saw('MIO31 M3', '3003'), on], plan);
    expect(short(fold.discrepancies())).toEqual(['phantom-hazard equipment', 'phantom-hazard equipment 3003']);
    fold.add([event('withdrawn', { target: { event: on.id }, why: 'undo' })]);
    expect(fold.discrepancies()).toEqual([]);
  });
});

describe('a step that switches phantom', () => {
  it.each([
    ['a difference, off against the plan', [read('MIO31 M4', 'P48 off')]],
    ['a hazard at a ribbon', [read('MIO31 M3', '+48V')]],
    ['a hazard at a line source', [read('MIO31 LINE1', '48 V')]],
  ])('has the mute before it and the unmute after it: %s', (_, events) => {
    const steps = listOf(mic(), [started(), ...events]).blocks.flatMap((block) => block.steps);
    const tasks = steps.map(({ task }) => task);
    const at = tasks.findIndex((task) => task === 'phantom-off' || task === 'phantom-on');
    expect(at).toBeGreaterThan(0);
    expect(tasks.slice(0, at)).toContain('mute');
    expect(tasks.slice(at)).toContain('unmute');
    if (tasks[at] === 'phantom-off') expect(tasks.slice(at, tasks.indexOf('unmute'))).toContain('discharge');
  });
});

describe('a sheet', () => {
  const planFrom = (rows: string[][]) => {
    const read = readTables([{ name: 'Cables', rows }], { name: 'test' });
    if (read.type !== 'plan') throw new Error(read.type);
    return read.plan;
  };
  it('is read by the same words, its notes too where no column says what a row is', () => {
    const plan = planFrom([
      ['Cable', 'From', 'To', 'Notes'],
      ['3003', 'MIC3 XLR', 'MIO31 M3', 'ribbon, 48V OFF'],
      ['3004', 'MIC4 XLR', 'MIO31 M4', 'P48 on'],
    ]);
    expect(plan.settings.map(({ place, name, value }) => [place, name, value])).toEqual([
      ['MIO31/M3', 'phantom', 'off'],
      ['MIO31/M3', 'microphone', 'ribbon'],
      ['MIO31/M4', 'phantom', 'on'],
    ]);
  });
});
