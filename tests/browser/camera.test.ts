// The camera in real Chromium, built as it ships and under the same content policy, with a drawn picture for a camera.
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { build, type PreviewServer, preview } from 'vite';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { scannerContract } from '../contract/scanner.ts';
import { CHROMIUM } from './harness.ts';
import { type CameraMode, fakeCameraScript, symbolPicture } from './labels.ts';

const POLICY =
  "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; style-src 'self' 'unsafe-inline'; " +
  // data: only for the pictures that the test hands to its fake camera.
  "img-src 'self' blob: data:; connect-src 'self' data:; media-src 'self' blob:";

let outDir: string;
let server: PreviewServer;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let origin: string;
const requests: string[] = [];
const pageErrors: string[] = [];

beforeAll(async () => {
  outDir = await mkdtemp(join(tmpdir(), 'camera-page-'));
  const root = new URL('./pages/', import.meta.url).pathname;
  const common = { root, configFile: false, logLevel: 'error' } as const;
  await build({
    ...common,
    worker: { format: 'es' },
    build: { outDir, emptyOutDir: true, target: 'es2022', rollupOptions: { input: join(root, 'camera.html') } },
  });
  server = await preview({
    ...common,
    build: { outDir },
    preview: {
      host: '127.0.0.1',
      port: 20_000 + Math.floor(Math.random() * 20_000),
      headers: { 'Content-Security-Policy': POLICY },
    },
  });
  origin = server.resolvedUrls?.local[0] ?? '';
  browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
    ],
  });
  context = await browser.newContext({ viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, hasTouch: true });
  await context.addInitScript({ content: fakeCameraScript });
  page = await context.newPage();
  page.on('request', (request) => requests.push(request.url()));
  page.on('pageerror', (error) => pageErrors.push(String(error)));
  await page.goto(`${origin}camera.html`);
  await page.waitForFunction(() => window.bench !== undefined);
});

afterEach(async () => {
  await context.setOffline(false);
  await page.evaluate(async () => {
    window.__cameraMode('granted');
    window.__freezeCamera(false);
    await window.bench.scanner().stop();
    window.__showLabel(null);
  });
  expect(await page.evaluate(() => window.__cameraCalls().live)).toBe(0);
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
  if (outDir) await rm(outDir, { recursive: true, force: true });
});

const texts = () => page.evaluate(() => window.bench.readings().map(({ text }) => text));
const start = () => page.evaluate(() => window.bench.scanner().start());
const renew = (setup: Parameters<Window['bench']['renew']>[0] = {}) =>
  page.evaluate((given) => window.bench.renew(given), setup);

describe('the scanner contract on the camera', () => {
  test.each(scannerContract.map(({ name }, index) => [name, index] as const))('%s', async (_name, index) => {
    const checks = await page.evaluate((i) => window.bench.runStep(i), index);
    expect(checks.length).toBeGreaterThan(0);
    for (const { claim, got, want } of checks) expect(got, claim).toEqual(want);
  });
});

