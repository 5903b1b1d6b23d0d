// What a newer sheet changes in the plan in force, in words: counts by kind, and lists that are cut off and say so. It
// tells; nothing is decided here.
import { placeToParts } from '../../plan/identity.ts';
import type { Cable, CableEnd, Circuit, Jack, Plan, PlanSetting, Rack, Route, Unit } from '../../plan/model.ts';
import {
  CHANGE_KINDS,
  type ChangeKind,
  changeToKind,
  comparePlans,
  exchangedNumbers,
  ITEMS,
  type Item,
  type Items,
  itemsOfBoth,
  type PlanChange,
} from '../../schedule/revisions/compare.ts';
import { completePlan, isCompletion } from '../../schedule/revisions/completePlan.ts';
import { keepIds } from '../../schedule/revisions/keepIds.ts';
import type { Signal } from '../../trade/kinds.ts';
import { compareLabels } from '../walk/walkOrder.ts';
import { signalWords } from '../words/words.ts';
import { endName } from './planView.ts';

/** More lines of one group are counted, not listed. */
export const LINES_SHOWN = 100;

export interface RevisionGroup {
  item: Item;
  kind: ChangeKind | 'exchanged';
  /** Items of this kind; the lines may be fewer. */
  n: number;
  lines: { what: string; words: string }[];
}

export interface RevisionView {
  /** The plan in force that it was compared with. */
  revision: string;
  name: string;
  cables: { before: number; after: number; same: number };
  groups: RevisionGroup[];
}

/** How a newly read plan stands to the plan in force. */
export type Compared =
  | { type: 'compared'; view: RevisionView }
  /** Events name a plan whose document has not arrived: nothing can be compared. */
  | { type: 'not-here'; revision: string; name: string };

/** @returns the new plan with the ids it keeps and its parent, and what it changes. */
export function againstPlan(
  next: Plan,
  force: { revision: string; plan: Plan },
  ids?: 'given',
): { plan: Plan; compared: Extract<Compared, { type: 'compared' }> } {
  const kept = ids ? { ...next, parent: force.revision } : keepIds(force.plan, next, force.revision);
  // A list without cables completes the plan; it does not take its cables away.
  const plan = !ids && isCompletion(kept) ? completePlan(force.plan, kept) : kept;
  return { plan, compared: { type: 'compared', view: revisionView(force.plan, plan, force.revision) } };
}

export function revisionView(old: Plan, next: Plan, revision: string): RevisionView {
  const changes = comparePlans(old, next);
  const words = createWords(old, next);
  const exchanged = exchangedNumbers(changes);
  const inPair = new Set(exchanged.flatMap(({ a, b }) => [a, b]));
  const byGroup = new Map<string, Map<string, PlanChange[]>>();
  const touched = new Set<string>();
  for (const change of changes) {
    const kind = changeToKind(change);
    if (change.item === 'cable') touched.add(change.id);
    if (change.item === 'cable' && kind === 'renamed' && inPair.has(change.id)) continue;
    const key = `${change.item} ${kind}`;
    const group = byGroup.get(key) ?? new Map<string, PlanChange[]>();
    group.set(change.id, [...(group.get(change.id) ?? []), change]);
    byGroup.set(key, group);
  }
  const groups = ITEMS.flatMap((item) =>
    CHANGE_KINDS.flatMap((kind): RevisionGroup[] => {
      const own = byGroup.get(`${item} ${kind}`);
      const pairs = item === 'cable' && kind === 'renamed' && exchanged.length > 0;
      const twos: RevisionGroup[] = pairs
        ? [
            {
              item,
              kind: 'exchanged',
              n: exchanged.length * 2,
              lines: exchanged.slice(0, LINES_SHOWN).map(({ a, b, was, is }) => ({
                what: `${was} and ${is}`,
                words: `${is} is now ${words.ends(a)}; ${was} is now ${words.ends(b)}`,
              })),
            },
          ]
        : [];
      if (!own) return twos;
      const lines = [...own].map(([id, list]) => ({ what: words.label(item, id), words: words.of(item, list) }));
      lines.sort((a, b) => compareLabels(a.what, b.what));
      return [...twos, { item, kind, n: own.size, lines: lines.slice(0, LINES_SHOWN) }];
    }),
  );
  const kept = next.cables.filter(({ id }) => !touched.has(id)).length;
  return {
    revision,
    name: old.name,
    cables: { before: old.cables.length, after: next.cables.length, same: kept },
    groups,
  };
}

const FIELDS: Record<string, string> = {
  label: 'name',
  u: 'U',
  heightU: 'height in U',
  mounted: 'face',
  mac: 'MAC address',
  form: 'purpose',
  at: 'attached to',
  mult: 'takes several plugs',
  signal: 'signal type',
  signalText: 'signal as written',
  onAir: 'on air',
  implied: 'in a list of its own',
  wires: 'its wires',
  leg: 'left or right',
  type: 'cable type',
  role: 'main or standby',
  carrier: 'carrier’s number',
  hops: 'runs over',
};

/** Fields whose values are drawings rather than words. */
const WITHOUT_VALUES: Record<string, string> = { faces: 'the printed order of its jacks', tails: 'its tails' };

type Both = {
  old: Plan;
  next: Plan;
  items: Map<Item, ReturnType<typeof itemsOfBoth>>;
};

