// Which circuit of a newer plan is which of the old one. Circuits have no ids: name, role, carrier's number and hops
// tell them. Only the comparison of plans asks this; nothing is changed.

import type { Circuit, Plan } from '../../plan/model.ts';
import { nameToKey } from '../../trade/names.ts';
import { groupBy } from './groups.ts';

const hopsKey = ({ hops }: Circuit) => hops.map(nameToKey).join('>');
const name = (one: Circuit) => nameToKey(one.name);
const carrier = (one: Circuit) => (one.carrier === undefined ? '' : nameToKey(one.carrier));

/** From the surest on. `once`: only where each side has one. A blank key tells nothing. */
const TELLS: readonly { key: (one: Circuit) => string; once?: true }[] = [
  { key: (one) => JSON.stringify([one.name, one.role, one.carrier, one.hops, one.notes]) },
  { key: (one) => `${name(one)}\n${one.role ?? ''}\n${hopsKey(one)}` },
  { key: (one) => (carrier(one) === '' ? '' : `${name(one)}\n${carrier(one)}`) },
  // Main and standby that exchange their ways are rather two that exchange their names.
  { key: (one) => (one.hops.length === 0 ? '' : `${name(one)}\n${hopsKey(one)}`) },
  { key: (one) => `${name(one)}\n${one.role ?? ''}` },
  { key: name },
  { key: carrier, once: true },
  { key: hopsKey, once: true },
];

interface Keyed {
  one: Circuit;
  key: string;
}

/** Circuits of both plans by a key that both share where it is one circuit, whatever the order of the rows. */
export function circuitsByKey(old: Plan, next: Plan): [old: Map<string, Circuit>, next: Map<string, Circuit>] {
  const [before, after] = [inOrder(old.circuits ?? []), inOrder(next.circuits ?? [])];
  const taken = new Set<string>();
  const claim = (entry: Keyed) => {
    entry.key = name(entry.one);
    for (let n = 2; taken.has(entry.key); n += 1) entry.key = `${name(entry.one)}~${n}`;
    taken.add(entry.key);
  };
  before.forEach(claim);
  let [waiting, left] = [before, after];
  for (const { key, once } of TELLS) {
    const groups = groupBy(left, ({ one }) => key(one));
    const matched = new Set<Keyed>();
    for (const [tells, olds] of groupBy(waiting, ({ one }) => key(one))) {
      const news = groups.get(tells) ?? [];
      if (tells === '' || (once && (olds.length > 1 || news.length > 1))) continue;
      olds.slice(0, news.length).forEach((entry, i) => {
        const found = news[i];
        if (!found) return;
        found.key = entry.key;
        matched.add(entry).add(found);
      });
    }
    waiting = waiting.filter((entry) => !matched.has(entry));
    left = left.filter((entry) => !matched.has(entry));
  }
  left.forEach(claim);
  const byKey = (list: readonly Keyed[]) => new Map(list.map(({ key, one }) => [key, one]));
  return [byKey(before), byKey(after)];
}

/** One order for the same circuits, however their rows stand; a row that stands twice is two circuits. */
function inOrder(circuits: readonly Circuit[]): Keyed[] {
  const sortKey = (one: Circuit) => JSON.stringify([name(one), one.role ?? '', one.carrier, one.hops, one.notes]);
  const keyed = circuits.map((one) => ({ one, sort: sortKey(one) }));
  keyed.sort((a, b) => (a.sort < b.sort ? -1 : a.sort > b.sort ? 1 : 0));
  return keyed.map(({ one }) => ({ one, key: '' }));
}
