// What the walk asks before something counts, and the answers. Texts only.
import type { StopView } from '../../../core/report/walk/walkStops.ts';
import { count, list, timeToWords } from '../../words.ts';

export const ASK_WORDS = {
  cancel: 'Cancel',
  dontRecord: 'Don’t record',
  readItAgain: 'Read it again',
  noneOfThese: 'None of these: read it again',
  stayHere: 'Stay here',
  outside: 'It is outside this audit',
  addAndGo: 'Add it and go there',
  goOnThere: 'Go on with the walk there',
  nothingHere: 'Nothing is recorded at this jack. A cable can be marked with such a name too.',
  nothingOutside: 'It is outside this audit. Nothing is recorded. A cable can be marked with such a name too.',
  unlikely: 'This does not look like the label of a cable.',
  readAgain: 'Read again',
  plugReadsThis: 'The plug reads this',
  recordIt: 'Record it',
  earlier: 'Misread before, or changed since?',
  misread: 'Misread',
  misreadSmall: 'Withdraw the earlier one',
  changed: 'Changed since',
  changedSmall: 'Both stay, in order',
  unsure: 'Cannot tell: keep both',
} as const;

const WHAT = { unit: 'unit', rack: 'rack', jack: 'jack' } as const;

export const isCable = (label: string): string => `No, it is cable ${label}`;

export function sameAsQuestion(text: string, [first, ...more]: readonly string[]): string {
  return first !== undefined && more.length === 0 ? `${text}: same as ${first}?` : `${text}: same as one of these?`;
}

export const readAt = (place: string): string => `Read at ${place}`;

export const whichOfSeveral = (text: string): string => `“${text}” fits more than one. Which is it?`;

export const labelOf = (what: keyof typeof WHAT, label: string): string =>
  `That is the label of ${WHAT[what]} ${label}.`;

export const goTo = (label: string): string => `Go to ${label}`;

export const cutAt = (length: number): string => `It has ${length} characters; the rest was cut.`;

/** "Rack R1, front, 24 jacks. Also here: Ilse, 10:31." Who was there last, when others were. */
export function stopToWords(
  { rack, room, side, total }: Pick<StopView, 'rack' | 'room' | 'side' | 'total'>,
  people: readonly { author: string; at: number }[],
  now: number,
): string {
  const jacks = count(total, 'jack');
  const at = rack !== null ? `Rack ${rack}, ${side}, ${jacks}` : room === null ? jacks : `${room}, ${jacks}`;
  if (people.length === 0) return at;
  return `${at}. Also here: ${list(people.map(({ author, at: when }) => `${author}, ${timeToWords(when, now)}`))}`;
}

export const whyNotChecked = (place: string): string => `Why was ${place} not checked?`;

export const hazardAt = (place: string): string => `Hazard at ${place}`;
