// What the walk says under the drawing of a face: how it is seen, and where the cable in hand goes.
import { listed } from './plain.ts';

interface Jack {
  label: string;
  plan?: string | undefined;
}

/** "As you see it from behind: P01 upper left, P02 below. Dashed: plan." */
export function sideToWords(rows: readonly (readonly Jack[])[], side: 'front' | 'rear', blind: boolean): string {
  const seen = side === 'front' ? fromFront(rows) : fromBehind(rows);
  if (blind) return `${seen} Blind: the plan is hidden.`;
  return rows.some((row) => row.some(({ plan }) => plan !== undefined)) ? `${seen} Dashed: plan.` : seen;
}

function fromFront(rows: readonly (readonly Jack[])[]): string {
  const [first, below] = [rows[0]?.[0], rows[1]?.[0]];
  if (!first) return 'As you see it from the front.';
  return below
    ? `As you see it from the front: ${first.label} upper left, ${below.label} below.`
    : `As you see it from the front: ${first.label} on your left.`;
}

function fromBehind(rows: readonly (readonly Jack[])[]): string {
  const [first, below] = [rows[0]?.[0], rows[1]?.[0]];
  if (!first) return 'As you see it from behind.';
  return below
    ? `As you see it from behind: ${first.label} upper left, ${below.label} below.`
    : `As you see it from behind: ${first.label} on your left.`;
}

export const ALONG_NO_END = 'Along the cables: the plan has no end here.';

/** @param label Null: the cable has no number. @param others Its other ends that have a place in the plan. */
export function alongCable(label: string | null, others: readonly { words: string; said: boolean }[]): string {
  const cable = label ?? 'a cable without a number';
  if (others.length === 0) return `Along the cables: ${cable}; its other end has no place in the plan.`;
  const ends = others.map(({ words, said }) => (said ? `${words} has an entry` : `${words} is still open`));
  return `Along the cables: ${cable}; its other end ${listed(ends)}.`;
}
