// Labels that are hardly to be told from one that was read already, where no plan says which is meant; and names of which
// a person said that they only look like another. Look-up only: what is near is asked, never joined.
import { unknownKey } from '../record/readings.ts';
import type { Fold } from '../rules/fold.ts';
import { nameToFolded } from '../trade/names.ts';
import type { NearLabel } from './question.ts';

/** More than these nobody compares with a cable in the hand. */
const SHOWN = 4;

/** A person said of this name that it is a cable of its own, whatever it looks like. */
export function isOwnName(fold: Fold, text: string): boolean {
  const key = unknownKey(text);
  return fold
    .placesOfUnknown(text)
    .some((place) =>
      fold.readingsAt(place).some(({ plug }) => plug.labels.some((one) => one.own && unknownKey(one.text) === key)),
    );
}

/** Labels read off other plugs that differ from this one in separators, leading zeros, O and 0, I and 1 alone. */
export function nearLabels(fold: Fold, text: string): NearLabel[] {
  if (fold.placesOfUnknown(text).length > 0) return [];
  const folded = nameToFolded(text);
  const found: NearLabel[] = [];
  for (const known of fold.unknownTexts()) {
    if (nameToFolded(known) !== folded) continue;
    const [place] = fold.placesOfUnknown(known);
    if (place !== undefined) found.push({ label: known, line: fold.wordsOf(place) });
    if (found.length === SHOWN) break;
  }
  return found;
}
