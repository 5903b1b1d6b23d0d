// Makes pictures small and bare away from the page, one after the other. It keeps none.

import { fits } from '../wire/fits.ts';
import { type PhotoMade, type PhotoRequest, photoRequest } from '../wire/photo.ts';
import { serve } from './calls/serve.ts';
import { preparePhoto } from './photoPrepare.ts';

async function make({ picture, longSide }: PhotoRequest): Promise<PhotoMade> {
  try {
    return picture instanceof Blob ? await preparePhoto(picture, longSide) : { type: 'photo-unreadable' };
  } catch {
    // No room for the bitmap here; the page tries once more.
    return { type: 'photo-no-canvas' };
  }
}

serve(self, {
  read: fits(photoRequest),
  answer: make,
  transfer: (made) => (made.type === 'photo' ? [made.bytes.buffer, made.thumb.bytes] : []),
});
