// What is said of temporary tags: whole sentences, with numbers and places as arguments.
import type { TwinsView } from '../../../core/report/walk/twinsView.ts';
import { listedUpTo } from '../../../core/report/words/plain.ts';
import { count, list, timeToWords } from '../../words.ts';

type Issuers = TwinsView['given'][number]['issuers'];

export const TWIN_WORDS = {
  title: 'Temporary tags',
  whichLeft: 'Temporary tags: which ends are left?',
  none: 'No temporary tag is on a cable yet. Record “No label” at a jack, then put one on. You need permission to touch.',
  whatTheyAre: 'Numbered tags, in pairs, for cables without a label.',
  mayLook: 'You may only look: put a tag on when touching is allowed.',
  twoCables: 'They count as two cables until somebody follows the cable from one place to the other and records it.',
  thisJack: 'This jack.',
  goAndPut: 'Go there and put one on.',
  goThere: 'Go there.',
  oneEnd: 'One end known, nearest first',
  bothEnds: 'Both ends known',
  bare: 'Plugs without label or tag, nearest first',
  stripNotSaved: 'The strip was not saved: the next number stays as it was.',
} as const;

export const newBlock = ({ old, next }: { old: string; next: string }): string =>
  `${old} are used up or belong to another phone. A new block starts: ${next}.`;

export const isOnIt = (tag: string): string => `${tag} is on it`;

export const isOn = (tag: string, place: string): string => `${tag} is on ${place}.`;

export const tagAct = (tag: string): string => `tag ${tag}`;

export const isDuplicate = (tag: string): string => `${tag} is a duplicate`;

export const alsoOn = (places: readonly string[]): string =>
  `It is also on ${list(places)}; nothing shows which of the cables that is. Follow it from there.`;

/** Who put a tag there that another cable has too. @param change It is the one to change. */
export function issuedBy([one, other]: Issuers, change: boolean, now: number): string {
  if (!one) return '';
  const by = `By ${one.author}, ${timeToWords(one.at, now)}.`;
  if (!change) return by;
  return one.places.length < (other?.places.length ?? 0)
    ? `${by} Fewer tags are on here: change this one.`
    : `${by} Given later: change this one.`;
}

export const changeTag = (places: readonly string[], on: string, off: string): string =>
  `At ${list(places)}: ${on} is on, ${off} is off`;

export const changedAct = (on: string, off: string): string => `${on} instead of ${off}`;

export const changedTag = (places: readonly string[], on: string, off: string): string =>
  `${on} is on ${list(places)}, ${off} is off.`;

export const notChanged = (tag: string): string => `${tag} was not saved: nothing has changed.`;

export const otherEndBare = (place: string): string =>
  `On ${place}. The other end has no tag yet: look for a bare plug.`;

export const morePlugs = (n: number): string => `And ${count(n, 'plug')} more.`;

export const tagsToDo = (n: number): string | undefined => (n > 0 ? `${n} to do` : undefined);

/** "2 other ends to find and 3 plugs without a tag." */
export function tagsLeft({ given, open, owedCount }: Pick<TwinsView, 'given' | 'open' | 'owedCount'>): string {
  const left = [
    given.length > 0 ? count(given.length, 'duplicate tag') : '',
    open.length > 0 ? count(open.length, 'other end to find', 'other ends to find') : '',
    owedCount > 0 ? count(owedCount, 'plug without a tag', 'plugs without a tag') : '',
  ].filter(Boolean);
  return left.length > 0 ? `${list(left)}.` : TWIN_WORDS.whatTheyAre;
}

export const oneEndOnly = (tags: readonly string[]): string =>
  `${count(tags.length, 'temporary tag has one end only', 'temporary tags have one end only')}: ${listedUpTo(tags, 4)}.`;

export const bareLeft = (n: number): string =>
  `${count(n, 'plug has no label and no tag', 'plugs have no label and no tag')}: see More, Temporary tags.`;

export const otherPhones = (block: string): string =>
  `${block} belong to another phone. Use another strip, or start higher.`;

export const stripAct = (first: string): string => `the strip from ${first}`;

export const nextNumbers = (block: string): string => `Your next numbers: ${block}.`;

export const startAt = (first: string): string => `Start at ${first}`;
