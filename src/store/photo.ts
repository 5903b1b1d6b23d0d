// Makes a picture small and bare: scaled down, turned upright, encoded anew so that no place, time or name of the
// camera stays in it. Stores nothing.

export const LONG_SIDE = 1600;
export const THUMB_SIDE = 240;
const QUALITY = 0.8;
const MIME = 'image/jpeg';

export type PreparedPhoto = {
  type: 'photo';
  bytes: Uint8Array<ArrayBuffer>;
  mime: string;
  width: number;
  height: number;
  thumb: { bytes: ArrayBuffer; mime: string };
};
export type PhotoFailure =
  /** A format of one phone family that other browsers cannot show; the camera can be set to JPEG. */
  | { type: 'photo-heic' }
  | { type: 'photo-unreadable' }
  /** The browser gave no canvas, mostly for want of memory. */
  | { type: 'photo-no-canvas' };

/** Brands of ISO base media files that hold HEVC pictures (ISO/IEC 23008-12, from memory). */
const HEIC_BRANDS: ReadonlySet<string> = new Set(['heic', 'heix', 'hevc', 'hevx', 'heim', 'heis', 'mif1', 'msf1']);

export function isHeic(start: Uint8Array): boolean {
  const text = (at: number): string => String.fromCharCode(...start.subarray(at, at + 4));
  return start.length >= 12 && text(4) === 'ftyp' && HEIC_BRANDS.has(text(8));
}

/** Size with the long side at most `side`, never larger than before. */
export function fitInto(width: number, height: number, side: number): { width: number; height: number } {
  const scale = Math.min(1, side / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

/** One picture at a time: two large bitmaps can cost the page its memory. */
export async function preparePhoto(blob: Blob): Promise<PreparedPhoto | PhotoFailure> {
  const start = new Uint8Array(await blob.slice(0, 16).arrayBuffer());
  if (isHeic(start)) return { type: 'photo-heic' };
  const bitmap = await decode(blob);
  if (!bitmap) return { type: 'photo-unreadable' };
  try {
    const size = fitInto(bitmap.width, bitmap.height, LONG_SIDE);
    const whole = await encode(bitmap, size);
    const small = await encode(bitmap, fitInto(bitmap.width, bitmap.height, THUMB_SIDE));
    if (!whole || !small) return { type: 'photo-no-canvas' };
    return {
      type: 'photo',
      bytes: new Uint8Array(await whole.arrayBuffer()),
      mime: MIME,
      ...size,
      thumb: { bytes: await small.arrayBuffer(), mime: MIME },
    };
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

type Size = { width: number; height: number };

async function encode(bitmap: ImageBitmap, { width, height }: Size): Promise<Blob | null> {
  if (typeof OffscreenCanvas !== 'undefined') {
    const canvas = new OffscreenCanvas(width, height);
    // Some browsers have the canvas and not its context.
    const context = canvas.getContext('2d');
    if (context) {
      context.drawImage(bitmap, 0, 0, width, height);
      return asJpeg(await canvas.convertToBlob({ type: MIME, quality: QUALITY }));
    }
  }
  if (typeof document === 'undefined') return null;
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext('2d');
  if (!context) return null;
  context.drawImage(bitmap, 0, 0, width, height);
  return asJpeg(await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, MIME, QUALITY)));
}

/** A canvas that cannot encode a format silently answers with another one. */
function asJpeg(blob: Blob | null): Blob | null {
  return blob?.type === MIME ? blob : null;
}
