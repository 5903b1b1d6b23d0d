// Building at phone size without a network: landed and recorded by one tap, tested with words, a change against the plan
// with its reason and its end, the app gone in between, what is left. Data: the demo station (invented).
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { contextOptions, openBrowser, picture, type Served, serve, untilOffline } from './harness.ts';

let served: Served;
let browser: Browser;
let phone: BrowserContext;
let page: Page;
let audit = '';

beforeAll(async () => {
  served = await serve();
  browser = await openBrowser();
  phone = await browser.newContext(contextOptions());
  page = await phone.newPage();
  page.setDefaultTimeout(15_000);
  page.on('pageerror', (error) => console.error(error));
});
afterAll(async () => {
  await browser?.close();
  await served?.stop();
});
afterEach(async ({ task }) => {
  if (task.result?.state === 'fail') await picture(page, 'failed-build');
});

const press = (name: string | RegExp) => page.getByRole('button', { name }).first().click();
const verdict = () => page.locator('.verdict').innerText();
async function at(place: string): Promise<void> {
  await page.goto(`${served.origin}/audit/${audit}/walk?at=${encodeURIComponent(place)}`);
  await page.locator('.thumb-states').waitFor();
  await page.waitForTimeout(400);
}
async function more(row: RegExp): Promise<void> {
  await page.locator('.thumb-tools').getByRole('button', { name: 'More' }).click();
  await page.getByRole('dialog').getByRole('button', { name: row }).click();
}

describe('a build', () => {
  it('offers no landing to eyes alone', async () => {
    await page.goto(served.origin);
    await page.getByText('Look at the demo station').click();
    await page.getByText('148 cables').waitFor();
    await untilOffline(page);
    await phone.setOffline(true);
    await page.goto(`${served.origin}/start-audit`);
    await page.getByLabel('Your name').fill('I. Halloran');
    await page.getByRole('radio', { name: /^Build/ }).check();
    await press(/Begin the walk/);
    await page.waitForURL(/walk/);
    audit = /audit\/([^/?]+)/.exec(page.url())?.[1] ?? '';
    await at('SW1/P01');
    expect(await page.getByRole('button', { name: /Landed 1001/ }).count()).toBe(0);
    await more(/^Work on this end/);
    await page.getByText('You may only look here').waitFor();
    await page.keyboard.press('Escape');
  });

  it('lands and records by one tap where a plug may be moved', async () => {
    await more(/What you may do/);
    await page.getByRole('dialog').getByText('Unplug', { exact: true }).click();
    await expect.poll(() => page.locator('.permission-yes').allInnerTexts()).toContain('unplug');
    await picture(page, 'build-walk');
    await press('P01 Landed 1001, as the plan says');
    await expect.poll(verdict).toContain('P01');
    await expect.poll(() => page.locator('.plate h1 .plate-big').innerText()).toBe('P02');
  });

  it('keeps a failed test with the tester’s words, then the one that passed', async () => {
    await at('SW1/P01');
    await more(/^Work on this end/);
    await page.getByLabel('What the tester says').fill('pair 3 open');
    await press('1001 failed');
    await expect.poll(() => page.getByRole('dialog').innerText()).toContain('pair 3 open');
    await picture(page, 'build-work');
    await page.reload();
    await at('SW1/P01');
    await more(/^What is left to build/);
    await page.getByText('test failed: pair 3 open').waitFor();
    await picture(page, 'build-left');
    await page.keyboard.press('Escape');
    await more(/^Work on this end/);
    await press('1001 passed');
    await expect.poll(() => page.getByRole('dialog').innerText()).toContain('done');
    await page.keyboard.press('Escape');
  });

  it('asks once why a cable is elsewhere, and keeps the lash-up in the list until its day', async () => {
    await at('SW1/P03');
    await press(/^Type the label/);
    await page.getByRole('dialog').getByRole('textbox').fill('1004');
    await page.keyboard.press('Enter');
    await press('Yes, and why');
    await page.getByLabel('Temporary until').fill('1 December');
    await picture(page, 'build-change');
    await press('The planned jack is faulty');
    await expect.poll(verdict).toContain('P03');
    expect(await page.getByRole('button', { name: 'Yes, and why' }).count()).toBe(0);
    await more(/^What is left to build/);
    const text = await page.getByRole('dialog').innerText();
    expect(text).toContain('until 1 December');
    expect(text).toContain('The planned jack is faulty. I. Halloran');
  });
});
