// What the verdict on one jack says: whole sentences, for what the verdict has found out. It decides nothing.
import type { Basis } from '../../record/events.ts';
import { listed, plural } from './plain.ts';

export const VERDICT_WORDS = {
  whichCable: 'which one is it?',
  fitsSeveral: 'The text fits more than one cable.',
  notLooked: 'not looked at yet',
  notChecked: 'not checked',
  notProven: 'not proven',
  notVisible: 'cannot be seen',
  asPlanned: 'as planned',
  differs: 'differs',
  recorded: 'recorded',
  staysOpen: 'This is not a check: it stays open in the report.',
  planEmpty: 'Plan has nothing here.',
} as const;

export const stateAsPlanned = (state: string): string => `${state}, as planned`;

export const adapterHere = (adapter: string): string => `${adapter} is plugged in here`;

export const planHere = (labels: readonly string[]): string =>
  labels.length === 0 ? VERDICT_WORDS.planEmpty : `Plan ${listed(labels)}.`;

/** What was read at these places before the work is what still differs. */
export const nowCheck = (places: readonly string[]): string => `Now check ${listed(places)}.`;

export const inferredOpen = (reason: string): string =>
  `${reason.replace(/^./, (letter) => letter.toUpperCase())}. It stays open in the report.`;

export const moreDiffer = (n: number): string => plural(n, `And ${n} more difference.`, `And ${n} more differences.`);

/** A lead goes by its two jacks; what is printed on it is a note. @param marked Null: it has no number. */
export function leadToWords(marked: string | null, planned: string, same: boolean): string {
  const joins = 'It joins the two jacks that the plan joins here.';
  if (marked === null) return `${joins} It has no number; plan ${planned}.`;
  return same ? joins : `${joins} It is marked ${marked}, plan ${planned}.`;
}

/** Where else a temporary tag is. @param text Null where it stands beside this already. */
export function tagElsewhere(text: string | null, places: readonly string[], twice: boolean): string {
  const at = listed(places);
  const other =
    places.length === 0
      ? text === null
        ? 'Other end not seen yet.'
        : `${text}: other end not seen yet.`
      : text === null
        ? `Other end at ${at}.`
        : `${text}: other end at ${at}.`;
  return twice ? `${other} It is a duplicate: see More, Temporary tags.` : other;
}

/** Where else a label is that no plan has. */
export function labelElsewhere(text: string, places: readonly string[], twice: boolean): string {
  const at = listed(places);
  const other =
    places.length === 0
      ? 'Other end not seen yet.'
      : plural(places.length, `Both ends known: also at ${at}.`, `Also at ${at}.`);
  return twice ? `${other} ${text} is a duplicate.` : other;
}

const BASIS: Record<Basis, string> = {
  seen: 'By eye',
  followed: 'Followed',
  page: 'Off the page',
  told: 'Told',
  inferred: 'Inferred',
};

/** @param photo How it was read off a photo, as `offPhotoWords` has it. */
export function lookToWords(basis: Basis, teller: string | undefined, photo: string | undefined): string {
  if (photo !== undefined) return `${photo.replace(/^./, (letter) => letter.toUpperCase())}.`;
  return teller ? `${BASIS[basis]} by ${teller}.` : `${BASIS[basis]}.`;
}

/** "From end MIO31 NET: not seen yet." @param place Null: the plan has none for it. */
export function otherEndToWords(
  end: string,
  place: string | null,
  seen: 'as-planned' | 'differs' | 'not-verified' | 'not-seen',
): string {
  const name = end === 'A' ? 'From end' : end === 'B' ? 'To end' : `End ${end}`;
  const where = `${name} ${place ?? 'not in the plan'}`;
  switch (seen) {
    case 'as-planned':
      return `${where}: seen as planned.`;
    case 'differs':
      return `${where}: differs.`;
    case 'not-verified':
      return `${where}: could not be seen.`;
    case 'not-seen':
      return `${where}: not seen yet.`;
  }
}
