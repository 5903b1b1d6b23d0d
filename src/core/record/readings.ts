// From the labels on a plug to what they name: the cable, its end mark, what is old and what stays open.

import { type CableId, type PlaceId, unitOf } from '../plan/identity.ts';
import { lookUp } from '../plan/lookUp.ts';
import type { Named } from '../plan/named.ts';
import type { PlanIndex } from '../plan/planIndex.ts';
import { nameToKey } from '../trade/names.ts';
import type { Plug, ReadLabel } from './events.ts';

export interface PlugReading {
  plug: Plug;
  /** Exact text of the label that counts. */
  text: string;
  /** Cable id when the text names exactly one. */
  cable: CableId | null;
  mark: string | null;
  /** Left when several cables fit and nobody said which. */
  candidates: Named[];
  /** Labels on the same plug beside the one that counts. */
  others: string[];
}

/** Reads one label at a place. At exact and key level the place may decide among namesakes; folded is never chosen. */
function labelToCable(
  index: PlanIndex,
  place: PlaceId,
  label: ReadLabel,
): { cable: CableId | null; mark: string | null; candidates: Named[] } {
  if (label.means && index.cables.has(label.means)) return { cable: label.means, mark: null, candidates: [] };
  const found = lookUp(index.names, label.text, 'cable');
  if (label.own && (found.type === 'none' || (found.how !== 'exact' && found.how !== 'key')))
    return { cable: null, mark: null, candidates: [] };
  if (found.type === 'none') return { cable: null, mark: null, candidates: [] };
  const mark = found.mark ?? null;
  if (found.type === 'found') {
    return { cable: found.named.type === 'cable' ? found.named.id : null, mark, candidates: [] };
  }
  const cables = found.candidates.filter((named) => named.type === 'cable');
  if (found.how !== 'folded') {
    const here = cables.filter(({ id }) => index.cables.get(id)?.ends.some((end) => end.place === place));
    if (here.length === 1) return { cable: here[0]!.id, mark, candidates: [] };
    const unit = unitOf(place);
    const near = cables.filter(({ id }) =>
      index.cables.get(id)?.ends.some((end) => unit !== '' && end.place !== null && unitOf(end.place) === unit),
    );
    if (here.length === 0 && near.length === 1) return { cable: near[0]!.id, mark, candidates: [] };
  }
  return { cable: null, mark, candidates: cables };
}

/**
 * Two labels on one plug: the one planned here counts, else the only one the plan knows, else the first; the rest
 * are old until somebody says otherwise.
 */
export function plugToReading(index: PlanIndex, place: PlaceId, plug: Plug): PlugReading | null {
  const [only] = plug.labels;
  if (only && plug.labels.length === 1) {
    return { plug, text: only.text, ...labelToCable(index, place, only), others: [] };
  }
  const read = plug.labels.map((label) => ({ label, ...labelToCable(index, place, label) }));
  const planned = new Set(index.endsAt.get(place)?.map(({ cable }) => cable.id));
  const known = read.filter(({ cable }) => cable !== null);
  const chosen = known.find(({ cable }) => planned.has(cable!)) ?? (known.length === 1 ? known[0] : read[0]);
  if (!chosen) return null;
  return {
    plug,
    text: chosen.label.text,
    cable: chosen.cable,
    mark: chosen.mark,
    candidates: chosen.candidates,
    others: read.filter((one) => one !== chosen).map(({ label }) => label.text),
  };
}

/** The name under which a label that the plan does not know is counted. */
export function unknownKey(text: string): string {
  return nameToKey(text);
}
