// The geometry of marks on a photo, once for the screen and for the report's file. A mark is kept in shares of the
// picture; nothing here touches a pixel.
import type { PhotoMark, Spot } from '../record/events.ts';

/** A whole unit is read label by label later, so more of it is kept: pixels of the long side. */
export const LONG_SIDE_WHOLE = 2400;

/** Length of an arrow's head as a share of the picture's long side. */
const HEAD = 0.045;
const SPREAD = Math.PI / 7;

/** The mark as the `d` of an SVG path in a box of that size. */
export function markToPath({ shape, from, to }: PhotoMark, width: number, height: number): string {
  const [a, b] = [toBox(from, width, height), toBox(to, width, height)];
  if (shape === 'circle') {
    const [rx, ry] = [Math.abs(b.x - a.x) / 2, Math.abs(b.y - a.y) / 2];
    const [left, middle] = [Math.min(a.x, b.x), (a.y + b.y) / 2];
    return `M${n(left)} ${n(middle)}a${n(rx)} ${n(ry)} 0 1 0 ${n(rx * 2)} 0a${n(rx)} ${n(ry)} 0 1 0 ${n(-rx * 2)} 0`;
  }
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const head = Math.min(HEAD * Math.max(width, height), length / 2);
  const angle = Math.atan2(b.y - a.y, b.x - a.x);
  const barb = (turn: number) => `${n(b.x - head * Math.cos(angle + turn))} ${n(b.y - head * Math.sin(angle + turn))}`;
  return `M${n(a.x)} ${n(a.y)}L${n(b.x)} ${n(b.y)}M${barb(SPREAD)}L${n(b.x)} ${n(b.y)}L${barb(-SPREAD)}`;
}

/** Shorter than this share of the picture is a slip of the finger, no mark. */
const LEAST = 0.01;

export function isMark({ from, to }: Pick<PhotoMark, 'from' | 'to'>): boolean {
  return Math.hypot(to.x - from.x, to.y - from.y) >= LEAST;
}

/** Whole to a tenth of a thousandth of the picture: more would only make the record longer. */
export function toSpot(x: number, y: number): Spot {
  const within = (share: number) => Math.round(Math.min(1, Math.max(0, share)) * 10_000) / 10_000;
  return { x: within(x), y: within(y) };
}

function toBox({ x, y }: Spot, width: number, height: number): { x: number; y: number } {
  return { x: x * width, y: y * height };
}

function n(value: number): string {
  return String(Math.round(value * 10) / 10);
}
