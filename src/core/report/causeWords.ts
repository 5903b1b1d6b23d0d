// Causes in words, once for screens and reports: what happened, as far as the facts go, and the look that settles it.
// Never blames, never says that anything can be done without risk.
import type { Cause, CauseKind, Certainty, LookHow, NextLook } from '../audit/causes/cause.ts';
import { type PlanIndex, placeToWords } from '../plan/planIndex.ts';
import { listWords } from './words.ts';

export const CERTAINTY_WORDS: Record<Certainty, string> = {
  confirmed: 'Confirmed',
  probable: 'Probable',
  possible: 'Possible',
  unknown: 'Unknown',
};

export const CAUSE_WORDS: Record<CauseKind, string> = {
  'crossed-or-labels-exchanged': 'Crossed, or the labels are exchanged',
  crossed: 'Two cables crossed',
  'labels-exchanged': 'Labels exchanged',
  'chain-moved': 'Moved along one after the other',
  rotated: 'Put back in another order',
  'row-shifted': 'Row shifted',
  'row-mirrored': 'Row counted from the other side',
  'odd-even-exchanged': 'Odd and even exchanged',
  'groups-exchanged': 'Two groups exchanged',
  'unit-moved': 'Unit moved',
  'unit-replaced': 'Unit replaced',
  'units-exchanged': 'Two units exchanged',
  'addresses-exchanged': 'Addresses exchanged',
  'shared-part': 'One part that all of them pass',
  'hop-not-on-sheet': 'A panel between that is not on the sheet',
  'normal-bypassed': 'A cord passes the normal by',
  'group-reversed': 'A bundle the other way round',
  'sheet-slipped': 'A column of the sheet slipped',
  'half-renamed': 'Renaming half done',
  'place-renamed': 'Another name for the same unit',
  'template-copied': 'Labels of another room used here',
  'old-cable-left': 'Old cable left in place',
  'bypass-left': 'A lead that goes round a unit',
  'hand-slipped': 'A jack was missed while looking',
  other: 'Something else',
};

export const LOOK_WORDS: Record<LookHow, string> = {
  look: 'Look',
  listen: 'Listen',
  'read-page': 'Read the page',
  follow: 'Follow',
};

/** The cause in three or four words, or in those of the person who named it; pairs of one cable are no cables. */
export function causeToTitle({ kind, detail }: Cause): string {
  if (kind === 'other' && detail.words) return detail.words;
  return kind === 'crossed' && detail.pairs ? 'Two pairs crossed' : CAUSE_WORDS[kind];
}

