// The desk check as it is shown: by severity, each finding with its rows in words, and what a schedule of this kind
// cannot tell. Nothing is found here and nothing is put right.

import type { Origin } from '../../plan/model.ts';
import type { PlanIndex } from '../../plan/planIndex.ts';
import { deskCheck } from '../../schedule/desk/deskCheck.ts';
import type { DeskFinding, DeskKind } from '../../schedule/desk/finding.ts';
import { type SiteRules, USUAL_RULES } from '../../schedule/desk/siteRules.ts';
import { SEVERITIES, type Severity } from '../../trade/kinds.ts';
import { SEVERITY_WORDS } from '../words/words.ts';

/** A list of thousands is not read by anybody and is slow to draw; how many more there are is said. */
const SHOWN = 200;

export interface DeskLine {
  kind: DeskKind;
  line: string;
  /** `Cables row 5 and 6`; empty where no row says it, such as two subnets that the station set. */
  where: string;
  /** What to look for in the plan: the cable's label, else the place. */
  about: string | null;
}

export interface DeskView {
  plan: string;
  count: number;
  /** Worst first; only those with findings. */
  groups: { severity: Severity; words: string; count: number; lines: DeskLine[] }[];
  /** What this schedule does not say, so that the check is blind to it: sentences. */
  blind: string[];
}

export function deskView(index: PlanIndex, rules: SiteRules = USUAL_RULES): DeskView {
  const found = deskCheck(index, rules);
  return {
    plan: index.plan.name,
    count: found.length,
    groups: SEVERITIES.flatMap((severity) => {
      const mine = found.filter((one) => one.severity === severity);
      if (mine.length === 0) return [];
      return { severity, words: SEVERITY_WORDS[severity], count: mine.length, lines: mine.slice(0, SHOWN).map(toLine) };
    }),
    blind: blindTo(index, rules),
  };
}

function toLine({ kind, line, rows, labels, places }: DeskFinding): DeskLine {
  const about = labels.find((label) => label !== '') ?? places[0] ?? null;
  return { kind, line, where: rowsToWords(rows), about };
}

/** `Cables row 5 and 6, Jacks row 15`. */
export function rowsToWords(rows: readonly Origin[]): string {
  const sheets = new Map<string, number[]>();
  for (const { sheet, row } of rows) sheets.set(sheet, [...(sheets.get(sheet) ?? []), row]);
  return [...sheets].map(([sheet, numbers]) => `${sheet} row ${listToWords(numbers)}`).join(', ');
}

function listToWords(numbers: readonly number[]): string {
  const last = numbers.at(-1);
  return numbers.length < 2 ? String(last ?? '') : `${numbers.slice(0, -1).join(', ')} and ${last}`;
}

function blindTo({ plan }: PlanIndex, rules: SiteRules): string[] {
  const has = (name: string) => plan.settings.some((setting) => setting.name.toLowerCase() === name);
  const gaps: [boolean, string][] = [
    [
      plan.units.every(({ implied }) => implied),
      'No list of units: missing units and units that share a U cannot be found.',
    ],
    [
      plan.jacks.every(({ origin }) => origin === undefined),
      'No list of jacks: direction, signal and connector come from the names of jacks and cables only.',
    ],
    [!plan.cables.some(({ length }) => length !== undefined), 'No lengths: runs that are too long cannot be found.'],
    [!has('address'), 'No addresses: duplicate addresses cannot be found.'],
    [has('address') && rules.subnets.length === 0, 'No subnets are set: addresses outside them cannot be found.'],
    [!has('channel'), 'No channel numbers: duplicate channels cannot be found.'],
  ];
  return gaps.flatMap(([applies, sentence]) => (applies ? [sentence] : []));
}
