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
  const { serviceWorker } = navigator;
  const { Workbox } = await import('workbox-window');
  const workbox = new Workbox('/sw.js');
  const hadWorker = serviceWorker.controller !== null;
  const reload = () => location.reload();
  let mine = false;

  workbox.addEventListener('waiting', () => {
    updateReady.value = true;
    apply = () => {
      mine = true;
      workbox.messageSkipWaiting();
    };
  });
  workbox.addEventListener('controlling', () => {
    if (mine) return reload();
    // The first worker of all changes nothing. Another tab's consent must not reload this one in the middle of a
    // statement: it is offered here too, and by now a reload is all it takes.
    if (!hadWorker) return;
    updateReady.value = true;
    apply = reload;
  });
  // A part of the old version that is needed only now may be gone with the old worker.
  window.addEventListener('vite:preloadError', () => {
    if (apply !== reload) return;
    if (busy.value === 0) reload();
  });

  const lookNow = async () => {
    // Without a network or with an expired certificate the version on the phone serves on.
    await workbox.update().catch(() => undefined);
  };
  // An installed app on a phone is seldom closed, so coming back to it is when a new version is looked for.
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') void lookNow();
  });

  // Where the browser refuses (an untrusted certificate, private browsing), offlineReady stays false and says so.
  const registration = await workbox.register().catch(() => undefined);
  if (registration) await saySoWhenOffline(await serviceWorker.ready);
}

/** The worker is ready only once all files are stored; the browser may have thrown them away since. */
async function saySoWhenOffline({ active }: ServiceWorkerRegistration): Promise<void> {
  while (active && active.state === 'activating') {
    await new Promise((resolve) => active.addEventListener('statechange', resolve, { once: true }));
  }
  offlineReady.value = (await caches.match('/index.html', { ignoreSearch: true })) !== undefined;
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
