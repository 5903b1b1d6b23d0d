// As found and as left within one visit: where something may be touched, what contradicts a look of a minute ago is asked
// about at once, and both looks stay on record. Data: the demo station (invented).
import type { Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { picture } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('as-found');
const { press, verdict } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});
const dialog = () => page.getByRole('dialog');
const body = () => page.locator('main').innerText();

async function empty(): Promise<void> {
  await phone.at('SW1/P07');
  await page.locator('.thumb-states').getByRole('button', { name: 'Empty' }).click();
  await expect.poll(verdict).toContain('P07');
}
async function reads(): Promise<void> {
  await phone.at('SW1/P07');
  await page.locator('.thumb-reads button').first().click();
}

it('where nothing may be touched the second word takes the place of the first', async () => {
  await phone.demoOffline();
  await phone.begin();
  await empty();
  await reads();
  await expect.poll(verdict).toMatch(/P07: 1007, as planned/);
  await phone.settled();
  await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
  await page.getByText('As found').first().waitFor();
  expect(await body()).not.toContain('SW1 P07');
});

it('where something may be touched it is asked at once, and changed keeps both', async () => {
  await phone.begin();
  await phone.more(/^What you may do/);
  await dialog()
    .getByRole('button', { name: /^Touch/ })
    .click();
  await expect.poll(() => page.locator('.permission-yes').allInnerTexts()).toContain('touch');
  await empty();
  await reads();
  await expect.poll(() => dialog().innerText()).toContain('Misread before, or changed since?');
  await expect.poll(() => dialog().innerText()).toContain('empty');
  await picture(page, 'as-found-asked');
  await dialog().getByRole('button', { name: 'Changed since' }).click();
  await expect.poll(verdict).toMatch(/P07: 1007, as planned/);
  await phone.settled();
  await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
  await expect.poll(body).toContain('SW1 P07');
  await picture(page, 'as-found-report');
});

it('and undo gives back what was found', async () => {
  await phone.at('SW1/P07');
  await press('Undo');
  await expect.poll(verdict).toContain('Undone: SW1 P07, 1007.');
  await reads();
  await expect.poll(() => dialog().innerText()).toContain('Misread before, or changed since?');
  await dialog().getByRole('button', { name: 'Misread' }).click();
  await expect.poll(verdict).toMatch(/P07: 1007, as planned/);
  await phone.settled();
  await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
  await page.getByText('As found').first().waitFor();
  expect(await body()).not.toContain('SW1 P07');
});
