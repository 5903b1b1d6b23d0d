// Sentences of a renaming for the screens: what to do at the jack in hand, why a row of a list cannot be taken.
import type { CheckedPair, RowProblem, RowWarning } from '../../core/renaming/renamingCheck.ts';
import type { JackRename } from '../../core/report/walk/walkRenaming.ts';
import { someOf } from '../../core/report/words/renamingWords.ts';
import { labelToShow } from '../walk/walkState.ts';
import { count } from '../words.ts';

/** Why an audit with half-done pairs stays open. */
export function refusal(left: readonly string[]): string {
  const one = left.length === 1;
  return `${count(left.length, 'cable')} ${one ? 'is' : 'are'} half renamed: ${someOf(left, 5)}. The audit stays open until ${one ? 'it is' : 'they are'} finished or handed over in words.`;
}

/** What the jack asks for now; the first sentence is what to do, the rest is what to mind. */
export function stepToWords(here: JackRename): { head: string; mind: string[] } {
  const [old, fresh] = [labelToShow(here.old), labelToShow(here.new)];
  const far = here.far?.words ?? 'the other end';
  const air = here.onAir ? ['On-air chain: look only, unless a window was agreed for it.'] : [];
  switch (here.step) {
    case 'look':
      return { head: `${old} becomes ${fresh}.`, mind: ['Read the old label at its jack first. One cable at a time.'] };
    case 'plan':
      return { head: `${old} becomes ${fresh}.`, mind: ['Look only: no hand on it. This walk plans the work.'] };
    case 'put':
      return {
        head: `Put ${fresh} beside ${old}. ${old} stays on.`,
        mind: [
          ...air,
          here.followed
            ? `Followed to ${far}. Support the plug, unplug nothing.`
            : `By plan it goes to ${far}: follow it or have it confirmed first. Support the plug, unplug nothing.`,
        ],
      };
    case 'wait':
      return {
        head: `${fresh} is on. ${here.oldText === null ? '' : `${old} stays on for now.`}`.trim(),
        mind: [here.others],
      };
    case 'off':
      return {
        head: `Both ends bear ${fresh}. Take ${old} off.`,
        mind: [...air, 'Peel it, no blade at jacket or bundle. Support the plug.'],
      };
    case 'unclear':
      return {
        head: `Is ${fresh} here the new label of ${old}, or cable ${fresh}?`,
        mind: [`By plan ${old} goes to ${far}.`],
      };
    case 'clash':
      return { head: `Two lists want two names for ${old}.`, mind: ['Take one list back before a label goes on.'] };
    case 'settings':
      return { head: `Labels of ${fresh} are done. Settings still show ${old}.`, mind: [] };
    case 'done':
      return { head: `${old} is ${fresh} at every end.`, mind: ['The plan changes when you make it so.'] };
  }
}

export function problemToWords(problem: RowProblem): string {
  switch (problem.type) {
    case 'unknown-old':
      return 'The plan has no cable of this old name.';
    case 'same-name':
      return 'The name stays the same.';
    case 'no-new':
      return 'There is no new name.';
    case 'control-signs':
      return 'The new name holds signs that cannot be seen.';
    case 'longer-than-label':
      return 'The new name is longer than any label.';
    case 'ask-old':
      return 'Which cable is meant?';
    case 'old-twice':
      return `This cable is in the list more than once: ${problem.rows.join(', ')}.`;
    case 'new-twice':
      return `Several get this new name: ${someOf(problem.rows, 5)}.`;
    case 'new-in-use':
      return `The new name is in use, ${problem.at}, and that cable keeps it.`;
    case 'listed-before':
      return `It is listed already and becomes ${labelToShow(problem.new)}.`;
  }
}

export function warningToWords(warning: RowWarning): string {
  switch (warning.type) {
    case 'read-as':
      return `Read as ${labelToShow(warning.label)}.`;
    case 'long':
      return `${warning.characters} characters: more than one line of a wrap label takes.`;
    case 'look-alike':
      return `Looks like ${labelToShow(warning.other)}.`;
    case 'names-else':
      return `The plan has a ${warning.what} of this name.`;
    case 'out-of-scope':
      return `${warning.at} is not in the scope of this audit.`;
    case 'end-unknown':
      return 'The plan does not say where one end goes.';
    case 'on-floor':
      return `A label of this name was seen at ${warning.at}.`;
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
