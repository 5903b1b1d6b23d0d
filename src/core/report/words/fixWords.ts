// Steps of the hands-on work in words, once for screens, reports and files: what to do, why, what goes off. Short, the
// trade's own words; never says that anything can be done without risk.

import type { Cause, CauseKind } from '../../causes/cause.ts';
import type { BackStep } from '../../fixes/back.ts';
import type { Waits } from '../../fixes/input.ts';
import type { Interrupted, Step } from '../../fixes/step.ts';
import { isLooseEnd, type PlaceId } from '../../plan/identity.ts';
import { factsAt, type PlanIndex, placeToWords } from '../../plan/planIndex.ts';
import { CHOICES } from '../../record/judgedEvents.ts';
import type { Discrepancy, DiscrepancyKind } from '../../rules/discrepancy.ts';
import type { FoldView } from '../../rules/foldView.ts';
import { CHOICE_WORDS } from '../decisionsView.ts';
import { seenToWords } from '../leftView.ts';
import { causeToLine, causeToTitle, lookToLine } from './causeWords.ts';
import { anyOf, listed } from './plain.ts';
import { PERMISSION_WORDS } from './recordWords.ts';
import { discrepancyToWords } from './words.ts';

/** What has to be done where a step cannot do it: said to whoever answers for it. */
const CURES: Partial<Record<DiscrepancyKind | CauseKind, string>> = {
  'empty-jack': 'Find the end that belongs here, and ask operations what is off without it.',
  'not-installed': 'Have it installed, or have it marked as not installed.',
  'wrong-jack': 'Find out which end it is, then record where it belongs.',
  'unplanned-cable': 'Add it to the plan, or have it removed.',
  'unlabelled-cable': 'Follow it, and give it a number at both ends.',
  'illegible-label': 'Follow it, and give it a number at both ends.',
  'duplicate-label': 'Give one of the two cables another number, at both ends.',
  'ends-differ': 'Find out which of the two numbers is right.',
  'ends-reversed': 'Accept it as it is, or have the cable turned round.',
  'abandoned-cable': 'Follow it first. Tag it for later use, or have it removed under a permit. Do not cut it.',
  'spare-in-use': 'Ask operations what it is used for.',
  'signal-clash': 'Have one end moved to the right jack, by whoever is responsible for both units.',
  'direction-clash': 'Have one end moved to the right jack, by whoever is responsible for both units.',
  'left-right-swapped': 'Swap the legs at one place only, and note which.',
  'polarity-reversed': 'Have one end of that lead remade. Reversing a second lead does not cure the first.',
  'wrong-connector': 'Have a proper tail made.',
  'wrong-cable-type': 'Have it replaced, or record what is printed on the jacket.',
  'undeclared-adapter': 'Add it to the plan, or have a proper tail made.',
  'unit-moved': 'Moving a unit is a job of its own: schedule it, or update the plan.',
  'unit-replaced': 'Compare its settings, and update the plan.',
  'unit-unlisted': 'Add it to the plan.',
  'unit-not-found': 'Find it, or have it marked as retired.',
  'duplicate-channel': 'Have one of them changed, by whoever keeps the list.',
  'duplicate-address': 'Have one of them changed, by the network staff.',
  'plan-contradiction': 'Ask the author of the sheet. Do not guess.',
  'units-exchanged': 'Swap names and addresses rather than units; ask whoever is responsible for both.',
  'shared-part': 'Have the part that they share repaired, not the cables.',
  'normal-bypassed': 'Ask why the cord is there. Make it permanent, or take it out in a maintenance window.',
  'bypass-left': 'Ask operations why the lead is there, and schedule its removal.',
  'old-cable-left': 'Tag the old cable, or have it removed.',
  'half-renamed': 'Finish the list of old and new numbers, or go back to the old ones.',
  'template-copied': 'Print this room’s labels again.',
  'sheet-slipped': 'Have the sheet corrected.',
  'hand-slipped': 'Correct the entries in the walk: a jack was skipped, no plug is wrong.',
};

