// Joins pictures and sound to the database: room asked first, made small and bare in a worker, stored with their
// event. Loaded when the first picture is taken or shown, never before.
//
// Limits: Tried with Chromium's own and the tests' cameras and microphones; no real phone was used. A photo taken back
// leaves its bytes in the record.
import { LONG_SIDE_WHOLE } from '../core/report/photoMarks.ts';
import type { Commands } from '../store/commands.ts';
import type { StationStore } from '../store/database.ts';
import type { MediaResult } from '../store/media.ts';
import { document as readDocument, thumb as readThumb } from '../store/queries.ts';
import { quotaFor } from '../store/quota.ts';
import type { MediaAdded, Services } from '../ui/services.ts';
import { createPhotoClient } from '../workers/photoClient.ts';
import { LONG_SIDE, preparePhoto } from '../workers/photoPrepare.ts';
import { after } from './station.ts';

interface PhotoParts {
  store: StationStore;
  commands: Commands;
  /** An event was made: fold and exchange want it. */
  recorded: (text: string) => Promise<void>;
}

export function createPhotos({ store, commands, recorded }: PhotoParts) {
  const make = createPhotoClient({
    onPage: (picture, longSide) => preparePhoto(picture, longSide, encodeOnPage),
    after,
  });

  async function kept(result: MediaResult, nearlyFull: boolean): Promise<MediaAdded> {
    if (result.type === 'picture-not-saved') {
      return { type: 'not-saved', why: result.why.type === 'full' ? 'full' : 'store-lost', what: result.why.type };
    }
    if (result.type === 'too-long') return { type: 'not-saved', why: 'too-large', what: 'the record of it' };
    await recorded(result.text);
    return { type: 'saved', document: result.sha, event: result.id, nearlyFull };
  }

  const addPhoto: Services['addPhoto'] = async (picture, { whole, ...about }) => {
    const room = await quotaFor(store);
    if (room.type === 'no-room') return { type: 'not-saved', why: 'no-room', what: 'the photo' };
    const made = await make(picture, whole ? LONG_SIDE_WHOLE : LONG_SIDE);
    if (made.type === 'photo-heic') return { type: 'not-saved', why: 'heic', what: 'a HEIC picture' };
    if (made.type === 'photo-no-canvas') return { type: 'not-saved', why: 'no-memory', what: 'the picture' };
    if (made.type !== 'photo') return { type: 'not-saved', why: 'not-a-picture', what: picture.type || 'the file' };
    const { type: _, ...photo } = made;
    return kept(await commands.addPhoto({ ...photo, ...about }), room.type === 'nearly-full');
  };

  const addVoice: Services['addVoice'] = async (sound, lasts, about) => {
    const room = await quotaFor(store);
    if (room.type === 'no-room') return { type: 'not-saved', why: 'no-room', what: 'the voice note' };
    const bytes = new Uint8Array(await sound.arrayBuffer());
    // The type without the codec: the server keeps documents by their bare type.
    const mime = sound.type.split(';')[0] ?? '';
    return kept(await commands.addVoiceNote({ bytes, mime, lasts, ...about }), room.type === 'nearly-full');
  };

  const documentBytes: Services['documentBytes'] = async (sha) => {
    const read = await readDocument(store, sha);
    if (read.type === 'done' && read.value) return read.value;
    await commands.wantDocument(sha);
    return null;
  };

  const photoUrl: Services['photoUrl'] = async (sha, size) => {
    if (size === 'full') {
      const whole = await documentBytes(sha);
      return whole && toUrl(whole);
    }
    const small = await readThumb(store, sha);
    if (small.type === 'done' && small.value) return toUrl(small.value);
    // A list must not fetch what nobody opened.
    const here = await readDocument(store, sha);
    return here.type === 'done' && here.value ? toUrl(here.value) : null;
  };

  return { addPhoto, addVoice, documentBytes, photoUrl };
}

function toUrl({ bytes, mime }: { bytes: BlobPart; mime: string }): string {
  return URL.createObjectURL(new Blob([bytes], { type: mime }));
}

async function encodeOnPage(
  bitmap: ImageBitmap,
  size: { width: number; height: number },
  mime: string,
  quality: number,
): Promise<Blob | null> {
  const canvas = document.createElement('canvas');
  canvas.width = size.width;
  canvas.height = size.height;
  const context = canvas.getContext('2d');
  if (!context) return null;
  context.drawImage(bitmap, 0, 0, size.width, size.height);
  return new Promise((resolve) => canvas.toBlob(resolve, mime, quality));
}
