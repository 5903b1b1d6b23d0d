// Owns which of several labels in one view is meant: the one nearest the centre of the detail circle.
// Must never take what lies outside the circle: in a rack the label beside it is another jack's.
import type { Point } from './scanner.ts';

export type Circle = { x: number; y: number; r: number };
export type Seen = { text: string; corners: readonly Point[] };

type Aim =
  /** `index` into what was seen; `others` were in view beside it. */
  | { type: 'taken'; index: number; others: number }
  | { type: 'nothing' }
  /** Labels are in view, and none of them lies in the circle. */
  | { type: 'outside'; count: number };

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

/** A label is meant when its middle lies in the circle; of several the nearest to the circle's middle. */
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
  if (best >= 0) return { type: 'taken', index: best, others: seen.length - 1 };
  return seen.length === 0 ? { type: 'nothing' } : { type: 'outside', count: seen.length };
}

/** The circle when the screen says nothing else: the middle of the picture, as wide as half its shorter side. */
export function middleCircle(width: number, height: number): Circle {
  return { x: width / 2, y: height / 2, r: Math.min(width, height) / 4 };
}

type Size = { width: number; height: number };

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
