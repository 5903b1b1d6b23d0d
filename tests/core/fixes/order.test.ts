// What stands together, what goes first and what waits. Common practice in keeping a station on the air, no source; data
// invented.
import { describe, expect, it } from 'vitest';
import type { FixList } from '../../../src/core/fixes/fixes.ts';
import { isMovement, onAirOf } from '../../../src/core/fixes/step.ts';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { type FixesView, fixesView } from '../../../src/core/report/fixesView.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement, withSignal } from '../record/build.ts';
import { listOf } from './floorModel.ts';

const audio = (circuit: string, onAir = false) => withSignal('line-audio', { circuit, onAir });
/** Three crossings in walking order; the first and the last carry the programme. */
const plan = planOf([
  ['2001', 'DSK O1', 'FR1 P01', audio('programme', true)],
  ['2002', 'DSK O2', 'FR1 P02', audio('cue A')],
  ['2003', 'DSK O3', 'FR1 P03', audio('cue B')],
  ['2004', 'DSK O4', 'FR1 P04', audio('cue C')],
  ['2005', 'DSK O5', 'FR2 P01', audio('programme', true)],
  ['2006', 'DSK O6', 'FR2 P02', audio('cue D')],
]);
const crossed = [
  ['FR1 P01', '2002', 'DSK O2'],
  ['FR1 P02', '2001', 'DSK O1'],
  ['FR1 P03', '2004', 'DSK O4'],
  ['FR1 P04', '2003', 'DSK O3'],
  ['FR2 P01', '2006', 'DSK O6'],
  ['FR2 P02', '2005', 'DSK O5'],
] as const;
const events = [
  started(),
  ...crossed.map(([place, label, far]) => saw(place, label, { basis: 'followed', joinedTo: at(far) })),
];
const labelsOf = (list: FixList) =>
  list.blocks.map(({ steps }) =>
    steps
      .filter(isMovement)
      .map(({ label }) => label)
      .join(' '),
  );

