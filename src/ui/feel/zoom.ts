// Owns the zoom's arithmetic: what a camera begins with, and what one press of - or + makes of it. Pure.

type ZoomRange = { min: number; max: number; step: number };

/** Small labels need pixels, and phones focus badly up close, so the picture begins enlarged (common practice). */
const FIRST_ZOOM = 2;
const PRESS = 1.25;

export function zoomAt(range: ZoomRange, kept: number | null): number {
  return Math.min(range.max, Math.max(range.min, kept ?? FIRST_ZOOM));
}

/** One press: a quarter more or less, at least one step of the camera, never out of its range. */
export function zoomPressed(range: ZoomRange, now: number, way: 1 | -1): number {
  const next = way === 1 ? Math.max(now * PRESS, now + range.step) : Math.min(now / PRESS, now - range.step);
  return Math.round(zoomAt(range, next) * 100) / 100;
}
