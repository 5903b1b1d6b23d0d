// Starts the built app with its server and a real Chromium for the browser tests, and takes the pictures. Everything it
// starts ends with stop().
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { nothingInHand, settled } from './settled.ts';

export const ROOT = join(import.meta.dirname, '..', '..');

export const PHONE = { width: 390, height: 844 };
export const DESK = { width: 1280, height: 800 };

/** The browser under test; CHROMIUM_PATH names another one. */
export const CHROMIUM = process.env.CHROMIUM_PATH ?? '/usr/bin/chromium';
export const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--use-fake-ui-for-media-stream',
];

export interface Served {
  origin: string;
  /** The code printed at the start: makes or brings a station. */
  code: string;
  data: string;
  /** Ends the process at once, as a power cut would. */
  kill(): Promise<void>;
  /** Starts it again on the same port and data. */
  restart(): Promise<void>;
  stop(): Promise<void>;
}

/** A further pairing code, made the way a person makes it. */
export async function newCode(served: Served, ...args: string[]): Promise<string> {
  const child = spawn(process.execPath, [join(ROOT, 'dist-node', 'server.js'), '--pair', ...args], {
    cwd: ROOT,
    env: { ...process.env, ASFOUND_DATA: served.data },
  });
  let printed = '';
  for await (const chunk of child.stdout) printed += chunk;
  return readCode(printed);
}

function readCode(text: string): string {
  const code = /\b([2-9A-HJKMNP-TV-Z]{5}[- ]?[2-9A-HJKMNP-TV-Z]{5})\b/.exec(text)?.[1];
  if (!code) throw new Error(`No pairing code in what the server printed:\n${text}`);
  return code;
}

async function freePort(): Promise<number> {
  return await new Promise((resolve, reject) => {
    const probe = createServer();
    probe.on('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });
}

/** Serves dist/, or another folder of files in its place. */
export async function serve(files = join(ROOT, 'dist')): Promise<Served> {
  if (!existsSync(join(files, 'index.html'))) {
    throw new Error('There is no build: run npm run build, or npm test, which does.');
  }
  let port = await freePort();
  const data = mkdtempSync(join(tmpdir(), 'asfound-test-'));
  let child: ChildProcess;
  let printed = '';

  async function start(): Promise<void> {
    child = spawn(process.execPath, [join(ROOT, 'dist-node', 'server.js')], {
      cwd: ROOT,
      env: { ...process.env, PORT: String(port), ASFOUND_DATA: data, ASFOUND_STATIC: files },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    printed = '';
    child.stdout?.on('data', (chunk) => (printed += chunk));
    child.stderr?.on('data', (chunk) => (printed += chunk));
    // For as long as it runs it may still be starting: the hook's own limit ends a server that never answers.
    while (child.exitCode === null && child.signalCode === null) {
      const answer = await fetch(`http://localhost:${port}/api/health`).catch(() => null);
      if (answer?.ok) return;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    throw new Error(`The server did not start:\n${printed}`);
  }
  const end = (signal: NodeJS.Signals) =>
    new Promise<void>((resolve) => {
      if (child.exitCode !== null || child.signalCode !== null) resolve();
      else {
        child.on('close', () => resolve());
        child.kill(signal);
      }
    });

  try {
    await start();
  } catch (error) {
    // Another file's server may have taken the port between the asking and the start.
    if (!printed.includes('is in use already')) throw error;
    port = await freePort();
    await start();
  }
  return {
    origin: `http://localhost:${port}`,
    code: readCode(printed),
    data,
    kill: () => end('SIGKILL'),
    restart: start,
    async stop() {
      await end('SIGTERM');
      rmSync(data, { recursive: true, force: true });
    },
  };
}

export async function openBrowser(): Promise<Browser> {
  const browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: FLAGS,
    headless: true,
  });
  const open = browser.newContext.bind(browser);
  browser.newContext = async (options) => unhurried(await open(options));
  return browser;
}

/** Its pages are left and loaded anew as people do it, some frames behind the last letter. What is ended in mid-write ends by `kill`. */
function unhurried(context: BrowserContext): BrowserContext {
  context.on('page', (page) => {
    const { goto, reload } = page;
    page.goto = async (...given) => {
      await nothingInHand(page);
      return goto.apply(page, given);
    };
    page.reload = async (...given) => {
      await nothingInHand(page);
      return reload.apply(page, given);
    };
  });
  return context;
}

/** A phone with its own storage on disk, so that it can be killed and started again. */
export async function openPhone(profile: string, options: PhoneOptions = {}): Promise<BrowserContext> {
  const phone = await chromium.launchPersistentContext(profile, {
    executablePath: CHROMIUM,
    args: [...FLAGS, ...(options.flags ?? [])],
    headless: true,
    ...contextOptions(options),
  });
  return unhurried(phone);
}

interface PhoneOptions {
  size?: { width: number; height: number };
  theme?: 'light' | 'dark';
  permissions?: string[];
  /** Of the browser itself; only for a phone with its own storage. */
  flags?: string[];
}

export function contextOptions({ size = PHONE, theme = 'light', permissions = ['camera'] }: PhoneOptions = {}) {
  const phone = size.width < 900;
  return {
    viewport: size,
    deviceScaleFactor: phone ? 2 : 1,
    hasTouch: phone,
    colorScheme: theme,
    reducedMotion: 'reduce' as const,
    locale: 'en-GB',
    timezoneId: 'UTC',
    permissions,
  };
}

/** Set by `npm run pictures`. A plain run takes none: they prove nothing, and cost as much as the tests. */
const PICTURES = process.env.ASFOUND_PICTURES === '1';

/** Pictures go to an ignored folder, those with a help name also to public/help. That of a failed test is always taken. */
export async function picture(page: Page, name: string, help?: string): Promise<void> {
  if (!PICTURES && !name.includes('failed')) return;
  const folder = join(ROOT, 'tests', 'browser', 'shots');
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`) });
  if (help && PICTURES) {
    const public_ = join(ROOT, 'public', 'help');
    mkdirSync(public_, { recursive: true });
    await page.screenshot({ path: join(public_, `${help}.png`), scale: 'css' });
  }
}

/** One screen on phone and desk, light and dark; the page is a phone in the light again afterwards. */
export async function pictures(page: Page, name: string, before?: () => Promise<unknown>): Promise<void> {
  if (!PICTURES) return;
  for (const [device, size] of [
    ['phone', PHONE],
    ['desk', DESK],
  ] as const)
    for (const theme of ['light', 'dark'] as const) {
      await page.setViewportSize(size);
      await page.emulateMedia({ colorScheme: theme });
      await before?.();
      await settled(page);
      await picture(page, `${name}-${device}-${theme}`);
    }
  await page.setViewportSize(PHONE);
  await page.emulateMedia({ colorScheme: 'light' });
}

/** No network at all: the browser is told so, and the server is gone, lest some path around the browser's word be left. */
export async function goOffline(context: BrowserContext, served: Served): Promise<void> {
  await context.setOffline(true);
  await served.kill();
}

export async function goOnline(context: BrowserContext, served: Served): Promise<void> {
  await served.restart();
  await context.setOffline(false);
}

/** Waits until the service worker has everything on the phone. */
export async function untilOffline(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    if (registration.active?.state === 'activated') return;
    await new Promise<void>((resolve) => registration.active?.addEventListener('statechange', () => resolve()));
  });
}