/** One or two sentences: who changed places with whom, by how much, through what. */
export function causeToLine(index: PlanIndex, cause: Cause): string {
  const labels = shortList(cause.labels);
  const { detail } = cause;
  const places = shortList(cause.places.map((place) => placeToWords(index, place)));
  switch (cause.kind) {
    case 'crossed-or-labels-exchanged':
      return `${labels} have changed places. The labels alone cannot tell whether the plugs did too.`;
    case 'crossed':
      if (detail.pairs) return `${labels} were each followed to the other’s landing.`;
      if (detail.taken) return `${labels} are each in the other’s jack. That was said; nobody followed them.`;
      return `${labels} are each in the other’s jack: followed, the plugs themselves are exchanged.`;
    case 'labels-exchanged':
      if (detail.taken) return `${labels} bear each other’s number. That was said; nobody followed them.`;
      return detail.ends === 'both'
        ? `${labels} bear each other’s number at both ends. Jack to jack the paths are as planned.`
        : `${labels} bear each other’s number. Followed, the paths are as planned.`;
    case 'chain-moved':
      return `${labels} sit where the next one belongs; the first jack was left.`;
    case 'rotated':
      return `${labels} went round among ${detail.count ?? cause.labels.length} jacks.`;
    case 'row-shifted': {
      const offset = Number(detail.offset ?? 0);
      const by = Math.abs(offset);
      return `${cause.labels.length} cables sit ${by} ${by === 1 ? 'jack' : 'jacks'} ${offset > 0 ? 'further on' : 'back'}: ${labels}.`;
    }
    case 'hand-slipped':
      return `What was said of ${cause.labels.length} jacks fits if one jack was missed. Then nothing differs.`;
    case 'row-mirrored':
      return `${cause.labels.length} cables of ${detail.unit} fit if the row was counted from the other side.`;
    case 'odd-even-exchanged':
      return `Along ${detail.unit}, each odd jack holds the cable of the even one beside it and the other way round.`;
    case 'groups-exchanged':
      if (detail.tips)
        return `The ${detail.tips} tip groups of ${detail.cable} may have changed places, pair for pair.`;
      return `Two groups of ${cause.labels.length / 2} jacks of ${detail.unit} have changed places, each in its own order.`;
    case 'units-exchanged':
      return detail.a && detail.b
        ? `Everything planned for ${nameOf(index, detail.a)} is at ${nameOf(index, detail.b)} and the other way round.`
        : `${labels} stand in each other’s place.`;
    case 'unit-moved':
      return `${labels} stands at ${places}${Number(detail.jacks) > 0 ? `; ${detail.jacks} of its jacks are as planned` : ''}.`;
    case 'unit-replaced':
      return `Another unit is at ${places}.`;
    case 'addresses-exchanged':
      return `${places} show each other’s ${detail.setting ?? 'address'}.`;
    case 'shared-part':
      return `${cause.places.length} of the same kind share ${(detail.shared ?? '').toLowerCase()}.`;
    case 'hop-not-on-sheet':
      return `${labels}: the run passes ${detail.panels} and arrives where the plan has it.`;
    case 'normal-bypassed':
      return `A cord joins ${places}. The rear is as planned as far as it was seen.`;
    case 'group-reversed':
      return `${cause.labels.length} cables between ${detail.shared} were laid from end to end the other way round.`;
    case 'sheet-slipped':
      return `Rows ${detail.rows} of the sheet are ${Math.abs(Number(detail.offset))} off against the floor, on one side only.`;
    case 'half-renamed':
      return `${cause.labels.length} labels follow one rule, ${detail.rule}. The plan has the old numbers.`;
    case 'place-renamed':
      return `All that the plan has at ${detail.a} is at ${detail.b}, jack for jack.`;
    case 'template-copied':
      return `${cause.labels.length} labels of ${nameOf(index, detail.a ?? '')} stand at ${nameOf(index, detail.b ?? '')} as well.`;
    case 'old-cable-left':
      return `${labels} is at both its jacks, and a further end with that number lies at ${places}.`;
    case 'bypass-left':
      return `A lead joins ${places}. The plan has a unit between. Ask operations before judging.`;
    case 'other':
      return [labels, places].filter(Boolean).join(' at ');
  }
}

/** What to do for it, in words: "Read the page of SW1 P03: MIO33 NET means crossed, CON32 NET means labels exchanged." */
export function lookToLine(index: PlanIndex, look: NextLook): string {
  const where = placeToWords(index, look.place);
  const ask = {
    look: `Look at ${where}`,
    listen: `Make a sound at the far end and see where ${where} takes it from`,
    'read-page': `Read which hardware address the page lists at ${where}`,
    follow: `Follow the cable in ${where}`,
  }[look.how];
  const means = look.expect.map(({ kind, words }) => `${words} means ${lower(CAUSE_WORDS[kind])}`);
  return `${ask}: ${means.join('; ')}.`;
}

function shortList(words: readonly string[]): string {
  return words.length > 4 ? `${words.slice(0, 3).join(', ')} and ${words.length - 3} more` : listWords([...words]);
}

function nameOf(index: PlanIndex, unit: string): string {
  return index.units.get(unit)?.label ?? unit;
}

function lower(words: string): string {
  return `${words[0]?.toLowerCase() ?? ''}${words.slice(1)}`;
}
