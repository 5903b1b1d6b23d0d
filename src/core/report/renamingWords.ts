// A rename in words: what a jack under renaming says, what a search hit adds. Says nothing about what may be done.
import type { Fold } from '../audit/fold.ts';
import { saysNew } from '../audit/renameNames.ts';
import { type RenameEnd, type RenameStatus, renameStatus } from '../audit/renaming.ts';
import { type NameChange, type PlanIndex, placeToWords } from '../plan/planIndex.ts';

/** The rename of the cable at this place, as it stands: of the cable read there, else of the one planned there. */
export function renameAt(fold: Fold, place: string): RenameStatus | null {
  const { index } = fold;
  if (!index.renames) return null;
  const read = fold.readingsAt(place).flatMap(({ cable }) => cable ?? []);
  const planned = index.endsAt.get(place)?.map(({ cable }) => cable.id) ?? [];
  const one = [...read, ...planned].flatMap((cable): readonly NameChange[] => index.renames?.get(cable) ?? [])[0];
  return one ? renameStatus(fold, one) : null;
}

export function endAtPlace(status: RenameStatus, place: string): RenameEnd | null {
  return status.ends.find((end) => end.place === place) ?? null;
}

/** Every other end, as far as it has come: "COD42 AES OUT bears 2004". */
export function otherEnds(fold: Fold, status: RenameStatus, place: string): string {
  const others = status.ends.filter((end) => end.place !== place);
  const words = others.map((end) => {
    const where = end.place === null ? `End ${end.end}, nowhere in the plan,` : placeToWords(fold.index, end.place);
    return end.newOn ? `${where} bears ${status.new}.` : `${where} does not bear ${status.new} yet.`;
  });
  const done = others.length > 0 && others.every((end) => end.newOn !== null);
  return done ? `The other end is done: ${words.join(' ')}` : words.join(' ');
}

export interface RenameVerdict {
  variant: 'as-planned' | 'question' | 'note';
  word: string;
  second: string;
}

/** What is said of a label at a jack whose cable is being renamed; null where nothing of it was read. */
export function renameVerdict(fold: Fold, place: string): RenameVerdict | null {
  const status = renameAt(fold, place);
  const end = status && endAtPlace(status, place);
  if (!status || !end || end.bears.length === 0) return null;
  const others = otherEnds(fold, status, place);
  if (end.unclear) {
    return {
      variant: 'question',
      word: `new label of ${status.old}, or cable ${status.new}?`,
      second: `Plan has ${status.old} here, which becomes ${status.new}. Follow it, then say which.`,
    };
  }
  if (end.newOn && end.oldOn) {
    return { variant: 'note', word: `new label on, old ${status.old} beside it`, second: others };
  }
  if (end.newOn) {
    const word = status.state === 'done' ? `was ${status.old}, renamed` : `new label on, ${status.old} is off`;
    return { variant: status.state === 'done' ? 'as-planned' : 'note', word, second: others };
  }
  if (end.oldOn) return { variant: 'note', word: `old label, becomes ${status.new}`, second: others };
  return null;
}

/** For a search: `becomes 2004`, or `new name of 2005` where the text is a name that is only being given. */
export function renamingLine(index: PlanIndex, cable: string, text: string): string {
  const changes = index.renames?.get(cable) ?? [];
  return changes
    .map((one) => (saysNew(index, text, one) ? `now ${one.old}, becomes ${one.new}` : `becomes ${one.new}`))
    .join(', ');
}
