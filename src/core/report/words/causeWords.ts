// Causes in words, once for screens and reports: what happened, as far as the facts go, and the look that settles it.
// Never blames, never says that anything can be done without risk.

import type { Cause, CauseKind, Certainty, LookHow, NextLook, RenamingRule, Seen } from '../../causes/cause.ts';
import type { UnitId } from '../../plan/identity.ts';
import { type PlanIndex, placeToWords } from '../../plan/planIndex.ts';
import { listed, listedUpTo } from './plain.ts';

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
export function causeToTitle(cause: Cause): string {
  if (cause.kind === 'other' && cause.words) return cause.words;
  return cause.kind === 'crossed' && cause.by === 'pairs-followed' ? 'Two pairs crossed' : CAUSE_WORDS[cause.kind];
}

/** One or two sentences: who changed places with whom, by how much, through what. */
export function causeToLine(index: PlanIndex, cause: Cause): string {
  const labels = listedUpTo(cause.labels, 3);
  const places = listedUpTo(
    cause.places.map((place) => placeToWords(index, place)),
    3,
  );
  switch (cause.kind) {
    case 'crossed-or-labels-exchanged':
      return `${labels} have changed places. The labels alone cannot tell whether the plugs did too.`;
    case 'crossed':
      return {
        'pairs-followed': `${labels} were each followed to the other’s landing.`,
        said: `${labels} are each in the other’s jack. That was said; nobody followed them.`,
        followed: `${labels} are each in the other’s jack: followed, the plugs themselves are exchanged.`,
      }[cause.by];
    case 'labels-exchanged':
      return {
        said: `${labels} bear each other’s number. That was said; nobody followed them.`,
        'both-ends': `${labels} bear each other’s number at both ends. Jack to jack the paths are as planned.`,
        followed: `${labels} bear each other’s number. Followed, the paths are as planned.`,
      }[cause.by];
    case 'chain-moved':
      return `${labels} sit where the next one belongs; the first jack was left.`;
    case 'rotated':
      return `${labels} went round among ${cause.jacks} jacks.`;
    case 'row-shifted': {
      const { offset } = cause;
      const by = Math.abs(offset);
      return `${cause.labels.length} cables sit ${by} ${by === 1 ? 'jack' : 'jacks'} ${offset > 0 ? 'further on' : 'back'}: ${labels}.`;
    }
    case 'hand-slipped':
      return `What was said of ${cause.labels.length} jacks fits if one jack was missed. Then nothing differs.`;
    case 'row-mirrored':
      return `${cause.labels.length} cables of ${cause.unit} fit if the row was counted from the other side.`;
    case 'odd-even-exchanged':
      return `Along ${cause.unit}, each odd jack holds the cable of the even one beside it and the other way round.`;
    case 'groups-exchanged':
      if (cause.of.type === 'tips')
        return `The ${listed(cause.of.tips)} tip groups of ${cause.of.cable} may have changed places, pair for pair.`;
      return `Two groups of ${cause.labels.length / 2} jacks of ${cause.of.unit} have changed places, each in its own order.`;
    case 'units-exchanged':
      return cause.units
        ? `Everything planned for ${nameOf(index, cause.units[0])} is at ${nameOf(index, cause.units[1])} and the other way round.`
        : `${labels} stand in each other’s place.`;
    case 'unit-moved':
      return `${labels} stands at ${places}${cause.rightJacks > 0 ? `; ${cause.rightJacks} of its jacks are as planned` : ''}.`;
    case 'unit-replaced':
      return `Another unit is at ${places}.`;
    case 'addresses-exchanged':
      return `${places} show each other’s ${cause.setting}.`;
    case 'shared-part':
      return `${cause.places.length} of the same kind share ${cause.part.toLowerCase()}.`;
    case 'hop-not-on-sheet':
      return `${labels}: the run passes ${listed(cause.panels)} and arrives where the plan has it.`;
    case 'normal-bypassed':
      return `A cord joins ${places}. The rear is as planned as far as it was seen.`;
    case 'group-reversed':
      return `${cause.labels.length} cables between ${listed(cause.units)} were laid from end to end the other way round.`;
    case 'sheet-slipped':
      return `Rows ${cause.rows.join(' to ')} of the sheet are ${Math.abs(cause.offset)} off against the floor, on one side only.`;
    case 'half-renamed':
      return `${cause.labels.length} labels follow one rule, ${ruleWords(cause.rule)}. The plan has the old numbers.`;
    case 'place-renamed':
      return `All that the plan has at ${cause.from} is at ${cause.to}, jack for jack.`;
    case 'template-copied':
      return `${cause.labels.length} labels of ${nameOf(index, cause.from)} stand at ${nameOf(index, cause.to)} as well.`;
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
  const means = look.expect.map(({ kind, sees }) => `${seenWords(index, sees)} means ${lower(CAUSE_WORDS[kind])}`);
  return `${ask}: ${means.join('; ')}.`;
}

export function seenWords(index: PlanIndex, sees: Seen): string {
  switch (sees.type) {
    case 'label':
      return sees.label;
    case 'nothing':
      return 'nothing plugged';
    case 'place':
      return placeToWords(index, sees.place);
  }
}

/** The check as a question with its likely answers: "Which device does SW1 P03 show: CON32 or MIO31?" */
export function checkQuestion(how: LookHow, where: string, answers: readonly string[]): string {
  const which = answers.length > 0 ? `: ${answers.join(' or ')}?` : '?';
  switch (how) {
    case 'read-page':
      return `Which device does ${where} show${which}`;
    case 'listen':
      return `Which source is heard at ${where}${which}`;
    case 'follow':
      return `Where does the cable in ${where} end${which}`;
    case 'look':
      return `What is in ${where}${which}`;
  }
}

/** How the check is made. Nothing is pulled for it. */
export function checkTask(how: LookHow, where: string): string {
  switch (how) {
    case 'read-page':
      return `Look up ${where} in the switch’s address table: it lists the MAC address of what is plugged in there.`;
    case 'listen':
      return `Make a sound at one far end after the other, and hear or see on a meter which one reaches ${where}.`;
    case 'follow':
      return 'Follow it by eye, hand or tone from end to end. Pull no plug to see where it goes.';
    case 'look':
      return `Go to ${where} and look.`;
  }
}

function ruleWords(rule: RenamingRule): string {
  if (rule.type === 'text') return `${rule.from}… to ${rule.to}…`;
  return `${rule.before} ${rule.by > 0 ? '+' : ''}${rule.by}`;
}

function nameOf(index: PlanIndex, unit: UnitId): string {
  return index.units.get(unit)?.label ?? unit;
}

function lower(words: string): string {
  return `${words[0]?.toLowerCase() ?? ''}${words.slice(1)}`;
}
