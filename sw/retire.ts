// The way out if a shipped service worker ever keeps phones from a working app: deployed in place of it
// (`cp dist-node/retire-sw.js dist/sw.js`), it removes the cached app and itself, and the next load comes from the
// server. It must never touch the databases, nor
// what waits to get into them: work stays on the phone.
import { NOT_SAVED_CACHE } from '../src/wire/limits.ts';

declare const self: ServiceWorkerGlobalScope;

self.addEventListener('install', () => void self.skipWaiting());

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((name) => name !== NOT_SAVED_CACHE).map((name) => caches.delete(name))))
      .then(() => self.registration.unregister()),
  );
});
