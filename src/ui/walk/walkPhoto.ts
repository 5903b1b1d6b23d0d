// Takes a photo through the viewfinder where it runs; otherwise the sheet with the phone's own camera is opened. A
// photo is kept at the place that it was taken for, never at the one that is meant by the time it is ready.

import { derived } from '../../core/plan/derived.ts';
import type { AuditId } from '../../core/plan/identity.ts';
import { LONG_SIDE_WHOLE } from '../../core/report/photoMarks.ts';
import { FLAG } from '../drafts/draftKind.ts';
import type { KeyOf } from '../drafts/draftNames.ts';
import { PHOTO_AT } from '../drafts/walkDrafts.ts';
import { mediaFailureToMessage } from '../messages.ts';
import type { MediaFailure, Services } from '../services.ts';
import type { PhotoAt } from './sheets/walkSheet.ts';
import type { WalkCamera } from './walkCamera.ts';
import type { WalkFlow } from './walkFlowType.ts';
import { LINES } from './walkWords.ts';

export function photoToWords(why: MediaFailure): string {
  const { what, todo } = mediaFailureToMessage(why);
  return `${what} ${todo}`;
}

/** What was saved, and a word where there is little room for more. */
export function withRoom(saved: string, nearlyFull: boolean): string {
  return nearlyFull
    ? `${saved} The app’s storage on this phone is more than 80 % full: send what is waiting and free some space.`
    : saved;
}

/** Whether the words about what photos may show were read in this audit on this phone. */
export function cautionKey(audit: AuditId): KeyOf<'photo-caution'> {
  return `photo-caution:${audit}`;
}

/** What was begun is written down, so that a kill in the middle is told at the next start. */
export function photoDraft(audit: AuditId): KeyOf<'photo'> {
  return `photo:${audit}`;
}

/** Pictures of a walk that are still being taken. */
const waitingIn = derived((_: WalkFlow) => ({ count: 0 }));

/** @param read The caution was read just now. */
export async function takePhoto(
  services: Services,
  flow: WalkFlow,
  camera: WalkCamera,
  at: PhotoAt,
  read = false,
): Promise<void> {
  const caution = !read && (await services.draft(cautionKey(flow.audit), FLAG)) !== true;
  if (camera.resting.value) await camera.start();
  const { type } = camera.state.value;
  // Asked once: where the phone's own camera is offered anyway, the words stand in that sheet.
  if (caution && type !== 'off' && type !== 'failed') {
    flow.sheet.value = { type: 'photo-caution', ...at };
    return;
  }
  const scanner = camera.scanner.value;
  if (!scanner || (type !== 'scanning' && type !== 'paused')) {
    flow.sheet.value = { type: 'photo', ...at, ...(caution ? { caution } : {}) };
    return;
  }
  const waiting = waitingIn(flow);
  waiting.count += 1;
  void services.saveDraft(photoDraft(flow.audit), at, PHOTO_AT);
  try {
    const picture = await scanner.takePhoto(at.whole ? LONG_SIDE_WHOLE : undefined);
    if (picture.type === 'picture') await keepPhoto(services, flow, picture.blob, at);
    else flow.sheet.value = { type: 'photo', ...at };
  } finally {
    waiting.count -= 1;
    if (waiting.count === 0 && flow.sheet.peek()?.type !== 'photo') void services.dropDraft(photoDraft(flow.audit));
  }
}

/** Stores a picture at its place; null when it is kept, else what went wrong, in words that stand in the walk too. */
export async function keepPhoto(
  services: Services,
  flow: WalkFlow,
  picture: Blob,
  { place, words, whole }: PhotoAt,
): Promise<string | null> {
  const about = { ...(place ? { place } : {}), ...(whole ? { whole } : {}), audit: flow.audit };
  const result = await services.addPhoto(picture, about);
  if (result.type === 'not-saved') {
    flow.line.value = photoToWords(result.why);
    return flow.line.value;
  }
  flow.did(result.event, place, whole ? `the photo of ${words}` : `the photo at ${words}`);
  flow.line.value = withRoom(whole ? LINES.wholeSaved(words) : LINES.photoSaved(words), result.nearlyFull);
  if (whole) flow.sheet.value = { type: 'photos', place, words, whole, open: result.document };
  return null;
}