/** One sentence that says what to do: the place before the colon, then the thing. */
export function stepToWords(view: Pick<FoldView, 'index' | 'wordsOf'>, step: Step | BackStep, about: About): string {
  const { index } = view;
  const [from = '', to = ''] = [step.from, step.to].map((place) => (place === null ? '' : placeWords(view, place)));
  const label = step.label === null || step.label === '' ? 'the plug' : step.label;
  switch (step.task) {
    case 'tell-hazard':
      return at(to, `tell the chief engineer: ${thingOf(index, about)}.`);
    case 'decide': {
      const thing = thingOf(index, about);
      const what = `decide about ${step.label ? `${step.label} (${thing})` : thing}`;
      return at(to, `${what}: ${anyOf(CHOICES.map((choice) => lower(CHOICE_WORDS[choice])))}.`);
    }
    case 'cure': {
      const { cause, difference } = about;
      const cure = CURES[cause?.kind ?? difference?.kind ?? 'wrong-jack'] ?? 'Ask what is to be done.';
      return at([to, step.label].filter(Boolean).join(', '), lower(cure));
    }
    case 'taken':
      return at(
        to,
        `${('by' in step && step.by) || 'another plug'} is in it; ${label} waits until it is decided where that one goes.`,
      );
    case 'trade':
      return at(from, `have a licensed trade move ${label} to ${to}.`);
    case 'isolate':
      return at(to, `have both ends of ${label} isolated before a plug moves.`);
    case 'phantom-ask':
      return at(to, `ask whether ${label} needs phantom. It was on; the plan does not say.`);
    case 'settle':
      return settleWords(view, step, about);
    case 'look-free':
      return at(to, `check that it is free for ${label}.`);
    case 'which-end':
      return at(to, `follow ${label}: which of its ends is this?`);
    case 'far-end':
      return at(to, `does the plug read ${label} too?`);
    case 'prove':
      return at(to, `follow the cable: is it ${label}?`);
    case 'listen-before':
      return 'Off-air receiver: listen to the air signal before anything moves.';
    case 'listen-after':
      return 'Off-air receiver: listen again. If it is not as before, roll back.';
    case 'mute':
      return isLoudspeaker(index, step.to)
        ? at(to, 'turn it down and have headphones taken off.')
        : at(to, 'have its channel and the monitors muted.');
    case 'unmute':
      return isLoudspeaker(index, step.to)
        ? at(to, 'turn it up again.')
        : at(to, 'have its channel and the monitors unmuted.');
    case 'phantom-off':
      return at(to, 'switch phantom off.');
    case 'phantom-on':
      return at(to, 'switch phantom on.');
    case 'discharge':
      return at(to, 'wait until the phantom voltage has gone.');
    case 'value': {
      const name = step.value?.name ?? 'the setting';
      return step.value?.to
        ? at(to, `set ${name} to ${step.value.to}.`)
        : at(to, `set ${name} to one that is not in use; the network staff know which.`);
    }
    case 'move':
      return moveWords(view, step, label, from, to);
    case 'label-put':
      return at(to, step.label === null ? 'put a label on the lead; it has none.' : `put label ${label} on the plug.`);
    case 'label-off':
      return at(to, `take label ${label} off the plug.`);
    case 'mend': {
      const { difference } = about;
      const said = difference?.kind === 'test-failed' ? difference.words : null;
      return at(to, `repair the end of ${label}.${said ? ` The tester said: ${said}.` : ''}`);
    }
    case 'first-test':
      return at(to, `test ${label}, and record the result.`);
    case 'retest':
      return at(to, `test ${label} again, and record the result.`);
  }
}

/** "SW1 P03: move 1004 to P04."; a sentence of its own where there is no place. */
function at(place: string, act: string): string {
  return place === '' ? `${act[0]?.toUpperCase() ?? ''}${act.slice(1)}` : `${place}: ${act}`;
}

/** What the step is about, by name. */
function thingOf(index: PlanIndex, { cause, difference }: About): string {
  if (cause) return lower(causeToTitle(cause));
  return difference ? lower(discrepancyToWords(index, difference).title) : 'what was found';
}

