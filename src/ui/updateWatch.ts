// Watches the service worker: new versions found in the background, another tab's consent, everything on the phone. Puts
// nothing in place by itself; loaded after the first screen stands.

interface UpdateNews {
  /** A new version waits; `how` puts it in place. */
  found: (how: () => void) => void;
  /** Whether that was the last way found. */
  isOffered: (how: () => void) => boolean;
  /** A walk is on: nothing may load anew under it. */
  isBusy: () => boolean;
  /** The app opens without a network from now on. */
  isOffline: () => void;
}

/** Milliseconds until a failed first install is tried again; doubled each time, up to some five minutes. */
const FIRST_WAIT_MS = 10_000;

export async function watchUpdates(news: UpdateNews): Promise<void> {
  const { serviceWorker } = navigator;
  const { Workbox } = await import('workbox-window');
  const hadWorker = serviceWorker.controller !== null;
  const reload = () => location.reload();
  let mine = false;
  let failures = 0;
  let workbox = watched();

  function watched(): InstanceType<typeof Workbox> {
    const one = new Workbox('/sw.js');
    one.addEventListener('waiting', () => {
      news.found(() => {
        mine = true;
        one.messageSkipWaiting();
      });
    });
    one.addEventListener('controlling', () => {
      if (mine) return reload();
      // The first worker of all changes nothing. Another tab's consent must not reload this one in the middle of a
      // statement: it is offered here too, and by now a reload is all it takes.
      if (!hadWorker) return;
      news.found(reload);
    });
    // One file that does not come fails the first install, and the browser tries it again only at the next load.
    one.addEventListener('redundant', async () => {
      if (!(await serviceWorker.getRegistration())?.active) await again();
    });
    return one;
  }

  /** Files that came already are kept, so each attempt has less to fetch. */
  async function again(): Promise<void> {
    await nextChance(FIRST_WAIT_MS * 2 ** Math.min(failures, 5));
    failures += 1;
    workbox = watched();
    await register();
  }

  async function register(): Promise<void> {
    await workbox.register().catch(async (error: unknown) => {
      // Refused for good with an untrusted certificate or in private browsing; a script that did not come may come yet.
      if (error instanceof TypeError && !(await serviceWorker.getRegistration())?.active) await again();
    });
  }

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

  void register();
  // Where the browser refuses, this never comes: offlineReady stays false and says so.
  if (await isWholeOnPhone(await serviceWorker.ready)) news.isOffline();
}

/** The network is back, somebody looks at the app again, or that much time has passed. */
function nextChance(ms: number): Promise<void> {
  return new Promise((resolve) => {
    const end = new AbortController();
    const { signal } = end;
    const go = () => {
      end.abort();
      clearTimeout(timer);
      resolve();
    };
    const timer = setTimeout(go, ms);
    addEventListener('online', go, { signal });
    document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && go(), { signal });
  });
}

/** The worker is ready only once all files are stored; the browser may have thrown them away since. */
async function isWholeOnPhone({ active }: ServiceWorkerRegistration): Promise<boolean> {
  while (active && active.state === 'activating') {
    await new Promise((resolve) => active.addEventListener('statechange', resolve, { once: true }));
  }
  return (await caches.match('/index.html', { ignoreSearch: true })) !== undefined;
}
