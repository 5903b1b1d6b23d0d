// What does this text name? Exact first, then by key, then with an end mark, then folded. Look-up only: nothing is
// merged here, and what is left with more than one candidate is asked, never chosen.
import { nameToFolded, nameToKey } from './identity.ts';
import type { Plan } from './model.ts';

export type Named = { type: 'cable' | 'jack' | 'unit' | 'rack'; id: string; label: string };

export type LookUp =
  | { type: 'found'; named: Named; how: 'exact' | 'key' | 'end-mark' | 'folded'; mark?: string }
  | { type: 'ask'; candidates: Named[]; how: 'exact' | 'key' | 'end-mark' | 'folded'; mark?: string }
  | { type: 'none' };

/** A map to ask: a plan's own, or one looked through to another (extendIndex.ts). */
export interface Lookup<V> {
  get(key: string): V | undefined;
  has(key: string): boolean;
}

export interface Names {
  exact: Lookup<Named[]>;
  key: Lookup<Named[]>;
  folded: Lookup<Named[]>;
}

function put(map: Map<string, Named[]>, name: string, named: Named): void {
  const list = map.get(name);
  if (list) list.push(named);
  else map.set(name, [named]);
}

/** Builds the three indexes once per plan revision. */
export function planToNames(plan: Plan): Names {
  const names = {
    exact: new Map<string, Named[]>(),
    key: new Map<string, Named[]>(),
    folded: new Map<string, Named[]>(),
  };
  const add = (text: string, named: Named) => {
    if (text.trim() === '') return;
    put(names.exact, text.trim(), named);
    put(names.key, nameToKey(text), named);
    put(names.folded, nameToFolded(text), named);
  };
  for (const cable of plan.cables) add(cable.label, { type: 'cable', id: cable.id, label: cable.label });
  const unitLabels = new Map(plan.units.map((unit) => [unit.id, unit.label]));
  for (const jack of plan.jacks) {
    const label = `${unitLabels.get(jack.unit) ?? jack.unit} ${jack.label}`;
    add(label, { type: 'jack', id: jack.id, label });
  }
  for (const unit of plan.units) add(unit.label, { type: 'unit', id: unit.id, label: unit.label });
  for (const rack of plan.racks) add(rack.label, { type: 'rack', id: rack.id, label: rack.label });
  return names;
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
  const levels = [
    ['exact', names.exact.get(trimmed)],
    ['key', names.key.get(nameToKey(trimmed))],
  ] as const;
  for (const [how, found] of levels) if (found) return choose(found, how, prefer);
  const marked = END_MARK.exec(trimmed);
  if (marked) {
    const [, base = '', letter = ''] = marked;
    const known = names.exact.get(base.trim()) ?? names.key.get(nameToKey(base));
    const cables = known?.filter((named) => named.type === 'cable');
    if (cables?.length) return { ...choose(cables, 'end-mark', prefer), mark: letter.toUpperCase() };
  }
  const folded = names.folded.get(nameToFolded(trimmed));
  return folded ? choose(folded, 'folded', prefer) : { type: 'none' };
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
