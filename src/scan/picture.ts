// Owns still pictures: from the running camera or a file to a bounded JPEG.
// Must never pass a picture on as it came: drawing it anew leaves place, time and phone of the taking behind.

export type Picture =
  | { type: 'picture'; blob: Blob; width: number; height: number }
  | { type: 'no-picture'; reason: 'not-running' | 'unreadable' | 'not-encoded' };

export const LONG_SIDE = 1600;
const QUALITY = 0.8;
const TAKE_MS = 3000;

type PhotoTaker = { takePhoto(): Promise<Blob> };
type PhotoTakerClass = new (track: MediaStreamTrack) => PhotoTaker;

export function fitted(width: number, height: number, longSide = LONG_SIDE): { width: number; height: number } {
  const scale = Math.min(1, longSide / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

/** The camera's full picture where the browser can take one, else the frame in view. */
export async function takePicture(
  video: HTMLVideoElement,
  track: MediaStreamTrack,
  longSide = LONG_SIDE,
): Promise<Picture> {
  const photo = await fullPhoto(track);
  if (photo) {
    const picture = await redraw(photo, longSide);
    if (picture.type === 'picture') return picture;
  }
  if (video.videoWidth === 0) return { type: 'no-picture', reason: 'not-running' };
  return encode(video, video.videoWidth, video.videoHeight, longSide);
}

export async function redraw(file: Blob, longSide = LONG_SIDE): Promise<Picture> {
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return { type: 'no-picture', reason: 'unreadable' };
  }
  try {
    return await encode(bitmap, bitmap.width, bitmap.height, longSide);
  } finally {
    bitmap.close();
  }
}

async function fullPhoto(track: MediaStreamTrack): Promise<Blob | null> {
  const Taker = (globalThis as { ImageCapture?: PhotoTakerClass }).ImageCapture;
  if (!Taker) return null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  try {
    // Some phones never answer.
    const late = new Promise<null>((resolve) => {
      timer = setTimeout(() => resolve(null), TAKE_MS);
    });
    return await Promise.race([new Taker(track).takePhoto(), late]);
  } catch {
    return null;
  } finally {
    clearTimeout(timer);
  }
}

function encode(source: CanvasImageSource, fromWidth: number, fromHeight: number, longSide: number): Promise<Picture> {
  const { width, height } = fitted(fromWidth, fromHeight, longSide);
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext('2d');
  if (!context) return Promise.resolve({ type: 'no-picture', reason: 'not-encoded' });
  context.drawImage(source, 0, 0, width, height);
  return new Promise((resolve) => {
    canvas.toBlob(
      (blob) =>
        resolve(blob ? { type: 'picture', blob, width, height } : { type: 'no-picture', reason: 'not-encoded' }),
      'image/jpeg',
      QUALITY,
    );
  });
}
