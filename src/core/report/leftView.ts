// As found beside as left: places and settings where something was changed during the audit, with what was there
// before, what is there now, and whether that is what the plan says. The first never gives way to the second.

import { isJack, type PlaceId } from '../plan/identity.ts';
import { placeToWords } from '../plan/planIndex.ts';
import type { Look } from '../record/looks.ts';
import { seenValue } from '../rules/conflicts.ts';
import type { SeenValue } from '../rules/discrepancy.ts';
import type { Fold } from '../rules/fold.ts';
import { sameValue } from '../trade/settingNames.ts';
import { compareLabels } from './walk/walkOrder.ts';
import { STATE_WORDS } from './words/recordWords.ts';

export interface Said {
  words: string;
  /** False for a state such as "empty": only what stands on a label is drawn as one. */
  isLabel: boolean;
  by: string;
  at: number;
}

export interface LeftLine {
  place: PlaceId;
  /** Place in words, or the unit or jack with the name of the setting. */
  words: string;
  plan: string | null;
  found: Said;
  left: Said;
  /** `unplanned`: the plan says nothing that the two could be held against. */
  outcome: 'as-planned' | 'differs' | 'unplanned';
}

export const OUTCOME_WORDS: Record<LeftLine['outcome'], string> = {
  'as-planned': 'as planned',
  differs: 'still differs',
  unplanned: 'not in the plan',
};

/** In walking words, jacks and settings among each other. */
export function leftLines(fold: Fold): LeftLine[] {
  const differs = new Set(fold.discrepancies().flatMap(({ places }) => places));
  const lines: LeftLine[] = [];
  for (const place of fold.looks.places()) {
    const standing = fold.looks.standing(place);
    const history = fold.looks.history(place).filter(({ fate }) => fate !== 'withdrawn');
    const left = standing.filter(({ asLeft, relabelled }) => asLeft || relabelled !== null).at(-1);
    const found = left && history.findLast(({ look }) => !look.asLeft && look.at <= left.at)?.look;
    if (!left || !found || lookToWords(found) === lookToWords(left)) continue;
    const planned = fold.index.endsAt.get(place)?.map(({ cable }) => cable.label) ?? [];
    const known = planned.length > 0 || fold.index.jacks.has(place);
    lines.push({
      place,
      words: fold.wordsOf(place),
      plan: planned.length > 0 ? planned.join(' | ') : known ? 'empty' : null,
      found: saidOf(found),
      left: saidOf(left),
      outcome: differs.has(place) ? 'differs' : known ? 'as-planned' : 'unplanned',
    });
  }
  return [...lines, ...settingLines(fold)].sort((a, b) => compareLabels(a.words, b.words));
}

function settingLines(fold: Fold): LeftLine[] {
  return fold.settings.history().flatMap(({ spot, reads }): LeftLine[] => {
    const [first, last] = [reads[0], reads.at(-1)];
    const { unit, place, name, plan = null } = spot;
    if (!first || !last || sameValue(name, first.payload.value, last.payload.value)) return [];
    const { value } = last.payload;
    const where = place && isJack(place) ? placeToWords(fold.index, place) : null;
    return [
      {
        place: place ?? unit,
        words: `${where ?? fold.index.units.get(unit)?.label ?? unit}, ${name}`,
        plan,
        found: { words: first.payload.value, isLabel: false, by: first.author, at: first.at },
        left: { words: value, isLabel: false, by: last.author, at: last.at },
        outcome: plan === null ? 'unplanned' : sameValue(name, plan, value) ? 'as-planned' : 'differs',
      },
    ];
  });
}

export function seenToWords({ state, text }: SeenValue): string {
  return text ?? STATE_WORDS[state].full;
}

const lookToWords = (look: Look) => seenToWords(seenValue(look));

export function saidOf(look: Look): Said {
  const isLabel = look.plugs.some(({ labels }) => labels.length > 0);
  return { words: lookToWords(look), isLabel, by: look.author, at: look.at };
}
