// What a text read at a jack names: a cable first; a unit or rack never becomes an unplanned cable.
import type { PlaceId } from '../plan/identity.ts';
import { lookUp } from '../plan/lookUp.ts';
import type { Named } from '../plan/named.ts';
import type { PlanIndex } from '../plan/planIndex.ts';
import type { Candidate } from './question.ts';

/** A reading against the plan, before it is stated. */
export type ReadingView =
  | { type: 'cable'; id: string; label: string; how: string; here: boolean }
  | { type: 'ask'; candidates: Candidate[] }
  | { type: 'unit' | 'rack' | 'jack'; id: string; label: string }
  | { type: 'unknown' };

export function readingView(index: PlanIndex, place: PlaceId | null, text: string): ReadingView {
  const found = lookUp(index.names, text, 'cable');
  if (found.type === 'none') return { type: 'unknown' };
  const isHere = (id: string) => index.cables.get(id)?.ends.some((end) => end.place === place) === true;
  if (found.type === 'found') {
    const { named, how } = found;
    if (named.type === 'cable') return { type: 'cable', id: named.id, label: named.label, how, here: isHere(named.id) };
    return { type: named.type, id: named.id, label: named.label };
  }
  const cables = found.candidates.filter((one) => one.type === 'cable');
  const [here, ...more] = cables.filter(({ id }) => isHere(id));
  if (found.how !== 'folded' && here && more.length === 0) {
    return { type: 'cable', id: here.id, label: here.label, how: found.how, here: true };
  }
  return {
    type: 'ask',
    candidates: found.candidates.map((one) => ({
      id: one.id,
      label: one.label,
      type: one.type,
      line: lineOf(index, one),
    })),
  };
}

function lineOf(index: PlanIndex, named: Named): string {
  if (named.type !== 'cable') return named.type;
  return (
    index.cables
      .get(named.id)
      ?.ends.map((end) => [end.unit, end.jack].filter(Boolean).join(' '))
      .join(' to ') ?? ''
  );
}

/** A text that no label in a rack has: it is shown and asked about before it becomes a statement. */
export function isUnlikelyLabel(text: string): boolean {
  return text.length > 40 || /[\n\r]|:\/\//.test(text);
}
