// Rows that are one end each, joined by their number. What the rows say of the cable beside its ends is kept, and asked
// about where they differ.
import { nameToKey } from '../../trade/names.ts';
import { keepRest } from '../build/buildCables.ts';
import type { Notebook, RawCable } from '../rows/readTypes.ts';

/** One end of a cable with what its row calls it. */
export interface MarkedEnd {
  cable: RawCable;
  mark: string;
}

/** Rows of one number to one cable: the end called A, from or 1 first, else the upper row. */
export function joinEnds(ends: readonly MarkedEnd[], notebook: Notebook): RawCable[] {
  const groups = new Map<string, MarkedEnd[]>();
  const alone: MarkedEnd[][] = [];
  for (const end of ends) {
    const key = nameToKey(end.cable.label);
    const group = groups.get(key);
    if (group && key !== '') group.push(end);
    else if (key === '') alone.push([end]);
    else groups.set(key, [end]);
  }
  return [...groups.values(), ...alone].map((group) => joinGroup(group, notebook));
}

function joinGroup(group: readonly MarkedEnd[], notebook: Notebook): RawCable {
  const [first, ...others] = [...group].sort((a, b) => Number(isFirst(b)) - Number(isFirst(a)));
  // A group has one end at the least.
  const { cable: kept } = first!;
  const { sheet, row, label } = kept;
  const ask = (kind: 'end' | 'several', question: string) =>
    notebook.ask(kind, sheet, row, kept.from[0]?.column, label, question);
  if (others.length === 0 && label !== '') ask('end', 'No other row has this number. Where does the other end go?');
  if (others.length > 1)
    ask('several', `${group.length} rows have this number. Is it one cable with ${group.length} ends?`);
  kept.to = others.flatMap(({ cable }) => cable.from);
  for (const { cable } of others) keepRest(kept, { ...cable, from: [], to: [] }, `row ${row}`, notebook);
  return kept;
}

const isFirst = ({ mark }: MarkedEnd) => /^(a|1|from|near|source)$/i.test(mark);
