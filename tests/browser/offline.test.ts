// The app without a network, in real Chromium against the built server: the first load is enough, every path opens, and
// a new version comes only when somebody says so. Records and walks are tested elsewhere.
import {
  appendFileSync,
  copyFileSync,
  cpSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { contextOptions, goOffline, goOnline, openBrowser, ROOT, type Served, serve, untilOffline } from './harness.ts';

/** Design goal: script transferred until the home screen answers, in bytes after gzip. */
const HOME_BUDGET = 60_000;

const PATIENCE = { timeout: 60_000 };

let browser: Browser;
let files: string;
let served: Served;
let context: BrowserContext;
let page: Page;

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(async () => {
  await browser.close();
});

beforeEach(async () => {
  // A copy, because some of these tests put another version in place.
  files = mkdtempSync(join(tmpdir(), 'asfound-files-'));
  cpSync(join(ROOT, 'dist'), files, { recursive: true });
  served = await serve(files);
  context = await browser.newContext(contextOptions());
  page = await context.newPage();
});
afterEach(async () => {
  await context.close();
  await served.stop();
  rmSync(files, { recursive: true, force: true });
});

const heading = (on = page) => on.getByRole('heading').first();

async function firstLoad(): Promise<void> {
  await page.goto(served.origin);
  await heading().waitFor();
  await untilOffline(page);
}

/** What Settings says about the app being on the phone; opened inside the app, without a load. */
async function openSettings(on = page): Promise<void> {
  await on.evaluate(() => {
    history.pushState(null, '', '/settings');
    dispatchEvent(new PopStateEvent('popstate'));
  });
  await on.getByText('Version', { exact: true }).waitFor();
}

/** Another version of the app, as a deployment would leave it: the same files with a changed page. */
function deployNewVersion(): void {
  const worker = join(files, 'sw.js');
  appendFileSync(worker, '\n// a later version\n');
}

test('the page that came first can lose the network at once and still open a screen it never opened', async () => {
  await firstLoad();
  await goOffline(context, served);
  await openSettings();
  await page.getByText('The whole app is on this phone').waitFor();
  expect(await page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true);
});

test('an install that lost a file on the way is taken up again when the network is back, without a load', async () => {
  const [lost = ''] = readdirSync(join(files, 'assets')).filter((name) => /^help.*\.js$/.test(name));
  renameSync(join(files, 'assets', lost), join(files, 'lost'));
  await page.goto(served.origin);
  await heading().waitFor();
  // Tried and given up by the browser: some files are there, and nothing is registered.
  const worker = () =>
    page.evaluate(async () => {
      const [registration, kept] = await Promise.all([navigator.serviceWorker.getRegistration(), caches.keys()]);
      return kept.length === 0 ? 'not tried' : (registration?.active?.state ?? (registration ? 'under way' : 'none'));
    });
  await expect.poll(worker, PATIENCE).toBe('none');
  renameSync(join(files, 'lost'), join(files, 'assets', lost));
  await expect
    .poll(async () => {
      await page.evaluate(() => dispatchEvent(new Event('online')));
      return await worker();
    }, PATIENCE)
    .toBe('activated');
  await openSettings();
  await page.getByText('The whole app is on this phone').waitFor();
});

test('a reload without a network shows the home screen again', async () => {
  await firstLoad();
  const before = await heading().textContent();
  await goOffline(context, served);
  await page.reload();
  await heading().waitFor();
  expect(await heading().textContent()).toBe(before);
});

test('an address deep in the app opens without a network in a fresh tab', async () => {
  await firstLoad();
  await goOffline(context, served);
  const tab = await context.newPage();
  await tab.goto(`${served.origin}/help`);
  await tab.getByText('All topics').waitFor();
  await tab.goto(`${served.origin}/no/such/place`);
  await tab.getByText('This address leads nowhere.').waitFor();
});

test('decoder, fonts and the demo station are reachable without a network', async () => {
  await firstLoad();
  await goOffline(context, served);
  const worker = readFileSync(join(files, 'sw.js'), 'utf8');
  const listed = [...worker.matchAll(/"?url"?:"([^"]+\.(?:wasm|woff2|xlsx))"/g)].map((match) => `/${match[1]}`);
  expect(listed.map((path) => path.split('.').pop())).toEqual(expect.arrayContaining(['wasm', 'woff2', 'xlsx']));
  const sizes = await page.evaluate(
    (paths) => Promise.all(paths.map(async (path) => (await (await fetch(path)).arrayBuffer()).byteLength)),
    listed,
  );
  expect(sizes).toEqual(listed.map((path) => readFileSync(join(files, path)).byteLength));
});

test('the service worker leaves the interface of the server alone', async () => {
  await firstLoad();
  await page.reload();
  await heading().waitFor();
  await goOffline(context, served);
  const answer = await page.evaluate(() =>
    fetch('/api/health').then(
      (response) => `answered ${response.status}`,
      () => 'no network',
    ),
  );
  expect(answer).toBe('no network');
});

test('a new version waits until somebody agrees, and then only the tab that agreed reloads', async () => {
  await firstLoad();
  const other = await context.newPage();
  await other.goto(served.origin);
  await heading(other).waitFor();
  for (const tab of [page, other]) await tab.evaluate(() => Object.assign(window, { stillHere: true }));
  const here = (tab: Page) => tab.evaluate(() => 'stillHere' in window);

  deployNewVersion();
  await page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));
  await openSettings();
  const update = page.getByRole('button', { name: 'Update now' });
  await update.waitFor();
  expect([await here(page), await here(other)]).toEqual([true, true]);

  await Promise.all([page.waitForEvent('load'), update.click()]);
  expect([await here(page), await here(other)]).toEqual([false, true]);
  await openSettings(other);
  await other.getByRole('button', { name: 'Update now' }).waitFor();
});