function moveWords(
  view: Pick<FoldView, 'index'>,
  { action, from: place, to: target }: Step | BackStep,
  label: string,
  from: string,
  to: string,
): string {
  if (action === 'hold') return at(from, `pull ${label} and hold it.`);
  if (action === 'pull') return at(from, `pull ${label} and leave it at ${to}.`);
  if (place === null) return at(to, `plug in ${label}.`);
  if (isLooseEnd(place)) return at(to, `plug in ${label}, loose at ${from}.`);
  return at(from, `move ${label} to ${target === null ? to : besideWords(view, place, target, to)}.`);
}

/** On the same unit the jack alone. */
function besideWords({ index }: Pick<FoldView, 'index'>, from: PlaceId, to: PlaceId, words: string): string {
  const jack = index.jacks.get(to);
  return jack !== undefined && jack.unit === index.jacks.get(from)?.unit ? jack.label : words;
}

function settleWords(
  view: Pick<FoldView, 'index' | 'wordsOf'>,
  step: Step | BackStep,
  { cause, difference }: About,
): string {
  if (cause?.nextLook) return lookToLine(view.index, cause.nextLook);
  const to = step.to === null ? '' : placeWords(view, step.to);
  if (difference?.kind === 'sightings-conflict')
    return at(to, `check again, ${anyOf(difference.values.map(seenToWords))}?`);
  const how = 'how' in step ? step.how : undefined;
  if (how === 'follow') return at(to, 'follow the cable to its other end.');
  if (how === 'listen') return at(to, `have a sound made at the far end of ${step.label}. Does it arrive here?`);
  if (how === 'read-page') return at(to, 'check the switch’s address table for this port.');
  return at(to, 'check what is in it.');
}

function lower(words: string): string {
  // An abbreviation keeps its capitals.
  return /^[A-Z][a-z ]/.test(words) ? `${words[0]!.toLowerCase()}${words.slice(1)}` : words;
}

function isLoudspeaker(index: PlanIndex, place: PlaceId | null): boolean {
  return place !== null && factsAt(index, place).signal === 'loudspeaker';
}

/** A jack, a rack position, a loose end in the words in which it was said, or a whole unit. */
export function placeWords({ index, wordsOf }: Pick<FoldView, 'index' | 'wordsOf'>, place: PlaceId): string {
  return isLooseEnd(place) ? wordsOf(place) : placeToWords(index, place);
}

/** What a step is for: the cause or the difference that it names first. */
export interface About {
  cause: Cause | null;
  difference: Discrepancy | null;
}

const OWN_WHY: Partial<Record<Step['task'], string>> = {
  'listen-before': 'A fault that was there before is then not blamed on the work.',
  'listen-after': 'Listen after each change, before the next one.',
  mute: 'Moving a plug or switching phantom can make a loud bang.',
  unmute: 'The work at it is done.',
  'phantom-off': 'What is plugged there must not get 48 V, or a plug moves next.',
  'phantom-on': 'The plan has it on for what is plugged there.',
  discharge: 'The voltage takes a while to go after it was switched off.',
  'look-free': 'Nobody has looked what is in that jack.',
  trade: 'Mains work is for licensed trades.',
};

/** Why: the work's own reason, else the cause or difference in words. */
export function whyToWords(index: PlanIndex, step: Step, { cause, difference }: About): string {
  const own = OWN_WHY[step.task];
  if (own) return own;
  if (step.rename) return `Renaming ${step.rename.old} to ${step.rename.new} is half done.`;
  if (cause) return causeToLine(index, cause);
  return difference ? discrepancyToWords(index, difference).line : '';
}

/** "1003, PGM1 to processor, on air (by plan and as seen)" */
export function interruptedToWords({ label, circuit, onAir, by }: Interrupted): string {
  const who = listed(by.map((one) => (one === 'plan' ? 'by plan' : 'as seen')));
  return `${[label, circuit, onAir ? 'on air' : null].filter(Boolean).join(', ')} (${who})`;
}

export function waitsToWords(waits: Waits): string {
  switch (waits.type) {
    case 'permission':
      return `Waits for a maintenance window: it needs permission to ${PERMISSION_WORDS[waits.needs].act}.`;
    case 'left-out':
      return `Waits: left out of this audit (${waits.reason}).`;
    case 'hazard':
      return 'Waits until the hazard beside it is cleared by whoever is responsible for it.';
  }
}
