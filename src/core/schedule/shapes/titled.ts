// What a list's title or its sheet's name says for every row of it: the unit whose jacks it lists, the type of cable.
//
// Limits: A unit's name holds a figure, is in capitals, or stands in another list too. The type of cable is taken from a sheet's name alone, and only where no column
// says it.
import { nameToKey } from '../../trade/names.ts';
import type { Columns } from '../columns.ts';
import type { Table } from '../rows/readTypes.ts';
import { CABLE_WORDS } from '../typeColumn.ts';
import { looksLikeRack } from '../words.ts';
import type { RowShape } from './rowShape.ts';

const KIND =
  /^(patch ?bays?|patch ?panels?|panel|switch|(punch ?)?block|frame|unit|ports?( of| on)?|jacks( of| on)?)\s+/i;

const KIND_BEHIND = /([\s,:–-]+(ports?|jacks?|patch(ing)?|connections?|wiring|list|table|map|schedule))+$/i;

/** The name of the unit that a list is about, by the words above its header or the name of its sheet. */
export function unitOfTitle(table: Pick<Table, 'rows' | 'name' | 'unitNames'>, header: number): string | null {
  const { rows, name, unitNames } = table;
  const above = rows.slice(Math.max(0, header - 3), header).reverse();
  const titles = above.flatMap((row) => {
    const filled = row.map((cell) => cell.trim()).filter((cell) => cell !== '');
    return filled.length === 1 ? filled : [];
  });
  const isUnit = (text: string) =>
    unitNames?.has(nameToKey(text)) ||
    (/\d|^[\p{Lu}_-]{2,12}$/u.test(text) &&
      text.length <= 24 &&
      text.split(/\s+/).length <= 2 &&
      !looksLikeRack(text) &&
      !/^(sheet|table|page|rev)\b/i.test(text));
  return [...titles, name.trim()].map((title) => title.replace(KIND, '').replace(KIND_BEHIND, '')).find(isUnit) ?? null;
}

/** @param own The shapes found by then: rows of landings take their unit from the title where no column has it. */
export function titledShapes(
  { at, header }: Columns,
  table: Table,
  items: readonly (readonly string[])[],
  own: readonly RowShape[],
): RowShape[] {
  const found: RowShape[] = [];
  const side = ['from', 'to'].find(
    (one) => !at.has(one) && !at.has(`${one}Unit`) && (at.has(`${one}Jack`) || at.has(`${one}Pair`)),
  );
  const unit = side && own.some(({ kind }) => kind === 'landing') ? unitOfTitle(table, header) : null;
  if (unit) found.push({ kind: 'titled', meaning: `${side}Unit`, text: unit, example: [unit] });
  const name = table.name.trim();
  if (items.length === 0 || at.has('cableType') || name.length > 24) return found;
  if (CABLE_WORDS.test(name) && /\d/.test(name) && !/\b(cable|pairs?) ?(list|schedule|log)/i.test(name))
    found.push({ kind: 'titled', meaning: 'cableType', text: name, example: [name] });
  return found;
}
