// Owns keeping the screen on while a walk is open and seen: asked for at the start, again whenever the page comes back
// (the browser lets go by itself when it is hidden), given up on pause and leave. Tried on a stand-in only.

export type WakeState = 'off' | 'held' | 'missing' | 'refused';

type Sentinel = { release(): Promise<void>; addEventListener(type: 'release', fn: () => void): void };

export interface WakePorts {
  /** Null where the browser has none. */
  request: (() => Promise<Sentinel>) | null;
  visible: () => boolean;
  tell: (state: WakeState) => void;
}

interface WakeLock {
  want(wanted: boolean): void;
  /** The page was hidden or came back. */
  seen(): void;
}

export function createWakeLock({ request, visible, tell }: WakePorts): WakeLock {
  let wanted = false;
  let held: Sentinel | null = null;
  let asking = false;

  async function settle(): Promise<void> {
    if (!request) return tell(wanted ? 'missing' : 'off');
    if (!wanted) {
      const giving = held;
      held = null;
      tell('off');
      return void (await giving?.release());
    }
    if (held || asking || !visible()) return;
    asking = true;
    try {
      const given = await request();
      held = given;
      given.addEventListener('release', () => {
        if (held !== given) return;
        held = null;
        tell('off');
        void settle();
      });
      tell('held');
    } catch {
      // A low battery is the usual reason.
      tell('refused');
    } finally {
      asking = false;
    }
    if (!wanted) await settle();
  }

  return {
    want(next) {
      if (next === wanted) return;
      wanted = next;
      void settle();
    },
    seen: () => void settle(),
  };
}
