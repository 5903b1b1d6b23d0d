// Owns noticing a picture that comes and is wholly black, as some phones give after a lock: one new stream, then words.
// Must never take a dark rack for it: a lens that sees anything gives some light.

/** Black for this long is no passing hand. */
export const BLACK_MS = 3000;
/** A lit picture this long after a new stream earns another try. */
const TRUST_MS = 10_000;
/** Looked at about once a second: it costs a small drawing. */
export const GLANCE_MS = 1000;
const SIDE = 8;
/** Of 255; a dead picture is 0, and scaling may round. */
const BLACK_AT_MOST = 2;

export type Darkness = 'lit' | 'rebuild' | 'dark';

/** Pure; the time of each glance is an argument. */
export function createDark(): { saw(black: boolean, now: number): Darkness } {
  let since: number | null = null;
  let rebuiltAt: number | null = null;
  return {
    saw(black, now) {
      if (!black) {
        since = null;
        if (rebuiltAt !== null && now - rebuiltAt > TRUST_MS) rebuiltAt = null;
        return 'lit';
      }
      since ??= now;
      if (now - since < BLACK_MS) return 'lit';
      if (rebuiltAt !== null) return 'dark';
      rebuiltAt = now;
      since = null;
      return 'rebuild';
    },
  };
}

let glance: OffscreenCanvas | null = null;

/** Whether nothing in the frame gives light. False where the browser has no canvas to tell. */
export function isBlack(frame: ImageBitmap): boolean {
  if (typeof OffscreenCanvas !== 'function') return false;
  glance ??= new OffscreenCanvas(SIDE, SIDE);
  const context = glance.getContext('2d', { willReadFrequently: true });
  if (!context) return false;
  context.drawImage(frame, 0, 0, SIDE, SIDE);
  const { data } = context.getImageData(0, 0, SIDE, SIDE);
  return data.every((value, i) => i % 4 === 3 || value <= BLACK_AT_MOST);
}
