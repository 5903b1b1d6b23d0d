// A list without cables brought in after a schedule: it completes what the plan in force has, and takes nothing away.
// Ids were matched before (keepIds.ts); what two lists say differently is shown by the comparison, not judged here.
//
// Limits: Units are found by name, hardware and slot, not by another spelling; the source stays the file of the cables,
// so a row of the later list is named by its sheet alone.

import type { Cable, Circuit, Jack, Plan, PlanSetting, Rack, Unit } from '../../plan/model.ts';
import { nameToKey } from '../../trade/names.ts';
import { findContradictions } from '../build/contradictions.ts';

/** True for a plan read from lists of units, racks, jacks or circuits alone. */
export function isCompletion(next: Plan): boolean {
  return next.cables.length === 0 && next.units.length + next.racks.length + (next.circuits ?? []).length > 0;
}

/**
 * @param next A plan without cables that bears the ids of the old one where they are the same.
 * The file that the cables' rows are in stays the source: their origins name its sheets.
 */
export function completePlan(old: Plan, next: Plan): Plan {
  const racks = overlay(old.racks, next.racks, (was: Rack, is: Rack) =>
    is.implied ? was : { ...was, ...is, label: was.label },
  );
  const units = overlay(old.units, next.units, completeUnit);
  const jacks = overlay(old.jacks, next.jacks, completeJack);
  const circuits = [
    ...(old.circuits ?? []).filter(({ name }) => !next.circuits?.some((one) => one.name === name)),
    ...(next.circuits ?? []),
  ];
  const routes = new Map(
    [...(old.routes ?? []), ...(next.routes ?? [])].map((route) => [`${route.from} ${route.to}`, route]),
  );
  return {
    ...old,
    parent: next.parent,
    racks,
    units,
    jacks,
    cables: withCircuits(old.cables, next.circuits ?? []),
    settings: completeSettings(old.settings, next.settings),
    ...(routes.size === 0 ? {} : { routes: [...routes.values()] }),
    ...(circuits.length === 0 ? {} : { circuits }),
    guesses: [...old.guesses, ...next.guesses],
    contradictions: findContradictions(old.cables, new Map(jacks.map((jack) => [jack.id, jack])), units),
  };
}

/** A cable that a circuit runs over, and that had none, is told its name; a number that two cables bear names neither. */
function withCircuits(cables: readonly Cable[], circuits: readonly Circuit[]): Cable[] {
  const names = new Map(circuits.flatMap(({ name, hops }) => hops.map((hop) => [nameToKey(hop), name])));
  const seen = new Map<string, number>();
  for (const { label } of cables) seen.set(nameToKey(label), (seen.get(nameToKey(label)) ?? 0) + 1);
  return cables.map((cable) => {
    const key = nameToKey(cable.label);
    const circuit = seen.get(key) === 1 ? names.get(key) : undefined;
    return circuit !== undefined && cable.circuit === undefined ? { ...cable, circuit } : cable;
  });
}

function overlay<T extends { id: string }>(old: readonly T[], next: readonly T[], join: (was: T, is: T) => T): T[] {
  const newer = new Map(next.map((one) => [one.id, one]));
  const known = new Set(old.map(({ id }) => id));
  return [
    ...old.map((was) => {
      const is = newer.get(was.id);
      return is ? join(was, is) : was;
    }),
    ...next.filter(({ id }) => !known.has(id)),
  ];
}

/** A unit that the new list only implies, by a jack of it, says nothing new about where it is. */
function completeUnit(was: Unit, is: Unit): Unit {
  if (is.implied) return was;
  const faces = is.faces.length > 0 ? is.faces : was.faces;
  return { ...was, ...is, label: was.label, faces, implied: false };
}

/** The list's word comes before what a label or a cable suggested; what an earlier list said stays where it is silent. */
function completeJack(was: Jack, is: Jack): Jack {
  if (is.implied) return was;
  const isGuess = is.origin === undefined;
  // A unit list names its jacks and no more: what their labels suggest gives way to what the plan knows.
  const told = isGuess ? { ...is, ...was } : { ...was, ...is };
  return { ...told, label: was.label, mult: was.mult || is.mult, spare: was.spare || is.spare, implied: false };
}

function completeSettings(old: readonly PlanSetting[], next: readonly PlanSetting[]): PlanSetting[] {
  const about = ({ unit, place = '', name }: PlanSetting) => `${unit} ${place} ${name}`;
  const newer = new Set(next.map(about));
  return [...old.filter((setting) => !newer.has(about(setting))), ...next];
}
