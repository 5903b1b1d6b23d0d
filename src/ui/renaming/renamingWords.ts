// Sentences of a renaming for the screens: what to do at the jack in hand, why a row of a list cannot be taken.
import type { CheckedPair, RowProblem, RowWarning } from '../../core/renaming/renamingCheck.ts';
import type { JackRename } from '../../core/report/walk/walkRenaming.ts';
import { someOf } from '../../core/report/words/renamingWords.ts';
import { labelToShow } from '../walk/walkState.ts';
import { count } from '../words.ts';

/** Why an audit with half-done pairs stays open. */
export function refusal(left: readonly string[]): string {
  const one = left.length === 1;
  return `${count(left.length, 'cable')} ${one ? 'is' : 'are'} half renamed: ${someOf(left, 5)}. The audit stays open until ${one ? 'it is' : 'they are'} finished or handed over.`;
}

/** What the jack asks for now; the first sentence is what to do, the rest is what to mind. */
export function stepToWords(here: JackRename): { head: string; mind: string[] } {
  const [old, fresh] = [labelToShow(here.old), labelToShow(here.new)];
  const far = here.far?.words ?? 'the other end';
  const air = here.onAir ? ['On-air chain: look only, unless a maintenance window is agreed for it.'] : [];
  switch (here.step) {
    case 'look':
      return { head: `${old} becomes ${fresh}.`, mind: ['Read the old label at its jack first. One cable at a time.'] };
    case 'plan':
      return { head: `${old} becomes ${fresh}.`, mind: ['Look only: do not touch it. This walk plans the work.'] };
    case 'put':
      return {
        head: `Put ${fresh} beside ${old}. ${old} stays on.`,
        mind: [
          ...air,
          here.followed
            ? `Followed to ${far}. Hold the plug steady; unplug nothing.`
            : `In the plan it goes to ${far}: follow it or have that confirmed first. Hold the plug steady; unplug nothing.`,
        ],
      };
    case 'wait':
      return {
        head: `${fresh} is on. ${here.oldText === null ? '' : `${old} stays on for now.`}`.trim(),
        mind: [here.others],
      };
    case 'off':
      return {
        head: `Both ends have ${fresh}. Take ${old} off.`,
        mind: [...air, 'Peel it off: no blade near the jacket or the bundle. Hold the plug steady.'],
      };
    case 'unclear':
      return {
        head: `Is ${fresh} here the new label for ${old}, or cable ${fresh}?`,
        mind: [`In the plan ${old} goes to ${far}.`],
      };
    case 'clash':
      return {
        head: `Two lists give ${old} different new names.`,
        mind: ['Remove one list before you put a label on.'],
      };
    case 'settings':
      return { head: `The labels for ${fresh} are done. Settings still show ${old}.`, mind: [] };
    case 'done':
      return { head: `${old} is now ${fresh} at every end.`, mind: ['To change the plan too, go to Renaming.'] };
  }
}

/** What making the new names the plan changes. */
export function adoptToWords(cables: number, settings: number): string {
  const named =
    cables === 1 ? '1 cable gets its new name in the plan' : `${cables} cables get their new names in the plan`;
  return settings === 0
    ? `${named}.`
    : `${named}, and ${count(settings, 'setting')} with ${cables === 1 ? 'it' : 'them'}.`;
}

export function problemToWords(problem: RowProblem): string {
  switch (problem.type) {
    case 'unknown-old':
      return 'The plan has no cable with this old name.';
    case 'same-name':
      return 'Old and new name are the same.';
    case 'no-new':
      return 'There is no new name.';
    case 'control-signs':
      return 'The new name contains invisible characters.';
    case 'longer-than-label':
      return 'The new name is longer than any label.';
    case 'ask-old':
      return 'Which cable is meant?';
    case 'old-twice':
      return `This cable is in the list more than once: ${problem.rows.join(', ')}.`;
    case 'new-twice':
      return `Several rows give this new name: ${someOf(problem.rows, 5)}.`;
    case 'new-in-use':
      return `The new name is in use, ${problem.at}, and that cable keeps it.`;
    case 'listed-before':
      return `Another list already renames it to ${labelToShow(problem.new)}.`;
  }
}

export function warningToWords(warning: RowWarning): string {
  switch (warning.type) {
    case 'read-as':
      return `Read as ${labelToShow(warning.label)}.`;
    case 'long':
      return `${warning.characters} characters: too long for one line of a wrap label.`;
    case 'look-alike':
      return `Looks like ${labelToShow(warning.other)}.`;
    case 'names-else':
      return `The plan has a ${warning.what} with this name.`;
    case 'out-of-scope':
      return `${warning.at} is not in the scope of this audit.`;
    case 'end-unknown':
      return 'The plan does not say where one end goes.';
    case 'on-floor':
      return `A label with this name was seen at ${warning.at}.`;
  }
}

/** Rows that can be taken, and the rest. */
export function sortRows(rows: readonly CheckedPair[]): {
  ask: CheckedPair[];
  wrong: CheckedPair[];
  good: CheckedPair[];
} {
  const ask = rows.filter(({ problems }) => problems.some(({ type }) => type === 'ask-old'));
  const wrong = rows.filter((row) => row.problems.length > 0 && !ask.includes(row));
  return { ask, wrong, good: rows.filter(({ problems }) => problems.length === 0) };
}
