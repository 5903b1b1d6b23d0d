// Numbers of differences, for talking about them. A number is made of the difference alone, of its kind, places and
// labels: it stays while others come and go, and every phone gives the same one without asking another.
import { fingerprintSum } from '../rules/fingerprints.ts';

const DIGITS = 5;
/** Numbers of so many digits that do not begin with a zero. */
const SHORT = 90_000;
/** Digits of the rest of a sum of 32 bits. */
const REST = 5;

/**
 * Five digits of a sum of the id. Where two of one audit have the same, of which there is one pair in some four hundred
 * audits of twenty differences, both get more digits behind; what was written down before is still in front.
 */
export function differenceNumbers(ids: readonly string[]): ReadonlyMap<string, number> {
  const digits = new Map(ids.map((id) => [id, digitsOf(fingerprintSum(id))]));
  const numbers = new Map<string, number>();
  let open = [...digits.keys()];
  for (let length = DIGITS; length <= DIGITS + REST && open.length > 0; length++) {
    const counts = new Map<string, number>();
    for (const id of open) {
      const text = digits.get(id)!.slice(0, length);
      counts.set(text, (counts.get(text) ?? 0) + 1);
    }
    // Two with one sum, of which there is hardly ever one in a thousand audits, share their number.
    const isTaken = (id: string) => length < DIGITS + REST && counts.get(digits.get(id)!.slice(0, length))! > 1;
    for (const id of open) if (!isTaken(id)) numbers.set(id, Number(digits.get(id)!.slice(0, length)));
    open = open.filter(isTaken);
  }
  return numbers;
}

function digitsOf(sum: number): string {
  return `${10_000 + (sum % SHORT)}${String(Math.floor(sum / SHORT)).padStart(REST, '0')}`;
}
