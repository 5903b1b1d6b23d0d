// Temporary numbers at phone size without a network: a plug that says nothing gets the next twin by one tap, its other
// end is found by reading the code, undo takes it back, and the strip is printed true to size. Data: demo (invented).
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { contextOptions, newCode, PHONE, picture, untilOffline } from './harness.ts';
import { onePhone } from './onePhone.ts';
import { openRow } from './sheets.ts';

const phone = onePhone('twins', { camera: true });
const { press, verdict, more, at } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});

const plate = () => page.locator('.plate').innerText();
const noLabel = () => page.locator('.thumb-states').getByRole('button', { name: 'No label' }).click();

describe('a plug that says nothing', () => {
  it('is offered nothing while the person may only look', async () => {
    await phone.demoOffline();
    await phone.begin();
    await at('SW1/P09');
    await noLabel();
    await expect.poll(verdict).toContain('P09');
    await phone.settled();
    expect(await page.getByRole('button', { name: 'U-001 is on it' }).count()).toBe(0);
  });

  it('gets the next number by one tap once touching is allowed, and undo takes it off the record', async () => {
    await touch(page);
    await at('SW1/P10');
    await noLabel();
    await picture(page, 'twin-offer');
    await press('U-001 is on it');
    await expect.poll(verdict).toContain('U-001 is on SW1 P10.');
    expect(await page.getByRole('button', { name: /is on it$/ }).count()).toBe(0);
    await press('Undo');
    await expect.poll(verdict).toContain('Undone: tag U-001');
    // On a low screen too the offer stands above the verdict, not under it.
    await page.setViewportSize({ width: 360, height: 640 });
    await at('SW1/P11');
    await noLabel();
    const offered = page.getByRole('button', { name: 'U-001 is on it' });
    await offered.waitFor();
    const bottom = async () => {
      const box = await offered.boundingBox();
      return (box?.y ?? 9999) + (box?.height ?? 0);
    };
    await expect.poll(bottom).toBeLessThanOrEqual((await page.locator('.verdict').boundingBox())?.y ?? 0);
    await picture(page, 'twin-offer-low');
    await page.setViewportSize(PHONE);
    await press('U-001 is on it');
    await expect.poll(verdict).toContain('U-001 is on SW1 P11.');
  });

  it('is asked for its other end, nearest first, until the code is read there', async () => {
    await more(/^Temporary tags/);
    await page.getByText('On SW1 P11. The other end has no tag yet').waitFor();
    await picture(page, 'twins-sheet');
    await page.keyboard.press('Escape');
    await at('SW2/P20');
    await press('Start camera');
    await page.evaluate(() => window.__showLabel('U-001'));
    await expect.poll(verdict).toContain('P20:');
    // The first end is named before anything the plan says.
    await expect.poll(verdict).toMatch(/Other end at \S+ SW1 P11\. Not in the plan\./);
    await picture(page, 'twins-both-ends');
    await page.evaluate(() => window.__showLabel(null));
    await more(/^Temporary tags/);
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

  it('takes the number of a strip read right after "No label", not the next jack, with one undo', async () => {
    await at('SW1/P13');
    // Allowed once, the camera comes back by itself.
    await expect.poll(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
    await noLabel();
    await page.getByRole('button', { name: 'U-003 is on it' }).waitFor();
    await expect.poll(plate).toContain('P14');
    await page.evaluate(() => window.__showLabel('U-017'));
    await expect.poll(verdict).toMatch(/P13:\s*U-017/);
    await page.evaluate(() => window.__showLabel(null));
    await expect.poll(plate).toContain('P14');
    expect(await page.getByRole('button', { name: /is on it$/ }).count()).toBe(0);
    await picture(page, 'twin-strip-read');
    await press('Undo');
    await expect.poll(verdict).toContain('Undone: tag U-017');
    await expect.poll(plate).toContain('P13');
  });

  it('is not asked about again once it was put off, stays owed, and is offered by More', async () => {
    await at('SW1/P14');
    await noLabel();
    await press('Not now');
    await expect.poll(() => page.getByRole('button', { name: 'Not now' }).count()).toBe(0);
    await page.reload();
    await at('SW1/P14');
    await noLabel();
    await expect.poll(verdict).toContain('P14:');
    await phone.settled();
    expect(await page.getByRole('button', { name: 'Not now' }).count()).toBe(0);
    await at('SW1/P14');
    await more();
    const row = page.getByRole('dialog').locator('.row', { hasText: /^Temporary tags/ });
    await expect.poll(() => row.textContent()).toMatch(/to do[\s\S]*without a tag/);
    await picture(page, 'twins-more');
    await row.click();
    await page.getByText('Plugs without label or tag').waitFor();
    await picture(page, 'twins-owed');
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /is on it$/ })
      .click();
    await expect.poll(verdict).toMatch(/U-\d+ is on SW1 P14\./);
  });

  it('has its strip on paper, every number twice and true to size', async () => {
    await page.goto(`${phone.origin}/labels`);
    await press(/A strip of temporary tags/);
    await page.getByLabel('How many numbers').fill('4');
    await expect.poll(() => page.locator('.strip-one').count()).toBe(8);
    await page.evaluate(() => {
      window.print = () => undefined;
    });
    await press(/Print 8 labels/);
    await page.getByText(/U-001 to U-004 were printed on this phone/).waitFor();
    await picture(page, 'twins-strip-again');
    await press('Start at U-005');
    await expect.poll(() => page.getByText('were printed on this phone').count()).toBe(0);
    await expect.poll(() => page.locator('.strip-sheet').innerText()).toContain('U-005');
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 794, height: 1123 });
    const ruler = await page.locator('.label-ruler').boundingBox();
    // CSS: 1 in is 96 px and 25.4 mm (CSS Values and Units).
    expect(Math.abs((ruler?.width ?? 0) - (100 / 25.4) * 96)).toBeLessThan(1);
    await picture(page, 'twins-strip');
  });
});

