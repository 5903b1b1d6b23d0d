// A phone without room: the statement is shown and kept in memory, the bar says so for as long as it is true and not
// longer, and nothing is lost when there is room again.
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { contextOptions, openBrowser, picture, type Served, serve } from './harness.ts';

let served: Served;
let browser: Browser;

beforeAll(async () => {
  served = await serve();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await served?.stop();
});

it('says NOT SAVED while, and only while, a statement is not on disk', async () => {
  const context = await browser.newContext(contextOptions());
  // The database refuses as it does on a full disk; store.test.ts fills a real one.
  await context.addInitScript(() => {
    const add = IDBObjectStore.prototype.add;
    IDBObjectStore.prototype.add = function (...given) {
      if (this.name === 'events' && document.documentElement.dataset.full === 'yes') {
        this.transaction.abort();
        throw new DOMException('no room', 'QuotaExceededError');
      }
      return add.apply(this, given);
    };
  });
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  const bar = page.locator('.not-saved-text');
  await page.goto(served.origin);
  await page.getByText('Open the demo station').click();
  await page.getByText('148 cables').waitFor();
  await page.goto(`${served.origin}/start-audit`);
  await page.getByLabel('Your name').fill('I. Halloran');
  await page.getByRole('button', { name: /Begin the walk/ }).click();
  await page.getByRole('button', { name: /reads 1001/i }).click();
  await expect.poll(() => page.locator('.verdict').innerText()).toContain('P01:');
  expect(await bar.count()).toBe(0);

  await page.evaluate(() => {
    document.documentElement.dataset.full = 'yes';
  });
  await page.getByRole('button', { name: /reads 1002/i }).click();
  await expect.poll(() => page.locator('.verdict').innerText()).toContain('P02:');
  await expect.poll(() => bar.count()).toBe(1);
  expect(await bar.innerText()).toMatch(/Not saved\. 1 entry is not in this phone’s record yet.*A copy is kept/);
  // The bar takes its room from the sheet, never from the thumb.
  const thumb = await page.getByRole('button', { name: /^Undo/ }).boundingBox();
  expect((thumb?.y ?? 9999) + (thumb?.height ?? 0)).toBeLessThanOrEqual(844);
  await picture(page, 'not-saved-phone-light');

  await page.evaluate(() => {
    document.documentElement.dataset.full = 'no';
  });
  await page.getByRole('button', { name: 'Try again' }).click();
  await expect.poll(() => bar.count()).toBe(0);
  await page.reload();
  await expect.poll(() => page.locator('.plate').innerText()).toContain('P03');
  await context.close();
});
