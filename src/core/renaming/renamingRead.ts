// A list of renames out of rows of text, or out of a rule. Every row that is not read is told with its number;
// nothing is dropped and nothing is looked up here.

import type { Cable } from '../plan/model.ts';
import { titleToKey } from '../schedule/columns.ts';
import type { Table } from '../schedule/rows/readTypes.ts';
import type { ListedPair } from './renamingCheck.ts';

interface UnreadRow {
  row: string;
  said: string;
  why: string;
}

export interface RenamesRead {
  pairs: ListedPair[];
  unread: UnreadRow[];
  /** How the columns were taken, for the preview. */
  columns: { sheet: string; old: string; new: string; header: boolean }[];
  blank: number;
  /** Cells that the file itself left unclear, such as a date where a number was meant, and how they were read. */
  guesses: { row: string; said: string; readAs: string }[];
}

const OLD =
  /^(old|from|current|present|existing|was|before|alt|ancien)( (no|number|label|name|id|cable|tag))*$|^(cable|label|number|name) (old|from|current|before)$/;
const NEW =
  /^(new|to|becomes?|future|proposed|will be|after|neu|nouveau)( (no|number|label|name|id|cable|tag))*$|^(cable|label|number|name) (new|to|after)$|^rename(d)? to$/;
const SEARCHED_ROWS = 20;
/** Two names in one cell of a pasted line. */
const ARROW = /^(.+?)\s*(?:-+>|=+>|→|⇒)\s*(.+)$/u;

export function readRenames(tables: readonly Table[]): RenamesRead {
  const result: RenamesRead = { pairs: [], unread: [], columns: [], blank: 0, guesses: [] };
  const several = tables.length > 1;
  for (const table of tables) readTable(table, several ? `${table.name}, row ` : 'row ', result);
  return result;
}

function readTable(table: Table, before: string, result: RenamesRead): void {
  const found = columnsOf(table);
  const first = table.firstRow ?? 1;
  const rowName = (i: number) => `${before}${first + i}`;
  const titles = table.rows[found.header] ?? [];
  // Lines with an arrow have no columns to tell about.
  const pasted = found.header < 0 && table.rows.every((row) => row.filter((cell) => cell.trim() !== '').length < 2);
  if (!pasted)
    result.columns.push({
      sheet: table.name,
      old: found.header < 0 ? `column ${found.old + 1}` : (titles[found.old] ?? ''),
      new: found.header < 0 ? `column ${found.new + 1}` : (titles[found.new] ?? ''),
      header: found.header >= 0,
    });
  for (const { row, column, said, readAs } of table.notes ?? []) {
    // Notes count rows and columns as a spreadsheet shows them.
    if (column - 1 === found.old || column - 1 === found.new)
      result.guesses.push({ row: `${before}${row}`, said, readAs });
  }
  for (const [i, cells] of table.rows.entries()) {
    if (i === found.header) continue;
    const said = cells.map((cell) => cell.trim()).filter(Boolean);
    if (said.length === 0) {
      result.blank += 1;
      continue;
    }
    let [old = '', fresh = ''] = [cells[found.old]?.trim(), cells[found.new]?.trim()];
    const arrow = said.length === 1 ? ARROW.exec(said[0]!) : null;
    if (arrow) [, old = '', fresh = ''] = arrow;
    const why = i < found.header ? 'above the column headings' : whyNot(old, fresh);
    if (why === null) result.pairs.push({ row: rowName(i), old, new: fresh });
    else result.unread.push({ row: rowName(i), said: said.join(' | ').slice(0, 200), why });
  }
}

function whyNot(old: string, fresh: string): string | null {
  if (old === '') return fresh === '' ? 'both names are missing' : 'no old name';
  return fresh === '' ? 'no new name' : null;
}

/** Heads that say old and new; else the first two columns that hold anything. */
function columnsOf(table: Table): { header: number; old: number; new: number } {
  for (const [i, cells] of table.rows.slice(0, SEARCHED_ROWS).entries()) {
    const keys = cells.map(titleToKey);
    const old = keys.findIndex((key) => OLD.test(key));
    const fresh = keys.findIndex((key, column) => column !== old && NEW.test(key));
    if (old >= 0 && fresh >= 0) return { header: i, old, new: fresh };
  }
  const width = table.rows.reduce((most, row) => Math.max(most, row.length), 0);
  const used = Array.from({ length: width }, (_, column) => column).filter((column) =>
    table.rows.some((row) => (row[column] ?? '').trim() !== ''),
  );
  return { header: -1, old: used[0] ?? 0, new: used[1] ?? 1 };
}

/** A rule that gives many cables new names. Only labels that begin with `only` are touched. */
export type RenameRule = { only: string } & (
  | { type: 'prefix'; from: string; to: string }
  | { type: 'add'; offset: number }
  | { type: 'replace'; find: string; with: string }
  | { type: 'pad'; digits: number }
);

/** One pair per cable whose label the rule changes, in the order of the cables. */
export function ruleToPairs(cables: readonly Cable[], rule: RenameRule): ListedPair[] {
  return cables.flatMap(({ label }, i) => {
    if (label === '' || !label.startsWith(rule.only)) return [];
    const fresh = applyRule(label, rule);
    return fresh === null || fresh === label ? [] : [{ row: `cable ${i + 1}`, old: label, new: fresh }];
  });
}

/** The new label; null where the rule does not fit this one. */
export function applyRule(label: string, rule: RenameRule): string | null {
  switch (rule.type) {
    case 'prefix':
      return label.startsWith(rule.from) ? rule.to + label.slice(rule.from.length) : null;
    case 'replace':
      return rule.find === '' || !label.includes(rule.find) ? null : label.split(rule.find).join(rule.with);
    case 'add': {
      const match = lastNumber(label);
      if (!match) return null;
      const sum = BigInt(match.digits) + BigInt(Math.trunc(rule.offset));
      if (sum < 0n) return null;
      return match.before + sum.toString().padStart(match.digits.length, '0') + match.after;
    }
    case 'pad': {
      const match = lastNumber(label);
      return match ? match.before + match.digits.padStart(Math.min(rule.digits, 12), '0') + match.after : null;
    }
  }
}

function lastNumber(label: string): { before: string; digits: string; after: string } | null {
  const match = /^(.*?)(\d+)(\D*)$/.exec(label);
  return match ? { before: match[1]!, digits: match[2]!, after: match[3]! } : null;
}
