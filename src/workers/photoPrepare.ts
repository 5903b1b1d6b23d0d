// Makes a picture small and bare: scaled down, turned upright, encoded anew so that no place, time or name of the
// camera stays in it. Runs in the worker, and in the page where the worker has no canvas. Stores nothing.
import { bareJpeg } from '../files/jpeg.ts';
import type { PhotoMade } from '../wire/photo.ts';

export const LONG_SIDE = 1600;
const THUMB_SIDE = 240;
const QUALITY = 0.8;
const MIME = 'image/jpeg';

type Size = { width: number; height: number };
/** Draws a bitmap at a size and encodes it as JPEG of that quality; null where there is no canvas for it. */
type Encode = (bitmap: ImageBitmap, size: Size, mime: string, quality: number) => Promise<Blob | null>;

/** Brands of ISO base media files that hold HEVC pictures (ISO/IEC 23008-12, from memory). */
const HEIC_BRANDS: ReadonlySet<string> = new Set(['heic', 'heix', 'hevc', 'hevx', 'heim', 'heis', 'mif1', 'msf1']);

export function isHeic(start: Uint8Array): boolean {
  const text = (at: number): string => String.fromCharCode(...start.subarray(at, at + 4));
  return start.length >= 12 && text(4) === 'ftyp' && HEIC_BRANDS.has(text(8));
}

/** Size with the long side at most `side`, never larger than before. */
export function fitInto(width: number, height: number, side: number): Size {
  const scale = Math.min(1, side / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

/** One picture at a time: two large bitmaps can cost the page its memory. */
export async function preparePhoto(
  blob: Blob,
  longSide = LONG_SIDE,
  encode: Encode = encodeOffPage,
): Promise<PhotoMade> {
  const start = new Uint8Array(await blob.slice(0, 16).arrayBuffer());
  if (isHeic(start)) return { type: 'photo-heic' };
  const bitmap = await decode(blob);
  if (!bitmap) return { type: 'photo-unreadable' };
  try {
    const size = fitInto(bitmap.width, bitmap.height, longSide);
    const whole = await encoded(bitmap, size, encode);
    const small = await encoded(bitmap, fitInto(bitmap.width, bitmap.height, THUMB_SIDE), encode);
    if (!whole || !small) return { type: 'photo-no-canvas' };
    return { type: 'photo', bytes: whole, mime: MIME, ...size, thumb: { bytes: small.buffer, mime: MIME } };
  } finally {
    bitmap.close();
  }
}

/** No crop arguments: browsers differ in what they do to the orientation then. */
async function decode(blob: Blob): Promise<ImageBitmap | null> {
  try {
    return await createImageBitmap(blob, { imageOrientation: 'from-image' });
  } catch {
    return null;
  }
}

async function encoded(bitmap: ImageBitmap, size: Size, encode: Encode): Promise<Uint8Array<ArrayBuffer> | null> {
  const blob = await encode(bitmap, size, MIME, QUALITY);
  // A canvas that cannot encode a format silently answers with another one.
  if (blob?.type !== MIME) return null;
  return bareJpeg(new Uint8Array(await blob.arrayBuffer()));
}

async function encodeOffPage(bitmap: ImageBitmap, size: Size, mime: string, quality: number): Promise<Blob | null> {
  if (typeof OffscreenCanvas === 'undefined') return null;
  const canvas = new OffscreenCanvas(size.width, size.height);
  // Some browsers have the canvas and not its context.
  const context = canvas.getContext('2d');
  if (!context) return null;
  context.drawImage(bitmap, 0, 0, size.width, size.height);
  return canvas.convertToBlob({ type: mime, quality });
}
