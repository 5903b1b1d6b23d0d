// Makes pictures small and bare away from the page, one after the other. It keeps none.
import type { PhotoAnswer, PhotoRequest } from '../wire/photo.ts';
import { preparePhoto } from './photoPrepare.ts';

let line: Promise<void> = Promise.resolve();

async function make({ id, picture, longSide }: PhotoRequest): Promise<void> {
  let made: PhotoAnswer['made'];
  try {
    made = await preparePhoto(picture, longSide);
  } catch {
    // No room for the bitmap here; the page tries once more.
    made = { type: 'photo-no-canvas' };
  }
  const answer: PhotoAnswer = { id, made };
  self.postMessage(answer, made.type === 'photo' ? [made.bytes.buffer, made.thumb.bytes] : []);
}

self.onmessage = ({ data }: MessageEvent<PhotoRequest>) => {
  line = line.then(() => make(data));
};
