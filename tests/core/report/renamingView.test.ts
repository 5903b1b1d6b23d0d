// What a renaming offers at each jack and when, what is nearest, and what the printed labels look like. Data invented.
import { describe, expect, it } from 'vitest';
import type { AuditEvent, Payload } from '../../../src/core/record/events.ts';
import {
  isTired,
  jackRename,
  nextToDo,
  renamingLabels,
  renamingView,
  walkWithRenaming,
} from '../../../src/core/report/renamingView.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from '../record/build.ts';

const plan = planOf([
  ['2004', 'COD41 OUT', 'DIO21 I1'],
  ['2005', 'COD42 OUT', 'DIO22 I1'],
  ['2006', 'COD43 OUT', 'DIO23 I1', { onAir: true }],
]);
const begin = (more: Partial<Payload<'audit-started'>> = {}) =>
  started({ occasion: 'relabel', permission: 'touch', ...more });
const list = event('renaming-listed', {
  list: 'l',
  name: 'Codecs',
  renames: ['2004', '2005', '2006'].map((cable) => ({ cable, old: cable, new: `A${cable}` })),
});
const [A, B] = [at('COD42 OUT'), at('DIO22 I1')];
const a = saw('COD42 OUT', '2005');
const b = saw('DIO22 I1', '2005');
const put = (place: string, upon: AuditEvent, more: Partial<AuditEvent> = {}) =>
  event('label-put', { place, text: 'A2005', upon: [upon.id], why: 'rename' }, more);
const off = (place: string, upon: AuditEvent) => event('label-off', { place, text: '2005', upon: [upon.id] });
const step = (place: string, ...events: AuditEvent[]) =>
  jackRename(foldAll(plan, [begin(), list, ...events]), place)?.step;

describe('a far end outside the scope', () => {
  const units = plan.units.map((unit) => ({ ...unit, room: unit.id === 'DIO22' ? 'Studio 2' : 'Technical room' }));
  const here = begin({ scope: { racks: [], rooms: ['Technical room'] } });
  const fold = foldAll({ ...plan, units }, [here, list, a, put(A, a)]);

  it('is named as what is still to do, and can be walked', () => {
    const [line] = renamingView(fold, 'a', A)!.half;
    expect(line!.todo).toEqual(['DIO22 I1: put the new label A2005 on.']);
    expect(line!.owed).toEqual([{ place: B, words: 'DIO22 I1', outside: true }]);
    expect(walkWithRenaming(fold, 'a', B)!.current.place).toBe(B);
    const far = foldAll({ ...plan, units }, [here, list, a, put(A, a), b]);
    expect(walkWithRenaming(far, 'a', B)!.renaming!.here!.step).toBe('put');
    expect(nextToDo(far, B)).toBe(B);
  });
});

describe('the step that is due at a jack', () => {
  it('goes from the old label to the new one, to the other end, and only then to taking the old one off', () => {
    expect(step(A)).toBe('look');
    expect(step(A, a)).toBe('put');
    expect(step(A, a, put(A, a))).toBe('wait');
    expect(step(B, a, put(A, a))).toBe('look');
    expect(step(B, a, put(A, a), b)).toBe('put');
    const both = [a, b, put(A, a), put(B, b)];
    expect([step(A, ...both), step(B, ...both)]).toEqual(['off', 'off']);
    expect(step(B, ...both, off(B, b))).toBe('wait');
    expect(step(A, ...both, off(B, b), off(A, a))).toBe('done');
  });

  it('is never taking off before both ends bear the new one, whatever was recorded', () => {
    for (const events of [
      [a, put(A, a)],
      [a, put(A, a), off(A, a)],
      [a, b, put(A, a), off(B, b)],
      [a, off(A, a)],
    ]) {
      expect([step(A, ...events), step(B, ...events)]).not.toContain('off');
    }
  });

  it('needs no hand where hands are not allowed', () => {
    const look = (place: string, ...events: AuditEvent[]) =>
      jackRename(foldAll(plan, [begin({ permission: 'look' }), list, ...events]), place)?.step;
    expect(look(A, a)).toBe('plan');
    expect(look(A, a, b, put(A, a), put(B, b))).toBe('plan');
    const fold = foldAll(plan, [begin({ permission: 'look' }), list, a]);
    expect(nextToDo(fold, A)).not.toBe(A);
  });

  it('is nothing where another cable’s label stands or nothing is plugged', () => {
    expect(step(A, statement(['COD42 OUT'], 'empty'))).toBe('look');
    expect(step(A, statement(['COD42 OUT'], 'unlabelled'))).toBe('put');
    // Which end of 2004 it is nobody knows yet, so no label of a renaming is offered there.
    expect(jackRename(foldAll(plan, [begin(), list, saw('COD42 OUT', '2004')]), A)).toBeNull();
  });

  it('is told in a blind audit only after the jack was spoken about', () => {
    const blind = begin({ blind: true });
    expect(jackRename(foldAll(plan, [blind, list]), A)).toBeNull();
    expect(jackRename(foldAll(plan, [blind, list, a]), A)?.new).toBe('A2005');
  });
});

