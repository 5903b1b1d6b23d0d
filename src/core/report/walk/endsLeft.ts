// Which ends are left? Planned ends that nobody has seen, nearest first; where one end of a cable was seen, the other
// is the more worth the way. In a blind audit nothing of this may be told.
import type { CableId, PlaceId } from '../../plan/identity.ts';
import type { Fold } from '../../rules/fold.ts';
import { cablesInScope } from '../coverage.ts';
import { paceToWords } from '../words/openWords.ts';
import { paceOf } from './pace.ts';
import { distance } from './twinsView.ts';

export interface EndLeft {
  cable: CableId;
  label: string;
  place: PlaceId;
  words: string;
  /** The other end was seen where the plan has it. */
  otherSeen: boolean;
}

export interface EndsLeft {
  blind: boolean;
  /** The nearest of them. */
  ends: EndLeft[];
  count: number;
  jacksLeft: number;
  /** An estimate in words; null while there is too little to go by. */
  pace: string | null;
}

const SHOWN = 60;

export function endsLeft(fold: Fold, here: string | null, author: string): EndsLeft {
  const blind = fold.started?.payload.blind === true;
  const times = new Set<number>();
  let said = 0;
  for (const place of fold.seenPlaces()) {
    if (fold.scope.owed.has(place)) said += 1;
    // A range is one act, so its many places count once.
    for (const look of fold.stateAt(place).looks) if (look.author === author) times.add(look.at);
  }
  const jacksLeft = fold.scope.owed.size - said;
  const pace = paceToWords(paceOf([...times]), jacksLeft);
  if (blind) return { blind, ends: [], count: 0, jacksLeft, pace };
  const all = cablesInScope(fold).flatMap(({ id, label, status }) => {
    const otherSeen = status.ends.some(({ seen }) => seen === 'as-planned');
    return status.ends.flatMap(({ place, seen }): EndLeft[] =>
      place !== null && seen === 'not-seen' && fold.scope.has(place)
        ? [{ cable: id, label, place, words: fold.wordsOf(place), otherSeen }]
        : [],
    );
  });
  const ends = all
    .map((end) => ({ end, far: distance(fold, here, end.place) }))
    .sort((a, b) => a.far - b.far || Number(b.end.otherSeen) - Number(a.end.otherSeen))
    .slice(0, SHOWN)
    .map(({ end }) => end);
  return { blind, ends, count: all.length, jacksLeft, pace };
}
