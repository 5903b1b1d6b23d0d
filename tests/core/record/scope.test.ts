// The scope of an audit grows by an act of its own: two phones that add at once both count, in whatever order they
// arrive; undo takes one addition back. Data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Unit } from '../../../src/core/plan/model.ts';
import { type Payload, readEvent } from '../../../src/core/record/events.ts';
import { reconciliation } from '../../../src/core/report/reconciliation.ts';
import { scopeMore } from '../../../src/core/report/walk/scopeView.ts';
import { nextOpen } from '../../../src/core/report/walk/walkStops.ts';
import { walkView } from '../../../src/core/report/walk/walkView.ts';
import { createFold, foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from './build.ts';

const rack = (id: string) => ({
  id,
  label: id,
  room: 'Technical room',
  heightU: 42,
  numbering: 'bottom-up' as const,
  implied: false,
});
const bare = planOf([
  ['1001', 'CON30 NET', 'SW1 P01'],
  ['1002', 'MIO31 NET', 'SW1 P02'],
  ['1003', 'CON32 NET', 'SW2 P01'],
]);
const RACK_OF: Record<string, string> = { SW1: 'R1', MIO31: 'R2', CON32: 'R2' };
const plan = {
  ...bare,
  racks: [rack('R1'), rack('R2')],
  units: bare.units.map((unit): Unit => {
    const { room: _, ...inRack } = unit;
    if (unit.id === 'CON30') return { ...unit, room: 'Studio 2' };
    return RACK_OF[unit.id] ? { ...inRack, rack: RACK_OF[unit.id]!, u: 1 } : { ...unit, room: 'Transmitter' };
  }),
};
const begun = started({ scope: { racks: ['R1'], rooms: [] } });
const added = (more: Partial<Payload<'scope-added'>>, author = 'R. Quill') =>
  event('scope-added', { racks: [], rooms: [], units: [], ...more }, { author });
const owed = (...events: Parameters<typeof foldAll>[1] extends Iterable<infer E> ? E[] : never) =>
  [...foldAll(plan, [begun, ...events]).scope.owed].sort();

describe('a scope that grows', () => {
  const unit = added({ units: ['SW2'] });
  const room = added({ rooms: ['Studio 2'] }, 'I. Halloran');

  it('takes in a rack, a room or a unit', () => {
    expect(owed()).toEqual([at('SW1 P01'), at('SW1 P02')]);
    expect(owed(unit)).toContain(at('SW2 P01'));
    expect(owed(room)).toContain(at('CON30 NET'));
    expect(owed(added({ racks: ['R2'] }))).toEqual([at('CON32 NET'), at('MIO31 NET'), at('SW1 P01'), at('SW1 P02')]);
  });

  it('counts what two phones added at once, in any order and taken twice', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([begun, unit, room, unit], { minLength: 4, maxLength: 4 }), (events) => {
        const one = createFold(plan);
        for (const each of events) one.add([each]);
        expect([...one.scope.owed].sort()).toEqual(owed(unit, room));
      }),
    );
    expect(owed(unit, room)).toEqual([at('CON30 NET'), at('SW1 P01'), at('SW1 P02'), at('SW2 P01')]);
  });

  it('is as before when the addition is taken back, whichever of the two arrives first', () => {
    const undo = event('withdrawn', { target: { event: unit.id }, why: 'undo' });
    expect(owed(unit, undo)).toEqual(owed());
    const late = createFold(plan);
    late.add([begun, unit]);
    expect(late.scope.owed.has(at('SW2 P01'))).toBe(true);
    late.add([undo]);
    expect(late.scope.owed.has(at('SW2 P01'))).toBe(false);
  });

  it('never makes the whole plan of an empty addition, nor less of the whole', () => {
    expect(owed(added({}))).toEqual(owed());
    expect(foldAll(plan, [started(), unit]).scope.owed.size).toBe(6);
  });

  it('takes in again what was left out by that very name, and keeps what was left out within it', () => {
    const out = (what: string) => ({ what, label: what, reason: 'on air' });
    const less = started({ exclusions: [out('R2'), out('CON32')] });
    const fold = foldAll(plan, [less, added({ racks: ['R2'] })]);
    expect(fold.scope.owed.has(at('MIO31 NET'))).toBe(true);
    expect(fold.scope.leftOut(at('CON32 NET'))).toBe('on air');
    expect(reconciliation(fold, 'a', 's').exclusions).toEqual([{ label: 'CON32', reason: 'on air' }]);
  });

  it('makes unseen what was complete', () => {
    const seen = [saw('SW1 P01', '1001'), statement(['SW1 P02'], 'empty')];
    expect(reconciliation(foldAll(plan, [begun, ...seen]), 'a', 's').complete).toBe(true);
    const more = foldAll(plan, [begun, ...seen, unit]);
    expect(reconciliation(more, 'a', 's').complete).toBe(false);
    expect(nextOpen(more, null)).toBe(at('SW2 P01'));
  });

  it('is told in the report: what, by whom, when', () => {
    const { added: lines } = reconciliation(foldAll(plan, [begun, unit, room]), 'a', 's');
    expect(lines.map(({ author, parts }) => [author, ...parts.map(({ type, label }) => `${type} ${label}`)])).toEqual([
      ['R. Quill', 'unit SW2'],
      ['I. Halloran', 'room Studio 2'],
    ]);
    expect(lines[0]!.at).toBe(unit.at);
  });

  it('is kept and not understood by a build that does not know it, as any kind of a later day', () => {
    const later = JSON.stringify({ ...unit, kind: 'scope-added-of-a-later-day' });
    expect(readEvent(later)).toMatchObject({ type: 'kept', why: 'unknown-kind' });
    expect(readEvent(JSON.stringify(unit))).toMatchObject({ type: 'event', event: { kind: 'scope-added' } });
  });
});

