// Names that differ from their like only by zeros in front: P3 where the others are P01 and P02. They stay as they are
// written, since zeros count; each is told.
import type { Notebook } from '../rows/readTypes.ts';

/** A name and the cell that has it first. */
export interface NamedAt {
  label: string;
  sheet: string;
  row: number;
  column: string | undefined;
}

/** @param of What they are names of, for whoever reads it: `SW1`, or '' for cables. */
export function tellZeros(names: readonly NamedAt[], of: string, notebook: Notebook): void {
  const groups = new Map<string, { at: NamedAt; digits: string }[]>();
  for (const at of names) {
    const [, before, digits] = /^(.*?)(\d+)$/s.exec(at.label) ?? [];
    if (before === undefined || digits === undefined) continue;
    const key = before.toUpperCase();
    const group = groups.get(key);
    if (group) group.push({ at, digits });
    else groups.set(key, [{ at, digits }]);
  }
  for (const group of groups.values()) tellGroup(group, of, notebook);
}

function tellGroup(group: readonly { at: NamedAt; digits: string }[], of: string, notebook: Notebook): void {
  const padded = group.filter(({ digits }) => digits.length > 1 && digits.startsWith('0'));
  const [model] = padded;
  if (!model) return;
  const width = Math.max(...new Set(padded.map(({ digits }) => digits.length)));
  const byValue = new Map(padded.map(({ at, digits }) => [digits.replace(/^0+/, ''), at.label]));
  const where = of === '' ? '' : ` of ${of}`;
  for (const { at, digits } of group) {
    if (digits.length >= width || digits.startsWith('0')) continue;
    const { label, sheet, row, column } = at;
    const twin = byValue.get(digits);
    if (twin !== undefined && of !== '')
      notebook.ask('spelling', sheet, row, column, label, `Is this ${twin}${where}?`);
    else {
      const readAs = `${label}${where} as written, although others are written like ${twin ?? model.at.label}`;
      notebook.guess('look-alike', sheet, row, column, label, readAs);
    }
  }
}
