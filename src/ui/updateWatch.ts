// Watches the service worker: new versions found in the background, another tab's consent, everything on the phone. Puts
// nothing in place by itself; loaded after the first screen stands.

export interface UpdateNews {
  /** A new version waits; `how` puts it in place. */
  found: (how: () => void) => void;
  /** Whether that was the last way found. */
  isOffered: (how: () => void) => boolean;
  /** A walk is on: nothing may load anew under it. */
  isBusy: () => boolean;
  /** The app opens without a network from now on. */
  isOffline: () => void;
}

export async function watchUpdates(news: UpdateNews): Promise<void> {
  const { serviceWorker } = navigator;
  const { Workbox } = await import('workbox-window');
  const workbox = new Workbox('/sw.js');
  const hadWorker = serviceWorker.controller !== null;
  const reload = () => location.reload();
  let mine = false;

  workbox.addEventListener('waiting', () => {
    news.found(() => {
      mine = true;
      workbox.messageSkipWaiting();
    });
  });
  workbox.addEventListener('controlling', () => {
    if (mine) return reload();
    // The first worker of all changes nothing. Another tab's consent must not reload this one in the middle of a
    // statement: it is offered here too, and by now a reload is all it takes.
    if (!hadWorker) return;
    news.found(reload);
  });
  // A part of the old version that is needed only now may be gone with the old worker.
  window.addEventListener('vite:preloadError', () => {
    if (!news.isOffered(reload)) return;
    if (!news.isBusy()) reload();
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
  if (registration && (await isWholeOnPhone(await serviceWorker.ready))) news.isOffline();
}

/** The worker is ready only once all files are stored; the browser may have thrown them away since. */
async function isWholeOnPhone({ active }: ServiceWorkerRegistration): Promise<boolean> {
  while (active && active.state === 'activating') {
    await new Promise((resolve) => active.addEventListener('statechange', resolve, { once: true }));
  }
  return (await caches.match('/index.html', { ignoreSearch: true })) !== undefined;
}
