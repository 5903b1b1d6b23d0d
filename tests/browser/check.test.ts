// The check that settles a cause, followed from the differences: its own form with the question and its likely answers,
// and the same screen again with what it did. A hardware address that was typed counts; a third device speaks against
// the cause; what cannot be told stays open. Data: the demo station (invented).
import type { Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { pictures } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('check');
const { press, read } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});

const dialog = () => page.getByRole('dialog');
const causes = () => page.getByRole('region', { name: 'Causes', exact: true }).innerText();
const follow = async () => {
  await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
  await press(/SW1 P0\d$/);
  await dialog()
    .getByRole('heading', { name: /^Which device does SW1 P0\d show/ })
    .waitFor();
};
const back = async () => {
  await dialog().getByRole('button', { name: 'Back to differences' }).click();
  await dialog().waitFor({ state: 'detached' });
};
const undo = async () => {
  await dialog().getByRole('button', { name: 'Undo' }).click();
  await dialog().waitFor({ state: 'detached' });
  await expect.poll(causes).toContain('Possible. ');
};

it('asks its question on the same screen, and a tap on the answer closes the cause', async () => {
  await phone.demoOffline();
  await phone.begin();
  await read('SW1/P03', '1004');
  await read('SW1/P04', '1003');
  await follow();
  await dialog().getByText('Which device does SW1 P03 show: CON32 or MIO31?').waitFor();
  await pictures(page, 'check');
  await dialog()
    .getByRole('button', { name: /CON32$/ })
    .click();
  await dialog().getByText('Recorded. That settles it.').waitFor();
  await dialog().getByText('Settled. Two cables crossed.').waitFor();
  await pictures(page, 'check-done');
  await back();
  await expect.poll(causes).toContain('Two cables crossed');
  await expect.poll(causes).toContain('Confirmed. ');
  expect(new URL(page.url()).pathname).toMatch(/differences$/);
});

it('takes a hardware address that was typed; undo opens the cause again', async () => {
  // A second audit, in which nothing was said yet.
  await phone.begin();
  await read('SW1/P03', '1004');
  await read('SW1/P04', '1003');
  await follow();
  await dialog().getByLabel('Something else').fill('nobody knows it');
  await dialog().getByRole('button', { name: 'Record it' }).click();
  await dialog()
    .getByText(/^The plan has no such unit or jack/)
    .waitFor();
  await pictures(page, 'check-unknown');
  await dialog().getByLabel('Something else').fill('0000.5e00.531f');
  await dialog().getByRole('button', { name: 'Record it' }).click();
  await dialog().getByText('Settled. Labels swapped.').waitFor();
  await undo();
});

it('is weakened by a third device, and asks at the other jack', async () => {
  await follow();
  await dialog().getByLabel('Something else').fill('PLY71');
  await page.keyboard.press('Enter');
  await dialog()
    .getByText(/^Still open\..* SW1 P03 now speaks against it\.$/)
    .waitFor();
  await back();
  await follow();
  await dialog().getByText('Which device does SW1 P04 show: MIO31 or CON32?').waitFor();
});

it('stays open where it cannot be told', async () => {
  await dialog()
    .getByRole('button', { name: /Cannot tell$/ })
    .click();
  await dialog()
    .getByText(/^Still open\./)
    .first()
    .waitFor();
  await pictures(page, 'check-untold');
  // Both ports told nothing: the next best is to follow a cable.
  await dialog()
    .getByRole('button', { name: /^Next check/ })
    .click();
  await dialog()
    .getByRole('heading', { name: /^Where does the cable in SW1 P0\d end/ })
    .waitFor();
  await dialog().getByRole('button', { name: 'Cancel' }).click();
});

it('is opened from the work as well, which says who tried and when', async () => {
  await page.goto(`${phone.origin}/audit/${phone.audit}/fixes`);
  await page.getByText(/^SW1 P04: I\. Halloran could not tell, \d/).waitFor();
  await pictures(page, 'check-from-work');
  await press(/Check SW1 P0\d$/);
  await dialog()
    .getByRole('heading', { name: /^Where does the cable in SW1 P0\d end/ })
    .waitFor();
  await dialog()
    .getByRole('button', { name: /Cannot tell$/ })
    .click();
  await dialog().getByRole('button', { name: 'Undo' }).click();
  await dialog().waitFor({ state: 'detached' });
  await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
});

it('opens from the cause as well, and leads to the jack if wanted', async () => {
  await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
  await page
    .getByRole('button', { name: /Crossed, or the labels are swapped/ })
    .first()
    .click();
  await page
    .locator('.difference-details')
    .getByRole('button', { name: /SW1 P04$/ })
    .click();
  await dialog()
    .getByRole('button', { name: /^Go to SW1 P04/ })
    .click();
  await page.waitForURL(/walk\?at=SW1%2FP04/);
});
