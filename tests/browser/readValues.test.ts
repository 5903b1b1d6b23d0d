// Values read off units on the walk: whose they are is asked, right ones raise nothing, wrong ones are told at once and
// stand among the differences; phantom is two buttons, and a ribbon microphone that gets it is a hazard at once, with
// what to do before any plug moves. Data: the demo station (invented).
import type { Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { pictures } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('read-values');
let page: Page;
beforeAll(async () => {
  page = phone.page;
  await phone.demoOffline();
  await phone.begin();
});

const dialog = () => page.getByRole('dialog');
const line = () => page.locator('.verdict').innerText();
const open = () => phone.more(/^Read off/);
const answer = (name: string | RegExp) => dialog().getByRole('button', { name });
async function read(name: string, value: string): Promise<void> {
  await open();
  await dialog().getByLabel('What', { exact: true }).fill(name);
  await dialog().getByLabel('Value, exactly as shown').fill(value);
  await answer('Record').click();
  await dialog().waitFor({ state: 'detached' });
}
const differences = async () => {
  await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
  await page
    .getByRole('button', { name: /Walk on/ })
    .first()
    .waitFor();
  return (await page.locator('body').innerText()).replace(/\s+/g, ' ');
};

it('asks whose the value is, and the right one raises nothing', async () => {
  await phone.at('CLK46/NET');
  await open();
  await dialog().getByLabel('What', { exact: true }).fill('address');
  expect(
    await dialog()
      .getByRole('radio', { name: /CLK46 the whole unit/ })
      .isChecked(),
  ).toBe(true);
  await pictures(page, 'read-value');
  await dialog().getByLabel('Value, exactly as shown').fill('192.0.2.46');
  await answer('Record').click();
  await expect.poll(line).toContain('CLK46, address: 192.0.2.46, as planned.');
  expect(await differences()).toContain('Nothing differs so far.');
});

it('compares a hardware address and a serial in whatever notation', async () => {
  await phone.at('CLK46/NET');
  await read('MAC address', '0000.5e00.532e');
  await expect.poll(line).toContain('as planned');
  await read('MAC', '00:00:5e:00:53:2f');
  await expect.poll(line).toContain('plan 00-00-5E-00-53-2E. They differ from character 12 on: F, plan E.');
  await read('serial number', 'FM-006303');
  await expect.poll(line).toContain('They differ from character 9 on: 3, plan 2.');
  expect(await differences()).toMatch(/2 differences.*Unit replaced explains 2 of 2/);
});

it('has two buttons for phantom, and a ribbon microphone that gets it is a hazard at once', async () => {
  await phone.at('MIO31/M3');
  await open();
  await dialog().getByLabel('What', { exact: true }).fill('+48V');
  expect(await dialog().getByLabel('Value, exactly as shown').count()).toBe(0);
  expect(
    await dialog()
      .getByRole('radio', { name: /MIO31 M3 this jack/ })
      .isChecked(),
  ).toBe(true);
  await pictures(page, 'read-phantom');
  await answer(/On$/).click();
  await expect
    .poll(line)
    .toMatch(/48 V on where it can do damage[\s\S]*ribbon microphone[\s\S]*Unplug nothing\. Mute the channel/);
  for (const size of [
    { width: 360, height: 640 },
    { width: 390, height: 844 },
  ]) {
    await page.setViewportSize(size);
    const { right, bottom } = await page.locator('.verdict').evaluate((element) => ({
      right: element.scrollWidth - element.clientWidth,
      bottom: element.scrollHeight - element.clientHeight,
    }));
    expect([right, bottom]).toEqual([0, 0]);
  }
  await pictures(page, 'phantom-hazard');
  expect(await differences()).toContain('48 V on where it can do damage');
});

it('mutes before it switches phantom, in the list of work', async () => {
  await page.goto(`${phone.origin}/audit/${phone.audit}/fixes`);
  const steps = async () => (await page.locator('main').innerText()).replace(/\s+/g, ' ');
  await expect
    .poll(steps)
    .toMatch(
      /MIO31 M3: have its channel and the monitors muted\..*MIO31 M3: switch phantom off\..*wait until the phantom voltage has gone\..*unmuted\./,
    );
});

it('off is as planned again, and undo takes that back', async () => {
  await phone.at('MIO31/M3');
  await open();
  await dialog().getByLabel('What', { exact: true }).fill('phantom');
  await answer(/Off$/).click();
  await expect.poll(line).toContain('as planned');
  await phone.press(/^Undo/);
  await expect.poll(line).toContain('Undone');
  expect(await differences()).toContain('48 V on where it can do damage');
});
