// What is different between two revisions of one plan, item by item and field by field. Ids say which item is which
// (keepIds.ts); where a row stands in its sheet is no difference.
//
// Limits: A list that the newer sheet does not carry is gone from the new revision and counted as such. Where an end
// and the number both changed, a cable is told as one gone and one added; one written from its other end, as two ends
// moved.

import type { Cable, CableEnd, Circuit, Jack, Plan, PlanSetting, Rack, Route, Unit } from '../../plan/model.ts';
import { settingKey } from '../../plan/planIndex.ts';
import { nameToKey } from '../../trade/names.ts';
import { circuitsByKey } from './matchCircuits.ts';

export interface Items {
  rack: Rack;
  unit: Unit;
  jack: Jack;
  cable: Cable;
  setting: PlanSetting;
  route: Route;
  circuit: Circuit;
}
export type Item = keyof Items;
export const ITEMS: readonly Item[] = ['cable', 'circuit', 'unit', 'jack', 'rack', 'setting', 'route'];

/** Fields of the plan that are no difference by themselves, and why. A test holds this to the schema. */
export const NOT_COMPARED = {
  format: 'the same for every plan',
  version: 'the same for every plan',
  name: 'a name of the document',
  parent: 'where the document comes from',
  origin: 'where the document comes from',
  source: 'where the document comes from',
  'units.origin': 'where its row stands',
  'jacks.origin': 'where its row stands',
  'cables.origin': 'where its row stands',
  'settings.origin': 'where its row stands',
  'circuits.origin': 'where its row stands',
  guesses: 'how a row was read; what came of it is compared',
  contradictions: 'derived from cables and jacks',
} as const;

export type PlanChange =
  | { type: 'added' | 'removed'; item: Item; id: string; value: Items[Item] }
  | { type: 'field'; item: Item; id: string; field: string; from: unknown; to: unknown }
  /** One end of a cable: another place, another plug, or other words for the same place. */
  | { type: 'end'; item: 'cable'; id: string; end: string; from: CableEnd | null; to: CableEnd | null };

/** `written`: the same thing in other words. `moved`: an end of a cable, or a unit, is somewhere else. */
export const CHANGE_KINDS = ['added', 'removed', 'moved', 'renamed', 'changed', 'written'] as const;
export type ChangeKind = (typeof CHANGE_KINDS)[number];

const MOVES: ReadonlySet<string> = new Set(['rack', 'u', 'room', 'mounted', 'at']);
/** What does not make an item another one: where its row stands, and what is compared on its own. */
const LEFT_OUT: ReadonlySet<string> = new Set(['id', 'origin', 'ends']);

export function changeToKind(change: PlanChange): ChangeKind {
  if (change.type !== 'field' && change.type !== 'end') return change.type;
  if (change.type === 'end') {
    const { from, to } = change;
    if (!from || !to || from.place !== to.place) return 'moved';
    // Without a place the words are all there is.
    if (to.place === null && wordsKey(from) !== wordsKey(to)) return 'moved';
    return from.connector === to.connector ? 'written' : 'changed';
  }
  const { item, field, from, to } = change;
  if (field === 'label' || (item === 'circuit' && field === 'name'))
    return nameToKey(String(from)) === nameToKey(String(to)) ? 'written' : 'renamed';
  if (item === 'unit' && MOVES.has(field)) return 'moved';
  if (item === 'rack' && field === 'room') return 'moved';
  return field === 'implied' ? 'written' : 'changed';
}

const wordsKey = ({ location, unit, jack }: CableEnd) => [location ?? '', unit, jack].map(nameToKey).join('/');

