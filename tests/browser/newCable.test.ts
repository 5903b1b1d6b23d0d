// A cable that the plan does not have, read at two jacks in a build: one cable with both ends, added to the plan from the
// walk; from a network port to an analogue input it is a hazard at once. Data: the demo station (invented).
import type { Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { pictures } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('new-cable');
const { read, verdict } = phone;
let page: Page;
beforeAll(async () => {
  page = phone.page;
  await phone.demoOffline();
  await phone.begin(/build/i);
});

const shown = async () => (await page.locator('body').innerText()).replace(/\s+/g, ' ');
const differences = async () => {
  await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
  await page
    .getByRole('button', { name: /Walk on/ })
    .first()
    .waitFor();
};

it('is one cable with both its ends, and is added to the plan from the walk', async () => {
  await read('SW1/P20', '7778');
  await read('SW2/P15', '7778');
  const offer = page.getByRole('region', { name: 'A cable off the plan' });
  await offer.getByText('7778 runs from SW1 P20 to SW2 P15, not in the plan.').waitFor();
  // One question about one cable.
  expect(await page.getByText('On purpose?').count()).toBe(0);
  await pictures(page, 'new-cable');
  await differences();
  await expect.poll(shown).toMatch(/1 difference .*7778 runs from SW1 P20 to SW2 P15, not in the plan\./);
  await phone.at('SW2/P15');
  await read('SW2/P15', '7778');
  await offer.getByRole('button', { name: 'Add it to the plan' }).click();
  await expect.poll(verdict).toContain('7778 goes into the plan with both ends');
  expect(await offer.count()).toBe(0);
  await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
  await expect.poll(shown).toMatch(/7778 new cable not in the plan SW1 P20 and SW2 P15/);
  const amend = page.getByRole('region', { name: 'Update the plan' });
  await amend.getByRole('button', { name: /^Update the plan: / }).click();
  await expect.poll(() => amend.innerText()).toContain('The plan in force already has all of it.');
  await page.goto(`${phone.origin}/plan`);
  await expect.poll(shown).toContain('Cables 149');
});

it('from a network port to an analogue input it is a hazard at once, and nothing is offered', async () => {
  await read('SW1/P21', '7790');
  await read('AIO22/I4', '7790');
  await expect
    .poll(verdict)
    .toMatch(/^I4: 7790, line audio and PoE on one plug[\s\S]*runs from I4 to SW1 P21, by its label/);
  expect(await page.getByRole('region', { name: 'A cable off the plan' }).count()).toBe(0);
  await pictures(page, 'new-cable-clash');
  await differences();
  await expect.poll(shown).toContain('7790 runs from AIO22 I4 to SW1 P21, by its label.');
});
