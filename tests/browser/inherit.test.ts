// An inherited place from nothing to a plan, at phone size and without a network: racks and units described by taps, in
// one line and by copying, their jacks walked, the app gone in the middle, the record made the plan. Data invented.
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { picture, untilOffline } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('inherit', { camera: true });
const { press, verdict } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});

const plate = () => page.getByRole('heading', { level: 1 }).innerText();
const jack = () => page.locator('.plate h1 .plate-big').innerText();

describe('an inherited place', () => {
  it('begins with no plan, and goes on without a network', async () => {
    await page.goto(phone.origin);
    await untilOffline(page);
    await phone.context.setOffline(true);
    await press(/Begin with no plan/);
    await page.getByLabel('Your name').fill('I. Halloran');
    expect(await page.getByText('After a move').count()).toBe(0);
    await press(/Begin the walk/);
    await page.getByText('Nothing is described yet.').waitFor();
    await picture(page, 'describe-empty');
  });

  it('names a rack by its label, read by the camera', async () => {
    await press(/Name a rack/);
    await press('Scan the label');
    await page.getByRole('button', { name: 'Stop the camera' }).waitFor();
    await page.evaluate(() => window.__showLabel('R 9'));
    await expect.poll(() => page.getByLabel('Label on the rack').inputValue()).toBe('R 9');
    await page.evaluate(() => window.__showLabel(null));
    await page.getByLabel('Height in U').fill('24');
    await page.getByLabel('At the top').check();
    await picture(page, 'describe-rack');
    await press(/Save the rack/);
    await expect.poll(plate).toContain('Describe a unit');
  });

  it('places a unit whose jacks are tapped together, and keeps what is typed when the app is gone', async () => {
    await page.getByLabel('Label on the unit').fill('DA-1');
    await press('U left free above it: one more');
    await press('Add 8 × XLR in');
    await page.reload();
    await expect.poll(() => page.getByLabel('On one line').inputValue()).toBe('8 x XLR in');
    expect(await page.getByLabel('Label on the unit').inputValue()).toBe('DA-1');
    await page.getByRole('radio', { name: 'RJ45' }).check();
    for (let i = 0; i < 7; i++) await press('How many: one less');
    await page.getByLabel('Name of the first jack').fill('NET');
    await press(/Add 1 × RJ45/);
    await expect.poll(() => page.getByLabel('On one line').inputValue()).toBe('8 x XLR in, 1 x RJ45 NET');
    expect(await page.locator('.plate').innerText()).toContain('U2');
    await picture(page, 'describe-unit');
    await press(/Next unit/);
  });

  it('places another one below it in one line, and a third as a copy', async () => {
    await expect.poll(() => page.getByLabel('Label on the unit').inputValue()).toBe('');
    await page.getByLabel('Label on the unit').fill('SW-4');
    await page.getByLabel('On one line').fill('24 x RJ45 P01, 3 x ???-');
    await page.getByText('“3 x ???-”').waitFor({ state: 'detached' });
    await page.getByLabel('On one line').fill('24 x RJ45 P01-P23');
    await page
      .getByText(/24 were said, P01-P23 names 23/)
      .first()
      .waitFor();
    await page.getByLabel('On one line').fill('24 x RJ45 P01');
    await page.getByRole('radio', { name: 'Two' }).check();
    await page.getByRole('radio', { name: 'Odd over even' }).check();
    await press('U left free below DA-1: one more');
    expect(await page.locator('.plate').innerText()).toContain('U4');
    await picture(page, 'describe-switch');
    await press(/Next unit/);
    await expect.poll(() => page.getByLabel('Label on the unit').inputValue()).toBe('');
    await page.getByLabel('Label on the unit').fill('DA-2');
    await press('Copy a similar unit');
    await press('DA-1');
    await expect.poll(() => page.getByLabel('On one line').inputValue()).toContain('8 x XLR in IN 1-IN 8');
    await press(/Walk its jacks/);
    await expect.poll(jack).toBe('IN 1');
  });

  it('records what is found without calling it wrong, and says when both ends are known', async () => {
    await page.goto(`${phone.origin}${new URL(page.url()).pathname}?at=DA-1%2FIN-1`);
    await expect.poll(jack).toBe('IN 1');
    for (const label of ['77', '78']) {
      await press(/^Type the label/);
      await page.getByRole('dialog').getByRole('textbox').fill(label);
      await page.keyboard.press('Enter');
      await page.getByRole('dialog').waitFor({ state: 'detached' });
      await expect.poll(verdict).toContain('recorded');
    }
    await phone.settled();
    await press('No label');
    await expect.poll(jack).toBe('IN 4');
    await phone.settled();
    await page
      .locator('.thumb-states')
      .getByRole('button', { name: /^Empty/ })
      .click();
    await expect.poll(jack).toBe('IN 5');
    await phone.settled();
    const walk = `${phone.origin}${new URL(page.url()).pathname}`;
    await page.goto(walk.replace('walk', 'differences'));
    await page.getByText('Nothing differs so far.').waitFor();
    await page.goto(`${walk}?at=DA-2%2FIN-1`);
    await expect.poll(jack).toBe('IN 1');
    await press(/^Type the label/);
    await page.getByRole('dialog').getByRole('textbox').fill('77');
    await page.keyboard.press('Enter');
    await expect.poll(verdict).toContain('Both ends known: also at DA-1 IN 1');
    // What no plan can tell: both jacks were described as inputs.
    expect(await verdict()).toMatch(/^IN 1: 77, recorded/);
    expect(await verdict()).toContain('both inputs');
    expect(await page.locator('.finder-now').innerText()).toContain('There is no plan.');
    await picture(page, 'inherit-walk');
    await phone.settled();
    await page.goto(walk.replace('walk', 'differences'));
    await page
      .getByText(/both inputs/)
      .first()
      .waitFor();
  });

  it('takes a photo of the rack, corrects a unit, and shows both in the list', async () => {
    const audit = /audit\/([^/?]+)/.exec(page.url())?.[1] ?? '';
    await page.goto(`${phone.origin}/audit/${audit}/describe`);
    await press('Photo of R 9 front');
    await press('Take the photo');
    await expect.poll(() => page.getByRole('button', { name: 'Photo of R 9 front (1 taken)' }).count()).toBe(1);
    await press(/^SW-4/);
    await expect.poll(() => page.getByLabel('On one line').inputValue()).toContain('P01-P24');
    await page.getByLabel('On one line').fill('16 x RJ45 P01');
    await press(/Back to the list/);
    await page.getByRole('heading', { name: 'What is here' }).waitFor();
    await page.getByText('1 U, front, 16 jacks; press to correct').waitFor();
    await picture(page, 'describe-list');
  });

  it('uses the record as the plan, with what nobody knows in it', async () => {
    const audit = /audit\/([^/?]+)/.exec(page.url())?.[1] ?? '';
    await page.goto(`${phone.origin}/audit/${audit}/report`);
    await press(/Use this record as the plan/);
    const facts = page.locator('.desk-facts');
    await facts.waitFor();
    expect((await facts.innerText()).replace(/\s+/g, ' ')).toContain(
      'Racks 1 Units 3 Jacks 34 Cables with both ends 1 Cables with one end, the other not known 1 Plugs that nobody could name 1',
    );
    await page.getByLabel('Name of the plan').fill('As found in R9');
    await picture(page, 'make-plan');
    await press(/Use as the plan/);
    await page.waitForURL(/\/plan$/);
    await expect.poll(() => page.locator('main').innerText()).toContain('DA-1');
    await page.goto(`${phone.origin}/cable/77`);
    await expect.poll(() => page.locator('main').innerText()).toContain('DA-2 IN 1');
  });
});
