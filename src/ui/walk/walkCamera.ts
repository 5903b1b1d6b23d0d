// The camera and the hand scanner of one walk: one stream from the first tap to the end, paused while a question is
// open, stopped when the studio goes live. It hands readings over and decides nothing about them.
import { type Signal, useComputed, useSignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import type { CameraScanner, Capabilities, View } from '../../scan/camera.ts';
import type { CameraChoice } from '../../scan/cameraStream.ts';
import type { Reading, ScannerState } from '../../scan/scanner.ts';
import type { Wedge } from '../../scan/wedge.ts';
import { useServices } from '../context.ts';
import { createRest, type Rest } from '../feel/rest.ts';
import { feelOf } from '../feel/settings.ts';
import type { WakeState } from '../feel/wakeLock.ts';
import { zoomAt } from '../feel/zoom.ts';
import type { Services } from '../services.ts';
import { mayStart, rememberStart } from './camera/mayStart.ts';
import type { WalkFlow } from './walkFlowType.ts';

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

/** What is known of the camera just now. Signals only: what changes them stands below. */
function useShown() {
  return {
    place: useMemo(() => {
      const div = document.createElement('div');
      div.className = 'finder-picture';
      return div;
    }, []),
    state: useSignal<ScannerState>({ type: 'off' }),
    scanner: useSignal<CameraScanner | null>(null),
    can: useSignal<Capabilities>(CANNOT),
    torch: useSignal(false),
    zoom: useSignal(1),
    resting: useSignal(false),
    taken: useSignal<Reading | null>(null),
    sight: useSignal<View>('nothing'),
    wake: useSignal<WakeState>('off'),
  };
}
type Shown = ReturnType<typeof useShown>;

/** What ends with the walk: one camera at most, and what listens meanwhile. */
interface Life {
  over: boolean;
  made: Promise<CameraScanner> | null;
  ends: (() => void)[];
}

const isRunning = ({ type }: ScannerState) => type === 'scanning' || type === 'paused';

/** Torch, zoom and which camera: what the camera can do is learnt each time it starts. */
function lightAndZoom(services: Services, shown: Shown, life: Life) {
  const { scanner, can, torch, zoom } = shown;
  const setZoom = async (factor: number, keep: boolean) => {
    const done = (await scanner.peek()?.zoom(factor)) === true;
    if (!done) return false;
    zoom.value = factor;
    const before = services.settings.peek();
    if (keep) services.settings.value = { ...before, feel: { ...before.feel, zoom: factor } };
    return true;
  };
  const learn = async (made: CameraScanner, late = true) => {
    const known = made.capabilities();
    can.value = known;
    if (known.zoom) await setZoom(zoomAt(known.zoom, feelOf(services.settings.peek().feel).zoom), false);
    // Some browsers know what a camera can do only a moment after it started (from memory).
    else if (!known.torch && late)
      afterMs(LATE_MS, () => {
        if (!life.over && isRunning(shown.state.peek())) void learn(made, false);
      });
    // The light that was on before a rest comes back with the picture.
    if (known.torch && torch.peek()) torch.value = await made.torch(true);
  };
  return {
    learn,
    setZoom,
    setTorch: async (on: boolean) => {
      const done = (await scanner.peek()?.torch(on)) === true;
      if (done) torch.value = on;
      return done;
    },
    choose: async (camera: CameraChoice) => {
      services.settings.value = { ...services.settings.peek(), camera };
      torch.value = false;
      const made = scanner.peek();
      await made?.useCamera(camera);
      if (made?.current()) await learn(made);
    },
  };
}

/** Both scanners wait while something is asked; the stream stays open, or phones would ask for permission again. */
function useWaiting(flow: WalkFlow, scanners: readonly Signal<Pick<CameraScanner, 'pause' | 'resume'> | null>[]): void {
  const waiting = useComputed(
    () => flow.sheet.value !== null || flow.mode.value !== 'walk' || flow.memory.value.paused,
  );
  useEffect(() => {
    for (const { value: one } of scanners) {
      if (waiting.value) one?.pause();
      else one?.resume();
    }
  }, [waiting.value, ...scanners.map(({ value }) => value)]);
}

/** The hand scanner, for as long as the walk is open. */
function useWedge(services: Services, flow: WalkFlow, life: Life): Signal<Wedge | null> {
  const wedge = useSignal<Wedge | null>(null);
  useEffect(() => {
    void services.wedge().then(async (made) => {
      if (life.over) return;
      wedge.value = made;
      life.ends.push(made.onReading(flow.read), () => void made.stop());
      await made.start();
    });
  }, []);
  // The camera still has the label of the last jack in view; a hand scanner has not.
  const { place: inHand } = flow.memory.value;
  useEffect(() => wedge.peek()?.moved(), [inHand]);
  return wedge;
}

/** Any touch or key keeps the camera on. */
function useTouches(life: Life, used: () => void): void {
  useEffect(() => {
    for (const name of ['pointerdown', 'keydown']) {
      document.addEventListener(name, used, true);
      life.ends.push(() => document.removeEventListener(name, used, true));
    }
  }, []);
}

async function openCamera(
  services: Services,
  flow: WalkFlow,
  { place, state, scanner, can, taken, sight }: Shown,
  life: Life,
  rest: Rest,
  learn: (made: CameraScanner) => Promise<void>,
): Promise<CameraScanner> {
  const made = await services.camera(place, () => aimCircle(place));
  scanner.value = made;
  life.ends.push(
    made.state.subscribe((next) => {
      state.value = next;
      rest.runs(isRunning(next));
      if (!isRunning(next)) can.value = CANNOT;
      else if (can.peek() === CANNOT) void learn(made);
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
}

export function useWalkCamera(flow: WalkFlow): WalkCamera {
  const services = useServices();
  const shown = useShown();
  const { scanner, torch, resting, taken } = shown;
  const life = useMemo<Life>(() => ({ over: false, made: null, ends: [] }), []);
  const { learn, ...tools } = lightAndZoom(services, shown, life);
  const halt = async () => {
    taken.value = null;
    await scanner.peek()?.stop();
  };
  const rest = useMemo(
    () =>
      createRest(afterMs, () => {
        resting.value = true;
        void halt();
      }),
    [],
  );
  const start = async () => {
    resting.value = false;
    life.made ??= openCamera(services, flow, shown, life, rest, learn);
    const made = await life.made;
    if (life.over) return;
    const result = await made.start();
    if (result.type === 'started') rememberStart(services);
  };
  // What is said at the thumb, by key or by hand scanner means that the walk goes on.
  const { acts } = flow.memory.value;
  useEffect(() => {
    rest.used();
    if (resting.peek()) void start();
  }, [acts]);
  useTouches(life, rest.used);
  useWaiting(flow, [scanner, useWedge(services, flow, life)]);
  useEffect(() => {
    void mayStart(services).then((may) => {
      if (may && !life.over && !flow.memory.value.paused) void start();
    });
    return () => {
      life.over = true;
      rest.runs(false);
      for (const end of life.ends) end();
      void life.made?.then((made) => made.stop());
    };
  }, []);
  return {
    ...shown,
    ...tools,
    start,
    stop: async () => {
      resting.value = false;
      torch.value = false;
      await halt();
    },
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
