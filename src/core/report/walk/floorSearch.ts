// Search over labels that stand on the floor and that no plan has: each cable with its places, and who gave its number
// where one number stands on two. Facts of every audit; it never guesses which of two was meant.

import type { AuditId, PlaceId } from '../../plan/identity.ts';
import { lookUp } from '../../plan/lookUp.ts';
import { duplicateNumbers } from '../../rules/numbers.ts';
import type { Station } from '../../rules/station.ts';
import { nameToFolded, nameToKey } from '../../trade/names.ts';
import { compareLabels } from './walkOrder.ts';

export interface FloorHit {
  audit: AuditId;
  auditName: string;
  label: string;
  /** Where to go for it. */
  place: PlaceId;
  /** Where its labels stand, in words. */
  places: PlaceId[];
  /** Only where the number was given twice. */
  given: { author: string; at: number } | null;
}

const SHOWN = 40;

/** Labels that hold the text, by label; a number given twice is two cables. At most 40. */
export function searchFloor(station: Station, text: string): FloorHit[] {
  const key = nameToKey(text);
  if (key === '') return [];
  const folded = nameToFolded(text);
  const names = station.planInForce()?.index?.names;
  const hits = station.audits().flatMap(({ id, started, fold }): FloorHit[] => {
    if (!fold) return [];
    const twice = new Map(duplicateNumbers(fold).map((one) => [nameToKey(one.text), one]));
    return [...fold.unknownTexts()].flatMap((label): FloorHit[] => {
      if (!nameToKey(label).includes(key) && !nameToFolded(label).includes(folded)) return [];
      const known = names && lookUp(names, label, 'cable');
      if (known && known.type !== 'none' && known.how !== 'folded') return [];
      const one = twice.get(nameToKey(label));
      const cables = one
        ? [
            ...one.issuers.map(({ author, at, places }) => ({ given: { author, at }, places })),
            ...one.unclear.map((place) => ({ given: null, places: [place] })),
          ]
        : [{ given: null, places: fold.placesOfUnknown(label) }];
      return cables.flatMap(({ given, places: [place, ...rest] }) =>
        place === undefined
          ? []
          : {
              audit: id,
              auditName: started.payload.name,
              label,
              place,
              places: [place, ...rest].map((at) => fold.wordsOf(at)),
              given,
            },
      );
    });
  });
  return hits.sort((a, b) => compareLabels(a.label, b.label)).slice(0, SHOWN);
}
