// Owns one camera stream, opened and closed through html5-qrcode, and the video element it plays in.
// Must never decode by itself: html5-qrcode shrinks frames to CSS size, so it decodes only where nothing better runs.
import type { Html5Qrcode } from 'html5-qrcode';
import { failureFrom } from './cameraErrors.ts';
import type { ScanFailure } from './scanner.ts';

export type CameraChoice = { id: string; label: string };

export type OwnDecoder = { found(text: string, format: string | undefined): void; missed(): void };

export type CameraStream = { video: HTMLVideoElement; track: MediaStreamTrack; close(): Promise<void> };

type OpenResult = { type: 'open'; stream: CameraStream } | { type: 'failed'; failure: ScanFailure };

const FIRST_FRAME_MS = 5000;
const CLOSE_MS = 1000;
/** Wide enough for html5-qrcode's own decoder, which reads no more pixels than the element has. */
const OWN_DECODER_WIDTH = 1280;
const OWN_DECODER_FPS = 8;
/** While paused it still draws each frame to its canvas, so let it do so hardly ever. */
const PAUSED_FPS = 0.1;

let lastHost = 0;

export async function loadLibrary() {
  return import('html5-qrcode');
}

function isFailure(value: unknown): value is { type: 'failed'; failure: ScanFailure } {
  return typeof value === 'object' && value !== null && 'type' in value && value.type === 'failed';
}

/** `own` hears html5-qrcode's own decoder; without it that decoder is paused right after the start. */
export async function openCamera(
  place: HTMLElement,
  choice: CameraChoice | null,
  own: OwnDecoder | null,
): Promise<OpenResult> {
  if (!globalThis.isSecureContext || !navigator.mediaDevices) {
    return { type: 'failed', failure: { type: 'insecure-context' } };
  }
  if (choice === null) return openWith(place, { facingMode: { ideal: 'environment' } }, own);
  const chosen = await openWith(place, { deviceId: { exact: choice.id } }, own);
  if (chosen.type === 'open' || chosen.failure.type !== 'no-camera') return chosen;
  // Ids change between visits; labels are there once permission was given.
  const devices = await navigator.mediaDevices.enumerateDevices();
  const same = devices.find(({ kind, label }) => kind === 'videoinput' && label !== '' && label === choice.label);
  return openWith(place, same ? { deviceId: { exact: same.deviceId } } : { facingMode: { ideal: 'environment' } }, own);
}

async function openWith(place: HTMLElement, which: MediaTrackConstraints, own: OwnDecoder | null): Promise<OpenResult> {
  const host = document.createElement('div');
  lastHost += 1;
  host.id = `camera-${lastHost}`;
  if (own) {
    host.style.width = `${OWN_DECODER_WIDTH}px`;
    host.style.transformOrigin = '0 0';
    host.style.transform = `scale(${(place.clientWidth || OWN_DECODER_WIDTH) / OWN_DECODER_WIDTH})`;
  }
  place.append(host);
  const reader = await beginReader(host, which, own);
  if (isFailure(reader)) {
    host.remove();
    return reader;
  }
  const video = host.querySelector('video');
  const track = video?.srcObject instanceof MediaStream ? video.srcObject.getVideoTracks()[0] : undefined;
  if (!video || !track) {
    await closeReader(reader, host, track);
    return { type: 'failed', failure: { type: 'stalled' } };
  }
  // It throws strings out of these two, as uncaught errors of the page.
  video.onabort = null;
  video.onerror = null;
  const close = () => closeReader(reader, host, track);
  if (!(await playing(video, host))) {
    await close();
    return { type: 'failed', failure: { type: 'stalled' } };
  }
  if (!own) {
    reader.pause(false);
    host.style.height = '100%';
    Object.assign(video.style, { width: '100%', height: '100%', objectFit: 'cover' });
  }
  // Its "paused" words and shades are not ours; the canvas must stay, its stop() takes that one out itself.
  for (const child of [...host.children]) if (child.tagName === 'DIV') child.remove();
  await focusContinuously(track);
  return { type: 'open', stream: { video, track, close } };
}

