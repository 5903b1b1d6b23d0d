// Storage in real Chromium on a real profile: killed processes, two tabs, a full disk, photos. The browser is started
// by hand, because only then can the whole process be killed.
import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { build, type PreviewServer, preview } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CHROMIUM } from './harness.ts';

type Running = { child: ChildProcess; browser: Browser; context: BrowserContext; profile: string };

let outDir: string;
let server: PreviewServer;
let origin: string;
const started: Running[] = [];

beforeAll(async () => {
  outDir = await mkdtemp(join(tmpdir(), 'store-page-'));
  const root = new URL('./pages/', import.meta.url).pathname;
  const common = { root, configFile: false, logLevel: 'error' } as const;
  await build({
    ...common,
    build: { outDir, emptyOutDir: true, target: 'es2022', rollupOptions: { input: join(root, 'store.html') } },
  });
  const port = 20_000 + Math.floor(Math.random() * 20_000);
  server = await preview({ ...common, build: { outDir }, preview: { host: '127.0.0.1', port } });
  origin = server.resolvedUrls?.local[0] ?? '';
});

afterAll(async () => {
  const profiles = new Set(started.map((one) => one.profile));
  await Promise.all(started.map(kill));
  for (const profile of profiles) await rm(profile, { recursive: true, force: true, maxRetries: 5 });
  await server.close();
  await rm(outDir, { recursive: true, force: true });
});

const freshProfile = () => mkdtemp(join(tmpdir(), 'store-profile-'));

/** A browser that starts on a profile whose last one was killed now and then answers nobody: then another is started. */
async function launch(profile: string): Promise<Running> {
  for (let tries = 1; ; tries += 1) {
    const child = start(profile);
    try {
      const browser = await chromium.connectOverCDP(await endpointOf(child), { timeout: 30_000 });
      const [context] = browser.contexts();
      const running = { child, browser, context: context as BrowserContext, profile };
      started.push(running);
      return running;
    } catch (error) {
      if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
      if (tries === 4) throw error;
    }
  }
}

function start(profile: string): ChildProcess {
  const args = ['--headless=new', '--no-sandbox', '--disable-gpu', '--disable-background-networking', '--no-first-run'];
  return spawn(
    CHROMIUM,
    [
      ...args,
      '--disable-component-update',
      '--disable-sync',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
    ],
    { detached: true, stdio: ['ignore', 'ignore', 'pipe'] },
  );
}

/** The address that the browser prints when it is ready. */
function endpointOf(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    child.once('exit', () => reject(new Error(`the browser did not start: ${said}`)));
    child.stderr?.setEncoding('utf8').on('data', (piece: string) => {
      said += piece;
      const found = /DevTools listening on (ws:\S+)/.exec(said);
      if (found) resolve(found[1]);
    });
  });
}

/** No farewell: the whole process group goes at once, as when a phone runs out of memory. */
async function kill({ child, browser }: Running): Promise<void> {
  if (!browser.isConnected()) return;
  const gone = new Promise((resolve) => browser.once('disconnected', resolve));
  if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
  await gone;
}

async function openPage({ context }: Running, station: string): Promise<Page> {
  const page = await context.newPage();
  await page.goto(`${origin}store.html?station=${station}`);
  await page.evaluate(() => window.storePage);
  return page;
}

const texts = (page: Page) => page.evaluate(async () => (await window.storePage).texts());
const said = (all: string[]) => all.map((text) => JSON.parse(text).payload.text);

function expectChain(all: string[]): void {
  let prev: string | null = null;
  for (const [index, text] of all.entries()) {
    expect(JSON.parse(text)).toMatchObject({ seq: index, prev });
    prev = createHash('sha256').update(text, 'utf8').digest('hex');
  }
}

