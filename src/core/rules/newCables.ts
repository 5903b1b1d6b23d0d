// One number that the plan does not have, read at two jacks, is one cable: told once with both its ends, and its two
// jacks held against each other by what the plan's rows say of them. Asks the fold; changes nothing.
import { isJack, type PlaceId } from '../plan/identity.ts';
import { factsAt } from '../plan/planIndex.ts';
import { signalClash } from '../trade/signals.ts';
import { isAdapter } from './adapters.ts';
import { type Discrepancy, makeDiscrepancy } from './discrepancy.ts';
import { otherEnds } from './duplicateNumbers.ts';
import type { Fold } from './foldView.ts';

type Ends = [PlaceId, PlaceId];

/** Both jacks of the cable whose number stands at this place; null where it stands at one or several, or was given twice. */
function endsOf(fold: Fold, place: PlaceId, text: string): Ends | null {
  const [a, b, ...more] = fold.placesOfUnknown(text);
  if (a === undefined || b === undefined || more.length > 0 || !isJack(a) || !isJack(b)) return null;
  // Both ends of one planned cable: that cable under another number.
  const planned = fold.index.endsAt.get(a)?.map(({ cable }) => cable.id) ?? [];
  if (fold.index.endsAt.get(b)?.some(({ cable }) => planned.includes(cable.id))) return null;
  return otherEnds(fold, text, place).twice ? null : [a, b];
}

/** The same for every number that stands at two places. */
export function withAllNewCables(fold: Fold, list: readonly Discrepancy[]): Discrepancy[] {
  const places = [...fold.unknownTexts()].flatMap((text) => {
    const at = fold.placesOfUnknown(text);
    return at.length === 2 ? at : [];
  });
  return withNewCables(fold, list, places.sort());
}

/** The same list with the two ends of each new cable as one, and the clashes of its two jacks. */
export function withNewCables(fold: Fold, list: readonly Discrepancy[], places: Iterable<PlaceId>): Discrepancy[] {
  const all = new Map(list.map((one) => [one.id, one]));
  const done = new Set<string>();
  for (const place of places) {
    for (const reading of fold.readingsAt(place)) {
      if (reading.cable !== null || reading.candidates.length > 0 || isAdapter(fold, reading)) continue;
      const ends = endsOf(fold, place, reading.text);
      if (!ends || done.has(ends.join('+'))) continue;
      done.add(ends.join('+'));
      for (const one of clashesOf(fold, ends)) all.set(one.id, one);
      const parts = ends.flatMap((end) => partsAt(fold, end));
      if (parts.length === 0) continue;
      for (const { id } of parts) all.delete(id);
      const one = oneCable(fold, ends, parts);
      all.set(one.id, one);
    }
  }
  return [...all.values()];
}

function textAt(fold: Fold, [a]: Ends): string {
  return fold.readingsAt(a).find(({ cable }) => cable === null)?.text ?? '';
}

function partsAt(fold: Fold, place: PlaceId): Discrepancy[] {
  return fold.ownDiscrepanciesAt(place).filter(({ kind }) => kind === 'unplanned-cable');
}

function evidenceOf(fold: Fold, ends: Ends) {
  return ends.flatMap((place) => fold.stateAt(place).looks.map(({ event }) => event));
}

function oneCable(fold: Fold, ends: Ends, parts: readonly Discrepancy[]): Discrepancy {
  const text = textAt(fold, ends);
  const severity = parts.some((part) => part.severity === 'undecided') ? 'undecided' : parts[0]!.severity;
  const finding = { kind: 'unplanned-cable', found: text, maybe: [] } as const;
  const one = makeDiscrepancy({ ...finding, maybe: [] }, severity, ends, [text], evidenceOf(fold, ends));
  return { ...one, was: parts.map(({ id }) => id) };
}

/** What was followed from one to the other is told by the look that followed it. */
function clashesOf(fold: Fold, ends: Ends): Discrepancy[] {
  const [a, b] = ends;
  if (fold.joined(a).includes(b)) return [];
  const [from, to] = [factsAt(fold.index, a), factsAt(fold.index, b)];
  const labels = [textAt(fold, ends)];
  const evidence = evidenceOf(fold, ends);
  const found: Discrepancy[] = [];
  const connector = from.connector ?? to.connector;
  const clash = from.signal && to.signal ? signalClash(from.signal, to.signal, connector) : null;
  if (clash && from.signal && to.signal) {
    const signals: [typeof from.signal, typeof to.signal] = [from.signal, to.signal];
    found.push(
      makeDiscrepancy({ kind: 'signal-clash', signals, joined: false }, clash.severity, ends, labels, evidence),
    );
  }
  const { direction } = from;
  if ((direction === 'in' || direction === 'out') && direction === to.direction) {
    const severity = direction === 'out' ? 'equipment' : 'service';
    found.push(makeDiscrepancy({ kind: 'direction-clash', direction }, severity, ends, labels, evidence));
  }
  return found;
}
