// Answers about what is described at a jack.

import { endsOver, rangeToMembers } from '../core/plan/containment.ts';
import { textToFarPlace } from '../core/plan/farPlace.ts';
import { type AuditId, jackOf, type PlaceId, placeToParts, unitOf } from '../core/plan/identity.ts';
import { powerView } from '../core/report/powerView.ts';
import { landingsFrom } from '../core/report/walk/partPayloads.ts';
import type { Fold } from '../core/rules/fold.ts';
import { pairsOf, pairsToWords, wiresOf } from '../core/rules/pairs.ts';
import type { PairsHere, PartQuestions } from '../wire/pageParts.ts';

type Answers = { [Q in keyof PartQuestions]: (given: PartQuestions[Q]['ask']) => PartQuestions[Q]['answer'] };

export function partAnswers(foldOf: (audit: AuditId) => Fold | null): Answers {
  return {
    place: ({ audit, text }) => {
      const fold = foldOf(audit);
      return fold && textToFarPlace(fold.index, text, (place) => fold.isSaid(place) || fold.joined(place).length > 0);
    },
    landings: ({ audit, place, count }) => {
      const fold = foldOf(audit);
      return fold && landings(fold, place, count);
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

function landings(fold: Fold, place: PlaceId, count: number): PartQuestions['landings']['answer'] {
  const { index } = fold;
  const parts = placeToParts(place);
  if (parts.type !== 'jack') return null;
  const unit = { id: parts.unit, label: unitWords(fold, place) };
  const range = landingsFrom(unit, index.jacks.get(place)?.label ?? parts.jack, count);
  if (!range) return null;
  const lacking = rangeToMembers(range.place).filter((one) => !index.jacks.has(one)).length;
  return { ...range, lacking: index.units.has(unit.id) ? lacking : 0 };
}

function pairsHere(fold: Fold, place: PlaceId): PairsHere | null {
  for (const { cable, end } of endsOver(fold.index, place)) {
    const wires = wiresOf(cable);
    const landings = rangeToMembers(end.place ?? '');
    const pairs = pairsOf(fold, cable);
    const parts = end.place === null ? null : placeToParts(end.place);
    const far = cable.ends.find((one) => one !== end)?.place;
    if (landings.length === 0 || parts?.type !== 'jack' || (far && !pairs)) continue;
    return {
      cable: cable.id,
      label: cable.label,
      unit: unitWords(fold, end.place ?? ''),
      landings,
      labels: landings.map((one) => fold.index.jacks.get(one)?.label ?? jackOf(one)),
      wires,
      far: far ? fold.wordsOf(far) : null,
      farUnit: far ? unitWords(fold, far) : null,
      farLandings: far ? rangeToMembers(far) : [],
      fates: landings.map((_, i) => pairs?.[i]?.fate ?? null),
      farLabels: (far ? rangeToMembers(far) : []).map((one) => fold.index.jacks.get(one)?.label ?? jackOf(one)),
      words: pairs ? pairsToWords(pairs, wires) : `${landings.length} ${wires}. The other end is not known yet.`,
    };
  }
  return null;
}

function unitWords(fold: Fold, place: PlaceId): string {
  const unit = unitOf(place);
  return fold.index.units.get(unit)?.label ?? unit;
}
