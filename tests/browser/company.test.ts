// Two phones online in one audit, in real browsers on a real server: an entry of one is on the other by the stream of
// news, and each is told where the other is, without anything moving under the thumb.
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { contextOptions, newCode, openBrowser, picture, type Served, serve } from './harness.ts';
import { settled } from './settled.ts';

/** Neither a poll nor a further try goes off any more: what arrives then, arrives by the stream. */
const noLongTimers = `(() => {
  const real = window.setTimeout;
  window.setTimeout = (call, ms, ...given) => (ms >= 3000 ? 0 : real(call, ms, ...given));
})();`;

const ENTRIES = 20;

let served: Served;
let browser: Browser;
let contexts: BrowserContext[] = [];
let mine: Page;
let hers: Page;
let audit: string;

async function openPage(options: Parameters<typeof contextOptions>[0], script?: string): Promise<Page> {
  const context = await browser.newContext(contextOptions(options));
  contexts.push(context);
  if (script) await context.addInitScript({ content: script });
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  page.on('pageerror', (error) => console.error(error));
  return page;
}

async function pair(page: Page, code: string): Promise<void> {
  await page.goto(`${served.origin}/sync`);
  await page.getByLabel('Code', { exact: true }).fill(code);
  await page.getByRole('button', { name: /^Pair$/ }).click();
}

async function walkAt(page: Page, jack: string): Promise<void> {
  await settled(page);
  await page.goto(`${served.origin}/audit/${audit}/walk?at=${encodeURIComponent(`SW1/${jack}`)}`);
  await expect.poll(() => page.locator('h1').innerText()).toContain(jack);
}

const line = (page: Page) => page.locator('.walk-company');
const atJack = (page: Page) => page.locator('.walk-company-here');
const left = (page: Page) => page.locator('.plate-cell', { hasText: 'To go' }).locator('.plate-big');

beforeAll(async () => {
  served = await serve();
  browser = await openBrowser();
  mine = await openPage({});
  await mine.goto(served.origin);
  await mine.getByText('Open the demo station').click();
  await mine.getByText('148 cables').waitFor();
  await settled(mine);
  await mine.goto(`${served.origin}/start-audit`);
  await mine.getByLabel('Your name').fill('I. Halloran');
  await mine.getByRole('button', { name: /Begin the walk/ }).click();
  await mine.waitForURL(/walk/);
  audit = /audit\/([^/?]+)/.exec(mine.url())?.[1] ?? '';
  await pair(mine, served.code);
  await mine.getByText('Nothing waits to be sent').first().waitFor();
  hers = await openPage({}, noLongTimers);
  await pair(hers, await newCode(served));
  await hers.getByText('148 cables').first().waitFor();
  await settled(hers);
  await hers.goto(`${served.origin}/start-audit`);
  await hers.getByLabel('Your name').fill('Ilse');
});
afterAll(async () => {
  await browser?.close();
  await served?.stop();
  contexts = [];
});
afterEach(async ({ task }) => {
  if (task.result?.state !== 'fail') return;
  await picture(mine, 'failed-company-mine');
  await picture(hers, 'failed-company-hers');
});

describe('two phones in one audit', () => {
  it('tell each other in the head of the walk, and at the jack that both are at', async () => {
    await walkAt(mine, 'P01');
    await mine.locator('.thumb-states').waitFor();
    const before = await mine.locator('.thumb').boundingBox();
    expect(await line(mine).count()).toBe(0);
    await walkAt(hers, 'P24');
    await expect.poll(() => line(mine).innerText()).toBe('Ilse is at SW1 too.');
    await expect.poll(() => line(hers).innerText()).toBe('I. Halloran is at SW1 too.');
    expect(await mine.locator('.thumb').boundingBox()).toEqual(before);
    for (const theme of ['light', 'dark'] as const) {
      await mine.emulateMedia({ colorScheme: theme });
      await picture(mine, `company-line-${theme}`);
    }

    await walkAt(hers, 'P01');
    await expect.poll(() => atJack(mine).innerText()).toBe('Ilse is at P01 now.');
    await expect.poll(() => atJack(hers).innerText()).toBe('I. Halloran is at P01 now.');
    expect(await mine.locator('.thumb').boundingBox()).toEqual(before);
    expect(await mine.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    for (const theme of ['light', 'dark'] as const) {
      await mine.emulateMedia({ colorScheme: theme });
      await picture(mine, `company-jack-${theme}`);
    }
    await mine.emulateMedia({ colorScheme: 'light' });
  });

  it('see an entry of the other by the stream of news, without a poll', async () => {
    await walkAt(hers, 'P24');
    const took: number[] = [];
    const owed = Number(await left(hers).innerText());
    for (let n = 1; n <= ENTRIES; n += 1) {
      const shown = hers.waitForFunction(
        (want) => {
          const cells = [...document.querySelectorAll('.plate-cell')];
          const cell = cells.find((one) => one.textContent?.includes('To go'));
          return cell?.querySelector('.plate-big')?.textContent === want ? Date.now() : null;
        },
        String(owed - n),
        { timeout: 60_000 },
      );
      const said = Date.now();
      await mine.locator('.thumb-reads button').first().click();
      took.push(Number(await (await shown).jsonValue()) - said);
    }
    took.sort((a, b) => a - b);
    const share = (of: number) => took[Math.ceil(of * took.length) - 1];
    console.log(`entry of one phone on the other: p50 ${share(0.5)} ms, p95 ${share(0.95)} ms of ${took.length}`);
    expect(Number(await left(hers).innerText())).toBe(owed - ENTRIES);
  });

  it('shorten a long name and keep everything under the thumb where it was', async () => {
    const before = await mine.locator('.thumb').boundingBox();
    await hers.goto(`${served.origin}/settings`);
    await hers.getByLabel('Your name').fill('Konstantin Aleksandrowitsch von und zu Hohenfels');
    await walkAt(hers, 'P24');
    await expect.poll(() => line(mine).innerText()).toBe('Konstantin Aleksa… is at SW1 too.');
    expect(await mine.locator('.thumb').boundingBox()).toEqual(before);
    expect(await mine.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
  });

  it('are forgotten when they leave the walk', async () => {
    await hers.getByRole('button', { name: 'Back to the station' }).click();
    await expect.poll(() => line(mine).count()).toBe(0);
    expect(await atJack(mine).count()).toBe(0);
  });

  it('list each other, and only the one that began the station can remove the other', async () => {
    for (const page of [mine, hers]) {
      await page.goto(`${served.origin}/sync`);
      await page.getByText('last heard from').first().waitFor();
    }
    const removing = (page: Page) => page.locator('main').getByText('Remove', { exact: true });
    expect(await removing(hers).count()).toBe(0);
    expect(await hers.locator('main').innerText()).toContain('The phone that began the station can remove the others');
    await picture(hers, 'company-phones-light');
    await removing(mine).click();
    await mine.getByRole('dialog').getByRole('button', { name: 'Remove' }).click();
    await expect.poll(() => removing(mine).count()).toBe(0);
    await hers.reload();
    await hers.getByLabel('Code', { exact: true }).waitFor();
  });
});
