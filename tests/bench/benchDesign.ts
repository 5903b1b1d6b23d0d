// Measurements of the running app at design size: bringing in 25,000 rows, a statement until its verdict is painted,
// and the walk opened without a network. The page is slowed four times; Chromium does not slow workers with it.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, CDPSession, Page } from 'playwright-core';
import { rowsToCsv } from '../../src/files/csvOut.ts';
import { createFacility } from './benchFacility.ts';
import { against, median, pause, type Row } from './benchMeasure.ts';

const CABLES = 25_000;
const STATEMENTS = 20;
const SIZE = `${CABLES} cables`;

/** Notes long tasks, and for each press the time until a changed verdict was painted. Plain text: it runs in the page. */
const NOTE_TIMES = `
window.blocked = [];
new PerformanceObserver((list) => {
  for (const entry of list.getEntries()) window.blocked.push(entry.duration);
}).observe({ type: 'longtask', buffered: true });
window.painted = [];
addEventListener('click', () => {
  const from = performance.now();
  const band = document.querySelector('.verdict');
  if (!band) return;
  const observer = new MutationObserver(() => {
    observer.disconnect();
    requestAnimationFrame(() => setTimeout(() => window.painted.push(performance.now() - from)));
  });
  observer.observe(band, { subtree: true, childList: true, characterData: true });
}, true);`;

export async function measureDesignSize(browser: Browser, origin: string): Promise<Row[]> {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  try {
    await context.addInitScript(NOTE_TIMES);
    const page = await context.newPage();
    page.setDefaultTimeout(120_000);
    const blocked = await bringIn(page, origin);
    await startAudit(page, origin);
    const cdp = await context.newCDPSession(page);
    await slow(cdp, 4);
    const painted = await say(page);
    await page.evaluate('navigator.serviceWorker.ready');
    await context.setOffline(true);
    const from = Date.now();
    await page.reload({ waitUntil: 'commit' });
    await primary(page).waitFor();
    const opened = Date.now() - from;
    const p95 = [...painted].sort((a, b) => a - b)[Math.ceil(painted.length * 0.95) - 1] ?? 0;
    const row = (name: string, value: number) => ({ name, size: SIZE, value, unit: 'ms' });
    return [
      against(row('longest block of the page while a sheet is brought in', blocked.read), 'goal', '50 ms', 50),
      against(row('longest block of the page while it is taken as the plan', blocked.taken), 'goal', '50 ms', 50),
      against(row('press to painted verdict, page slowed 4×, p95', p95), 'goal', '100 ms', 100),
      against(row('press to painted verdict, page slowed 4×, median', median(painted)), 'goal', '100 ms', 100),
      against(row('walk opened offline, page slowed 4×', opened), 'goal', '2 s', 2000),
    ];
  } finally {
    await context.close();
  }
}

/** @returns milliseconds of the longest task of the page from the file to the preview, and from there to the home screen. */
async function bringIn(page: Page, origin: string): Promise<{ read: number; taken: number }> {
  const longest = async () => {
    // The observer hears of a task some time after it ended.
    await pause(500);
    return page.evaluate<number>('Math.max(0, ...window.blocked.splice(0))');
  };
  await page.goto(`${origin}/bring-in`);
  // From disk, as a person chooses it: bytes handed through the page's own script would hold it up.
  const folder = mkdtempSync(join(tmpdir(), 'asfound-bench-sheet-'));
  const file = join(folder, 'cables.csv');
  writeFileSync(file, rowsToCsv(createFacility(CABLES).rows));
  try {
    await longest();
    await page.locator('input[type=file]').first().setInputFiles(file);
    await page.getByRole('button', { name: /Use as the plan/ }).waitFor();
    const read = await longest();
    await page.getByLabel('Name of the station').fill('Bench');
    await longest();
    await page.getByRole('button', { name: /Use as the plan/ }).click();
    await page.waitForURL(`${origin}/`);
    await page.getByText(`${CABLES} cables`).first().waitFor();
    return { read, taken: await longest() };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

async function startAudit(page: Page, origin: string): Promise<void> {
  await page.goto(`${origin}/start-audit`);
  await page.getByLabel('Your name').fill('Bench');
  await page.getByRole('button', { name: /Begin the walk/ }).click();
  await primary(page).waitFor();
}

function primary(page: Page) {
  return page.locator('.thumb-reads button').first();
}

async function say(page: Page): Promise<number[]> {
  await page.evaluate('window.painted.length = 0');
  for (let i = 1; i <= STATEMENTS; i++) {
    await primary(page).click();
    while ((await page.evaluate<number>('window.painted.length')) < i) await pause(50);
    // The cells ignore a touch right after the jack has changed.
    await pause(700);
  }
  return page.evaluate<number[]>('window.painted');
}

function slow(cdp: CDPSession, rate: number): Promise<unknown> {
  return cdp.send('Emulation.setCPUThrottlingRate', { rate });
}
