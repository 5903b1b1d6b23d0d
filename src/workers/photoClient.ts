// The page's end of the photo worker: one picture at a time, and the page's own canvas where the worker has none or
// died. A picture handed in is answered for, always.

import { fits } from '../wire/fits.ts';
import { type PhotoMade, type PhotoRequest, photoMade } from '../wire/photo.ts';
import { type ClientParts, createWorkerClient, type WorkerPort } from './calls/client.ts';

type MakePhoto = (picture: Blob, longSide: number) => Promise<PhotoMade>;

type PhotoClientParts = {
  start?: () => WorkerPort;
  onPage: MakePhoto;
  after: NonNullable<ClientParts<never, never>['after']>;
};

/** Longer than any phone takes for one picture; then the worker hangs. */
const PATIENCE_MS = 20_000;

export function createPhotoClient({ start = startWorker, onPage, after }: PhotoClientParts): MakePhoto {
  const client = createWorkerClient<PhotoRequest, PhotoMade>({ start, read: fits(photoMade), after });
  let useless = false;
  let line: Promise<unknown> = Promise.resolve();

  async function make(picture: Blob, longSide: number): Promise<PhotoMade> {
    if (!useless) {
      const made = await client.ask({ picture, longSide }, { limit: PATIENCE_MS });
      if (made.type === 'done' && made.value.type !== 'photo-no-canvas') return made.value;
      useless = true;
    }
    return onPage(picture, longSide);
  }

  return (picture, longSide) => {
    const made = line.then(() => make(picture, longSide));
    line = made.catch(() => undefined);
    return made;
  };
}

function startWorker(): WorkerPort {
  return new Worker(new URL('./photo.worker.ts', import.meta.url), { type: 'module', name: 'photo' });
}
