// Owns which of several labels in one view is meant: the one nearest the centre of the detail circle.
// Must never take a neighbour while something lies inside the circle, and never guess between neighbours.
import type { Point } from './scanner.ts';

export type Circle = { x: number; y: number; r: number };
export type Seen = { text: string; corners: readonly Point[] };

export type Aim =
  /** `index` into what was seen; `aimed` is false for a lone label outside the circle. */
  { type: 'taken'; index: number; aimed: boolean; others: number } | { type: 'nothing' } | { type: 'several-outside' };

/** A lone label outside the circle must stay the only one this long: an aimed one may just have missed a frame. */
export const SETTLE_MS = 500;

export function centreOf(corners: readonly Point[]): Point {
  if (corners.length === 0) return { x: Number.NaN, y: Number.NaN };
  let x = 0;
  let y = 0;
  for (const corner of corners) {
    x += corner.x;
    y += corner.y;
  }
  return { x: x / corners.length, y: y / corners.length };
}

/** One frame by itself. */
export function aim(seen: readonly Seen[], circle: Circle): Aim {
  let best = -1;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const [index, { corners }] of seen.entries()) {
    const centre = centreOf(corners);
    const distance = Math.hypot(centre.x - circle.x, centre.y - circle.y);
    if (distance <= circle.r && distance < bestDistance) {
      best = index;
      bestDistance = distance;
    }
  }
  if (best >= 0) return { type: 'taken', index: best, aimed: true, others: seen.length - 1 };
  if (seen.length === 0) return { type: 'nothing' };
  return seen.length === 1 ? { type: 'taken', index: 0, aimed: false, others: 0 } : { type: 'several-outside' };
}

/** Frames in a row: an aimed label is taken at once, a lone one outside only after it settled. */
export function createAimer(settleMs = SETTLE_MS): (seen: readonly Seen[], circle: Circle, now: number) => Aim {
  let lone: { text: string; since: number; last: number } | null = null;
  return (seen, circle, now) => {
    const answer = aim(seen, circle);
    // A frame without any symbol is often only blurred, so it does not start the wait afresh.
    if (answer.type === 'nothing') return answer;
    if (answer.type === 'several-outside' || answer.aimed) {
      lone = null;
      return answer;
    }
    const text = seen[answer.index]?.text ?? '';
    const goesOn = lone !== null && lone.text === text && now - lone.last < settleMs;
    lone = { text, since: goesOn && lone ? lone.since : now, last: now };
    return now - lone.since >= settleMs ? answer : { type: 'nothing' };
  };
}

/** The circle when the screen says nothing else: the middle of the picture, as wide as half its shorter side. */
export function middleCircle(width: number, height: number): Circle {
  return { x: width / 2, y: height / 2, r: Math.min(width, height) / 4 };
}

export type Size = { width: number; height: number };

/** How a picture lies in a box it fills and overflows (`object-fit: cover`): box = picture * scale - offset. */
export function cover(picture: Size, box: Size): { scale: number; x: number; y: number } {
  const scale = Math.max(box.width / picture.width, box.height / picture.height);
  return { scale, x: (picture.width * scale - box.width) / 2, y: (picture.height * scale - box.height) / 2 };
}

export function boxToPicture(point: Point, picture: Size, box: Size): Point {
  const { scale, x, y } = cover(picture, box);
  return { x: (point.x + x) / scale, y: (point.y + y) / scale };
}

export function pictureToBox(point: Point, picture: Size, box: Size): Point {
  const { scale, x, y } = cover(picture, box);
  return { x: point.x * scale - x, y: point.y * scale - y };
}

/** Only what a person can see may be read: the rest of the picture is cut off by the box. */
export function inSight<S extends Seen>(seen: readonly S[], picture: Size, box: Size): S[] {
  return seen.filter(({ corners }) => {
    const { x, y } = pictureToBox(centreOf(corners), picture, box);
    return x >= 0 && y >= 0 && x <= box.width && y <= box.height;
  });
}
