// Temporary numbers at phone size without a network: a plug that says nothing gets the next twin by one tap, its other
// end is found by reading the code, undo takes it back, and the strip is printed true to size. Data: demo (invented).
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { picture } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('twins', { camera: true });
const { press, verdict, more, at } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});

const noLabel = () => page.locator('.thumb-states').getByRole('button', { name: 'No label' }).click();

describe('a plug that says nothing', () => {
  it('is offered nothing while the person may only look', async () => {
    await phone.demoOffline();
    await phone.begin();
    await at('SW1/P09');
    await noLabel();
    await expect.poll(verdict).toContain('P09');
    await page.waitForTimeout(500);
    expect(await page.getByRole('button', { name: 'U-001 is on it' }).count()).toBe(0);
  });

  it('gets the next number by one tap once touching is allowed, and undo takes it off the record', async () => {
    await more();
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /What you may do/ })
      .click();
    await page.getByRole('dialog').getByText('Touch', { exact: true }).click();
    await expect.poll(() => page.locator('.permission-yes').allInnerTexts()).toContain('touch');
    await at('SW1/P10');
    await noLabel();
    await picture(page, 'twin-offer');
    await press('U-001 is on it');
    await expect.poll(verdict).toContain('U-001 is on SW1 P10.');
    expect(await page.getByRole('button', { name: /is on it$/ }).count()).toBe(0);
    await press('Undo');
    await expect.poll(verdict).toContain('Taken back: twin U-001');
    await at('SW1/P11');
    await noLabel();
    await press('U-001 is on it');
    await expect.poll(verdict).toContain('U-001 is on SW1 P11.');
  });

  it('is asked for its other end, nearest first, until the code is read there', async () => {
    await more();
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /^Twins/ })
      .click();
    await page.getByText('On SW1 P11. The other end bears nothing yet').waitFor();
    await picture(page, 'twins-sheet');
    await page.keyboard.press('Escape');
    await at('SW2/P20');
    await press('Start camera');
    await page.evaluate(() => window.__showLabel('U-001'));
    await expect.poll(verdict, { timeout: 20_000 }).toContain('P20:');
    await page.evaluate(() => window.__showLabel(null));
    await more();
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /^Twins/ })
      .click();
    await page.getByText('Both ends known').waitFor();
    expect(await page.getByRole('dialog').innerText()).toContain('SW1 P11 and SW2 P20');
    await page.keyboard.press('Escape');
  });

  it('gives the next number after the app was gone', async () => {
    await page.reload();
    await at('SW1/P12');
    await noLabel();
    await press('U-002 is on it');
    await expect.poll(verdict).toContain('U-002 is on SW1 P12.');
  });

  it('has its strip on paper, every number twice and true to size', async () => {
    await page.goto(`${phone.origin}/labels`);
    await press(/A strip of twins/);
    await page.getByLabel('How many numbers').fill('4');
    await expect.poll(() => page.locator('.strip-one').count()).toBe(8);
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 794, height: 1123 });
    const ruler = await page.locator('.label-ruler').boundingBox();
    // CSS: 1 in is 96 px and 25.4 mm (CSS Values and Units).
    expect(Math.abs((ruler?.width ?? 0) - (100 / 25.4) * 96)).toBeLessThan(1);
    await picture(page, 'twins-strip');
  });
});
