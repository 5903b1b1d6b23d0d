// Pictures and sound with the event that names them: the bytes first, in a transaction of their own. Loaded when the
// first one is kept. No event says that there is one before its bytes are stored.
import type { Payload } from '../core/record/events.ts';
import type { StationStore } from './database.ts';
import type { StoredDocument } from './documents.ts';
import type { StoreFailure, StoreResult } from './failures.ts';
import type { Appender } from './record/appender.ts';
import type { RecordResult } from './record/ownRows.ts';
import type { ThumbRow } from './schema.ts';

export type Photo = {
  bytes: Uint8Array<ArrayBuffer>;
  mime: string;
  width: number;
  height: number;
  thumb?: { bytes: ArrayBuffer; mime: string };
  place?: string;
  audit?: string;
};

export type VoiceNote = {
  bytes: Uint8Array<ArrayBuffer>;
  mime: string;
  /** Milliseconds. */
  lasts: number;
  place?: string;
  audit?: string;
};

export type MediaResult =
  | { type: 'saved'; sha: string; id: string; text: string }
  /** Picture or sound could not be stored, so no event says that there is one. */
  | { type: 'picture-not-saved'; why: StoreFailure }
  /** Picture or sound is stored; its event waits in memory. */
  | { type: 'not-saved'; sha: string; id: string; text: string; why: StoreFailure }
  | { type: 'too-long'; characters: number; limit: number };

type MediaParts = {
  store: StationStore;
  record: Appender['record'];
  storeDocument: (bytes: Uint8Array<ArrayBuffer>, mime: string) => Promise<StoredDocument>;
};

export async function addPhoto(parts: MediaParts, photo: Photo): Promise<MediaResult> {
  const { bytes, mime, width, height, thumb, place, audit } = photo;
  const kept = await parts.storeDocument(bytes, mime);
  if (kept.type !== 'stored') return { type: 'picture-not-saved', why: kept };
  const { sha } = kept;
  // A missing small picture costs nothing: it can be drawn again.
  if (thumb) await storeThumb(parts.store, { sha, ...thumb });
  const payload: Payload<'photo'> = { document: sha, mime, bytes: bytes.length, width, height };
  return recordOf(parts, sha, 'photo', place === undefined ? payload : { ...payload, place }, audit);
}

export async function addVoiceNote(parts: MediaParts, note: VoiceNote): Promise<MediaResult> {
  const { bytes, mime, lasts, place, audit } = note;
  const kept = await parts.storeDocument(bytes, mime);
  if (kept.type !== 'stored') return { type: 'picture-not-saved', why: kept };
  const payload: Payload<'voice-note'> = { document: kept.sha, mime, bytes: bytes.length, lasts };
  return recordOf(parts, kept.sha, 'voice-note', place === undefined ? payload : { ...payload, place }, audit);
}

async function recordOf<K extends 'photo' | 'voice-note'>(
  { record }: MediaParts,
  sha: string,
  kind: K,
  payload: Payload<K>,
  audit: string | undefined,
): Promise<MediaResult> {
  const result: RecordResult = await record(kind, payload, audit === undefined ? {} : { audit });
  return result.type === 'too-long' ? result : { ...result, sha };
}

function storeThumb(store: StationStore, thumb: ThumbRow): Promise<StoreResult<void>> {
  return store.run((db) => db.transaction('rw', db.thumbs, async () => void (await db.thumbs.put(thumb))));
}
