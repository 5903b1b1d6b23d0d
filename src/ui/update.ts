// New versions of the app: found in the background, put in place only when the person says so, and never during a walk.
import { signal } from '@preact/signals';
import { busy } from './context.ts';

/** A new version waits. */
export const updateReady = signal(false);
/** Everything is on the phone: the app opens without a network from now on. */
export const offlineReady = signal(false);

let apply: (() => void) | null = null;

/** Registers the service worker. Called once, after the first screen stands. */
export async function registerUpdates(): Promise<void> {
  if (!('serviceWorker' in navigator) || !import.meta.env.PROD) return;
  const { Workbox } = await import('workbox-window');
  const workbox = new Workbox('/sw.js');
  let mine = false;
  workbox.addEventListener('activated', () => {
    offlineReady.value = true;
  });
  workbox.addEventListener('waiting', () => {
    updateReady.value = true;
  });
  workbox.addEventListener('controlling', () => {
    // Another tab's consent must not reload this one in the middle of a statement.
    if (mine) location.reload();
  });
  apply = () => {
    mine = true;
    workbox.messageSkipWaiting();
  };
  if (navigator.serviceWorker.controller) offlineReady.value = true;
  await workbox.register();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible' && navigator.onLine) void workbox.update();
  });
}

/**
 * Puts the waiting version in place: first whatever is unsaved is written, then the new worker takes over and this tab
 * reloads. Refused while a walk is on.
 */
export async function applyUpdate(beforeReload: () => Promise<void>): Promise<void> {
  if (busy.value > 0 || !apply) return;
  await beforeReload();
  apply();
}
