// What a value that was just read off a unit means: as planned, against the plan, or nothing to compare it with. One
// line for the walk, and where a hazard follows from it at once.
import type { EventId, PlaceId } from '../../plan/identity.ts';
import { placeToWords } from '../../plan/planIndex.ts';
import type { Fold } from '../../rules/fold.ts';
import { valueToWords } from '../words/openWords.ts';
import { discrepancyToWords } from '../words/words.ts';

export interface ValueRead {
  line: string;
  /** Jack at which it makes a hazard. */
  hazardAt: PlaceId | null;
}

export function valueRead(fold: Fold, event: EventId): ValueRead | null {
  const group = fold.settings.history().find(({ reads }) => reads.some(({ id }) => id === event));
  const read = group?.reads.find(({ id }) => id === event);
  if (!group || !read) return null;
  const { unit, place, plan, name } = group.spot;
  const { value } = read.payload;
  const where = place === undefined ? (fold.index.units.get(unit)?.label ?? unit) : placeToWords(fold.index, place);
  const differing = fold.settings.discrepancies().filter(({ evidence }) => evidence.includes(event));
  const [worst] = differing;
  const isHazard = worst?.severity === 'equipment' || worst?.severity === 'people';
  const blind = fold.started?.payload.blind === true;
  if (worst && !blind) {
    const lines = differing.map((one) => discrepancyToWords(fold.index, one).line);
    return { line: lines.join(' '), hazardAt: isHazard ? (place ?? null) : null };
  }
  const how = blind ? 'hidden' : plan === undefined ? 'not-planned' : 'as-planned';
  const line = valueToWords({ where, name, value }, how);
  return { line, hazardAt: isHazard && how !== 'as-planned' ? (place ?? null) : null };
}
