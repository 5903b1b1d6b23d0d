// What jackets and metre marks say of an end, in sentences. An estimate stays an estimate: nothing here joins two ends.
import type { MarkUnit } from '../../record/events.ts';
import { METRES_PER_FOOT } from '../../trade/lengths.ts';
import { listed, listedUpTo } from './plain.ts';

const CANDIDATES_SHOWN = 3;
const PLACES_SHOWN = 5;

/** In whole metres or feet; below ten with one decimal where the marks have one. */
export function lengthToWords(metres: number, unit: MarkUnit): string {
  const round = (n: number) => String(n < 10 ? Math.round(n * 10) / 10 : Math.round(n));
  return unit === 'm' ? `${round(metres)} m` : `${round(metres / METRES_PER_FOOT)} ft (${round(metres)} m)`;
}

/** @param tag The temporary tag on the other end, if it has one. */
export function fitsToWords(far: string, tag: string | null, length: string): string {
  return tag === null
    ? `Jacket and marks fit the end at ${far} (about ${length} of cable between the marks).`
    : `Jacket and marks fit the end at ${far}, which has tag ${tag} (about ${length} of cable between the marks).`;
}

export const betweenMarks = (length: string): string => `About ${length} of cable between the marks.`;

/** "Probable." or "Possible", with what stands against more. @param shared How many ends have this print. */
export function certaintyToWords(certainty: 'probable' | 'possible', shared: number): string {
  if (certainty === 'probable') return 'Probable.';
  return shared > 2
    ? `Possible: ${shared} ends have this print, and this length suits its places best.`
    : 'Possible: the length is odd for these two places.';
}

/** @param ends Length and place of each that fits, the likeliest first. @param fitting How many there are in all. */
export function undecidedToWords(
  shared: number,
  ends: readonly { length: string; words: string }[],
  fitting: number,
): string {
  const given = ends.slice(0, CANDIDATES_SHOWN).map(({ length, words }) => `${length} to ${words}`);
  const rest = fitting - given.length;
  const all = listed(rest > 0 ? [...given, `${rest} more`] : given);
  return `${shared} ends have this print; the marks give ${all}. They cannot show which one it is.`;
}

/** @param several Whether more than one of these ends can still be paired. */
export function samePrintToWords(shared: number, print: string, several: boolean): string {
  return several
    ? `${shared} ends have the print “${print}”; the marks cannot show which two belong together.`
    : `${shared} ends have the print “${print}”; the marks cannot show which of them this one goes to.`;
}

export const printedToWords = (print: string, marks: string): string => `Printed: ${print}, ${marks}.`;

export const onlyMarks = (marks: string): string => `Marks: ${marks}.`;

/** "212 m and 226 m", in the order of the places; long lists end in the number of the rest. */
export function marksToWords(ends: readonly { mark: number | null; unit: MarkUnit }[]): string {
  return listedUpTo(
    ends.map(({ mark, unit }) => (mark === null ? 'no mark' : `${mark} ${unit}`)),
    PLACES_SHOWN,
  );
}

/** "R1 SW1 P03 and R2 SW1 P07"; long lists end in the number of the rest. */
export function pairToWords({ places }: { places: readonly { words: string }[] }): string {
  return listedUpTo(
    places.map(({ words }) => words),
    PLACES_SHOWN,
  );
}
