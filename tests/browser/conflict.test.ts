// Two people enter different labels at one jack: both values stand side by side with who and when, the first act is to
// check again there, and nothing is fixed, amended or decided from it before. Phone size, no network; the demo station.
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { pictures } from './harness.ts';
import { onePhone } from './onePhone.ts';
import { settled } from './settled.ts';

const phone = onePhone('conflict');
const { press, at, more } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});
const soon = <T>(ask: () => T | Promise<T>) => expect.poll(ask);
const type = async (label: string) => {
  await press(/^Type the label/);
  await page.getByRole('dialog').getByRole('textbox').fill(label);
  await page.keyboard.press('Enter');
  await settled(page);
};
const conflict = () => page.getByRole('region', { name: 'Entries that contradict each other' });
const main = () => page.locator('main').innerText();
/** Number of the difference that has nothing to do with the conflict. */
let other: string | undefined;

describe('a conflict', () => {
  it('comes of two entries that cannot both be true', async () => {
    await phone.demoOffline();
    await phone.begin();
    await at('SW1/P07');
    await type('1007');
    await at('SW2/P01');
    await type('1012');
    await page.goto(`${phone.origin}/settings`);
    await page.getByLabel('Your name').fill('R. Quill');
    await settled(page);
    await at('SW1/P07');
    await type('1012');
    await press('Cannot tell: keep both');
    await settled(page);
  });

  it('shows both values with who and when, and offers to check again before anything else', async () => {
    await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
    await soon(() => page.locator('main').innerText()).toContain(
      'SW1 P07: 1007 or 1012? 2 entries differ. Check again.',
    );
    expect(await page.locator('main').innerText()).toMatch(/1 conflict to check again first\./);
    await page.getByRole('button', { name: /Entries contradict each other/ }).click();
    await conflict().waitFor();
    const shown = await conflict().innerText();
    expect(shown).toMatch(/1007\s+I\. Halloran, [\s\S]*by eye\s+1012\s+R\. Quill, [\s\S]*by eye/);
    other = /No\. (\d+)\.\s+SW2 P01/.exec(await main())?.[1];
    expect(other).toMatch(/^\d{5}$/);
    await pictures(page, 'conflict', () => conflict().scrollIntoViewIfNeeded());
    const acts = page.locator('.difference-details').getByRole('button');
    expect(await acts.first().innerText()).toMatch(/^Check again:\s+SW1 P07$/);
    for (const none of ['Fix the wiring', 'Update the plan', 'Leave it'])
      expect(await page.getByRole('button', { name: none }).count()).toBe(0);
  });

  it('is one step of the work: check again', async () => {
    await page.goto(`${phone.origin}/audit/${phone.audit}/fixes`);
    await soon(() => page.locator('main').innerText()).toContain('SW1 P07: check again, 1007 or 1012?');
    expect(await page.locator('main').innerText()).not.toMatch(/SW1 P07: (move|pull|plug)/);
  });

  it('leads to the jack, where reading again settles it; the other number stays', async () => {
    await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
    await page.getByRole('button', { name: /Entries contradict each other/ }).click();
    await conflict()
      .getByRole('button', { name: /^Check again/ })
      .click();
    await soon(() => page.locator('.plate h1').innerText()).toContain('P07');
    await type('1007');
    await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
    await soon(main).toContain('SW2 P01: 1012 is here');
    expect(await main()).not.toContain('Entries contradict each other');
    expect(await main()).toContain(`No. ${other}`);
  });
});

describe('a hazard that somebody saw', () => {
  it('tells who saw it and when', async () => {
    await at('SW1/P07');
    await more(/^Hazard seen/);
    const sheet = page.getByRole('dialog');
    await sheet.getByRole('button', { name: /Earth or bond missing/ }).click();
    await sheet.getByLabel('What you see').fill('the braid hangs loose');
    await sheet.getByRole('button', { name: 'Record' }).click();
    await settled(page);
    await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
    await page
      .locator('main')
      .getByRole('button', { name: /Earth or bond missing/ })
      .first()
      .click();
    await soon(() => page.locator('.difference-details').innerText()).toMatch(/Evidence\s+By eye, [^\n]+, R\. Quill/);
    expect(await main()).toContain(`No. ${other}`);
  });
});
