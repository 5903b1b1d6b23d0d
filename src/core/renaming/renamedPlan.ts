// A plan with the names of finished renames in it. Makes a new document; what is not done on the floor stays as it is.

import type { CableId, PlaceId, UnitId } from '../plan/identity.ts';
import type { Circuit, Plan, PlanSetting } from '../plan/model.ts';
import { settingKey } from '../plan/planIndex.ts';
import { findContradictions } from '../schedule/build/contradictions.ts';
import { groupBy } from '../schedule/revisions/groups.ts';
import { nameToKey } from '../trade/names.ts';
import type { RenameStatus } from './renaming.ts';

export interface RenamedPlan {
  /** The new document; the very plan given when nothing changes. */
  plan: Plan;
  cables: { id: CableId; old: string; new: string }[];
  settings: { unit: UnitId; place?: PlaceId | undefined; name: string; old: string; new: string }[];
  /** Done on the floor, and not to be changed here: why in words. */
  left: { id: CableId; old: string; new: string; why: string }[];
}

/**
 * @param plan The plan in force.
 * @param revision Its SHA-256, which becomes the new plan's parent.
 * @param renames All renames of the audit; only those whose state is `done` are taken.
 * Ids stay: a cable keeps its id through a new name. The same input gives the same bytes.
 */
export function renamedPlan(plan: Plan, revision: string, renames: readonly RenameStatus[]): RenamedPlan {
  const byId = new Map(plan.cables.map((cable) => [cable.id, cable]));
  const result: RenamedPlan = { plan, cables: [], settings: [], left: [] };
  const wanted = new Map<CableId, RenameStatus>();
  const leave = (one: RenameStatus, why: string) =>
    result.left.push({ id: one.cable, old: one.old, new: one.new, why });
  for (const one of renames) {
    const cable = byId.get(one.cable);
    if (one.state !== 'done' || cable?.label === one.new) continue;
    if (!cable) leave(one, 'the plan in force has no such cable');
    else if (cable.label !== one.old) leave(one, `the plan in force calls it ${cable.label}`);
    else wanted.set(one.cable, one);
  }
  leaveTaken();
  if (wanted.size === 0) return result;

  const values = new Map<string, { from: string; to: string }>();
  for (const one of wanted.values()) {
    result.cables.push({ id: one.cable, old: one.old, new: one.new });
    for (const setting of one.settings) values.set(settingKey(setting), { from: setting.old, to: setting.new });
  }
  const cables = plan.cables.map((cable) => ({ ...cable, label: wanted.get(cable.id)?.new ?? cable.label }));
  const settings = plan.settings.map((setting): PlanSetting => {
    const change = values.get(settingKey(setting));
    if (!change || change.from !== setting.value) return setting;
    result.settings.push({ ...setting, old: change.from, new: change.to });
    return { ...setting, value: change.to };
  });
  const circuits = plan.circuits && { circuits: withHops(plan.circuits) };
  const contradictions = findContradictions(cables, new Map(plan.jacks.map((jack) => [jack.id, jack])), plan.units);
  result.plan = { ...plan, parent: revision, origin: 'amendments', cables, settings, ...circuits, contradictions };
  return result;

  /** A list of circuits names cables by their numbers; one that several cables bear names none of them. */
  function withHops(list: readonly Circuit[]): Circuit[] {
    const bearers = groupBy(plan.cables, ({ label }) => nameToKey(label));
    const next = (hop: string) => {
      const [only, ...others] = bearers.get(nameToKey(hop)) ?? [];
      return (only && others.length === 0 && wanted.get(only.id)?.new) || hop;
    };
    return list.map((circuit) => ({ ...circuit, hops: circuit.hops.map(next) }));
  }

  /** A name that another cable still has the name by then would stand twice; leaving one may bring the next one to light. */
  function leaveTaken(): void {
    for (let again = true; again; ) {
      again = false;
      const kept = new Map<string, string>();
      for (const { id, label } of plan.cables) if (!wanted.has(id)) kept.set(nameToKey(label), label);
      for (const one of [...wanted.values()]) {
        const other = kept.get(nameToKey(one.new));
        if (other === undefined) continue;
        wanted.delete(one.cable);
        leave(one, `another cable still has the name ${other}`);
        again = true;
      }
    }
  }
}
