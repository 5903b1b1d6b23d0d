// Causes in words, once for screens and reports: what happened, as far as the facts go, and the look that settles it.
// Never blames, never says that anything can be done without risk.

import type { Cause, CauseKind, Certainty, LookHow, NextLook, RenamingRule, Seen } from '../../causes/cause.ts';
import type { UnitId } from '../../plan/identity.ts';
import { type PlanIndex, placeToWords } from '../../plan/planIndex.ts';
import { counted, listed, listedUpTo } from './plain.ts';

export const CERTAINTY_WORDS: Record<Certainty, string> = {
  confirmed: 'Confirmed',
  probable: 'Probable',
  possible: 'Possible',
  unknown: 'Unknown',
};

export const CAUSE_WORDS: Record<CauseKind, string> = {
  'crossed-or-labels-exchanged': 'Crossed, or the labels are swapped',
  crossed: 'Two cables crossed',
  'labels-exchanged': 'Labels swapped',
  'chain-moved': 'Each in the next one’s jack',
  rotated: 'Put back in a different order',
  'row-shifted': 'Row shifted',
  'row-mirrored': 'Row counted from the other end',
  'odd-even-exchanged': 'Odd and even swapped',
  'groups-exchanged': 'Two groups swapped',
  'unit-moved': 'Unit moved',
  'unit-replaced': 'Unit replaced',
  'units-exchanged': 'Two units swapped',
  'addresses-exchanged': 'Addresses swapped',
  'shared-part': 'One part that they share',
  'hop-not-on-sheet': 'A panel in the run that is not on the sheet',
  'normal-bypassed': 'A patch cord overrides the normal',
  'group-reversed': 'A bundle laid the other way round',
  'sheet-slipped': 'A column of the sheet is out of step',
  'half-renamed': 'Renaming half done',
  'place-renamed': 'Another name for the same unit',
  'template-copied': 'Another room’s labels used here',
  'old-cable-left': 'Old cable left in place',
  'bypass-left': 'A lead bypasses a unit',
  'hand-slipped': 'A jack was skipped in the walk',
  other: 'Something else',
};

export const LOOK_WORDS: Record<LookHow, string> = {
  look: 'Check',
  listen: 'Listen',
  'read-page': 'Check the switch’s address table',
  follow: 'Follow',
};

/** The cause in three or four words, or in those of the person who named it; pairs of one cable are no cables. */
export function causeToTitle(cause: Cause): string {
  if (cause.kind === 'other' && cause.words) return cause.words;
  return cause.kind === 'crossed' && cause.by === 'pairs-followed' ? 'Two pairs crossed' : CAUSE_WORDS[cause.kind];
}