describe('a killed browser', () => {
  test('has on disk what was recorded just before, event and outbox row, and the draft', async () => {
    const profile = await freshProfile();
    const first = await launch(profile);
    const page = await openPage(first, 'killed');
    await page.evaluate(async () => (await window.storePage).saveDraft('P03, half typed'));
    const saved = await page.evaluate(async () => (await window.storePage).record('the last words'));
    await kill(first);
    expect(saved.type).toBe('saved');

    const again = await openPage(await launch(profile), 'killed');
    expect(await texts(again)).toEqual(['text' in saved ? saved.text : '']);
    const id = 'id' in saved ? saved.id : '';
    expect(await again.evaluate(async () => (await window.storePage).outboxKeys())).toEqual([`event:${id}`]);
    expect(await again.evaluate(async () => (await window.storePage).draft())).toBe('P03, half typed');
    await again.evaluate(async () => (await window.storePage).record('and on'));
    expectChain(await texts(again));
  });

  test('killed in the middle of writing leaves a whole chain that holds everything reported as saved', async () => {
    const profile = await freshProfile();
    const first = await launch(profile);
    const page = await openPage(first, 'killed');
    const reported: string[] = [];
    let enough: () => void = () => {};
    const many = new Promise<void>((resolve) => {
      enough = resolve;
    });
    await page.exposeFunction('reportSaved', (text: string) => {
      if (reported.push(text) === 20) enough();
    });
    await page.evaluate(async () => {
      const store = await window.storePage;
      const report = (window as unknown as { reportSaved: (text: string) => Promise<void> }).reportSaved;
      void (async () => {
        for (let n = 0; ; n++) {
          const result = await store.record(String(n));
          if (result.type === 'saved') await report(result.text);
        }
      })();
    });
    await many;
    expect(reported.length).toBeGreaterThanOrEqual(20);
    await kill(first);

    const again = await openPage(await launch(profile), 'killed');
    const all = await texts(again);
    expectChain(all);
    expect(reported.every((text) => all.includes(text))).toBe(true);
    expect((await again.evaluate(async () => (await window.storePage).outboxKeys())).length).toBe(all.length);
  });
});

let shared: Running;
beforeAll(async () => {
  shared = await launch(await freshProfile());
});

describe('two tabs', () => {
  test('write at once into one unbroken chain, and each follows the other', async () => {
    const pages = [await openPage(shared, 'tabs'), await openPage(shared, 'tabs')];
    const many = (name: string) => Array.from({ length: 30 }, (_, n) => `${name}${n}`);
    const types = await Promise.all(
      pages.map((page, index) =>
        page.evaluate(async (all) => (await window.storePage).recordMany(all), many('ab'[index])),
      ),
    );
    expect(new Set(types.flat())).toEqual(new Set(['saved']));
    const all = await texts(pages[0]);
    expect(all).toHaveLength(60);
    expectChain(all);
    for (const [index, other] of [
      [0, 'b'],
      [1, 'a'],
    ] as const) {
      const heard = async () => said(await pages[index].evaluate(async () => (await window.storePage).heard));
      const others = async () => new Set((await heard()).filter((text) => text.startsWith(other))).size;
      await expect.poll(others).toBe(30);
    }
  });
});

describe('a connection that dies', () => {
  test('below the app costs nothing', async () => {
    const page = await openPage(shared, 'other');
    await page.evaluate(async () => (await window.storePage).record('before'));
    await page.evaluate(async () => (await window.storePage).closeBelow());
    expect(await page.evaluate(async () => (await window.storePage).record('after'))).toMatchObject({ type: 'saved' });
    expect(said(await texts(page))).toEqual(['before', 'after']);
  });
});