describe('reading', () => {
  test('a QR label is read from frames of full size while the picture is 390 pixels wide', async () => {
    await renew();
    await start();
    await page.evaluate(() => window.__showLabel('R03-U12-J07'));
    await expect.poll(texts).toEqual(['R03-U12-J07']);
    const { frame, width, reading } = await page.evaluate(() => ({
      frame: window.bench.frames.at(-1),
      width: window.bench.scanner().video()?.clientWidth,
      reading: window.bench.readings()[0],
    }));
    expect(frame).toMatchObject({ width: 1280, height: 720 });
    expect(width).toBe(390);
    expect(reading).toMatchObject({ by: 'camera', format: 'QRCode', aimed: true, others: 0 });
    // Drawn 300 px wide with a quiet zone, in the middle: its corners must lie there in picture pixels.
    for (const { x, y } of reading.corners ?? []) {
      expect(Math.abs(x - 640)).toBeGreaterThan(60);
      expect(Math.abs(x - 640)).toBeLessThan(150);
      expect(Math.abs(y - 360)).toBeLessThan(150);
    }
    expect(reading.corners).toHaveLength(4);
  });

  test.each([
    ['Code128', 2],
    ['DataMatrix', 4],
  ] as const)('a %s label at %i pixels a module is read', async (format, pixels) => {
    const image = await symbolPicture('AF-1003', format);
    await renew();
    await start();
    await page.evaluate(
      async ({ url, scale }) => {
        const { width } = await createImageBitmap(await (await fetch(url)).blob());
        await window.__showLabels([{ text: '', image: url, size: width * scale }]);
      },
      { url: image, scale: pixels },
    );
    await expect.poll(texts).toEqual(['AF-1003']);
    expect(await page.evaluate(() => window.bench.readings()[0].format)).toBe(format);
  });

  test('of two labels in view the one in the circle is taken, and the neighbour never', async () => {
    await renew();
    await start();
    await page.evaluate(() =>
      window.__showLabels([
        { text: '1004', x: 850, y: 360, size: 160 },
        { text: '1003', x: 650, y: 360, size: 160 },
      ]),
    );
    await expect.poll(texts).toEqual(['1003']);
    await page.evaluate(() => window.__ticks(30));
    expect(await texts()).toEqual(['1003']);
    expect(await page.evaluate(() => window.bench.readings()[0])).toMatchObject({ aimed: true, others: 1 });
    await page.evaluate(() =>
      window.__showLabels([
        { text: '1004', x: 630, y: 360, size: 160 },
        { text: '1003', x: 430, y: 360, size: 160 },
      ]),
    );
    await expect.poll(texts).toEqual(['1003', '1004']);
  });

  test('a label in the part of the picture that the screen cuts off is not read', async () => {
    await renew();
    await start();
    await page.evaluate(() => window.__showLabels([{ text: '1004', x: 1180, y: 360, size: 160 }]));
    await page.evaluate(() => window.__ticks(40));
    expect(await texts()).toEqual([]);
    expect(await page.evaluate(() => window.bench.frames.length)).toBeGreaterThan(5);
  });

  test('labels go on being read when the network is gone, and nothing ever left this origin', async () => {
    await renew();
    await start();
    await context.setOffline(true);
    await page.evaluate(() => window.__showLabel('OFFLINE-1'));
    await expect.poll(texts).toEqual(['OFFLINE-1']);
    const elsewhere = requests.filter((url) => !/^(blob|data):/.test(url) && !url.startsWith(origin));
    expect(elsewhere).toEqual([]);
    expect(requests.some((url) => url.startsWith(origin) && url.includes('zxing_reader'))).toBe(true);
  });

  test.each([
    ['none', 'no decoder here'],
    ['broken', 'broken for the test'],
    ['silent', 'no answer'],
  ] as const)('with a decoder that is %s the library reads by itself', async (decoder, why) => {
    await renew({ decoder });
    await start();
    await page.evaluate(() => window.__showLabel('1003'));
    await expect.poll(texts).toEqual(['1003']);
    expect(await page.evaluate(() => window.bench.readings()[0])).toMatchObject({ by: 'camera', aimed: false });
    expect(await page.evaluate(() => window.bench.scanner().readsBy())).toEqual({ type: 'library', why });
    await page.evaluate(() => window.__ticks(20));
    expect(await texts()).toEqual(['1003']);
  });

  test('a still picture of a label is read, also while the camera runs', async () => {
    await renew();
    await start();
    const result = await page.evaluate(async () => {
      window.__showLabel('STILL-1');
      await window.__ticks(4);
      window.bench.scanner().pause();
      const picture = await window.bench.scanner().takePhoto();
      if (picture.type !== 'picture') return picture;
      return window.bench.scanner().readStill(new File([picture.blob], 'label.jpg', { type: 'image/jpeg' }));
    });
    expect(result).toMatchObject({ type: 'read', reading: { text: 'STILL-1', by: 'still' } });
    const unreadable = await page.evaluate(() => window.bench.scanner().readStill(new File(['x'], 'x.jpg')));
    expect(unreadable).toEqual({ type: 'unreadable' });
  });
});

