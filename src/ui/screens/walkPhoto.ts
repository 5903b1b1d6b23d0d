// Takes a photo through the viewfinder where it runs; otherwise the sheet with the phone's own camera is opened. A
// photo is kept at the place that it was taken for, never at the one that is meant by the time it is ready.
import { mediaFailureToMessage } from '../messages.ts';
import type { MediaFailure, Services } from '../services.ts';
import type { WalkCamera } from './walkCamera.ts';
import type { WalkFlow } from './walkFlow.ts';

export function photoToWords(why: MediaFailure): string {
  const { what, todo } = mediaFailureToMessage(why);
  return `${what} ${todo}`;
}

export async function takePhoto(
  services: Services,
  flow: WalkFlow,
  camera: WalkCamera,
  at: { place: string; words: string },
): Promise<void> {
  const { type } = camera.state.value;
  const scanner = camera.scanner.value;
  if (!scanner || (type !== 'scanning' && type !== 'paused')) {
    flow.sheet.value = { type: 'photo', ...at };
    return;
  }
  const picture = await scanner.takePhoto();
  if (picture.type !== 'picture') {
    flow.sheet.value = { type: 'photo', ...at };
    return;
  }
  const result = await services.addPhoto(picture.blob, { place: at.place, audit: flow.audit });
  flow.line.value = result.type === 'saved' ? `Photo kept at ${at.words}.` : photoToWords(result.why);
}
