// What depends on a lead is named wherever it is to be pulled: the network of a frame that carries microphones takes
// them down, although nothing of it is marked on-air. Phone size, no network. Data: the demo station (invented); that a
// frame loses its audio with its network is common practice, no source.
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { PHONE, picture, pictures } from './harness.ts';
import { boxFaults } from './measure.ts';
import { onePhone } from './onePhone.ts';
import { resize, SIZES } from './sheets.ts';

const phone = onePhone('depends');
const { press, verdict, more, at } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});

const MICROPHONES = ['3001, host A', '3002, guest A1', '3003, guest A2', '3004, guest A3'];
const flat = async (selector: string) => (await page.locator(selector).first().innerText()).replace(/\s+/g, ' ');
const open = (path: string) => page.goto(`${phone.origin}${path}`);

describe('the network lead of a frame with microphones', () => {
  it('is found in another port', async () => {
    await phone.demoOffline();
    await phone.begin();
    await more(/^What you may do/);
    await page.getByRole('dialog').getByText('Unplug', { exact: true }).click();
    await at('SW1/P03');
    await page.locator('.thumb-states').getByRole('button', { name: 'Empty' }).click();
    await expect.poll(verdict).toContain('mpty');
    await at('SW1/P17');
    await page.locator('.thumb-tools').getByRole('button', { name: /^Type/ }).click();
    await page.getByRole('dialog').getByRole('textbox').fill('1003');
    await page.keyboard.press('Enter');
    await expect.poll(verdict).toContain('1003');
    await phone.settled();
  });

  it('says in the header of the work how many services depend on it, never none', async () => {
    await open(`/audit/${phone.audit}/fixes`);
    await page.locator('.fix-words').first().waitFor();
    const header = await flat('.plate');
    const services = Number(/Depend on it (\d+) services/.exec(header)?.[1] ?? 0);
    expect(services).toBeGreaterThanOrEqual(MICROPHONES.length);
    expect(header).not.toMatch(/Off air/);
    expect(await flat('main')).toContain(`Nothing marked on-air; ${services} services depend on it.`);
    await pictures(page, 'depends-work');
  });

  it('names all of them at the step, the rest of a long list one touch away', async () => {
    const step = page.getByRole('region', { name: 'Step in hand' });
    await press(/Begin/);
    await press(/Next step/);
    await expect.poll(() => flat('.fix-words')).toBe('SW1 P17: move 1003 to P03.');
    await expect.poll(() => step.innerText()).toContain('Goes off meanwhile');
    const rest = step.getByText(/^and \d+ more services$/);
    expect(await step.getByText('guest player A', { exact: false }).count()).toBe(0);
    await rest.click();
    await expect.poll(() => step.innerText()).toContain('guest player A');
    const named = await step.innerText();
    for (const one of MICROPHONES) expect(named).toContain(one);
    await pictures(page, 'depends-step');
    await press('Leave it');
    await page.getByRole('button', { name: /Begin/ }).waitFor();
  });

  it('stands in the header at 360 × 640 with text of 200 %, with nothing cut off', async () => {
    const small = SIZES.find(({ name }) => name === 'small')!;
    for (const text of [100, 200] as const) {
      await resize(page, { ...small, text } as (typeof SIZES)[number]);
      await picture(page, `depends-small-${text}`);
      expect(await boxFaults(page, `work at ${text} %`)).toEqual([]);
    }
    await resize(page, SIZES[1]);
    await page.setViewportSize(PHONE);
  });

  it('lists all of it on the cable’s page, with the same sentence', async () => {
    await open('/cable/1003');
    await page.getByText('What would be interrupted').waitFor();
    await expect.poll(() => flat('main')).toMatch(/Nothing marked on-air; \d+ services depend on it\./);
    const rest = page.getByText(/^and \d+ more cables$/).first();
    await rest.click();
    for (const one of MICROPHONES) await expect.poll(() => flat('main')).toContain(one.slice(6));
    await expect.poll(() => flat('main')).toContain('guest player A');
    await pictures(page, 'depends-cable');
  });
});

describe('the station’s own words for what is on the air', () => {
  it('are added on the screen of its rules, and count at once in the work', async () => {
    await open('/site-rules');
    const field = page.getByLabel('On-air word of this station');
    await field.fill('STL');
    await press('Add this on-air word');
    await page.getByText('STL already counts as on-air.').waitFor();
    await field.fill('host A');
    await press('Add this on-air word');
    await page.getByText('Marks what is on-air').waitFor();
    await field.scrollIntoViewIfNeeded();
    await pictures(page, 'depends-rules');
    await page.locator('.title-block').getByRole('button').last().click();
    await page.waitForURL(/desk-check/);
    await open(`/audit/${phone.audit}/fixes`);
    await expect.poll(() => flat('.plate')).toContain('Off air 1 circuit');
    await page.getByText(/^What depends on it/).click();
    await expect.poll(() => flat('main')).toContain('3001, host A, on air');
    await expect
      .poll(() => flat('main'))
      .toMatch(/1 on-air circuit goes off, each counted once; \d+ services depend on it in all\./);
    await open('/cable/3001');
    await expect.poll(() => flat('main')).toContain('goes on air');
  });
});
