// Search in a plan as one types: any part of a label, jack, unit, rack, room, circuit, type or note. Hits by kind, each
// kind cut off and counted; exact names first. It never guesses which of two was meant.

import type { CableId, PlaceId } from '../../plan/identity.ts';
import { lookUp } from '../../plan/lookUp.ts';
import type { Plan } from '../../plan/model.ts';
import type { Named } from '../../plan/named.ts';
import { type PlanIndex, placeToWords, roomOfUnit } from '../../plan/planIndex.ts';
import { nameToFolded, nameToKey } from '../../trade/names.ts';
import { compareLabels } from '../walk/walkOrder.ts';
import { renamingLine } from '../words/renamingWords.ts';

export interface SearchHit {
  type: Named['type'];
  id: string;
  label: string;
  line: string;
  /** Of a jack: the one cable that the plan has there. */
  cable?: CableId;
}

export interface SearchGroup {
  type: Named['type'];
  /** All that hold the text; `hits` may be fewer. */
  n: number;
  hits: SearchHit[];
}

export const HITS_SHOWN = 20;

/** Hits of one rank beyond these are counted and not sorted: whoever finds so many types on. */
const SORTED = 400;

/** What is searched, folded once per plan: a key stroke then only looks. */
interface Straw {
  type: Named['type'];
  id: string;
  key: string;
  folded: string;
  words: string;
}
/** Of a plan, whatever index over it asks first: one made anew for other names searches the same words. */
const haystacks = new WeakMap<Plan, Straw[]>();

/** The group with the exact name first, then cables, units, jacks, racks. */
export function searchPlan(index: PlanIndex, text: string): SearchGroup[] {
  const key = nameToKey(text);
  if (key === '') return [];
  const folded = nameToFolded(text);
  const exact = lookUp(index.names, text);
  const named = exact.type === 'found' ? [exact.named] : exact.type === 'ask' ? exact.candidates : [];
  const first = new Set(named.map(({ type, id }) => `${type} ${id}`));
  const found = new Map<Named['type'], { n: number; ranks: string[][] }>();
  const add = (type: Named['type'], id: string, rank: number) => {
    const group = found.get(type) ?? { n: 0, ranks: [[], [], [], []] };
    found.set(type, group);
    group.n += 1;
    const list = group.ranks[rank];
    if (list && list.length < SORTED) list.push(id);
  };
  for (const { type, id } of named) add(type, id, 0);
  for (const { type, id, key: own, folded: loose, words } of haystackOf(index)) {
    const rank = own.startsWith(key)
      ? 1
      : own.includes(key) || (folded !== '' && loose.includes(folded))
        ? 2
        : words.includes(key)
          ? 3
          : null;
    if (rank !== null && !(first.size > 0 && first.has(`${type} ${id}`))) add(type, id, rank);
  }
  const order: Named['type'][] = ['cable', 'unit', 'jack', 'rack'];
  const groups = order.flatMap((type) => {
    const group = found.get(type);
    if (!group) return [];
    const ids: string[] = [];
    for (const rank of group.ranks) {
      if (ids.length >= HITS_SHOWN) break;
      const labels = rank.map((id) => ({ id, label: labelOf(index, type, id) }));
      labels.sort((a, b) => compareLabels(a.label, b.label));
      ids.push(...labels.slice(0, HITS_SHOWN - ids.length).map(({ id }) => id));
    }
    const hits = ids.map((id) => toHit(index, type, id, labelOf(index, type, id), text));
    return [{ type, n: group.n, hits, isExact: (group.ranks[0]?.length ?? 0) > 0 }];
  });
  return groups.sort((a, b) => Number(b.isExact) - Number(a.isExact)).map(({ isExact: _, ...group }) => group);
}

function labelOf(index: PlanIndex, type: Named['type'], id: string): string {
  if (type === 'jack') return placeToWords(index, id);
  const list = { cable: index.cables, unit: index.units, rack: index.racks }[type];
  return list.get(id)?.label ?? id;
}

function haystackOf(index: PlanIndex): Straw[] {
  const { plan } = index;
  const known = haystacks.get(plan);
  if (known) return known;
  // Jacks are many and their names few.
  const keys = new Map<string, string>();
  const keyOf = (name: string): string => {
    const key = keys.get(name) ?? nameToKey(name);
    keys.set(name, key);
    return key;
  };
  const placeKey = (place: PlaceId): string => {
    const jack = index.jacks.get(place);
    return jack ? `${keyOf(index.units.get(jack.unit)?.label ?? jack.unit)}-${keyOf(jack.label)}` : place;
  };
  const words = (texts: readonly (string | null | undefined)[]) => nameToKey(texts.filter(Boolean).join(' '));
  const made: Straw[] = [
    ...plan.cables.map((cable): Straw => {
      const { id, label, circuit, notes, signalText, type, length } = cable;
      const places = cable.ends.map(({ place }) => (place === null ? '' : placeKey(place)));
      const written = cable.ends.flatMap((end) => [end.location, end.unit, end.jack]);
      const said = words([...written, circuit, notes, signalText, type, length]);
      return {
        type: 'cable',
        id,
        key: nameToKey(label),
        folded: nameToFolded(label),
        words: [...places, said].join(' '),
      };
    }),
    ...plan.units.map((unit): Straw => {
      const rack = unit.rack && index.racks.get(unit.rack)?.label;
      const said = words([unit.description, unit.serial, unit.mac, roomOfUnit(index, unit), rack]);
      return { type: 'unit', id: unit.id, key: keyOf(unit.label), folded: '', words: said };
    }),
    ...plan.jacks.map((jack): Straw => {
      const said = jack.notes === undefined ? '' : nameToKey(jack.notes);
      return { type: 'jack', id: jack.id, key: placeKey(jack.id), folded: '', words: said };
    }),
    ...plan.racks.map(
      (rack): Straw => ({ type: 'rack', id: rack.id, key: keyOf(rack.label), folded: '', words: words([rack.room]) }),
    ),
  ];
  haystacks.set(plan, made);
  return made;
}

function toHit(index: PlanIndex, type: Named['type'], id: string, label: string, text: string): SearchHit {
  if (type === 'cable') {
    const cable = index.cables.get(id);
    const ends = cable?.ends.map((end) => [end.location, end.unit, end.jack].filter(Boolean).join(' ') || 'open') ?? [];
    const line = [ends.join(' to '), cable?.circuit, renamingLine(index, id, text)].filter(Boolean).join(', ');
    return { type, id, label: cable?.label ?? label, line };
  }
  if (type === 'jack') {
    const planned = index.endsAt.get(id) ?? [];
    const line =
      planned.length > 0
        ? `plan ${planned.map(({ cable }) => cable.label || 'a cable without a number').join(', ')}`
        : 'plan has nothing here';
    const only = planned.length === 1 ? planned[0]?.cable.id : undefined;
    return { type, id, label, line, ...(only === undefined ? {} : { cable: only }) };
  }
  if (type === 'unit') {
    const unit = index.units.get(id);
    const room = unit ? roomOfUnit(index, unit) : null;
    const where = unit?.rack ? `${index.racks.get(unit.rack)?.label} U${unit.u ?? '?'}` : room;
    return { type, id, label, line: [where, unit?.description].filter(Boolean).join(', ') };
  }
  return { type, id, label, line: index.racks.get(id)?.room ?? 'rack' };
}
