// Answers about what is described at a jack.
import type { Fold } from '../core/audit/fold.ts';
import { pairsOf, pairsToWords } from '../core/audit/pairs.ts';
import { placeToParts } from '../core/plan/identity.ts';
import { planToPlaceNames, textToPlaces } from '../core/plan/saidPlace.ts';
import { endsOver, rangeToMembers } from '../core/plan/standsFor.ts';
import { powerView } from '../core/report/powerView.ts';
import type { PairsHere, PartQuestions } from '../wire/pageParts.ts';

type Answers = { [Q in keyof PartQuestions]: (given: PartQuestions[Q]['ask']) => PartQuestions[Q]['answer'] };

export function partAnswers(foldOf: (audit: string) => Fold | null): Answers {
  return {
    place: ({ audit, text }) => {
      const fold = foldOf(audit);
      const said = fold && textToPlaces(text, planToPlaceNames(fold.index.plan));
      const [place] = said?.type === 'places' && said.places.length === 1 ? said.places : [];
      return fold && place !== undefined ? { place, words: fold.wordsOf(place) } : null;
    },
    power: ({ audit, place }) => {
      const fold = foldOf(audit);
      return fold && powerView(fold, place);
    },
    pairs: ({ audit, place }) => {
      const fold = foldOf(audit);
      return fold && pairsHere(fold, place);
    },
  };
}

function pairsHere(fold: Fold, place: string): PairsHere | null {
  for (const { cable, end } of endsOver(fold.index, place)) {
    const pairs = pairsOf(fold, cable);
    const parts = end.place === null ? null : placeToParts(end.place);
    const far = cable.ends.find((one) => one !== end)?.place;
    if (!pairs || !far || parts?.type !== 'jack') continue;
    return {
      cable: cable.id,
      label: cable.label,
      unit: fold.index.units.get(parts.unit)?.label ?? parts.unit,
      landings: rangeToMembers(end.place!),
      far: fold.wordsOf(far),
      words: pairsToWords(pairs),
    };
  }
  return null;
}
