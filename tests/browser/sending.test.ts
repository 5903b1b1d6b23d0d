// The screen of sending in a real browser: what something on the way does not let pass is named and sent again by a tap,
// a clock that is minutes off is told, and photos wait when a person says so.
import type { Route } from 'playwright-core';
import { expect, it } from 'vitest';
import { picture } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('sending');
/** Stands between phone and server. */
const way = { tooLarge: false, behindMs: 0 };

async function onTheWay(route: Route): Promise<void> {
  const request = route.request();
  if (way.tooLarge && request.method() === 'POST') return await route.fulfill({ status: 413, body: '<html>' });
  if (way.behindMs === 0) return await route.continue();
  const response = await route.fetch();
  const json = (await response.json()) as { now?: number };
  await route.fulfill({ response, json: { ...json, now: (json.now ?? 0) - way.behindMs } });
}

it('pairs, says that nothing waits, and hears of others at once', async () => {
  const { page, origin, served } = phone;
  await page.route('**/api/events**', onTheWay);
  await page.goto(origin);
  await page.getByText('Open the demo station').click();
  await page.getByText('148 cables').waitFor();
  await phone.settled();
  await page.goto(`${origin}/sync`);
  await page.getByLabel('Code').fill(served.code);
  await page.getByRole('button', { name: 'Pair', exact: true }).click();
  await page.getByText('Nothing waits to be sent.').waitFor();
  await page.getByText('What others record arrives at once.').waitFor();
});

it('names what the way does not let pass, counts it as not sent, and sends it again at a tap', async () => {
  const { page, origin } = phone;
  way.tooLarge = true;
  await phone.begin();
  await phone.settled();
  await page.goto(`${origin}/sync`);
  const held = page.getByRole('button', {
    name: /Something on the way to the server refuses anything that large.*Send again|Send again/,
  });
  await page
    .getByText(/Something on the way to the server refuses anything that large\. The app tries again/)
    .first()
    .waitFor();
  await page.getByText('held back; the reasons are below.').waitFor();
  expect(await page.locator('.plate').innerText()).toMatch(/Not sent\s*1/);
  await picture(page, 'sending-held');
  way.tooLarge = false;
  await held.first().click();
  await page.getByText('Nothing waits to be sent.').waitFor();
  expect(await held.count()).toBe(0);
  expect(await page.getByText('Held back').count()).toBe(0);
});

it('tells a clock that is twelve minutes ahead, and one that is right again no more', async () => {
  const { page } = phone;
  const clock = page.getByText('This phone’s clock is 12 minutes ahead of the server’s.');
  way.behindMs = 12 * 60_000;
  await page.getByRole('button', { name: /Send now/ }).click();
  await clock.waitFor();
  await picture(page, 'sending-clock');
  way.behindMs = 0;
  await page.getByRole('button', { name: /Send now/ }).click();
  await clock.waitFor({ state: 'detached' });
});

it('keeps in mind that photos go over a good network only', async () => {
  const { page } = phone;
  await page.getByText('a good one only').click();
  // On disk before the page goes.
  await phone.settled();
  await page.reload();
  await expect.poll(() => page.getByRole('radio', { name: 'a good one only' }).isChecked()).toBe(true);
});
