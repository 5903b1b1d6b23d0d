// Owns the camera as a Scanner: one stream for a whole walk, native frames to the decoder, labels aimed at.
// Must never open a second stream while one runs, and never queue frames: one in flight, the rest are dropped.
//
// Limits: Where html5-qrcode's own decoder has to do, it tells neither place nor neighbours, so there the circle cannot
// choose. Torch, zoom and focus were tried on stand-ins; no real phone was used.

import { aim, boxToPicture, type Circle, cover, inSight, middleCircle } from './aim.ts';
import { failureFrom } from './cameraErrors.ts';
import {
  abilitiesOf,
  apply,
  type CameraChoice,
  type CameraStream,
  focusOnce,
  loadLibrary,
  type OwnDecoder,
  openCamera,
} from './cameraStream.ts';
import { onReturn, watchStream } from './cameraWatch.ts';
import type { Darkness } from './dark.ts';
import { createDark, GLANCE_MS, isBlack } from './dark.ts';
import type { Decoder } from './decoder.ts';
import { onFrames } from './frames.ts';
import type { Hub } from './hub.ts';
import { createHub } from './hub.ts';
import type { Pace } from './pace.ts';
import { createPace } from './pace.ts';
import { type Picture, takePicture } from './picture.ts';
import type { Point, ScanFailure, Scanner, Watched } from './scanner.ts';
import { readStill, type StillResult } from './still.ts';
import { createWatched, type OnBug, surfaceBug } from './watched.ts';

type CameraOptions = {
  /** Filled by the picture; it has to stay in the page while the scanner runs. */
  place: HTMLElement;
  now: () => number;
  /** Null where WebAssembly is off: html5-qrcode's own decoder takes over then. */
  decoder: Decoder | null;
  /** The camera chosen last time. */
  camera?: CameraChoice | null;
  /** The detail circle in CSS pixels of `place`; the middle when left out. */
  circle?: () => Circle;
  onBug?: OnBug;
};

export type Capabilities = {
  torch: boolean;
  zoom: { min: number; max: number; step: number } | null;
  /** Whether the camera can be told to focus once. */
  focus: boolean;
};
/** What is in view: nothing, a label in the circle, labels that all lie beside it, or a picture that stays black. */
export type View = 'nothing' | 'aimed' | 'outside' | 'dark';
type CamerasResult = { type: 'cameras'; cameras: CameraChoice[] } | { type: 'failed'; failure: ScanFailure };

export type CameraScanner = Scanner & {
  /** Known only while a stream runs. */
  capabilities(): Capabilities;
  torch(on: boolean): Promise<boolean>;
  zoom(factor: number): Promise<boolean>;
  /** Focuses once at a point of the picture, both 0 to 1 from the upper left. */
  focus(point: Point): Promise<boolean>;
  readonly view: Watched<View>;
  /** @param longSide Of the picture, in pixels at most. */
  takePhoto(longSide?: number): Promise<Picture>;
  readStill(file: File): Promise<StillResult>;
  cameras(): Promise<CamerasResult>;
  useCamera(choice: CameraChoice | null): Promise<void>;
  /** The camera in use, to be remembered; null while none runs. */
  current(): CameraChoice | null;
  video(): HTMLVideoElement | null;
  /** The library's own decoder reads less and cannot aim; `why` tells what became of the better one. */
  readsBy(): { type: 'decoder' } | { type: 'library'; why: string };
};

/** Longer than any frame takes, loading the decoder included; then it hangs. */
const PATIENCE_MS = 8000;
const BEAT_MS = 500;
/** A gap this long means that nobody was looking; below the time after which a text may be read again. */
const BLIND_AFTER_MS = 900;

type CameraState = {
  options: CameraOptions;
  place: HTMLElement;
  decoder: Decoder | null;
  why: string;
  choice: CameraChoice | null;
  stream: CameraStream | null;
  quiet: (() => void)[];
  wishes: { torch?: boolean; zoom?: number };
  // Lives longer than a stream: a stream that stalls again right after it was rebuilt is given up.
  health: { rebuiltAt: number };
  // Whatever was in flight before a pause, a stop or a new stream belongs to another time.
  epoch: number;
  inFlight: boolean;
  lastLook: number;
  lastBeat: number;
  waited: number;
  looks: number;
  pace: Pace;
  // Lives longer than a stream, as the health above does.
  dark: { saw(black: boolean, now: number): Darkness };
  lastGlance: number;
  isDark: boolean;
  view: Watched<View> & { set(value: View): void };
  hub: Hub;
  ownDecoder: OwnDecoder;
};