describe('the order of the work', () => {
  it('puts together what takes one circuit off the air, and keeps the cue in the hand, not the programme', () => {
    const list = listOf(plan, events);
    expect(labelsOf(list)).toEqual(['2002 2001 2002 2006 2005 2006', '2004 2003 2004']);
    expect(list.blocks.map(({ steps }) => [...onAirOf(steps)])).toEqual([['circuit programme'], []]);
    expect(list.blocks[0]!.steps.map(({ task }) => task)).toEqual([
      'listen-before',
      ...['move', 'move', 'move', 'listen-after'],
      ...['move', 'move', 'move', 'listen-after'],
    ]);
  });

  it('names what goes off, on the air first, and counts it once', () => {
    const view = fixesView(foldAll(plan, events), 'a');
    expect(view.totals).toMatchObject({ movements: 9, onAir: 1, services: 4 });
    const move = view.blocks[0]!.steps.find(({ label }) => label === '2001')!;
    expect(move).toMatchObject({
      onAir: true,
      words: 'FR1 P02: move 2001 to P01.',
      back: ['FR1 P01: move 2001 to P02.'],
    });
    expect(move.interrupts[0]).toBe('2001, programme, on air (by plan and as seen)');
  });

  it('is allowed by the window that was agreed last, named as such, and waits again once that is taken back', () => {
    const agreed = (name: string, racks: string[] = [], rooms: string[] = []) =>
      event('window-agreed', { name, permission: 'disconnect', scope: { racks, rooms }, by: 'the controller' });
    const view = (...more: AuditEvent[]) => fixesView(foldAll(plan, [...events, ...more]), 'a');
    const waits = (one: FixesView) => one.blocks.map((block) => [block.waits === null, block.onlyInWindow]);
    const whole = agreed('Monday 02:00');
    expect(waits(view())).toEqual([
      [false, false],
      [false, false],
    ]);
    expect(view(whole).window).toMatchObject({ name: 'Monday 02:00', where: 'everywhere', by: 'the controller' });
    expect(waits(view(whole))).toEqual([
      [true, true],
      [true, true],
    ]);
    const elsewhere = agreed('Tuesday', [], ['Transmitter']);
    expect(view(elsewhere, whole).window?.name).toBe('Tuesday');
    expect(waits(view(whole, elsewhere))).toEqual(waits(view()));
    const back = event('withdrawn', { target: { event: elsewhere.id }, why: 'undo' });
    expect(view(whole, elsewhere, back).window?.name).toBe('Monday 02:00');
  });

  it('goes first in the window where it lies within it, and waits elsewhere', () => {
    const window = {
      name: 'Monday 00:00',
      permission: 'disconnect',
      has: (place: string) => place.startsWith('FR1/') || place.startsWith('DSK/'),
    } as const;
    const list = listOf(plan, events, { permission: 'look', window });
    // The programme runs over both frames: all of it waits, so that it goes off once.
    expect(list.blocks.map(({ window: name, waits }) => [name, waits?.type ?? null])).toEqual([
      ['Monday 00:00', null],
      [null, 'permission'],
    ]);
    expect(labelsOf(list)[0]).toBe('2004 2003 2004');
  });

  it('waits where a place was left out of the audit, with the reason', () => {
    const left = started({ exclusions: [{ what: 'FR2', label: 'FR2', reason: 'live guest' }] });
    const list = listOf(plan, [left, ...events.slice(1)]);
    expect(list.blocks.map(({ waits }) => waits)).toContainEqual({ type: 'left-out', reason: 'live guest' });
  });

  it('keeps hands off while a hazard to people at the same unit is open, and tells it first', () => {
    const hazard = event('hazard-seen', { place: at('FR1 P03'), hazard: 'mains', note: 'bare wire' });
    const list = listOf(plan, [...events, hazard]);
    expect(list.blocks[0]!.steps[0]).toMatchObject({ action: 'ask', task: 'tell-hazard', to: at('FR1 P03') });
    expect(list.blocks.slice(1).map(({ waits }) => waits?.type)).toEqual(['hazard', 'hazard']);
  });

  it('keeps hands off a unit that is a hazard as a whole, and off no other', () => {
    const hazard = event('hazard-seen', { place: 'FR1', hazard: 'mains', note: 'case is live' });
    const list = listOf(plan, [...events, hazard]);
    expect(list.blocks.slice(1).map(({ waits }) => waits?.type)).toEqual(['hazard', 'hazard']);
    const other = event('hazard-seen', { place: 'FR12', hazard: 'mains', note: 'case is live' });
    expect(listOf(plan, [...events, other]).blocks.map(({ waits }) => waits)).not.toContainEqual(
      expect.objectContaining({ type: 'hazard' }),
    );
  });

  it('never moves a plug of mains; that is asked of a licensed trade', () => {
    const power = planOf([
      ['9001', 'STRIP 1', 'SW1 PSU', withSignal('mains')],
      ['9002', 'STRIP 2', 'SW2 PSU', withSignal('mains')],
    ]);
    const list = listOf(power, [
      started(),
      saw('SW1 PSU', '9002', { basis: 'followed', joinedTo: at('STRIP 2') }),
      saw('SW2 PSU', '9001', { basis: 'followed', joinedTo: at('STRIP 1') }),
    ]);
    expect(list.blocks.flatMap(({ steps }) => steps.map(({ task }) => task))).toEqual(['trade']);
    expect(list.blocks[0]!.steps[0]!.caution).toContain('Mains');
  });
});

describe('labels', () => {
  it('go on at every end before the old ones come off, and follow a plug that moves', () => {
    const pair = planOf([
      ['2004', 'COD42 OUT', 'DIO22 I1'],
      ['2005', 'DIO22 O1', 'COD42 IN'],
    ]);
    const exchanged = [
      saw('DIO22 O1', '2004'),
      saw('COD42 IN', '2004'),
      saw('COD42 OUT', '2005'),
      saw('DIO22 I1', '2005'),
    ];
    const list = listOf(pair, [started(), ...exchanged]);
    const tasks = list.blocks.flatMap(({ steps }) => steps.map(({ task }) => task));
    expect(tasks).toEqual([...Array(4).fill('label-put'), ...Array(4).fill('label-off')]);

    const one = planOf([['1003', 'CON32 NET', 'SW1 P03']], [{ at: 'SW1 P04' }]);
    const astray = [
      started(),
      saw('SW1 P04', '1003 | N-17', { basis: 'followed', joinedTo: at('CON32 NET') }),
      statement(['SW1 P03'], 'empty'),
      saw('CON32 NET', '1003'),
    ];
    const steps = listOf(one, astray).blocks.flatMap((block) => block.steps);
    expect(
      steps.filter(({ action }) => action === 'plug' || action === 'relabel').map(({ task, to }) => `${task} ${to}`),
    ).toEqual(['move SW1/P03', 'label-off SW1/P03']);
  });
});
