// What may be done now and what has to wait: permission, a window, what was left out, a hazard to people close by.
// Decides nothing about order or need.
import { type PlaceId, placeToParts } from '../plan/identity.ts';
import type { Permission } from '../record/events.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { Fold } from '../rules/foldView.ts';
import type { FixInput, Waits } from './input.ts';
import { type Group, PERMISSION_RANK } from './step.ts';

export interface Gate {
  isAllowed(needs: Permission, places: readonly PlaceId[]): boolean;
  /** Null where nothing stands against it. */
  waitsOf(type: Group['type'], needs: Permission, places: readonly PlaceId[]): Waits | null;
}

export function createGate(
  fold: Fold,
  input: Pick<FixInput, 'permission' | 'window'>,
  hazards: readonly Discrepancy[],
): Gate {
  return { isAllowed, waitsOf };

  function isAllowed(needs: Permission, places: readonly PlaceId[]): boolean {
    const { window, permission } = input;
    const inWindow = window && places.every((place) => window.has(place));
    return PERMISSION_RANK[needs] <= PERMISSION_RANK[inWindow ? window.permission : permission];
  }

  function waitsOf(type: Group['type'], needs: Permission, places: readonly PlaceId[]): Waits | null {
    if (needs === 'look') return null;
    for (const place of places) {
      const reason = fold.scope.leftOut(place);
      if (reason !== null) return { type: 'left-out', reason };
    }
    if (!isAllowed(needs, places)) return { type: 'permission', needs };
    const near = type === 'work' ? hazards.find((one) => one.severity === 'people' && isNear(one, places)) : undefined;
    return near ? { type: 'hazard', id: near.id } : null;
  }

  /** At the same unit, or in the same rack where the hazard was seen at a height of it. */
  function isNear(hazard: Discrepancy, places: readonly PlaceId[]): boolean {
    return hazard.places.some((at) => {
      const parts = placeToParts(at);
      return places.some((place) => {
        const mine = placeToParts(place);
        if (mine.type !== 'jack') return place === at;
        if (parts.type === 'jack' || parts.type === 'unit') return parts.unit === mine.unit;
        return parts.type === 'slot' && fold.index.units.get(mine.unit)?.rack === parts.rack;
      });
    });
  }
}