describe('a full disk', () => {
  test('costs no sighting: it is kept, counted, and written in order when there is room', async () => {
    const filled = await launch(await freshProfile());
    const blank = await filled.context.newPage();
    const cdp = await filled.context.newCDPSession(blank);
    await cdp.send('Storage.overrideQuotaForOrigin', { origin: new URL(origin).origin, quotaSize: 3_000_000 });
    const page = await openPage(filled, 'full');
    // Pictures fill what there is, the smaller ones the gaps that the larger ones leave.
    const refused = await page.evaluate(async () => {
      const store = await window.storePage;
      const sizes: number[] = [];
      for (const size of [1_000_000, 100_000, 10_000, 1000, 100]) {
        for (let n = 0; n < 100; n++) {
          if ((await store.addPhoto(size)) === 'saved') continue;
          sizes.push(size);
          break;
        }
      }
      return sizes;
    });
    expect(refused).toEqual([1_000_000, 100_000, 10_000, 1000, 100]);
    const before = await texts(page);
    const long = 'x'.repeat(20_000);
    const results = await page.evaluate(async (text) => {
      const store = await window.storePage;
      return [await store.record(`1${text}`), await store.record(`2${text}`)];
    }, long);
    expect(results).toMatchObject([
      { type: 'not-saved', why: { type: 'full' } },
      { type: 'not-saved', why: { type: 'full' } },
    ]);
    expect(await page.evaluate(async () => (await window.storePage).unsaved())).toBeGreaterThanOrEqual(2);
    await cdp.send('Storage.overrideQuotaForOrigin', { origin: new URL(origin).origin });
    expect(await page.evaluate(async () => (await window.storePage).retry())).toBe(true);
    expect(await page.evaluate(async () => (await window.storePage).unsaved())).toBe(0);
    const all = await texts(page);
    expect(all.slice(0, before.length)).toEqual(before);
    expect(said(all.slice(-2))).toEqual([`1${long}`, `2${long}`]);
    expectChain(all);
  });
});

/** An Exif segment (JEITA CP-3451: tag 0x0112 orientation, tag 0x010F maker) put behind the start of a JPEG. */
function withExif(jpeg: Buffer, orientation: number, maker: string): Buffer {
  const text = Buffer.from(`${maker}\0`, 'latin1');
  const tiff = Buffer.alloc(8 + 2 + 2 * 12 + 4);
  tiff.write('MM', 0, 'latin1');
  tiff.writeUInt16BE(42, 2);
  tiff.writeUInt32BE(8, 4);
  tiff.writeUInt16BE(2, 8);
  tiff.writeUInt16BE(0x010f, 10);
  tiff.writeUInt16BE(2, 12);
  tiff.writeUInt32BE(text.length, 14);
  tiff.writeUInt32BE(tiff.length, 18);
  tiff.writeUInt16BE(0x0112, 22);
  tiff.writeUInt16BE(3, 24);
  tiff.writeUInt32BE(1, 26);
  tiff.writeUInt16BE(orientation, 30);
  const body = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff, text]);
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), head, body, jpeg.subarray(2)]);
}

describe('preparePhoto', () => {
  test('turns upright, scales down, and leaves nothing of the camera in the bytes', async () => {
    const page = await openPage(shared, 'other');
    const plain = await page.evaluate(async () => (await window.storePage).fullColourJpeg(3000, 2000));
    const tagged = withExif(Buffer.from(plain, 'base64'), 6, 'SECRETMAKER');
    expect(tagged.includes('SECRETMAKER')).toBe(true);
    const made = await page.evaluate(
      async (picture) => (await window.storePage).preparePhoto(picture),
      tagged.toString('base64'),
    );
    // Orientation 6: rows and columns change places.
    expect(made).toMatchObject({ type: 'photo', mime: 'image/jpeg', width: 1067, height: 1600 });
    const bytes = Buffer.from(made.base64, 'base64');
    expect(bytes.subarray(0, 2)).toEqual(Buffer.from([0xff, 0xd8]));
    expect(bytes.includes('Exif')).toBe(false);
    expect(bytes.includes('SECRETMAKER')).toBe(false);
    const thumb = Buffer.from(made.thumb, 'base64');
    expect(thumb.length).toBeLessThan(bytes.length);
    const again = await page.evaluate(async (picture) => (await window.storePage).preparePhoto(picture), made.thumb);
    expect(again).toMatchObject({ width: 160, height: 240 });
  });

  test('refuses HEIC and what is no picture, each by its name', async () => {
    const page = await openPage(shared, 'other');
    const failure = (bytes: Buffer) =>
      page.evaluate(async (picture) => (await window.storePage).failure(picture), bytes.toString('base64'));
    expect(await failure(Buffer.from('\0\0\0\u0018ftypheic\0\0\0\0mif1heic', 'latin1'))).toBe('photo-heic');
    expect(await failure(Buffer.from('not a picture at all'))).toBe('photo-unreadable');
  });
});
