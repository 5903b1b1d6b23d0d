// Owns noticing that a running camera died: frames that stop, a track that ended, a page that came back from sleep.
// Must never touch the stream; it only says what has to be done.
import type { CameraStream } from './cameraStream.ts';

type WatchOrders = {
  rebuild(): Promise<void>;
  /** Lets the stream go while nobody looks. */
  sleep(): Promise<void>;
  giveUp(): Promise<void>;
};

export const STALL_MS = 2000;
/** Frames must have flowed this long after a rebuild before another rebuild is worth trying. */
export const TRUST_MS = 10_000;
const SLEEP_MS = 60_000;
const TICK_MS = 250;
const FROZEN_MS = 1500;

type Verdict = 'fine' | 'rebuild' | 'give-up';

/** Pure, so that it can be tried without a camera. */
export function verdictOn(times: { now: number; lastFrame: number; rebuiltAt: number }): Verdict {
  if (times.now - times.lastFrame < STALL_MS) return 'fine';
  return times.lastFrame - times.rebuiltAt < TRUST_MS ? 'give-up' : 'rebuild';
}

/** Calls once, when the page is seen again, or at once if it is. Installed apps may come back without a visibilitychange. */
export function onReturn(fn: () => void): () => void {
  const ends = new AbortController();
  const back = () => {
    if (document.visibilityState !== 'visible') return;
    ends.abort();
    fn();
  };
  document.addEventListener('visibilitychange', back, { signal: ends.signal });
  for (const name of ['pageshow', 'focus']) globalThis.addEventListener(name, back, { signal: ends.signal });
  back();
  return () => ends.abort();
}

export function watchStream(
  { video, track }: CameraStream,
  orders: WatchOrders,
  health: { rebuiltAt: number },
): { frame(): void; end(): void } {
  const ends = new AbortController();
  const { signal } = ends;
  let lastFrame = performance.now();
  let sleeping: ReturnType<typeof setTimeout> | undefined;
  // One order only: what follows has a watch of its own.
  let ordered = false;

  const order = (what: () => Promise<void>) => {
    if (ordered || signal.aborted) return;
    ordered = true;
    void what();
  };
  const obey = (verdict: Verdict) => {
    if (verdict === 'rebuild') {
      health.rebuiltAt = performance.now();
      order(orders.rebuild);
    }
    if (verdict === 'give-up') order(orders.giveUp);
  };
  const stalled = () => obey(verdictOn({ now: performance.now(), lastFrame, rebuiltAt: health.rebuiltAt }));
  // The track will give no more frames, so there is nothing to wait for; but a hidden page may get no camera.
  const ended = () => {
    if (document.visibilityState !== 'visible') return;
    obey(verdictOn({ now: lastFrame + STALL_MS, lastFrame, rebuiltAt: health.rebuiltAt }));
  };
  // Hidden pages get no frames, and that is no fault; nor does a page that was frozen or busy, which shows in the tick.
  let lastTick = performance.now();
  const timer = setInterval(() => {
    const tick = performance.now();
    if (tick - lastTick > FROZEN_MS) lastFrame = tick;
    lastTick = tick;
    if (document.visibilityState === 'visible') stalled();
  }, TICK_MS);

  const back = () => {
    if (document.visibilityState !== 'visible') return;
    clearTimeout(sleeping);
    lastFrame = performance.now();
    if (track.readyState === 'ended') ended();
    else if (video.paused) void video.play().catch(() => undefined);
  };
  const hiddenOrBack = () => {
    if (document.visibilityState === 'visible') return back();
    sleeping = setTimeout(() => void orders.sleep(), SLEEP_MS);
  };

  document.addEventListener('visibilitychange', hiddenOrBack, { signal });
  // Installed apps may come back without a visibilitychange.
  globalThis.addEventListener('pageshow', back, { signal });
  globalThis.addEventListener('focus', back, { signal });
  track.addEventListener('ended', ended, { signal });
  // A muted track gives no frames; if that lasts, the stall shows it.
  track.addEventListener('unmute', () => void video.play().catch(() => undefined), { signal });

  return {
    frame() {
      lastFrame = performance.now();
    },
    end() {
      ends.abort();
      clearInterval(timer);
      clearTimeout(sleeping);
    },
  };
}