describe('two phones without a network', () => {
  it('begin at different blocks; with two copies of one strip both are told of it once they meet, and undo the change', async () => {
    await page.emulateMedia({ media: null });
    await page.setViewportSize(PHONE);
    await phone.context.setOffline(false);
    await phone.begin();
    await touch(page);
    await page.goto(`${phone.origin}/sync`);
    await page.getByLabel('Code', { exact: true }).fill(phone.served.code);
    await press(/^Pair$/);
    await sent(page);
    const context = await phone.browser.newContext(contextOptions({ theme: 'dark' }));
    const other = await context.newPage();
    other.setDefaultTimeout(60_000);
    await other.goto(`${phone.origin}/sync`);
    await other.getByLabel('Code', { exact: true }).fill(await newCode(phone.served));
    await other.getByRole('button', { name: /^Pair$/ }).click();
    await sent(other);
    await untilOffline(other);

    await Promise.all([phone.context.setOffline(true), context.setOffline(true)]);
    // Numbers go on where the audit before left off: a number is on one cable of the whole station.
    await at('SW1/P09');
    await noLabel();
    await page.getByRole('button', { name: 'U-004 is on it' }).waitFor();
    await other.goto(`${phone.origin}/audit/${phone.audit}/walk?at=${encodeURIComponent('SW2/P20')}`);
    // A phone without a name asks whose it is, once.
    await other.getByRole('dialog').getByLabel('Your name').fill('Ilse');
    await other.keyboard.press('Enter');
    await other.getByRole('dialog').waitFor({ state: 'detached' });
    await other.locator('.thumb-states').getByRole('button', { name: 'No label' }).click();
    // This phone never met the other's numbers; its own begin elsewhere.
    await other.getByRole('button', { name: /^U-\d{5} is on it$/ }).waitFor();
    await picture(other, 'twins-far-block');
    for (const [one, place] of [
      [page, 'SW1 P09'],
      [other, 'SW2 P20'],
    ] as const) {
      await stripAt(one, '351');
      await expect.poll(() => one.locator('.verdict').innerText()).toContain('Your next numbers: U-351 to U-400.');
      await one.goto(`${phone.origin}/audit/${phone.audit}/walk?at=${encodeURIComponent(place.replace(' ', '/'))}`);
      await one.locator('.thumb-states').getByRole('button', { name: 'No label' }).click();
      await one.getByRole('button', { name: 'U-351 is on it' }).click();
      await expect.poll(() => one.locator('.verdict').innerText()).toContain(`U-351 is on ${place}.`);
    }

    await Promise.all([phone.context.setOffline(false), context.setOffline(false)]);
    for (const one of [other, page, other]) {
      await one.goto(`${phone.origin}/sync`);
      await sent(one);
    }
    for (const [one, name] of [
      [page, 'light'],
      [other, 'dark'],
    ] as const) {
      await one.goto(`${phone.origin}/audit/${phone.audit}/walk?at=${encodeURIComponent('SW2/P21')}`);
      await one.locator('.thumb-tools').getByRole('button', { name: 'More' }).click();
      const row = one.getByRole('dialog').locator('.row', { hasText: /^Temporary tags/ });
      await expect.poll(() => row.textContent()).toContain('1 duplicate tag');
      await openRow(one, /^Temporary tags/);
      await one.getByText('U-351 is a duplicate').waitFor();
      expect(await one.getByRole('dialog').innerText()).toMatch(/At SW2 P20: U-\d+ is on, U-351 is off/);
      await picture(one, `twins-given-${name}`);
      await one.goto(`${phone.origin}/search?for=U-351`);
      await expect.poll(() => one.locator('main').innerText()).toContain('SW1 P09, other end not seen yet');
      expect(await one.locator('main').innerText()).toContain('SW2 P20, other end not seen yet');
      await picture(one, `twins-search-${name}`);
    }
    await context.close();

    // The change of a number is one act with one undo.
    await at('SW2/P21');
    await more(/^Temporary tags/);
    await press(/At SW2 P20: U-352 is on, U-351 is off/);
    await expect.poll(verdict).toContain('U-352 is on SW2 P20, U-351 is off.');
    await picture(page, 'twins-renumbered');
    await more();
    const row = page.getByRole('dialog').locator('.row', { hasText: /^Temporary tags/ });
    await expect.poll(() => row.textContent()).not.toContain('duplicate');
    await page.keyboard.press('Escape');
    await press('Undo');
    await expect.poll(verdict).toContain('Undone: U-352 instead of U-351');
    await more();
    await expect.poll(() => row.textContent()).toContain('1 duplicate tag');
    await page.keyboard.press('Escape');
  });
});

/** Says at which number the printed strip in the hand begins. */
async function stripAt(on: Page, first: string): Promise<void> {
  await on.locator('.thumb-tools').getByRole('button', { name: 'More' }).click();
  await openRow(on, /^Temporary tags/);
  await on.getByLabel('My strip starts at').fill(first);
  await picture(on, 'twins-strip-in-hand');
  await on.getByRole('button', { name: `Start at U-${first}` }).click();
}

async function touch(on: Page): Promise<void> {
  await on.locator('.thumb-tools').getByRole('button', { name: 'More' }).click();
  const dialog = on.getByRole('dialog');
  await openRow(on, /What you may do/);
  await dialog.getByText('Touch', { exact: true }).click();
  await expect.poll(() => on.locator('.permission-yes').allInnerTexts()).toContain('touch');
}

/** Everything of this phone is with the server, and what the server had is here. */
async function sent(on: Page): Promise<void> {
  const body = () => on.locator('body').innerText();
  await expect.poll(body).toMatch(/Sent and received|Last sent/);
  await expect.poll(body).toContain('Nothing waits to be sent');
}