export function createCamera(options: CameraOptions): CameraScanner {
  const { place } = options;

  const hub = createHub(
    { by: 'camera', now: options.now, onBug: options.onBug, blindAfterMs: BLIND_AFTER_MS },
    {
      open() {
        cam.health.rebuiltAt = Number.NEGATIVE_INFINITY;
        cam.dark = createDark();
        cam.isDark = false;
        return open(cam);
      },
      close: () => close(cam),
    },
  );
  const cam: CameraState = {
    options,
    place,
    decoder: options.decoder,
    why: 'no decoder here',
    choice: options.camera ?? null,
    stream: null,
    quiet: [],
    wishes: {},
    health: { rebuiltAt: Number.NEGATIVE_INFINITY },
    epoch: 0,
    inFlight: false,
    lastLook: 0,
    lastBeat: 0,
    waited: 0,
    looks: 0,
    pace: createPace(),
    dark: createDark(),
    lastGlance: 0,
    isDark: false,
    view: createWatched<View>('nothing', options.onBug ?? surfaceBug),
    hub,
    ownDecoder: {
      found(text, format) {
        const sight = format === undefined ? { text } : { text, format };
        // It tells neither where the label was nor of any other, so nothing is aimed.
        hub.look([sight], { sight, aimed: false });
      },
      missed: () => hub.look([], null),
    },
  };
  hub.state.subscribe(() => {
    cam.epoch += 1;
  });

  return {
    ...hub,
    stop() {
      cam.wishes = {};
      return hub.stop();
    },
    capabilities() {
      if (!cam.stream) return { torch: false, zoom: null, focus: false };
      const { torch, zoom, focusMode } = abilitiesOf(cam.stream.track);
      const range = zoom && zoom.max > zoom.min ? { min: zoom.min, max: zoom.max, step: zoom.step || 0.1 } : null;
      return { torch: torch === true, zoom: range, focus: focusMode?.includes('single-shot') === true };
    },
    torch: (on) => wish(cam, { torch: on }),
    zoom: (factor) => wish(cam, { zoom: factor }),
    focus: async (point) => (cam.stream ? focusOnce(cam.stream.track, point) : false),
    view: cam.view,
    async takePhoto(longSide) {
      return cam.stream
        ? takePicture(cam.stream.video, cam.stream.track, longSide)
        : { type: 'no-picture', reason: 'not-running' };
    },
    readStill: (file) => readStill(file, cam.decoder, options.now),
    cameras: () =>
      hub.inLine(async () => {
        try {
          if (cam.stream) return { type: 'cameras', cameras: await listed() };
          // It opens a stream of its own for the permission, which is why this waits in line.
          const cameras = await (await loadLibrary()).Html5Qrcode.getCameras();
          return { type: 'cameras', cameras: cameras.map(({ id, label }) => ({ id, label })) };
        } catch (thrown) {
          return { type: 'failed', failure: failureFrom(thrown) };
        }
      }),
    useCamera(next) {
      cam.choice = next;
      cam.wishes = {};
      return hub.whileRunning(() => rebuild(cam));
    },
    current() {
      if (!cam.stream) return null;
      return { id: cam.stream.track.getSettings().deviceId ?? '', label: cam.stream.track.label };
    },
    video: () => cam.stream?.video ?? null,
    readsBy: () => (cam.decoder ? { type: 'decoder' } : { type: 'library', why: cam.why }),
  };
}

async function open(cam: CameraState): Promise<ScanFailure | null> {
  const result = await openCamera(cam.place, cam.choice, cam.decoder ? null : cam.ownDecoder);
  if (result.type === 'failed') return result.failure;
  const opened = result.stream;
  cam.stream = opened;
  cam.pace = createPace();
  const watch = watchStream(
    opened,
    {
      rebuild: () => cam.hub.whileRunning(() => rebuild(cam)),
      sleep: () => cam.hub.whileRunning(() => sleep(cam)),
      giveUp: () => cam.hub.fail({ type: 'stalled' }),
    },
    cam.health,
  );
  const stopFrames = onFrames(opened.video, () => {
    watch.frame();
    if (!cam.decoder) return;
    if (hangs(cam)) void doWithout(cam, 'no answer');
    else void lookAt(cam, opened, cam.decoder);
  });
  cam.quiet = [stopFrames, watch.end];
  await restoreWishes(cam, opened);
  return null;
}

async function close(cam: CameraState): Promise<void> {
  const closing = cam.stream;
  cam.epoch += 1;
  cam.stream = null;
  cam.view.set('nothing');
  for (const end of cam.quiet) end();
  cam.quiet = [];
  await closing?.close();
}

