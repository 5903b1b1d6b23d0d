// Ids: what they are taken apart into, and that one of a kind is never given for another. Facts are invented.
import { describe, expect, expectTypeOf, it } from 'vitest';
import {
  type AuditId,
  type CableId,
  type EventId,
  isJack,
  isLooseEnd,
  isSlot,
  jackOf,
  jackToPlace,
  looseToPlace,
  type PlaceId,
  placeToParts,
  type RackId,
  rackFaceToPlace,
  slotToPlace,
  type UnitId,
  unitOf,
} from '../../../src/core/plan/identity.ts';
import { type PlanIndex, placeToWords } from '../../../src/core/plan/planIndex.ts';
import type { EventOf, Payload } from '../../../src/core/record/events.ts';
import type { Discrepancy } from '../../../src/core/rules/discrepancy.ts';
import type { FoldView } from '../../../src/core/rules/foldView.ts';

const jack = jackToPlace('STUDIO-2-SW10', 'P 05');
const slot = slotToPlace('R2', 26);
const rear = rackFaceToPlace('R2', 'rear');
const loose = looseToPlace('Tray of R2');

describe('a place id', () => {
  it.each([
    [jack, { type: 'jack', unit: 'STUDIO-2-SW10', jack: 'P-05' }],
    ['SW10', { type: 'unit', unit: 'SW10' }],
    [slot, { type: 'slot', rack: 'R2', u: 26 }],
    [rear, { type: 'slot', rack: 'R2', u: -1 }],
    [loose, { type: 'loose', words: 'TRAY-OF-R2' }],
  ])('%s is taken apart', (place, parts) => {
    expect(placeToParts(place)).toEqual(parts);
  });

  it('is of one kind', () => {
    const all = [jack, 'SW10', slot, rear, loose];
    expect(all.map(isJack)).toEqual([true, false, false, false, false]);
    expect(all.map(isSlot)).toEqual([false, false, true, true, false]);
    expect(all.map(isLooseEnd)).toEqual([false, false, false, false, true]);
  });

  it('of a jack tells unit and jack; all others are on no unit', () => {
    expect([jack, 'SW10', slot, loose].map(unitOf)).toEqual(['STUDIO-2-SW10', '', '', '']);
    expect(jackOf(jack)).toBe('P-05');
  });
});

/** Checked by the compiler: an assertion that no longer holds is an error of types. */
describe('ids of different kinds', () => {
  it('never stand for one another', () => {
    expectTypeOf<CableId>().not.toExtend<PlaceId>();
    expectTypeOf<PlaceId>().not.toExtend<CableId>();
    expectTypeOf<PlaceId>().not.toExtend<UnitId>();
    expectTypeOf<UnitId>().not.toExtend<RackId>();
    expectTypeOf<AuditId>().not.toExtend<EventId>();
    expectTypeOf<readonly CableId[]>().not.toExtend<readonly PlaceId[]>();
  });

  it('are what plan, record and fold are asked with', () => {
    expectTypeOf(placeToWords).parameter(1).toEqualTypeOf<PlaceId>();
    expectTypeOf<PlanIndex['cables']['get']>().parameter(0).toEqualTypeOf<CableId>();
    expectTypeOf<FoldView['placesOfCable']>().parameter(0).toEqualTypeOf<CableId>();
    expectTypeOf<Discrepancy['places']>().toEqualTypeOf<PlaceId[]>();
    expectTypeOf<Payload<'sighting'>['places']>().toEqualTypeOf<PlaceId[]>();
    expectTypeOf<EventOf<'sighting'>['id']>().toEqualTypeOf<EventId>();
  });

  it('are texts all the same, and a unit as a whole is a place', () => {
    expectTypeOf<string>().toExtend<PlaceId>();
    expectTypeOf<PlaceId>().toExtend<string>();
    expectTypeOf<UnitId>().toExtend<PlaceId>();
  });
});