test('the retiring worker takes the cached app away and leaves the databases and what waits to get in', async () => {
  await firstLoad();
  const waits = '/not-saved/a-station/a-page';
  expect(await page.evaluate(() => caches.has('asfound-not-saved'))).toBe(false);
  await page.evaluate(async (key) => {
    await (await caches.open('asfound-not-saved')).put(key, new Response('an entry'));
  }, waits);
  const kept = await page.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name).sort());
  expect(kept.length).toBeGreaterThan(0);
  copyFileSync(join(ROOT, 'dist-node', 'retire-sw.js'), join(files, 'sw.js'));
  await page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));
  const left = () =>
    page.evaluate(async () => ({
      caches: await caches.keys(),
      workers: (await navigator.serviceWorker.getRegistrations()).length,
    }));
  await expect.poll(left).toEqual({ caches: ['asfound-not-saved'], workers: 0 });
  expect(await page.evaluate(async (key) => await (await caches.match(key))?.text(), waits)).toBe('an entry');
  expect(await page.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name).sort())).toEqual(kept);
});

test('after a time without a network the app finds the server again', async () => {
  await firstLoad();
  await goOffline(context, served);
  await page.reload();
  await heading().waitFor();
  await goOnline(context, served);
  expect(await page.evaluate(() => fetch('/api/health').then((response) => response.status))).toBe(200);
});

test('the script asked for before the home screen can be pressed keeps to its budget', async () => {
  const asked: { path: string; at: number }[] = [];
  page.on('requestfinished', (request) => {
    const { pathname } = new URL(request.url());
    if (pathname.endsWith('.js')) asked.push({ path: pathname, at: request.timing().startTime });
  });
  await page.addInitScript(() => {
    const shown = new Promise<number>((resolve) => {
      new MutationObserver((_, observer) => {
        if (!document.querySelector('#app button')) return;
        observer.disconnect();
        resolve(performance.timeOrigin + performance.now());
      }).observe(document, { childList: true, subtree: true });
    });
    Object.assign(window, { shown });
  });
  await page.goto(served.origin);
  await heading().waitFor();
  const shown = await page.evaluate(() => (window as unknown as { shown: Promise<number> }).shown);
  const before = asked.filter(({ at }) => at <= shown);
  const sized = before.map(({ path }) => ({
    path,
    bytes: gzipSync(readFileSync(join(files, path)), { level: 9 }).length,
  }));
  const total = sized.reduce((sum, { bytes }) => sum + bytes, 0);
  expect(sized.map(({ path }) => path)).toContainEqual(expect.stringMatching(/^\/assets\/index-/));
  expect(total, sized.map(({ path, bytes }) => `${bytes} ${path}`).join('\n')).toBeLessThanOrEqual(HOME_BUDGET);
});
