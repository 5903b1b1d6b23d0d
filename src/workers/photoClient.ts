// The page's end of the photo worker: one picture at a time, and the page's own canvas where the worker has none or
// died. A picture handed in is answered for, always.
import type { PhotoAnswer, PhotoFailure, PhotoRequest, PreparedPhoto } from '../wire/photo.ts';

export type MakePhoto = (picture: Blob, longSide: number) => Promise<PreparedPhoto | PhotoFailure>;

/** The part of a worker that is used here. */
export type PhotoWorker = Pick<Worker, 'postMessage' | 'terminate'> & {
  onmessage: ((event: MessageEvent<PhotoAnswer>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
};

export type PhotoClientParts = {
  start?: () => PhotoWorker;
  onPage: MakePhoto;
  /** Calls after so many milliseconds; returns what calls it off. */
  after: (ms: number, call: () => void) => () => void;
};

/** Longer than any phone takes for one picture; then the worker hangs. */
const PATIENCE_MS = 20_000;

export function createPhotoClient({ start = startWorker, onPage, after }: PhotoClientParts): MakePhoto {
  let worker: PhotoWorker | null = null;
  let useless = false;
  let lastId = 0;
  let line: Promise<unknown> = Promise.resolve();

  function die(): void {
    worker?.terminate();
    worker = null;
    useless = true;
  }

  function inWorker(picture: Blob, longSide: number): Promise<PreparedPhoto | PhotoFailure> {
    return new Promise((resolve) => {
      const away = () => {
        die();
        end({ type: 'photo-no-canvas' });
      };
      const callOff = after(PATIENCE_MS, away);
      const end = (made: PhotoAnswer['made']) => {
        callOff();
        resolve(made);
      };
      try {
        worker ??= start();
      } catch {
        away();
        return;
      }
      lastId += 1;
      const request: PhotoRequest = { id: lastId, picture, longSide };
      worker.onmessage = ({ data }) => {
        if (data.id === request.id) end(data.made);
      };
      worker.onerror = away;
      worker.postMessage(request);
    });
  }

  async function make(picture: Blob, longSide: number): Promise<PreparedPhoto | PhotoFailure> {
    if (!useless) {
      const made = await inWorker(picture, longSide);
      if (made.type !== 'photo-no-canvas') return made;
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

function startWorker(): PhotoWorker {
  return new Worker(new URL('./photo.worker.ts', import.meta.url), { type: 'module', name: 'photo' });
}
