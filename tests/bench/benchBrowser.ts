// Measurements in a real Chromium against the built server. Without a build or a browser the row is left out, and why is
// said; a row is never made up. What is started here ends here.
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import { measureDesignSize } from './benchDesign.ts';
import { against, median, type Row } from './benchMeasure.ts';
import { measureTaps } from './benchTaps.ts';

const BROWSERS = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
const LIMIT = 60;
const RUNS = 3;
const FLAGS = ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'];

type Say = (text: string) => void;
type Part = 'first-load' | 'touches' | 'design';

const PARTS: Record<Part, { what: string; measure: (browser: Browser, origin: string) => Promise<Row[]> }> = {
  'first-load': { what: 'the first load', measure: measureFirstLoad },
  touches: { what: 'a unit of 24 jacks', measure: measureTaps },
  design: { what: 'the app at design size', measure: measureDesignSize },
};

/** Measures one part with a server and a browser of its own. */
export async function measureBrowser(part: Part, say: Say, root: string): Promise<Row[]> {
  const { what, measure } = PARTS[part];
  const skip = (why: string): Row[] => {
    say(`Not measured: ${what}, since ${why}.`);
    return [];
  };
  const server = join(root, 'dist-node', 'server.js');
  if (!existsSync(server) || !existsSync(join(root, 'dist', 'index.html'))) return skip('there is no build');
  const executablePath = [process.env.CHROMIUM_PATH, ...BROWSERS].find((path) => path && existsSync(path));
  if (!executablePath) return skip('there is no Chromium; CHROMIUM_PATH can name one');
  say(`Measuring ${what} in Chromium …`);
  const port = await freePort();
  const data = mkdtempSync(join(tmpdir(), 'asfound-bench-'));
  const env = { ...process.env, PORT: String(port), ASFOUND_DATA: data };
  const child = spawn(process.execPath, [server], { cwd: root, env, stdio: 'ignore' });
  let browser: Browser | null = null;
  try {
    const origin = `http://localhost:${port}`;
    if (!(await untilHealthy(origin))) return skip('the server did not start');
    browser = await chromium.launch({ executablePath, args: FLAGS, headless: true });
    return await measure(browser, origin);
  } finally {
    await browser?.close();
    child.kill();
    rmSync(data, { recursive: true, force: true });
  }
}

async function measureFirstLoad(browser: Browser, origin: string): Promise<Row[]> {
  const sizes: number[] = [];
  for (let i = 0; i < RUNS; i++) sizes.push(await firstLoad(browser, origin));
  const row = { name: 'script transferred until the home screen answers', size: 'empty phone', unit: 'kB' };
  return [against({ ...row, value: median(sizes) / 1000 }, 'goal', '60 kB', LIMIT)];
}

/** Notes in the page itself when the first button stands there; asking from outside comes later than that. */
const NOTE_BUTTON = `window.shown = new Promise((resolve) => {
  new MutationObserver((_, observer) => {
    if (!document.querySelector('#app button')) return;
    observer.disconnect();
    resolve(performance.timeOrigin + performance.now());
  }).observe(document, { childList: true, subtree: true });
});`;

/** Bytes of script bodies as they came over the wire, of every script asked for before the first button stood there. */
async function firstLoad(browser: Browser, origin: string): Promise<number> {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  try {
    const page = await context.newPage();
    const asked: { at: number; bytes: Promise<number> }[] = [];
    page.on('requestfinished', (request) => {
      if (!new URL(request.url()).pathname.endsWith('.js')) return;
      const bytes = request.sizes().then((sizes) => sizes.responseBodySize);
      // Requests after the moment that counts may end with the page; nobody waits for their sizes.
      bytes.catch(() => undefined);
      asked.push({ at: request.timing().startTime, bytes });
    });
    await page.addInitScript(NOTE_BUTTON);
    await page.goto(origin);
    const shown = await page.evaluate<number>('window.shown');
    const before = await Promise.all(asked.filter(({ at }) => at <= shown).map(({ bytes }) => bytes));
    const bytes = before.reduce((sum, one) => sum + one, 0);
    if (bytes === 0) throw new Error('The network log shows no script, so nothing was measured.');
    return bytes;
  } finally {
    await context.close();
  }
}

async function untilHealthy(origin: string): Promise<boolean> {
  for (let i = 0; i < 200; i++) {
    const answer = await fetch(`${origin}/api/health`).catch(() => null);
    if (answer?.ok) return true;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  return false;
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.on('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });
}
