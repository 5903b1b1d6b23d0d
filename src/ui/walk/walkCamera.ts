// The camera and the hand scanner of one walk: one stream from the first tap to the end, paused while a question is
// open, stopped when the studio goes live. It hands readings over and decides nothing about them.
import { type Signal, useComputed, useSignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import type { CameraScanner, Capabilities, View } from '../../scan/camera.ts';
import type { CameraChoice } from '../../scan/cameraStream.ts';
import type { Reading, ScanFailure, ScannerState } from '../../scan/scanner.ts';
import type { Wedge } from '../../scan/wedge.ts';
import { useServices } from '../context.ts';
import { FLAG } from '../drafts/draftKind.ts';
import { createRest } from '../feel/rest.ts';
import { feelOf } from '../feel/settings.ts';
import type { WakeState } from '../feel/wakeLock.ts';
import { zoomAt } from '../feel/zoom.ts';
import type { WalkFlow } from './walkFlowType.ts';

const STARTED = 'camera-was-started';
const LATE_MS = 1000;
const CANNOT: Capabilities = { torch: false, zoom: null, focus: false };

function afterMs(ms: number, fn: () => void): () => void {
  const timer = setTimeout(fn, ms);
  return () => clearTimeout(timer);
}

export interface WalkCamera {
  /** The picture's element; it moves with the viewfinder and outlives it. */
  place: HTMLElement;
  state: Signal<ScannerState>;
  scanner: Signal<CameraScanner | null>;
  can: Signal<Capabilities>;
  torch: Signal<boolean>;
  zoom: Signal<number>;
  /** Let go after a while without use; a touch of its place or any statement brings it back. */
  resting: Signal<boolean>;
  /** The last reading of the camera, as it lay in the picture. */
  taken: Signal<Reading | null>;
  /** What the circle and the picture hold just now, for the hints. */
  sight: Signal<View>;
  /** Whether the screen is kept on. */
  wake: Signal<WakeState>;
  setTorch(on: boolean): Promise<boolean>;
  /** `keep` when the hand is off the slider: only then it is remembered. */
  setZoom(factor: number, keep: boolean): Promise<boolean>;
  choose(camera: CameraChoice): Promise<void>;
  start(): Promise<void>;
  restart(): Promise<void>;
  stop(): Promise<void>;
}

export function useWalkCamera(flow: WalkFlow): WalkCamera {
  const services = useServices();
  const place = useMemo(() => {
    const div = document.createElement('div');
    div.className = 'finder-picture';
    return div;
  }, []);
  const state = useSignal<ScannerState>({ type: 'off' });
  const scanner = useSignal<CameraScanner | null>(null);
  const wedge = useSignal<Wedge | null>(null);
  const can = useSignal<Capabilities>(CANNOT);
  const torch = useSignal(false);
  const zoom = useSignal(1);
  const resting = useSignal(false);
  const taken = useSignal<Reading | null>(null);
  const sight = useSignal<View>('nothing');
  const wake = useSignal<WakeState>('off');
  const life = useMemo(
    () => ({ over: false, made: null as Promise<CameraScanner> | null, ends: [] as (() => void)[] }),
    [],
  );

  const make = () => {
    life.made ??= services
      .camera(place, () => aimCircle(place))
      .then((made) => {
        scanner.value = made;
        life.ends.push(
          made.state.subscribe((next) => {
            state.value = next;
            const runs = next.type === 'scanning' || next.type === 'paused';
            rest.runs(runs);
            if (runs && can.peek() === CANNOT) void learn(made);
            else if (!runs) can.value = CANNOT;
          }),
          made.view.subscribe((view) => {
            sight.value = view;
          }),
          made.onReading((reading) => {
            rest.used();
            taken.value = reading;
            flow.read(reading);
          }),
        );
        return made;
      });
    return life.made;
  };
  const learnAgain = async (made: CameraScanner) => {
    const { type } = state.peek();
    if (!life.over && (type === 'scanning' || type === 'paused')) await learn(made, false);
  };
  const learn = async (made: CameraScanner, late = true) => {
    const known = made.capabilities();
    can.value = known;
    if (known.zoom) await setZoom(zoomAt(known.zoom, feelOf(services.settings.peek().feel).zoom), false);
    // Some browsers know what a camera can do only a moment after it started (from memory).
    else if (!known.torch && late) afterMs(LATE_MS, () => void learnAgain(made));
    // The light that was on before a rest comes back with the picture.
    if (known.torch && torch.peek()) torch.value = await made.torch(true);
  };
  const setTorch = async (on: boolean) => {
    const done = (await scanner.peek()?.torch(on)) === true;
    if (done) torch.value = on;
    return done;
  };
  const setZoom = async (factor: number, keep: boolean) => {
    const done = (await scanner.peek()?.zoom(factor)) === true;
    if (!done) return false;
    zoom.value = factor;
    const before = services.settings.peek();
    if (keep) services.settings.value = { ...before, feel: { ...before.feel, zoom: factor } };
    return true;
  };
  const choose = async (camera: CameraChoice) => {
    services.settings.value = { ...services.settings.peek(), camera };
    torch.value = false;
    await scanner.peek()?.useCamera(camera);
    if (scanner.peek()?.current()) await learn(scanner.peek() as CameraScanner);
  };
  const start = async () => {
    resting.value = false;
    const made = await make();
    if (life.over) return;
    const result = await made.start();
    if (result.type !== 'started') return;
    void services.saveDraft(STARTED, true, FLAG);
    rememberInTab();
  };
  const halt = async () => {
    taken.value = null;
    await scanner.value?.stop();
  };
  const stop = async () => {
    resting.value = false;
    torch.value = false;
    await halt();
  };
  const rest = useMemo(
    () =>
      createRest(afterMs, () => {
        resting.value = true;
        void halt();
      }),
    [],
  );

  // What is said at the thumb, by key or by hand scanner means that the walk goes on.
  const { acts } = flow.memory.value;
  useEffect(() => {
    rest.used();
    if (resting.peek()) void start();
  }, [acts]);

  // The camera still has the label of the last jack in view; a hand scanner has not.
  const { place: inHand } = flow.memory.value;
  useEffect(() => wedge.peek()?.moved(), [inHand]);

  // Both scanners wait while something is asked; the stream stays open, or phones would ask for permission again.
  const waiting = useComputed(
    () => flow.sheet.value !== null || flow.mode.value !== 'walk' || flow.memory.value.paused,
  );
  useEffect(() => {
    for (const one of [scanner.value, wedge.value]) {
      if (waiting.value) one?.pause();
      else one?.resume();
    }
  }, [waiting.value, scanner.value, wedge.value]);

  useEffect(() => {
    for (const name of ['pointerdown', 'keydown']) {
      document.addEventListener(name, rest.used, true);
      life.ends.push(() => document.removeEventListener(name, rest.used, true));
    }
    life.ends.push(() => rest.runs(false));
    void services.wedge().then(async (made) => {
      if (life.over) return;
      wedge.value = made;
      life.ends.push(
        made.onReading((reading) => flow.read(reading)),
        () => void made.stop(),
      );
      await made.start();
    });
    void mayStart(services.draft(STARTED, FLAG)).then((may) => {
      if (may && !life.over && !flow.memory.value.paused) void start();
    });
    return () => {
      life.over = true;
      for (const end of life.ends) end();
      void life.made?.then((made) => made.stop());
    };
  }, []);

  return {
    place,
    state,
    scanner,
    can,
    torch,
    zoom,
    resting,
    taken,
    sight,
    wake,
    setTorch,
    setZoom,
    choose,
    start,
    stop,
    restart: async () => {
      await halt();
      await start();
    },
  };
}

/** Where the finder draws its circle (walk.css has the same share of the shorter side). */
function aimCircle({ clientWidth: width, clientHeight: height }: HTMLElement) {
  return { x: width / 2, y: height / 2, r: Math.min(width, height) * 0.4 };
}

/** Kept with the tab through a reload, and not beyond it. */
function rememberInTab(): void {
  try {
    sessionStorage.setItem(STARTED, 'yes');
  } catch {
    // Where nothing may be kept, the next load asks for a tap.
  }
}

function ranInTab(): boolean {
  try {
    return sessionStorage.getItem(STARTED) !== null;
  } catch {
    return false;
  }
}

/** By itself only where the person pressed Start before and nobody has forbidden it since. */
async function mayStart(before: Promise<boolean | null>): Promise<boolean> {
  if ((await before) !== true) return false;
  try {
    const permission = await navigator.permissions.query({ name: 'camera' as PermissionName });
    // Firefox and WebKit ask anew after each load. One question is enough: a reload in mid-walk goes straight to it.
    return permission.state === 'granted' || (permission.state === 'prompt' && ranInTab());
  } catch {
    // Some browsers do not tell; there the earlier tap has to do.
    return true;
  }
}

export function failureToWords(failure: ScanFailure): { what: string; todo: string } {
  switch (failure.type) {
    case 'no-permission':
      return {
        what: 'The camera is not allowed.',
        todo: 'Allow it for this page in the browser’s settings, then start it again. Type and tap work without it.',
      };
    case 'no-camera':
      return { what: 'No camera was found.', todo: 'Type the label, tap what you see, or use a hand scanner.' };
    case 'camera-in-use':
      return { what: 'Another app is using the camera.', todo: 'Close it, then start the camera again.' };
    case 'insecure-context':
      return {
        what: 'The camera needs a trusted address (https).',
        todo: 'See Help for how to open the app that way. Type and tap work without it.',
      };
    case 'stalled':
      return { what: 'The picture stopped.', todo: 'Start the camera again.' };
    case 'decoder-failed':
      return { what: 'Labels cannot be decoded on this phone.', todo: 'Type the label or tap what you see.' };
  }
}