describe('the walk', () => {
  it('stays at a jack while its label is due, and comes back for the old one', () => {
    expect(nextToDo(foldAll(plan, [begin(), list, a]), A)).toBe(A);
    const first = foldAll(plan, [begin(), list, a, put(A, a)]);
    expect(nextToDo(first, A)).not.toBe(A);
    const rest = ['COD41 OUT', 'DIO21 I1', 'COD43 OUT', 'DIO23 I1'].map((one) => statement([one], 'not-visible'));
    const both = [begin(), list, ...rest, a, b, put(A, a), put(B, b)];
    expect(nextToDo(foldAll(plan, [...both, off(B, b)]), B)).toBe(A);
    expect(nextToDo(foldAll(plan, [...both, off(B, b), off(A, a)]), A)).toBeNull();
  });

  it('carries the half-done line, and none where nothing is renamed', () => {
    expect(walkWithRenaming(foldAll(plan, [begin(), list, a, put(A, a)]), 'a', A)?.renaming).toMatchObject({
      half: ['2005'],
      listed: true,
      here: { step: 'wait', far: { words: 'DIO22 I1' } },
    });
    expect(walkWithRenaming(foldAll(plan, [begin()]), 'a', A)?.renaming).toMatchObject({ listed: false, half: [] });
    expect(walkWithRenaming(foldAll(plan, [started()]), 'a', A)).not.toHaveProperty('renaming');
  });

  it('shows the new label in the drawing, without a tick, while the pair is half done', () => {
    const view = walkWithRenaming(foldAll(plan, [begin(), list, a, put(A, a)]), 'a', A);
    const jack = view?.face.rows.flat().find(({ place }) => place === A);
    expect(jack).toMatchObject({ plan: '2005', found: 'A2005' });
    expect(jack?.mark).toBeUndefined();
  });
});

describe('the list', () => {
  it('puts the nearest half-done pair first and says what is left where', () => {
    const c = saw('COD43 OUT', '2006');
    const d = saw('COD41 OUT', '2004');
    const events = [
      ...[c, d, a],
      event('label-put', { place: at('COD43 OUT'), text: 'A2006', upon: [c.id], why: 'rename' }),
      event('label-put', { place: at('COD41 OUT'), text: 'A2004', upon: [d.id], why: 'rename' }),
      put(A, a),
    ];
    const fold = foldAll(plan, [begin(), list, ...events]);
    const nearest = (from: string) => renamingView(fold, 'a', at(from))?.half.map(({ old }) => old);
    expect(nearest('DIO21 I1')?.[0]).toBe('2004');
    expect(nearest('DIO23 I1')?.[0]).toBe('2006');
    const view = renamingView(fold, 'a', at('DIO22 I1'))!;
    expect(view.half[0]).toMatchObject({ old: '2005', place: B, todo: ['DIO22 I1: put the new label A2005 on.'] });
    expect(view.half[0]!.owed).toEqual([{ place: B, words: 'DIO22 I1', outside: false }]);
    expect(view.counts).toEqual({ all: 3, untouched: 0, half: 3, done: 0, handedOver: 0 });
  });

  it('lets one of two lists be taken back where they want two names for one cable', () => {
    const other = event('renaming-listed', {
      list: 'm',
      name: 'Other phone',
      renames: [{ cable: '2005', old: '2005', new: '9005' }],
    });
    const fold = foldAll(plan, [begin(), list, other, a, put(A, a)]);
    expect(jackRename(fold, A)?.step).toBe('clash');
    expect(renamingView(fold, 'a', null)?.lists.map(({ list: id, clash }) => `${id} ${clash}`)).toEqual([
      'l true',
      'm true',
    ]);
    fold.add([event('withdrawn', { target: { event: other.id }, why: 'undo' })]);
    expect(jackRename(fold, A)?.step).toBe('wait');
    expect(renamingView(fold, 'a', null)?.lists.map(({ clash }) => clash)).toEqual([false]);
  });

  it('prints what is not on yet, one label for each end, in the order of the walk', () => {
    const labels = renamingLabels(foldAll(plan, [begin(), list, a, put(A, a)]));
    expect(labels.map(({ text, at: where }) => `${text} ${where}`)).toEqual([
      'A2004 COD41 OUT',
      'A2006 COD43 OUT',
      'A2004 DIO21 I1',
      'A2005 DIO22 I1',
      'A2006 DIO23 I1',
    ]);
    expect(labels[0]?.where).toBe('Technical room');
  });
});

describe('six hours of label work at night', () => {
  // The trade's rule of thumb, as field notes have it: after six hours of night work relabelling stops.
  const acts = (from: string, hours: number, every = 60) =>
    Array.from({ length: Math.floor((hours * 60) / every) + 1 }, (_, i) =>
      put(A, a, { at: Date.parse(from) + i * every * 60_000, zone: 60 }),
    );
  const tired = (events: AuditEvent[]) => isTired(foldAll(plan, [begin(), list, a, ...events]));
  it('is told at night only, by the clock of the place', () => {
    expect(tired(acts('2031-01-10T20:00:00Z', 6))).toBe(true);
    expect(tired(acts('2031-01-10T20:00:00Z', 5))).toBe(false);
    expect(tired(acts('2031-01-10T08:00:00Z', 6))).toBe(false);
    // 15:30 in UTC plus 6 h is 21:30, which is 22:30 one hour east of it.
    expect(tired(acts('2031-01-10T15:30:00Z', 6, 30))).toBe(true);
  });
  it('begins anew after a rest', () => {
    expect(tired([...acts('2031-01-10T19:00:00Z', 3), ...acts('2031-01-11T01:30:00Z', 3)])).toBe(false);
  });
});
