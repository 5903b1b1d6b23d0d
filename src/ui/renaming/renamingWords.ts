// Sentences of a renaming for the screens: what to do at the jack in hand, why a row of a list cannot be taken.
import type { CableId } from '../../core/plan/identity.ts';
import type { CheckedPair, RowProblem, RowWarning } from '../../core/renaming/renamingCheck.ts';
import type { RenameRule, RenamesRead } from '../../core/renaming/renamingRead.ts';
import type { JackRename } from '../../core/report/walk/walkRenaming.ts';
import { someOf } from '../../core/report/words/renamingWords.ts';
import { labelToShow } from '../walk/walkState.ts';
import { count, list } from '../words.ts';

/** Why an audit with half-done pairs stays open. */
export function refusal(left: readonly string[]): string {
  return left.length === 1
    ? `1 cable is half renamed: ${someOf(left, 5)}. The audit stays open until it is finished or handed over.`
    : `${count(left.length, 'cable')} are half renamed: ${someOf(left, 5)}. The audit stays open until they are finished or handed over.`;
}

/** A strip of temporary tags that this phone printed before. @param at When, in words. */
export function printedToWords(first: string, last: string, at: string): string {
  return `${first} to ${last} were printed on this phone: ${at}. A second copy would put the same number on two cables.`;
}

/** What a rule is called in the list of renamings. */
export function ruleToName(rule: RenameRule): string {
  const name = changeToName(rule);
  return rule.only === '' ? name : `${name}, labels beginning with ${rule.only}`;
}

function changeToName(rule: RenameRule): string {
  switch (rule.type) {
    case 'prefix':
      if (rule.from === '') return `${rule.to} put in front`;
      return rule.to === '' ? `${rule.from} taken off the front` : `${rule.from} in front becomes ${rule.to}`;
    case 'replace':
      return rule.with === '' ? `${rule.find} taken out` : `${rule.find} becomes ${rule.with}`;
    case 'add':
      return rule.offset > 0 ? `Number plus ${rule.offset}` : `Number minus ${-rule.offset}`;
    case 'pad':
      return `Number with ${count(rule.digits, 'digit')}`;
  }
}

/** Columns of a sheet, as they were read. */
export function columnsToWords({ sheet, old, new: fresh, header }: RenamesRead['columns'][number]): string {
  return header
    ? `${sheet}: “${old}” is the old name, “${fresh}” the new one.`
    : `${sheet}: the columns have no headings; ${old} is read as the old name, ${fresh} as the new one.`;
}

/** A row that can be used: where its ends are, what it takes over, what is to be minded. */
export function goodRowToWords(row: CheckedPair): string {
  const where = row.exchanges ? `${row.ends}, takes a name that this list frees.` : `${row.ends}.`;
  return [where, ...row.warnings.map(warningToWords)].join(' ');
}

/** Who put the labels of a finished cable on. */
export function doneToWords(people: readonly string[]): string {
  return `Both labels put on by ${list(people)}.`;
}

/** What making the new names the plan changes. */
export function adoptToWords(cables: number, settings: number): string {
  const said = count(settings, 'setting');
  if (cables === 1)
    return settings === 0
      ? '1 cable gets its new name in the plan.'
      : `1 cable gets its new name in the plan, and ${said} with it.`;
  return settings === 0
    ? `${count(cables, 'cable')} get their new names in the plan.`
    : `${count(cables, 'cable')} get their new names in the plan, and ${said} with them.`;
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

function warningToWords(warning: RowWarning): string {
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

/** A row that can be taken: its cable is known. */
export type GoodPair = CheckedPair & { cable: CableId; label: string };

/** Rows that can be taken, and the rest. */
export function sortRows(rows: readonly CheckedPair[]): { ask: CheckedPair[]; wrong: CheckedPair[]; good: GoodPair[] } {
  const isGood = (row: CheckedPair): row is GoodPair =>
    row.problems.length === 0 && row.cable !== null && row.label !== null;
  const ask = rows.filter(({ problems }) => problems.some(({ type }) => type === 'ask-old'));
  const good = rows.filter(isGood);
  return { ask, wrong: rows.filter((row) => !isGood(row) && !ask.includes(row)), good };
}
