// The named services that a list of circuits runs over each cable, main or standby. Look-up only; what goes off with a
// cable is derived elsewhere.

import { nameToKey } from '../trade/names.ts';
import { derived } from './derived.ts';
import type { CableId } from './identity.ts';
import type { Cable, Circuit } from './model.ts';
import type { PlanIndex } from './planIndex.ts';

/** A hop that several cables bear the number of is none of them: it was asked about when the list was read. */
const circuitsByCable = derived(({ plan }: PlanIndex) => {
  const over = new Map<CableId, Circuit[]>();
  const byNumber = new Map<string, CableId | null>();
  if (plan.circuits?.length)
    for (const { id, label } of plan.cables) {
      const key = nameToKey(label);
      byNumber.set(key, byNumber.has(key) ? null : id);
    }
  for (const circuit of plan.circuits ?? [])
    for (const hop of new Set(circuit.hops.map(nameToKey))) {
      const id = byNumber.get(hop);
      if (id) over.set(id, [...(over.get(id) ?? []), circuit]);
    }
  return over;
});

export function circuitsOver(index: PlanIndex, cable: CableId): readonly Circuit[] {
  return circuitsByCable(index).get(cable) ?? [];
}

/** The cable's circuit by name, with the role that the list of circuits gives it. */
export function circuitOf(index: PlanIndex, cable: Cable): string | null {
  const { circuit } = cable;
  if (circuit === undefined) return null;
  const listed = circuitsOver(index, cable.id).find(({ name }) => nameToKey(name) === nameToKey(circuit));
  return listed?.role ? `${circuit}, ${listed.role}` : circuit;
}
