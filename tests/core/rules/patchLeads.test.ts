// Patch leads are checked by the jacks they join, by the plan's rows; a number on them is a note. Plans are invented.
import { describe, expect, it } from 'vitest';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { leadToSighting } from '../../../src/core/report/walk/partPayloads.ts';
import { verdictAt } from '../../../src/core/report/walk/verdict.ts';
import { createFold, foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, short, started } from '../record/build.ts';

const LEAD = { type: 'patch cord' };
const plan = planOf([
  ['501', 'PB1 J1', 'PB1 J26', LEAD],
  ['502', 'PB1 J2', 'PB1 J27', LEAD],
]);
const lead = (from: string, to: string): AuditEvent =>
  event('sighting', leadToSighting({ place: at(from), words: from }, { place: at(to), words: to }, 'followed'));
const fold = (...events: AuditEvent[]) => foldAll(plan, [started(), ...events]);
const followed = (from: string, to: string, label: string) => saw(from, label, { basis: 'followed', joinedTo: at(to) });

describe('a lead that joins the two jacks that the plan joins', () => {
  it('is as planned without any number', () => {
    const one = fold(lead('PB1 J1', 'PB1 J26'));
    expect(one.discrepancies()).toEqual([]);
    expect(one.statusOf('501').type).toBe('confirmed');
    for (const place of ['PB1 J1', 'PB1 J26'])
      expect(verdictAt(one, at(place))).toMatchObject({
        variant: 'as-planned',
        second: 'It joins the two jacks that the plan joins here. It has no number; plan 501.',
      });
  });

  it.each(['777', '502'])('is as planned with the number %s, which is a note', (label) => {
    const one = fold(followed('PB1 J1', 'PB1 J26', label), saw('PB1 J26', label));
    expect(one.discrepancies()).toEqual([]);
    expect(one.statusOf('501').type).toBe('confirmed');
    expect(verdictAt(one, at('PB1 J26'))).toMatchObject({
      variant: 'as-planned',
      second: `It joins the two jacks that the plan joins here. It is marked ${label}, plan 501.`,
    });
  });
});

it('is a difference with the right number in a wrong jack, also where the number was read at one end alone', () => {
  const one = fold(followed('PB1 J1', 'PB1 J40', '501'));
  expect(short(one.discrepancies())).toEqual(['wrong-jack service 501']);
  expect(one.discrepancies()[0]).toMatchObject({ places: [at('PB1 J40')], home: at('PB1 J26') });
  expect(one.statusOf('501').type).toBe('differs');
});

it('goes by the label where nobody followed it, and for cables that are no leads', () => {
  expect(short(fold(saw('PB1 J1', '777')).discrepancies())).toEqual(['unplanned-cable undecided 777']);
  const fixed = planOf([['501', 'PB1 J1', 'PB2 J26']]);
  const one = foldAll(fixed, [started(), followed('PB1 J1', 'PB2 J26', '777')]);
  expect(short(one.discrepancies())).toContain('unplanned-cable undecided 777');
});

it('comes out the same whichever end was told first, one event after the other', () => {
  const events = [started(), saw('PB1 J26', '502'), saw('PB1 J1', '502'), followed('PB1 J1', 'PB1 J26', '502')];
  const whole = foldAll(plan, events);
  const bit = createFold(plan);
  for (const one of events) bit.add([one]);
  expect(bit.discrepancies()).toEqual(whole.discrepancies());
  expect(bit.statusOf('501')).toEqual(whole.statusOf('501'));
});
