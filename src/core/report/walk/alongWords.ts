// Where the cable in hand goes by plan, in words for the walk. Whoever asks has made sure that it may be told.
import type { PlaceId } from '../../plan/identity.ts';
import { placeToWords } from '../../plan/planIndex.ts';
import type { Fold } from '../../rules/foldView.ts';

export function farWords(fold: Fold, place: PlaceId): string | undefined {
  const planned = fold.index.endsAt.get(place)?.[0];
  const other = planned?.cable.ends.find((end) => end !== planned.end);
  return other?.place ? placeToWords(fold.index, other.place) : undefined;
}

export function alongWords(fold: Fold, place: PlaceId): string {
  const planned = fold.index.endsAt.get(place)?.[0];
  if (!planned) return 'Along the cables: the plan has no end here.';
  const others = planned.cable.ends.filter((end) => end !== planned.end && end.place !== null);
  const words = others.map(
    ({ place: other }) =>
      `${placeToWords(fold.index, other!)} ${fold.isSaid(other!) ? 'has an entry' : 'is still open'}`,
  );
  return `Along the cables: ${planned.cable.label || 'a cable without a number'}; ${
    words.length === 0 ? 'its other end has no place in the plan' : `its other end ${words.join(', ')}`
  }.`;
}
