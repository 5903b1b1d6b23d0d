// New versions of the app: found in the background, put in place only when the person says so, and never during a walk.
// Whether the app opens without a network is said only after looking, never assumed.
import { signal } from '@preact/signals';
import { busy } from './context.ts';

/** A new version waits, here or because another tab has put it in place. */
export const updateReady = signal(false);
/** Everything is on the phone: the app opens without a network from now on. */
export const offlineReady = signal(false);

let apply: (() => void) | null = null;

/** Registers the service worker. Called once, after the first screen stands. */
export async function registerUpdates(): Promise<void> {
  if (!('serviceWorker' in navigator) || !import.meta.env.PROD) return;
  const { watchUpdates } = await import('./updateWatch.ts');
  await watchUpdates({
    found: (how) => {
      updateReady.value = true;
      apply = how;
    },
    isOffered: (how) => apply === how,
    isBusy: () => busy.value > 0,
    isOffline: () => {
      offlineReady.value = true;
    },
  });
}

/**
 * Puts the waiting version in place: first whatever is unsaved is written, then the new worker takes over and this tab
 * reloads. Refused while a walk is on.
 */
export async function applyUpdate(beforeReload: () => Promise<void>): Promise<void> {
  if (busy.value > 0 || !apply) return;
  await beforeReload();
  // Writing takes its time, and a walk may have begun meanwhile.
  if (busy.value > 0) return;
  apply();
}