/** Every change from the old revision to the new one, in an order that does not depend on the rows. */
export function comparePlans(old: Plan, next: Plan): PlanChange[] {
  const changes: PlanChange[] = [];
  for (const item of ITEMS) {
    const [before, after] = itemsOfBoth(old, next, item);
    for (const [id, value] of before) if (!after.has(id)) changes.push({ type: 'removed', item, id, value });
    for (const [id, value] of after) {
      const was = before.get(id);
      if (was === undefined) changes.push({ type: 'added', item, id, value });
      else if (was !== value) compareItem(item, id, was, value, changes);
    }
  }
  const rank = new Map(ITEMS.map((item, i) => [item, i]));
  const detail = (change: PlanChange) =>
    change.type === 'field' ? change.field : change.type === 'end' ? change.end : change.type;
  return changes.sort(
    (a, b) =>
      (rank.get(a.item) ?? 0) - (rank.get(b.item) ?? 0) ||
      (a.id < b.id ? -1 : a.id > b.id ? 1 : detail(a) < detail(b) ? -1 : 1),
  );
}

/** Items of one kind of both plans by id; what has none by what it is about, so that both share it. */
export function itemsOfBoth(
  old: Plan,
  next: Plan,
  item: Item,
): [old: Map<string, Items[Item]>, next: Map<string, Items[Item]>] {
  return item === 'circuit' ? circuitsByKey(old, next) : [itemsById(old, item), itemsById(next, item)];
}

function itemsById(plan: Plan, item: Exclude<Item, 'circuit'>): Map<string, Items[Item]> {
  const map = new Map<string, Items[Item]>();
  const add = (id: string, value: Items[Item]) => {
    let own = id;
    for (let n = 2; map.has(own); n += 1) own = `${id}~${n}`;
    map.set(own, value);
  };
  if (item === 'setting') for (const one of plan.settings) add(settingKey(one), one);
  else if (item === 'route') for (const one of plan.routes ?? []) add(`${one.unit} ${one.from} ${one.to}`, one);
  else for (const one of plan[`${item}s`]) add(one.id, one);
  return map;
}

function compareItem(item: Item, id: string, was: Items[Item], is: Items[Item], changes: PlanChange[]): void {
  const a: Readonly<Record<string, unknown>> = was;
  const b: Readonly<Record<string, unknown>> = is;
  for (const field in a) {
    if (!LEFT_OUT.has(field) && !isSame(a[field], b[field]))
      changes.push({ type: 'field', item, id, field, from: a[field], to: b[field] });
  }
  for (const field in b) {
    if (!(field in a) && !LEFT_OUT.has(field) && b[field] !== undefined)
      changes.push({ type: 'field', item, id, field, from: undefined, to: b[field] });
  }
  // Both are out of the list of that item.
  if (item === 'cable') compareEnds(id, was as Cable, is as Cable, changes);
}

function compareEnds(id: string, was: Cable, is: Cable, changes: PlanChange[]): void {
  for (const end of was.ends) {
    const now = is.ends.find((one) => one.end === end.end) ?? null;
    if (now === null || !isSame(end, now))
      changes.push({ type: 'end', item: 'cable', id, end: end.end, from: end, to: now });
  }
  for (const end of is.ends) {
    if (!was.ends.some((one) => one.end === end.end))
      changes.push({ type: 'end', item: 'cable', id, end: end.end, from: null, to: end });
  }
}

/** Plain data alone; an absent field and one that is undefined are the same. */
function isSame(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  const [x, y] = [a as Record<string, unknown>, b as Record<string, unknown>];
  for (const key in x) if (!isSame(x[key], y[key])) return false;
  for (const key in y) if (!(key in x) && y[key] !== undefined) return false;
  return true;
}

/** Pairs of cables that give each other their numbers: told as one thing, since one alone would be a wrong label. */
export function exchangedNumbers(changes: readonly PlanChange[]): { a: string; b: string; was: string; is: string }[] {
  const renamed = new Map<string, { id: string; from: string; to: string }>();
  for (const change of changes) {
    if (change.type !== 'field' || change.item !== 'cable' || changeToKind(change) !== 'renamed') continue;
    const [from, to] = [String(change.from), String(change.to)];
    renamed.set(`${nameToKey(from)}\n${nameToKey(to)}`, { id: change.id, from, to });
  }
  return [...renamed.values()].flatMap((one) => {
    const other = renamed.get(`${nameToKey(one.to)}\n${nameToKey(one.from)}`);
    return other && one.id < other.id ? [{ a: one.id, b: other.id, was: one.from, is: one.to }] : [];
  });
}
