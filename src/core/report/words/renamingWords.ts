// A rename in words: what a jack under renaming says, what a search hit adds. Says nothing about what may be done.

import type { CableId, PlaceId } from '../../plan/identity.ts';
import { type PlanIndex, placeToWords } from '../../plan/planIndex.ts';
import { saysNew } from '../../record/renameNames.ts';
import { endAtPlace, renameAt } from '../../renaming/renameAt.ts';
import type { RenameStatus } from '../../renaming/renaming.ts';
import type { Fold } from '../../rules/fold.ts';

/** Every other end, as far as it has come: "COD42 AES OUT has 2004". */
export function otherEnds(fold: Fold, status: RenameStatus, place: PlaceId): string {
  const others = status.ends.filter((end) => end.place !== place);
  const words = others.map((end) => {
    const where =
      end.place === null ? `End ${end.end}, which has no place in the plan,` : placeToWords(fold.index, end.place);
    return end.newOn ? `${where} has ${status.new}.` : `${where} still needs ${status.new}.`;
  });
  const done = others.length > 0 && others.every((end) => end.newOn !== null);
  return done ? `The other end is done: ${words.join(' ')}` : words.join(' ');
}

interface RenameVerdict {
  variant: 'as-planned' | 'question' | 'note';
  label: string;
  word: string;
  second: string;
}

/** What is said of a label at a jack whose cable is being renamed; null where nothing of it was read. */
export function renameVerdict(fold: Fold, place: PlaceId): RenameVerdict | null {
  const status = renameAt(fold, place);
  const end = status && endAtPlace(status, place);
  if (!status || !end || end.bears.length === 0) return null;
  const second = otherEnds(fold, status, place);
  const { old, new: fresh, state } = status;
  if (end.unclear) {
    const say = `Is it the new label for ${old}, or cable ${fresh} in its jack? Follow it, then choose.`;
    return { variant: 'question', label: fresh, word: 'which cable?', second: say };
  }
  if (end.newOn && end.oldOn) return { variant: 'note', label: fresh, word: `is on, old ${old} is still on`, second };
  if (state === 'done') return { variant: 'as-planned', label: fresh, word: `was ${old}, renamed`, second };
  if (end.newOn) return { variant: 'note', label: fresh, word: `is on, old ${old} is off`, second };
  return end.oldOn ? { variant: 'note', label: old, word: `old label, becomes ${fresh}`, second } : null;
}

/** The new label is on here and the rename is not done: neither as planned nor a difference. */
export function isBetweenNames(fold: Fold, place: PlaceId): RenameStatus | null {
  const status = renameAt(fold, place);
  const end = status && endAtPlace(status, place);
  return status && (end?.newOn || end?.unclear) && status.state !== 'done' ? status : null;
}

/** For a search: `becomes 2004`, or `new name of 2005` where the text is a name that is only being given. */
export function renamingLine(index: PlanIndex, cable: CableId, text: string): string {
  const changes = index.renames?.get(cable) ?? [];
  return changes
    .map((one) => (saysNew(index, text, one) ? `now ${one.old}, becomes ${one.new}` : `becomes ${one.new}`))
    .join(', ');
}

/** `2005, 2009, 2010 and 3 more` */
export function someOf(names: readonly string[], shown = 3): string {
  const first = names.slice(0, shown).map(short).join(', ');
  return names.length > shown ? `${first} and ${names.length - shown} more` : first;
}

/** The line that is always in view while something is half done; empty while nothing is. */
export function halfToWords(half: readonly string[]): string {
  return half.length === 0 ? '' : `${half.length} ${half.length === 1 ? 'cable' : 'cables'} half done: ${someOf(half)}`;
}

/** A label of any length in a line of words. */
function short(label: string): string {
  const letters = [...label];
  return letters.length <= 24 ? label : `${letters.slice(0, 16).join('')}…`;
}
