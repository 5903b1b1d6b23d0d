// Which racks a difference touches, for the choice of one rack: by the unit of a jack, by a whole unit, by a position.
import { describe, expect, it } from 'vitest';
import { jackToPlace, looseToPlace, slotToPlace } from '../../src/core/plan/identity.ts';
import { emptyPlan, type Plan } from '../../src/core/plan/model.ts';
import { indexPlan } from '../../src/core/plan/planIndex.ts';
import { planOverview } from '../../src/core/report/plan/planView.ts';
import { placesToRacks } from '../../src/ui/differences/differencesShown.ts';

const plan: Plan = {
  ...emptyPlan,
  racks: [{ id: 'R2', label: 'R2', heightU: 42, numbering: 'bottom-up', implied: false }],
  units: [{ id: 'SW1', label: 'SW1', rack: 'R2', u: 26, heightU: 1, mounted: 'front', faces: [], implied: false }],
};

describe('racks of a difference', () => {
  const racks = placesToRacks(planOverview('r1', indexPlan(plan)));

  it.each([
    ['a jack', jackToPlace('SW1', 'P05'), ['R2']],
    ['a unit as a whole', 'SW1', ['R2']],
    ['a position in a rack', slotToPlace('R2', 26), ['R2']],
    ['a loose end', looseToPlace('tray of R2'), []],
  ])('of %s', (_, place, wanted) => {
    expect(racks({ placeIds: [place] })).toEqual(wanted);
  });
});
