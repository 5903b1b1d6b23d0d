// Every screen at phone and desk size, by day and by night: it stands, nothing runs out of the sheet sideways, no
// error is thrown, and there is a heading. The pictures it takes are for a person to look at.
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { contextOptions, DESK, openBrowser, PHONE, picture, type Served, serve } from './harness.ts';

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

/** The demo station with an audit of the whole plan: a mismatch, an unplanned label, a hazard and a note. */
async function demo(page: Page): Promise<string> {
  await page.goto(served.origin);
  await page.getByText('Open the demo station').click();
  await page.getByText('148 cables').waitFor();
  await page.goto(`${served.origin}/start-audit`);
  await page.getByLabel('Your name').fill('I. Halloran');
  await page.getByRole('button', { name: /Begin the walk/ }).click();
  await page.waitForURL(/walk/);
  for (const label of ['1001', '1004', '7777-written-by-hand-long-ago']) {
    await page.getByRole('button', { name: /^Type the label/ }).click();
    await page.getByRole('dialog').getByRole('textbox').fill(label);
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await expect.poll(() => page.locator('.verdict').innerText()).toContain(label.slice(0, 4));
  }
  return /audit\/([^/?]+)/.exec(page.url())?.[1] ?? '';
}

describe.each([
  ['phone', PHONE],
  ['desk', DESK],
] as const)('on a %s', (device, size) => {
  it.each(['light', 'dark'] as const)('every screen stands in the %s theme', async (theme) => {
    const context = await browser.newContext(contextOptions({ size, theme }));
    const page = await context.newPage();
    page.setDefaultTimeout(60_000);
    const errors: string[] = [];
    page.on('pageerror', (error) => errors.push(error.message));
    const audit = await demo(page);
    const screens: [string, string][] = [
      ['home', '/'],
      ['bring-in', '/bring-in'],
      ['plan', '/plan'],
      ['desk-check', '/desk-check'],
      ['site-rules', '/site-rules'],
      ['rack', '/plan/R2'],
      ['search', '/search?for=AIO'],
      ['cable', '/cable/1004'],
      ['start-audit', '/start-audit'],
      ['walk', `/audit/${audit}/walk`],
      ['differences', `/audit/${audit}/differences`],
      ['fixes', `/audit/${audit}/fixes`],
      ['report', `/audit/${audit}/report`],
      ['labels', '/labels'],
      ['sync', '/sync'],
      ['settings', '/settings'],
      ['help', '/help/marks'],
      ['cautions', '/help/cautions'],
      ['not-found', '/nowhere/at/all'],
    ];
    for (const [name, path] of screens) {
      await page.goto(served.origin + path);
      await page.locator('main').waitFor();
      await page.waitForLoadState('networkidle');
      await expect.poll(() => page.locator('main').innerText(), { message: name }).not.toBe('');
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(over, `${name} runs out of the sheet by ${over} px`).toBeLessThanOrEqual(0);
      expect(await page.getByRole('heading').count(), `${name} has a heading`).toBeGreaterThan(0);
      await picture(page, `${name}-${device}-${theme}`);
    }
    expect(errors).toEqual([]);
    await context.close();
  });
});
