// What does this text name? Exact first, then by key, then with an end mark, then folded. Look-up only: nothing is
// merged here, and what is left with more than one candidate is asked, never chosen.

import { nameToFolded, nameToKey } from '../trade/names.ts';
import type { UnitId } from './identity.ts';
import { createJackNames, type JackNames } from './jackNames.ts';
import type { Jack, Plan } from './model.ts';
import type { Lookup, Named } from './named.ts';

type LookUp =
  | { type: 'found'; named: Named; how: 'exact' | 'key' | 'end-mark' | 'folded'; mark?: string }
  | { type: 'ask'; candidates: Named[]; how: 'exact' | 'key' | 'end-mark' | 'folded'; mark?: string }
  | { type: 'none' };

export interface Names {
  exact: Lookup<Named[]>;
  key: Lookup<Named[]>;
  folded: Lookup<Named[]>;
  jacks: JackNames;
}

function put(map: Map<string, Named[]>, name: string, named: Named): void {
  const list = map.get(name);
  if (list) list.push(named);
  else map.set(name, [named]);
}

/** Names of cables, units and racks, once per plan revision; jacks are found through their units. */
export function planToNames(plan: Plan, jacksOf = groupJacks(plan.jacks)): Names {
  const exact = new Map<string, Named[]>();
  const key = new Map<string, Named[]>();
  let folded: Map<string, Named[]> | null = null;
  const all: [string, Named][] = [];
  const add = (text: string, named: Named) => {
    if (text.trim() === '') return;
    put(exact, text.trim(), named);
    put(key, nameToKey(text), named);
    all.push([text, named]);
  };
  for (const cable of plan.cables) add(cable.label, { type: 'cable', id: cable.id, label: cable.label });
  for (const unit of plan.units) add(unit.label, { type: 'unit', id: unit.id, label: unit.label });
  for (const rack of plan.racks) add(rack.label, { type: 'rack', id: rack.id, label: rack.label });
  // Only a text that nothing names exactly asks for this one.
  const lenient = () => {
    if (folded) return folded;
    folded = new Map();
    for (const [text, named] of all) put(folded, nameToFolded(text), named);
    return folded;
  };
  return {
    exact,
    key,
    folded: { get: (text) => lenient().get(text), has: (text) => lenient().has(text) },
    jacks: createJackNames(plan.units, jacksOf),
  };
}

export function groupJacks(jacks: readonly Jack[]): Map<UnitId, Jack[]> {
  const byUnit = new Map<UnitId, Jack[]>();
  for (const jack of jacks) {
    const list = byUnit.get(jack.unit);
    if (list) list.push(jack);
    else byUnit.set(jack.unit, [jack]);
  }
  return byUnit;
}

/** Known label, one separator, one letter: `1003-A`. */
const END_MARK = /^(.+?)[\s\p{Pd}_/.]\s?([A-Za-z])$/u;

/**
 * @param prefer When candidates of this type are among several at one level, only they count: at a jack a text that
 *   names a cable and a unit is the cable.
 */
export function lookUp(names: Names, text: string, prefer?: Named['type']): LookUp {
  const trimmed = text.trim();
  if (trimmed === '') return { type: 'none' };
  for (const how of ['exact', 'key'] as const) {
    const found = namedBy(names, trimmed, how);
    if (found.length > 0) return choose(found, how, prefer);
  }
  const marked = END_MARK.exec(trimmed);
  if (marked) {
    const [, base = '', letter = ''] = marked;
    const known = names.exact.get(base.trim()) ?? names.key.get(nameToKey(base));
    const cables = known?.filter((named) => named.type === 'cable');
    if (cables?.length) return { ...choose(cables, 'end-mark', prefer), mark: letter.toUpperCase() };
  }
  const folded = namedBy(names, trimmed, 'folded');
  return folded.length > 0 ? choose(folded, 'folded', prefer) : { type: 'none' };
}

const NOBODY: readonly Named[] = [];

function namedBy(names: Names, text: string, how: 'exact' | 'key' | 'folded'): readonly Named[] {
  const form = { exact: (one: string) => one, key: nameToKey, folded: nameToFolded }[how](text);
  const found = names[how].get(form) ?? NOBODY;
  const jacks = names.jacks.find(text, how);
  return jacks.length > 0 ? [...found, ...jacks] : found;
}

function choose(
  found: readonly Named[],
  how: 'exact' | 'key' | 'end-mark' | 'folded',
  prefer: Named['type'] | undefined,
): Exclude<LookUp, { type: 'none' }> {
  const preferred = prefer ? found.filter((named) => named.type === prefer) : [];
  const candidates = preferred.length > 0 ? preferred : found;
  const [only] = candidates;
  if (only && candidates.length === 1) return { type: 'found', named: only, how };
  return { type: 'ask', candidates: [...candidates], how };
}
