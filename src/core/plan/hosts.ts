// Which unit in a rack or room something hangs on. Must know no index: one is made with it.
import { placeToParts, type UnitId } from './identity.ts';
import type { Unit } from './model.ts';

/** The unit in a rack or room on which this one hangs, through whatever lies between; itself when it hangs on none. */
export function hostOf(index: { units: { get(id: UnitId): Unit | undefined } }, unit: Unit): Unit {
  let host = unit;
  for (let i = 0; i < 8 && host.at !== undefined; i++) {
    const parts = placeToParts(host.at);
    const next = parts.type === 'jack' ? index.units.get(parts.unit) : undefined;
    if (!next || next === unit) break;
    host = next;
  }
  return host;
}
