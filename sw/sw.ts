// The service worker: everything a walk needs is on the phone from the install on, and every path opens the app. It
// never takes the place of a running version without consent and never touches /api: the record is the page's business.
import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from 'workbox-precaching';
import { NavigationRoute, registerRoute } from 'workbox-routing';

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: (string | { url: string; revision: string | null })[] };

precacheAndRoute(self.__WB_MANIFEST);
cleanupOutdatedCaches();
registerRoute(
  new NavigationRoute(createHandlerBoundToURL('/index.html'), { denylist: [/^\/api\//, /^\/help\/.*\.png$/] }),
);

self.addEventListener('activate', (event) => {
  // The very first page has no worker yet and would lose its lazy parts in a cellar. Pages of an older version are
  // not affected: they have a worker, and it changes only when somebody agrees.
  event.waitUntil(self.clients.claim());
});

self.addEventListener('message', (event) => {
  if ((event.data as { type?: string } | null)?.type === 'SKIP_WAITING') void self.skipWaiting();
});