describe('what may be added', () => {
  it('is what would bring more jacks, racks first, found by a part of its name', () => {
    const names = (text: string) =>
      scopeMore(foldAll(plan, [begun]), text).offers.map(({ type, label, jacks }) => `${type} ${label} ${jacks}`);
    expect(names('')).toEqual([
      'rack R2 2',
      'room Studio 2 1',
      'room Technical room 2',
      'room Transmitter 1',
      'unit CON30 1',
      'unit CON32 1',
      'unit MIO31 1',
      'unit SW2 1',
    ]);
    expect(names('sw')).toEqual(['unit SW2 1']);
  });
});

describe('a jack outside the scope', () => {
  const P = at('SW2 P01');

  it('is walked when somebody goes there, and says what may be added', () => {
    const view = walkView(foldAll(plan, [begun]), 'a', P)!;
    expect(view.current.place).toBe(P);
    expect(view.unit.label).toBe('SW2');
    expect(view.outside).toEqual([
      { type: 'unit', id: 'SW2', label: 'SW2' },
      { type: 'room', id: 'Transmitter', label: 'Transmitter' },
    ]);
    expect(view.leftAll).toBe(2);
  });

  it('is one of the audit’s own once it was added', () => {
    const view = walkView(foldAll(plan, [begun, added({ units: ['SW2'] })]), 'a', P)!;
    expect(view.outside).toBeNull();
    expect(view.leftAll).toBe(3);
  });

  it('is no place for one that the plan does not have: the walk stays where it was', () => {
    expect(walkView(foldAll(plan, [begun]), 'a', at('SW9 P01'))!.current.place).toBe(at('SW1 P01'));
  });
});

describe('the end of a walk', () => {
  it('tells what has an entry and was not looked at, and leads there', () => {
    const fold = foldAll(plan, [begun, saw('SW1 P01', '1001'), statement(['SW1 P02'], 'not-visible')]);
    const view = walkView(fold, 'a', at('SW1 P01'))!;
    expect([view.leftAll, view.notLooked, view.unseenNext]).toEqual([0, 1, at('SW1 P02')]);
    const all = walkView(foldAll(plan, [begun, saw('SW1 P01', '1001'), saw('SW1 P02', '1002')]), 'a', null)!;
    expect([all.notLooked, all.unseenNext]).toEqual([0, null]);
  });
});