async function sleep(cam: CameraState): Promise<void> {
  await close(cam);
  cam.quiet = [onReturn(() => void cam.hub.whileRunning(() => rebuild(cam)))];
}

async function rebuild(cam: CameraState): Promise<void> {
  await close(cam);
  const failure = await open(cam);
  // Not awaited: it waits for this very job.
  if (failure) void cam.hub.fail(failure);
}

async function restoreWishes(cam: CameraState, { track }: CameraStream): Promise<void> {
  if (cam.wishes.torch !== undefined) await apply(track, { torch: cam.wishes.torch });
  if (cam.wishes.zoom !== undefined) await apply(track, { zoom: cam.wishes.zoom });
}

async function lookAt(cam: CameraState, { video }: CameraStream, by: Decoder): Promise<void> {
  const started = performance.now();
  if (cam.inFlight || cam.hub.state.get().type !== 'scanning' || started - cam.lastLook < cam.pace.gap(started)) return;
  const mine = cam.epoch;
  cam.inFlight = true;
  cam.lastLook = started;
  try {
    const frame = await createImageBitmap(video);
    const picture = { width: frame.width, height: frame.height };
    cam.looks += 1;
    if (started - cam.lastGlance >= GLANCE_MS && goneBlack(cam, frame, started)) {
      frame.close();
      return;
    }
    const decoded = await by.decode(frame, cam.looks % 2 === 0 ? 'quick' : 'thorough');
    if (mine !== cam.epoch) return;
    if (decoded.type === 'decoder-failed') await doWithout(cam, decoded.message);
    else judge(cam, decoded.symbols, picture, video);
  } catch (error) {
    // A frame that went away under us, at a stop or a turn of the phone; the next one comes soon.
    if (!(error instanceof DOMException)) throw error;
  } finally {
    cam.inFlight = false;
  }
}

/** True when a new stream was asked for. */
function goneBlack(cam: CameraState, frame: ImageBitmap, at: number): boolean {
  cam.lastGlance = at;
  const seen = cam.dark.saw(isBlack(frame), at);
  cam.isDark = seen === 'dark';
  if (seen === 'rebuild') void cam.hub.whileRunning(() => rebuild(cam));
  return seen === 'rebuild';
}

/** Time in which the page slept is no fault of the decoder, so only the beat of the frames counts. */
function hangs(cam: CameraState): boolean {
  const beat = performance.now();
  cam.waited = cam.inFlight ? cam.waited + Math.min(beat - cam.lastBeat, BEAT_MS) : 0;
  cam.lastBeat = beat;
  return cam.waited > PATIENCE_MS;
}

/** The better decoder broke, so the one of html5-qrcode has to do; it needs a stream of its own kind. */
async function doWithout(cam: CameraState, message: string): Promise<void> {
  if (cam.decoder === null) return;
  cam.decoder = null;
  cam.why = message;
  await cam.hub.whileRunning(() => rebuild(cam));
}

function judge(
  cam: CameraState,
  symbols: { text: string; format: string; corners: Point[] }[],
  picture: { width: number; height: number },
  video: HTMLVideoElement,
): void {
  const box = { width: video.clientWidth, height: video.clientHeight };
  const shown = box.width > 0 && box.height > 0 ? box : picture;
  const seen = inSight(symbols, picture, shown);
  const given = cam.options.circle?.() ?? middleCircle(shown.width, shown.height);
  const circle = { ...boxToPicture(given, picture, shown), r: given.r / cover(picture, shown).scale };
  const meant = aim(seen, circle);
  const sight = meant.type === 'taken' ? seen[meant.index] : undefined;
  cam.pace.saw(
    seen.map(({ text }) => text),
    performance.now(),
  );
  cam.view.set(meant.type === 'taken' ? 'aimed' : meant.type === 'nothing' && cam.isDark ? 'dark' : meant.type);
  cam.hub.look(seen, sight ? { sight, aimed: true } : null);
}

async function wish(cam: CameraState, next: { torch?: boolean; zoom?: number }): Promise<boolean> {
  if (!cam.stream) return false;
  const taken = await apply(cam.stream.track, next);
  if (taken) cam.wishes = { ...cam.wishes, ...next };
  return taken;
}

async function listed(): Promise<CameraChoice[]> {
  const devices = await navigator.mediaDevices.enumerateDevices();
  return devices.filter(({ kind }) => kind === 'videoinput').map(({ deviceId, label }) => ({ id: deviceId, label }));
}
