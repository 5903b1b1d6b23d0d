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
import { createDark, GLANCE_MS, isBlack } from './dark.ts';
import type { Decoder } from './decoder.ts';
import { onFrames } from './frames.ts';
import { createHub } from './hub.ts';
import { createPace } from './pace.ts';
import { type Picture, takePicture } from './picture.ts';
import type { Point, ScanFailure, Scanner, Watched } from './scanner.ts';
import { readStill, type StillResult } from './still.ts';
import { createWatched, type OnBug, surfaceBug } from './watched.ts';

export type CameraOptions = {
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
export type CamerasResult = { type: 'cameras'; cameras: CameraChoice[] } | { type: 'failed'; failure: ScanFailure };

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

export function createCamera(options: CameraOptions): CameraScanner {
  const { place } = options;
  let decoder = options.decoder;
  let why = 'no decoder here';
  let choice = options.camera ?? null;
  let stream: CameraStream | null = null;
  let quiet: (() => void)[] = [];
  let wishes: { torch?: boolean; zoom?: number } = {};
  // Lives longer than a stream: a stream that stalls again right after it was rebuilt is given up.
  const health = { rebuiltAt: Number.NEGATIVE_INFINITY };
  // Whatever was in flight before a pause, a stop or a new stream belongs to another time.
  let epoch = 0;
  let inFlight = false;
  let lastLook = 0;
  let lastBeat = 0;
  let waited = 0;
  let looks = 0;
  let pace = createPace();
  // Lives longer than a stream, as the health above does.
  let dark = createDark();
  let lastGlance = 0;
  let isDark = false;
  const view = createWatched<View>('nothing', options.onBug ?? surfaceBug);

  const hub = createHub(
    { by: 'camera', now: options.now, onBug: options.onBug, blindAfterMs: BLIND_AFTER_MS },
    {
      open() {
        health.rebuiltAt = Number.NEGATIVE_INFINITY;
        dark = createDark();
        isDark = false;
        return open();
      },
      close,
    },
  );
  hub.state.subscribe(() => {
    epoch += 1;
  });

  async function open(): Promise<ScanFailure | null> {
    const result = await openCamera(place, choice, decoder ? null : ownDecoder);
    if (result.type === 'failed') return result.failure;
    const opened = result.stream;
    stream = opened;
    pace = createPace();
    const watch = watchStream(
      opened,
      {
        rebuild: () => hub.whileRunning(rebuild),
        sleep: () => hub.whileRunning(sleep),
        giveUp: () => hub.fail({ type: 'stalled' }),
      },
      health,
    );
    const stopFrames = onFrames(opened.video, () => {
      watch.frame();
      if (!decoder) return;
      if (hangs()) void doWithout('no answer');
      else void lookAt(opened, decoder);
    });
    quiet = [stopFrames, watch.end];
    await restoreWishes(opened);
    return null;
  }

  async function close(): Promise<void> {
    const closing = stream;
    epoch += 1;
    stream = null;
    view.set('nothing');
    for (const end of quiet) end();
    quiet = [];
    await closing?.close();
  }

  async function sleep(): Promise<void> {
    await close();
    quiet = [onReturn(() => void hub.whileRunning(rebuild))];
  }

  async function rebuild(): Promise<void> {
    await close();
    const failure = await open();
    // Not awaited: it waits for this very job.
    if (failure) void hub.fail(failure);
  }

  async function restoreWishes({ track }: CameraStream): Promise<void> {
    if (wishes.torch !== undefined) await apply(track, { torch: wishes.torch });
    if (wishes.zoom !== undefined) await apply(track, { zoom: wishes.zoom });
  }

  async function lookAt({ video }: CameraStream, by: Decoder): Promise<void> {
    const started = performance.now();
    if (inFlight || hub.state.get().type !== 'scanning' || started - lastLook < pace.gap(started)) return;
    const mine = epoch;
    inFlight = true;
    lastLook = started;
    try {
      const frame = await createImageBitmap(video);
      const picture = { width: frame.width, height: frame.height };
      looks += 1;
      if (started - lastGlance >= GLANCE_MS && goneBlack(frame, started)) {
        frame.close();
        return;
      }
      const decoded = await by.decode(frame, looks % 2 === 0 ? 'quick' : 'thorough');
      if (mine !== epoch) return;
      if (decoded.type === 'decoder-failed') await doWithout(decoded.message);
      else judge(decoded.symbols, picture, video);
    } catch (error) {
      // A frame that went away under us, at a stop or a turn of the phone; the next one comes soon.
      if (!(error instanceof DOMException)) throw error;
    } finally {
      inFlight = false;
    }
  }

  /** True when a new stream was asked for. */
  function goneBlack(frame: ImageBitmap, at: number): boolean {
    lastGlance = at;
    const seen = dark.saw(isBlack(frame), at);
    isDark = seen === 'dark';
    if (seen === 'rebuild') void hub.whileRunning(rebuild);
    return seen === 'rebuild';
  }

  /** Time in which the page slept is no fault of the decoder, so only the beat of the frames counts. */
  function hangs(): boolean {
    const beat = performance.now();
    waited = inFlight ? waited + Math.min(beat - lastBeat, BEAT_MS) : 0;
    lastBeat = beat;
    return waited > PATIENCE_MS;
  }

  /** The better decoder broke, so the one of html5-qrcode has to do; it needs a stream of its own kind. */
  async function doWithout(message: string): Promise<void> {
    if (decoder === null) return;
    decoder = null;
    why = message;
    await hub.whileRunning(rebuild);
  }

  function judge(
    symbols: { text: string; format: string; corners: Point[] }[],
    picture: { width: number; height: number },
    video: HTMLVideoElement,
  ): void {
    const box = { width: video.clientWidth, height: video.clientHeight };
    const shown = box.width > 0 && box.height > 0 ? box : picture;
    const seen = inSight(symbols, picture, shown);
    const given = options.circle?.() ?? middleCircle(shown.width, shown.height);
    const circle = { ...boxToPicture(given, picture, shown), r: given.r / cover(picture, shown).scale };
    const meant = aim(seen, circle);
    const sight = meant.type === 'taken' ? seen[meant.index] : undefined;
    pace.saw(
      seen.map(({ text }) => text),
      performance.now(),
    );
    view.set(meant.type === 'taken' ? 'aimed' : meant.type === 'nothing' && isDark ? 'dark' : meant.type);
    hub.look(seen, sight ? { sight, aimed: true } : null);
  }

  const ownDecoder: OwnDecoder = {
    found(text, format) {
      const sight = format === undefined ? { text } : { text, format };
      // It tells neither where the label was nor of any other, so nothing is aimed.
      hub.look([sight], { sight, aimed: false });
    },
    missed: () => hub.look([], null),
  };

  async function wish(next: { torch?: boolean; zoom?: number }): Promise<boolean> {
    if (!stream) return false;
    const taken = await apply(stream.track, next);
    if (taken) wishes = { ...wishes, ...next };
    return taken;
  }

  return {
    ...hub,
    stop() {
      wishes = {};
      return hub.stop();
    },
    capabilities() {
      if (!stream) return { torch: false, zoom: null, focus: false };
      const { torch, zoom, focusMode } = abilitiesOf(stream.track);
      const range = zoom && zoom.max > zoom.min ? { min: zoom.min, max: zoom.max, step: zoom.step || 0.1 } : null;
      return { torch: torch === true, zoom: range, focus: focusMode?.includes('single-shot') === true };
    },
    torch: (on) => wish({ torch: on }),
    zoom: (factor) => wish({ zoom: factor }),
    focus: async (point) => (stream ? focusOnce(stream.track, point) : false),
    view,
    async takePhoto(longSide) {
      return stream ? takePicture(stream.video, stream.track, longSide) : { type: 'no-picture', reason: 'not-running' };
    },
    readStill: (file) => readStill(file, decoder, options.now),
    cameras: () =>
      hub.inLine(async () => {
        try {
          if (stream) return { type: 'cameras', cameras: await listed() };
          // It opens a stream of its own for the permission, which is why this waits in line.
          const cameras = await (await loadLibrary()).Html5Qrcode.getCameras();
          return { type: 'cameras', cameras: cameras.map(({ id, label }) => ({ id, label })) };
        } catch (thrown) {
          return { type: 'failed', failure: failureFrom(thrown) };
        }
      }),
    useCamera(next) {
      choice = next;
      wishes = {};
      return hub.whileRunning(rebuild);
    },
    current() {
      if (!stream) return null;
      return { id: stream.track.getSettings().deviceId ?? '', label: stream.track.label };
    },
    video: () => stream?.video ?? null,
    readsBy: () => (decoder ? { type: 'decoder' } : { type: 'library', why }),
  };
}

async function listed(): Promise<CameraChoice[]> {
  const devices = await navigator.mediaDevices.enumerateDevices();
  return devices.filter(({ kind }) => kind === 'videoinput').map(({ deviceId, label }) => ({ id: deviceId, label }));
}