function createWords(old: Plan, next: Plan) {
  const both: Both = { old, next, items: new Map<Item, ReturnType<typeof itemsOfBoth>>() };

  return {
    label(item: Item, id: string): string {
      if (item === 'setting') {
        const one = find(both, 'setting', id);
        return one ? `${one.place ? place(both, one.place) : unitLabel(both, one.unit)} ${one.name}` : id;
      }
      if (item === 'route') return unitLabel(both, find(both, 'route', id)?.unit ?? id);
      if (item === 'circuit') {
        const one = find(both, 'circuit', id);
        return [one?.name || 'no name', one?.role].filter(Boolean).join(', ');
      }
      if (item === 'jack') return place(both, id);
      const one = find(both, item, id) as Rack | Unit | Cable | undefined;
      return one?.label || 'no number';
    },
    ends: (id: string) => endsOf(both, find(both, 'cable', id) as Cable),
    of(item: Item, list: readonly PlanChange[]): string {
      return list.map((change) => line(both, item, change)).join('; ');
    },
  };
}

function of(both: Both, item: Item) {
  const known = both.items.get(item) ?? itemsOfBoth(both.old, both.next, item);
  both.items.set(item, known);
  return known;
}

function find<I extends Item>(both: Both, item: I, id: string): Items[I] | undefined {
  const [before, after] = of(both, item);
  return (after.get(id) ?? before.get(id)) as Items[I] | undefined;
}

function unitLabel(both: Both, id: string): string {
  return find(both, 'unit', id)?.label ?? id;
}

function place(both: Both, id: string): string {
  const parts = placeToParts(id);
  if (parts.type !== 'jack') return id;
  return `${unitLabel(both, parts.unit)} ${find(both, 'jack', id)?.label ?? parts.jack}`;
}

function end(both: Both, one: CableEnd | null | undefined): string {
  if (!one) return 'no end';
  if (one.place !== null) return place(both, one.place);
  return [one.location, one.unit, one.jack].filter(Boolean).join(' ') || 'open';
}

function endsOf(both: Both, cable: Cable): string {
  return cable.ends.map((one) => end(both, one)).join(' to ');
}

function value(given: unknown): string {
  if (given === undefined || given === '' || given === null) return 'nothing';
  if (typeof given === 'boolean') return given ? 'yes' : 'no';
  if (Array.isArray(given)) return given.join(', ') || 'nothing';
  return String(given);
}

function shown(both: Both, field: string, given: unknown): string {
  if (given === undefined) return 'nothing';
  switch (field) {
    case 'rack':
      return find(both, 'rack', String(given))?.label ?? value(given);
    case 'unit':
      return unitLabel(both, String(given));
    case 'at':
    case 'place':
      return place(both, String(given));
    case 'signal':
      return signalWords(given as Signal);
    case 'wires': {
      const { tip, ring } = given as NonNullable<Jack['wires']>;
      return [tip, ring].filter(Boolean).join(' and ');
    }
    default:
      return value(given);
  }
}

function line(both: Both, item: Item, change: PlanChange): string {
  if (change.type === 'end') return endLine(both, change.end, change.from, change.to);
  if (change.type !== 'field') return itemLine(both, item, change.value);
  const { field, from, to } = change;
  const without = WITHOUT_VALUES[field];
  if (without) return `${without} changes`;
  if (field === 'implied') return to === true ? 'only implied now' : 'in a list now, only implied before';
  if (field === 'label' || (item === 'circuit' && field === 'name')) {
    const cable = item === 'cable' ? (find(both, 'cable', change.id) as Cable) : null;
    return `was ${value(from)}${cable ? `; ${endsOf(both, cable)}` : ''}`;
  }
  // A setting bears its name in front.
  const name = item === 'setting' && field === 'value' ? '' : `${FIELDS[field] ?? field}: `;
  return `${name}${shown(both, field, to)}, was ${shown(both, field, from)}`;
}

function endLine(both: Both, letter: string, from: CableEnd | null, to: CableEnd | null): string {
  const name = endName(letter).toLowerCase();
  if (end(both, from) !== end(both, to)) return `${name}: ${end(both, to)}, was ${end(both, from)}`;
  // The same words, and another place all the same.
  if (from && to && from.place !== to.place) {
    if (from.place === null) return `${name}: ${end(both, to)}, which was not known as a jack`;
    if (to.place === null) return `${name}: ${end(both, to)}, which is not known as a jack now`;
    return `${name}: another ${end(both, to)}`;
  }
  if (from?.connector !== to?.connector) return `${name}: plug ${value(to?.connector)}, was ${value(from?.connector)}`;
  const written = (one: CableEnd | null) =>
    [one?.location, one?.unit, one?.jack].filter(Boolean).join(' ') || 'nothing';
  return `${name}: written ${written(to)}, was ${written(from)}`;
}

function itemLine(both: Both, item: Item, given: Items[Item]): string {
  switch (item) {
    case 'cable':
      return [endsOf(both, given as Cable), (given as Cable).circuit].filter(Boolean).join(', ');
    case 'unit': {
      const { rack, room, u, description } = given as Unit;
      const at =
        rack === undefined ? room : `${find(both, 'rack', rack)?.label ?? rack}${u === undefined ? '' : ` U${u}`}`;
      return [at, description].filter(Boolean).join(', ');
    }
    case 'jack':
      return [(given as Jack).direction, (given as Jack).signal, (given as Jack).connector].filter(Boolean).join(', ');
    case 'rack':
      return [(given as Rack).room, `${(given as Rack).heightU} U`].filter(Boolean).join(', ');
    case 'setting':
      return value((given as PlanSetting).value);
    case 'circuit': {
      const { carrier, hops } = given as Circuit;
      const over = hops.length === 0 ? '' : `over ${hops.join(', ')}`;
      return [over, carrier === undefined ? '' : `carrier’s number ${carrier}`].filter(Boolean).join('; ');
    }
    case 'route':
      return `${place(both, (given as Route).from)} to ${place(both, (given as Route).to)}`;
  }
}
