// Small makers of runs, cells and blocks, so that the sections read as what they say. No words of their own.
import type { Badge, Block, Cell, Column, Entry, Item, Run, Table, Target } from './document.ts';

type Part = string | Run;

const toRun = (part: Part): Run => (typeof part === 'string' ? { type: 'text', text: part } : part);

export const runs = (...parts: Part[]): Run[] => parts.filter((part) => part !== '').map(toRun);
export const strong = (text: string): Run => ({ type: 'strong', text });
export const quiet = (text: string): Run => ({ type: 'quiet', text });
export const name = (text: string): Run => ({ type: 'name', text });
export const time = (at: number): Run => ({ type: 'time', at });
export const found = (text: string): Run => ({ type: 'label', text, as: 'found' });
export const planned = (text: string): Run => ({ type: 'label', text, as: 'plan' });

export const count = (n: number): Cell => ({ type: 'count', n });
export const names = (list: string[]): Cell => ({ type: 'names', names: list });
export const words = (...parts: Part[]): Cell => ({ type: 'words', runs: runs(...parts) });

export const heading = (text: string): Block => ({ type: 'heading', text });
export const paragraph = (...parts: Part[]): Block => ({ type: 'paragraph', tone: 'plain', runs: runs(...parts) });
export const caution = (...parts: Part[]): Block => ({ type: 'caution', runs: runs(...parts) });
export const facts = (...rows: (readonly [string, Run[]])[]): Block => ({
  type: 'facts',
  rows: rows.map(([of, value]) => ({ name: of, value })),
});
export const entries = (list: Entry[]): Block => ({ type: 'entries', entries: list });
export const labels = (list: readonly string[], as: 'found' | 'plan'): Block => ({
  type: 'labels',
  labels: [...list],
  as,
});

/** Columns by name; where all cells of one are counts or times it is a column of counts or times. */
export function table(names: readonly string[], rows: Cell[][], sum: Cell[] | null = null): Block {
  const kindOf = (at: number): Column['kind'] => {
    const cells = [...rows, ...(sum ? [sum] : [])].flatMap((row) => row[at] ?? []);
    if (cells.length > 0 && cells.every(({ type }) => type === 'count')) return 'count';
    const isTime = (cell: Cell) => cell.type === 'words' && cell.runs.length === 1 && cell.runs[0]?.type === 'time';
    return cells.length > 0 && cells.every(isTime) ? 'time' : 'words';
  };
  const made: Table = { columns: names.map((of, at) => ({ name: of, kind: kindOf(at) })), rows, sum };
  return { type: 'table', table: made };
}

export const item = (lines: Run[][], badge: Badge | null = null, opens: Target | null = null): Item => ({
  badge,
  lines,
  opens,
});
export const list = (items: Item[], ordered = false): Block => ({ type: 'list', ordered, items });