async function beginReader(
  host: HTMLElement,
  which: MediaTrackConstraints,
  own: OwnDecoder | null,
): Promise<Html5Qrcode | { type: 'failed'; failure: ScanFailure }> {
  try {
    const { Html5Qrcode, Html5QrcodeSupportedFormats: F } = await loadLibrary();
    const reader = new Html5Qrcode(host.id, {
      verbose: false,
      // With a native detector it gives each decoder only every other frame.
      useBarCodeDetectorIfSupported: false,
      formatsToSupport: [F.QR_CODE, F.DATA_MATRIX, F.CODE_128, F.CODE_39],
    });
    await reader.start(
      { facingMode: 'environment' },
      {
        fps: own ? OWN_DECODER_FPS : PAUSED_FPS,
        // Its mirrored second try reads the same pixels and leaves the next frame mirrored.
        disableFlip: true,
        videoConstraints: { width: { ideal: 1920 }, height: { ideal: 1080 }, ...which },
      },
      // It takes anything thrown in here for a failed read, so nothing but handing over happens here.
      (text, result) => own?.found(text, result.result.format?.formatName),
      () => own?.missed(),
    );
    return reader;
  } catch (thrown) {
    return { type: 'failed', failure: failureFrom(thrown) };
  }
}

/** It is ready when its canvas is there; before that its pause() and stop() throw and leave it stuck. */
function playing(video: HTMLVideoElement, host: HTMLElement): Promise<boolean> {
  const ready = () => host.querySelector('canvas') !== null && video.videoWidth > 0;
  if (ready()) return Promise.resolve(true);
  return new Promise((resolve) => {
    const end = () => {
      clearTimeout(timer);
      video.removeEventListener('playing', end);
      resolve(ready());
    };
    const timer = setTimeout(end, FIRST_FRAME_MS);
    video.addEventListener('playing', end);
  });
}

/**
 * A video closed before it played rejects a play() that the library called and nobody can catch.
 * Only that one rejection, and only for the moment in which it comes.
 */
function expectBrokenPlay(): void {
  const swallow = (event: PromiseRejectionEvent) => {
    const { reason } = event;
    if (reason instanceof DOMException && reason.name === 'AbortError' && reason.message.includes('play')) {
      event.preventDefault();
    }
  };
  globalThis.addEventListener('unhandledrejection', swallow);
  setTimeout(() => globalThis.removeEventListener('unhandledrejection', swallow), CLOSE_MS);
}

async function closeReader(reader: Html5Qrcode, host: HTMLElement, track: MediaStreamTrack | undefined): Promise<void> {
  expectBrokenPlay();
  try {
    // Its promise never settles when the stream lost its track.
    await Promise.race([reader.stop(), new Promise((resolve) => setTimeout(resolve, CLOSE_MS))]);
  } catch {
    // It throws strings for states that do not matter any more; what counts is done below.
  }
  track?.stop();
  const video = host.querySelector('video');
  if (video) video.srcObject = null;
  host.remove();
}

type TrackAbilities = MediaTrackCapabilities & {
  torch?: boolean;
  zoom?: { min: number; max: number; step?: number };
  focusMode?: string[];
};
type TrackWishes = MediaTrackConstraintSet & {
  torch?: boolean;
  zoom?: number;
  focusMode?: string;
  pointsOfInterest?: { x: number; y: number }[];
};

export function abilitiesOf(track: MediaStreamTrack): TrackAbilities {
  return track.getCapabilities?.() ?? {};
}

/** Answers whether the track took it. */
export async function apply(track: MediaStreamTrack, wishes: TrackWishes): Promise<boolean> {
  try {
    await track.applyConstraints({ advanced: [wishes] });
    return true;
  } catch {
    return false;
  }
}

/** Has to come after the start: asked for before, many phones ignore it. */
async function focusContinuously(track: MediaStreamTrack): Promise<void> {
  if (abilitiesOf(track).focusMode?.includes('continuous')) await apply(track, { focusMode: 'continuous' });
}

/** Long enough for a lens to settle and a label to be read, then the camera follows by itself again. */
const FOCUS_HOLD_MS = 4000;

/** One focus at a point (0 to 1 from the upper left), where the browser knows of points; else wherever it likes. */
export async function focusOnce(track: MediaStreamTrack, point: { x: number; y: number }): Promise<boolean> {
  const knows = navigator.mediaDevices.getSupportedConstraints() as { pointsOfInterest?: boolean };
  const taken = await apply(track, {
    focusMode: 'single-shot',
    ...(knows.pointsOfInterest ? { pointsOfInterest: [point] } : {}),
  });
  if (taken) setTimeout(() => void focusContinuously(track), FOCUS_HOLD_MS);
  return taken;
}
