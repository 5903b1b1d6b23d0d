// Search in a plan as one types: any part of a label, jack, unit, rack, room, circuit, type or note. Hits by kind, each
// kind cut off and counted; exact names first. It never guesses which of two was meant.
import { nameToFolded, nameToKey } from '../plan/identity.ts';
import { lookUp, type Named } from '../plan/lookUp.ts';
import type { Plan } from '../plan/model.ts';
import { type PlanIndex, placeToWords, roomOfUnit } from '../plan/planIndex.ts';
import { renamingLine } from './renamingWords.ts';
import { compareLabels } from './walkOrder.ts';

export interface SearchHit {
  type: Named['type'];
  id: string;
  label: string;
  line: string;
  /** Of a jack: the one cable that the plan has there. */
  cable?: string;
}

export interface SearchGroup {
  type: Named['type'];
  /** All that hold the text; `hits` may be fewer. */
  n: number;
  hits: SearchHit[];
}

export const HITS_SHOWN = 20;

/** What is searched, folded once per plan: a key stroke then only looks. */
interface Haystack {
  cables: { id: string; label: string; key: string; folded: string; words: string }[];
  others: { type: 'unit' | 'jack' | 'rack'; id: string; label: string; key: string; words: string }[];
}
const haystacks = new WeakMap<Plan, Haystack>();

/** The group with the exact name first, then cables, units, jacks, racks. */
export function searchPlan(index: PlanIndex, text: string): SearchGroup[] {
  const key = nameToKey(text);
  if (key === '') return [];
  const folded = nameToFolded(text);
  const { cables, others } = haystackOf(index);
  const found = new Map<Named['type'], Map<string, { label: string; rank: number }>>();
  const add = (type: Named['type'], id: string, label: string, rank: number) => {
    const group = found.get(type) ?? new Map<string, { label: string; rank: number }>();
    found.set(type, group);
    if ((group.get(id)?.rank ?? 9) > rank) group.set(id, { label, rank });
  };
  const exact = lookUp(index.names, text);
  const named = exact.type === 'found' ? [exact.named] : exact.type === 'ask' ? exact.candidates : [];
  for (const { type, id, label } of named) add(type, id, label, 0);
  for (const one of cables) {
    if (one.key.startsWith(key)) add('cable', one.id, one.label, 1);
    else if (one.key.includes(key) || (folded !== '' && one.folded.includes(folded)))
      add('cable', one.id, one.label, 2);
    else if (one.words.includes(key)) add('cable', one.id, one.label, 4);
  }
  for (const one of others) {
    if (one.key.startsWith(key)) add(one.type, one.id, one.label, 1);
    else if (one.key.includes(key)) add(one.type, one.id, one.label, 2);
    else if (one.words.includes(key)) add(one.type, one.id, one.label, 4);
  }
  const order: Named['type'][] = ['cable', 'unit', 'jack', 'rack'];
  const best = (group: SearchGroup & { rank: number }) => (group.rank === 0 ? 0 : 1);
  return order
    .flatMap((type) => {
      const all = [...(found.get(type) ?? [])].map(([id, one]) => ({ id, ...one }));
      if (all.length === 0) return [];
      all.sort((a, b) => a.rank - b.rank || compareLabels(a.label, b.label));
      const hits = all.slice(0, HITS_SHOWN).map(({ id, label }) => toHit(index, type, id, label, text));
      return [{ type, n: all.length, hits, rank: all[0]?.rank ?? 9 }];
    })
    .sort((a, b) => best(a) - best(b))
    .map(({ rank: _, ...group }) => group);
}

function haystackOf(index: PlanIndex): Haystack {
  const { plan } = index;
  const known = haystacks.get(plan);
  if (known) return known;
  const made: Haystack = {
    cables: plan.cables.map((cable) => {
      const places = cable.ends.flatMap((end) => [
        end.location,
        end.unit,
        end.jack,
        end.place === null ? '' : placeToWords(index, end.place),
      ]);
      const { circuit, notes, signalText, type, length } = cable;
      return {
        id: cable.id,
        label: cable.label,
        key: nameToKey(cable.label),
        folded: nameToFolded(cable.label),
        words: nameToKey([...places, circuit, notes, signalText, type, length].filter(Boolean).join(' ')),
      };
    }),
    others: [
      ...plan.units.map((unit) => ({
        type: 'unit' as const,
        id: unit.id,
        label: unit.label,
        key: nameToKey(unit.label),
        words: nameToKey(
          [
            unit.description,
            unit.serial,
            unit.mac,
            roomOfUnit(index, unit),
            unit.rack && index.racks.get(unit.rack)?.label,
          ]
            .filter(Boolean)
            .join(' '),
        ),
      })),
      ...plan.jacks.map((jack) => {
        const label = placeToWords(index, jack.id);
        return { type: 'jack' as const, id: jack.id, label, key: nameToKey(label), words: '' };
      }),
      ...plan.racks.map((rack) => ({
        type: 'rack' as const,
        id: rack.id,
        label: rack.label,
        key: nameToKey(rack.label),
        words: nameToKey(rack.room ?? ''),
      })),
    ],
  };
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