describe('the stream', () => {
  test.each([
    ['refused', 'no-permission'],
    ['busy', 'camera-in-use'],
    ['missing', 'no-camera'],
  ] as [CameraMode, string][])('a camera that is %s fails as %s, and may be tried again', async (mode, type) => {
    await renew();
    await page.evaluate((given) => window.__cameraMode(given), mode);
    expect(await start()).toEqual({ type: 'failed', failure: { type } });
    expect(await page.evaluate(() => window.bench.scanner().state.get())).toEqual({
      type: 'failed',
      failure: { type },
    });
    await page.evaluate(() => window.__cameraMode('granted'));
    expect(await start()).toEqual({ type: 'started' });
  });

  test('one stream serves the whole walk, and nothing of the library but the picture shows', async () => {
    await renew();
    const before = await page.evaluate(() => window.__cameraCalls().opened);
    await start();
    await page.evaluate(() => window.bench.scanner().pause());
    await page.evaluate(() => window.bench.scanner().resume());
    await page.evaluate(() => window.bench.scanner().cameras());
    expect(await page.evaluate(() => window.__cameraCalls().opened)).toBe(before + 1);
    const shown = await page.evaluate(() => {
      const place = document.getElementById('place') as HTMLElement;
      const visible = [...place.querySelectorAll('*')].filter((e) => e.checkVisibility() && e.children.length === 0);
      return {
        words: [...place.querySelectorAll('*')]
          .filter((e) => e.checkVisibility())
          .map((e) => e.textContent)
          .join(''),
        tags: visible.map((e) => e.tagName),
      };
    });
    expect(shown).toEqual({ words: '', tags: ['VIDEO'] });
  });

  test('a track that the phone ends is replaced by a new stream, which reads', async () => {
    await renew();
    await start();
    await page.evaluate(() => window.__endTracks());
    await page.evaluate(() => window.__showLabel('1005'));
    await expect.poll(texts).toEqual(['1005']);
    expect(await page.evaluate(() => window.bench.states())).toEqual(['starting', 'scanning']);
  });

  test('a hidden page asks for no camera, and takes a new stream when it is seen again', async () => {
    await renew();
    await start();
    const before = await page.evaluate(() => window.__cameraCalls().opened);
    const see = (state: string) =>
      page.evaluate((given) => {
        Object.defineProperty(document, 'visibilityState', { value: given, configurable: true });
        document.dispatchEvent(new Event('visibilitychange'));
      }, state);
    await see('hidden');
    await page.evaluate(() => window.__endTracks());
    await page.evaluate(() => window.__ticks(60));
    expect(await page.evaluate(() => window.__cameraCalls())).toEqual({ opened: before, live: 0 });
    await see('visible');
    await page.evaluate(() => window.__showLabel('1007'));
    await expect.poll(texts).toEqual(['1007']);
    expect(await page.evaluate(() => window.__cameraCalls())).toEqual({ opened: before + 1, live: 1 });
  });

  test('time for which the page was frozen counts neither against the stream nor against the decoder', async () => {
    const other = await context.newPage();
    await other.clock.install();
    await other.goto(`${origin}camera.html`);
    await other.waitForFunction(() => window.bench !== undefined);
    await other.evaluate(() => window.bench.renew({ decoder: 'silent' }));
    await other.evaluate(() => window.bench.scanner().start());
    await other.evaluate(() => window.__ticks(5));
    await other.clock.fastForward(30_000);
    await other.evaluate(() => window.__ticks(20));
    expect(await other.evaluate(() => window.bench.scanner().readsBy())).toEqual({ type: 'decoder' });
    expect(await other.evaluate(() => window.__cameraCalls())).toEqual({ opened: 1, live: 1 });
    await other.close();
  });

  test('after a minute out of sight the camera is let go, and it comes back with the page', async () => {
    const other = await context.newPage();
    await other.clock.install();
    await other.goto(`${origin}camera.html`);
    await other.waitForFunction(() => window.bench !== undefined);
    await other.evaluate(() => window.bench.renew());
    await other.evaluate(() => window.bench.scanner().start());
    const see = (state: string) =>
      other.evaluate((given) => {
        Object.defineProperty(document, 'visibilityState', { value: given, configurable: true });
        document.dispatchEvent(new Event('visibilitychange'));
      }, state);
    await see('hidden');
    await other.clock.fastForward(55_000);
    expect(await other.evaluate(() => window.__cameraCalls())).toEqual({ opened: 1, live: 1 });
    await other.clock.fastForward(6_000);
    await expect.poll(() => other.evaluate(() => window.__cameraCalls())).toEqual({ opened: 1, live: 0 });
    await see('visible');
    await other.evaluate(() => window.__showLabel('1008'));
    await expect.poll(() => other.evaluate(() => window.bench.readings().map(({ text }) => text))).toEqual(['1008']);
    expect(await other.evaluate(() => window.__cameraCalls())).toEqual({ opened: 2, live: 1 });
    await other.close();
  });

  test('a picture that stands still is rebuilt once and then fails as stalled; a start brings it back', async () => {
    await renew();
    await start();
    const before = await page.evaluate(() => window.__cameraCalls().opened);
    await page.evaluate(() => window.__freezeCamera(true));
    await expect
      .poll(() => page.evaluate(() => window.bench.scanner().state.get()))
      .toEqual({ type: 'failed', failure: { type: 'stalled' } });
    expect(await page.evaluate(() => window.__cameraCalls().opened)).toBe(before + 1);
    await page.evaluate(() => window.__freezeCamera(false));
    expect(await start()).toEqual({ type: 'started' });
    await page.evaluate(() => window.__showLabel('1006'));
    await expect.poll(texts).toEqual(['1006']);
  });

  test('a black picture is rebuilt once, then told of; light brings the labels back', async () => {
    await renew();
    await start();
    const before = await page.evaluate(() => window.__cameraCalls().opened);
    await page.evaluate(() => window.__blackCamera(true));
    const view = () => page.evaluate(() => window.bench.scanner().view.get());
    await expect.poll(view).toBe('dark');
    expect(await page.evaluate(() => window.__cameraCalls())).toEqual({ opened: before + 1, live: 1 });
    await page.evaluate(() => window.__blackCamera(false));
    await page.evaluate(() => window.__showLabel('1009'));
    await expect.poll(texts).toEqual(['1009']);
    expect(await view()).toBe('aimed');
  });

  test('the cameras are listed before and during a run, and a chosen one is found by label when its id changed', async () => {
    await renew({ camera: { id: 'an-old-id', label: 'Near camera' } });
    const cameras = [
      { id: 'fake-rear', label: 'Rear camera' },
      { id: 'fake-near', label: 'Near camera' },
    ];
    expect(await page.evaluate(() => window.bench.scanner().cameras())).toEqual({ type: 'cameras', cameras });
    await start();
    expect(await page.evaluate(() => window.bench.scanner().current())).toEqual(cameras[1]);
    expect(await page.evaluate(() => window.bench.scanner().cameras())).toEqual({ type: 'cameras', cameras });
    await page.evaluate((rear) => window.bench.scanner().useCamera(rear), cameras[0]);
    expect(await page.evaluate(() => window.bench.scanner().current())).toEqual(cameras[0]);
  });

  test('a photo is a bounded JPEG without metadata, and none while the camera is off', async () => {
    await renew();
    expect(await page.evaluate(() => window.bench.scanner().takePhoto())).toEqual({
      type: 'no-picture',
      reason: 'not-running',
    });
    await start();
    const photo = await page.evaluate(async () => {
      const picture = await window.bench.scanner().takePhoto();
      if (picture.type !== 'picture') return null;
      const bytes = new Uint8Array(await picture.blob.arrayBuffer());
      const head = new TextDecoder('latin1').decode(bytes.subarray(0, 4096));
      return { ...picture, mime: picture.blob.type, start: [bytes[0], bytes[1]], exif: head.includes('Exif') };
    });
    expect(photo).toMatchObject({ mime: 'image/jpeg', start: [0xff, 0xd8], exif: false, width: 1280, height: 720 });
  });

  test('torch and zoom are offered only where the track has them', async () => {
    await renew();
    await start();
    expect(await page.evaluate(() => window.bench.scanner().capabilities())).toEqual({
      torch: false,
      zoom: null,
      focus: false,
    });
  });

  test('no error reached the page in all of this but those of listeners under test', () => {
    expect(pageErrors).toEqual([]);
  });
});