/** One or two sentences: what is swapped with what, by how much, through what. */
export function causeToLine(index: PlanIndex, cause: Cause): string {
  const labels = listedUpTo(cause.labels, 3);
  const places = listedUpTo(
    cause.places.map((place) => placeToWords(index, place)),
    3,
  );
  switch (cause.kind) {
    case 'crossed-or-labels-exchanged':
      return `${labels} are swapped. The labels alone cannot tell whether the plugs are swapped too.`;
    case 'crossed':
      return {
        'pairs-followed': `${labels} were followed: each is on the other’s landing.`,
        said: `${labels} are each in the other’s jack. Somebody said so; nobody followed them.`,
        followed: `${labels} are each in the other’s jack. They were followed: the plugs are swapped, not the labels.`,
      }[cause.by];
    case 'labels-exchanged':
      return {
        said: `${labels} are marked with each other’s number. Somebody said so; nobody followed them.`,
        'both-ends': `${labels} are marked with each other’s number at both ends. Jack to jack, the paths are as planned.`,
        followed: `${labels} are marked with each other’s number. They were followed: the paths are as planned.`,
      }[cause.by];
    case 'chain-moved':
      return `${labels} are each in the next one’s jack, and the first jack was vacated.`;
    case 'rotated':
      return `${labels} are back in the same ${counted(cause.jacks, 'jack')}, in a different order.`;
    case 'row-shifted': {
      const { offset } = cause;
      const cables = counted(cause.labels.length, 'cable is', 'cables are');
      const by = counted(Math.abs(offset), 'jack');
      return offset > 0 ? `${cables} ${by} further on: ${labels}.` : `${cables} ${by} back: ${labels}.`;
    }
    case 'hand-slipped':
      return `The entries for ${counted(cause.labels.length, 'jack')} fit if one jack was skipped. Then nothing differs.`;
    case 'row-mirrored':
      return `${counted(cause.labels.length, 'cable')} of ${cause.unit} fit if the row was counted from the other end.`;
    case 'odd-even-exchanged':
      return `Along ${cause.unit}, each odd jack has the cable of the even jack beside it, and the other way round.`;
    case 'groups-exchanged':
      if (cause.of.type === 'tips')
        return `The ${listed(cause.of.tips)} tip groups of ${cause.of.cable} may be swapped, pair for pair.`;
      return `Two groups of ${counted(cause.labels.length / 2, 'jack')} of ${cause.of.unit} are swapped, each in its own order.`;
    case 'units-exchanged':
      return cause.units
        ? `Everything planned for ${nameOf(index, cause.units[0])} is at ${nameOf(index, cause.units[1])}, and the other way round.`
        : `${labels} are in each other’s place.`;
    case 'unit-moved':
      return cause.rightJacks > 0
        ? `${labels} is in ${places}; ${counted(cause.rightJacks, 'of its jacks is', 'of its jacks are')} as planned.`
        : `${labels} is in ${places}.`;
    case 'unit-replaced':
      return `A different unit is in ${places}.`;
    case 'addresses-exchanged':
      return `${places} show each other’s ${cause.setting}.`;
    case 'shared-part':
      return `${counted(cause.places.length, 'fault')} of the same kind: they share ${cause.part.toLowerCase()}.`;
    case 'hop-not-on-sheet':
      return `${labels}: the run goes through ${listed(cause.panels)} and ends where the plan says.`;
    case 'normal-bypassed':
      return `A patch cord joins ${places}. The rear is as planned, as far as it was checked.`;
    case 'group-reversed':
      return `${counted(cause.labels.length, 'cable')} between ${listed(cause.units)} are laid the other way round.`;
    case 'sheet-slipped':
      return `Rows ${cause.rows.join(' to ')} of the sheet are out of step by ${counted(Math.abs(cause.offset), 'row')}, at one end only.`;
    case 'half-renamed':
      return `${counted(cause.labels.length, 'label follows', 'labels follow')} one rule, ${ruleWords(cause.rule)}. The plan has the old numbers.`;
    case 'place-renamed':
      return `Everything that the plan has at ${cause.from} is at ${cause.to}, jack for jack.`;
    case 'template-copied':
      return `${counted(cause.labels.length, 'label')} of ${nameOf(index, cause.from)} are at ${nameOf(index, cause.to)} as well.`;
    case 'old-cable-left':
      return `${labels} is at both its jacks, and another end with that number is at ${places}.`;
    case 'bypass-left':
      return `A lead joins ${places}. The plan has a unit between them. Ask operations what it is for.`;
    case 'other':
      return [labels, places].filter(Boolean).join(' at ');
  }
}

/** What to do for it, in words: "Check the switch’s address table at SW1 P03: MIO33 NET means crossed; CON32 NET means labels swapped." */
export function lookToLine(index: PlanIndex, look: NextLook): string {
  const where = placeToWords(index, look.place);
  const ask = {
    look: `Check ${where}`,
    listen: `Make a sound at each far end in turn and check which one reaches ${where}`,
    'read-page': `Check the switch’s address table at ${where}`,
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
      return `Make a sound at each far end in turn, and hear or see on a meter which one reaches ${where}.`;
    case 'follow':
      return 'Follow it by eye, hand or tone from end to end. Pull no plug to see where it goes.';
    case 'look':
      return `Go to ${where} and read the label.`;
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
