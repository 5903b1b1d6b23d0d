// The camera and the hand scanner of one walk: one stream from the first tap to the end, paused while a question is
// open, stopped when the studio goes live. It hands readings over and decides nothing about them.
import { type Signal, useComputed, useSignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import type { CameraScanner } from '../../scan/camera.ts';
import type { ScanFailure, Scanner, ScannerState } from '../../scan/scanner.ts';
import { useServices } from '../context.ts';
import type { WalkFlow } from './walkFlow.ts';

const STARTED = 'camera-was-started';

export interface WalkCamera {
  /** The picture's element; it moves with the viewfinder and outlives it. */
  place: HTMLElement;
  state: Signal<ScannerState>;
  scanner: Signal<CameraScanner | null>;
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
  const wedge = useSignal<Scanner | null>(null);
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
          }),
          made.onReading((reading) => flow.read(reading)),
        );
        return made;
      });
    return life.made;
  };
  const start = async () => {
    const made = await make();
    if (life.over) return;
    const result = await made.start();
    if (result.type !== 'started') return;
    services.saveDraft(STARTED, true);
  };
  const stop = async () => {
    await scanner.value?.stop();
  };

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
    void services.wedge().then(async (made) => {
      if (life.over) return;
      wedge.value = made;
      life.ends.push(
        made.onReading((reading) => flow.read(reading)),
        () => void made.stop(),
      );
      await made.start();
    });
    void mayStart(services.draft<boolean>(STARTED)).then((may) => {
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
    start,
    stop,
    restart: async () => {
      await stop();
      await start();
    },
  };
}

/** Where the finder draws its circle (walk.css has the same share of the shorter side). */
function aimCircle({ clientWidth: width, clientHeight: height }: HTMLElement) {
  return { x: width / 2, y: height / 2, r: Math.min(width, height) * 0.4 };
}

/** By itself only where the person pressed Start before and nobody has forbidden it since. */
async function mayStart(before: Promise<boolean | null>): Promise<boolean> {
  if ((await before) !== true) return false;
  try {
    const permission = await navigator.permissions.query({ name: 'camera' as PermissionName });
    return permission.state === 'granted';
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
      return { what: 'Another app holds the camera.', todo: 'Close it, then start the camera again.' };
    case 'insecure-context':
      return {
        what: 'The camera needs a trusted address (https).',
        todo: 'Help tells how to open the app that way. Type and tap work without it.',
      };
    case 'stalled':
      return { what: 'The picture stopped.', todo: 'Start the camera again.' };
    case 'decoder-failed':
      return { what: 'Labels cannot be decoded on this phone.', todo: 'Type the label or tap what you see.' };
  }
}
