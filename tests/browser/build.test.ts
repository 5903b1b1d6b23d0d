// Building at phone size without a network: landed and recorded by one tap, tested with words, a change against the plan
// with its reason and its end, the app gone in between, what is left. Data: the demo station (invented).
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { picture, pictures } from './harness.ts';
import { onePhone } from './onePhone.ts';
import { reportsAgree } from './reportsAgree.ts';

const phone = onePhone('build');
const { press, verdict, more, at } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});

describe('a build', () => {
  it('offers no landing to eyes alone', async () => {
    await phone.demoOffline();
    await phone.begin(/^Build/);
    await at('SW1/P01');
    expect(await page.getByRole('button', { name: /Plugged 1001/ }).count()).toBe(0);
    await more(/^Work on this end/);
    await page.getByText('You may only look here').waitFor();
    await page.keyboard.press('Escape');
  });

  it('lands and records by one tap where a plug may be moved', async () => {
    await more(/What you may do/);
    await page.getByRole('dialog').getByText('Unplug', { exact: true }).click();
    await expect.poll(() => page.locator('.permission-yes').allInnerTexts()).toContain('unplug');
    await picture(page, 'build-walk');
    await press('P01 Plugged 1001, as planned');
    await expect.poll(verdict).toContain('P01');
    await expect.poll(() => page.locator('.plate h1 .plate-big').innerText()).toBe('P02');
  });

  it('keeps a failed test with the tester’s words, then the one that passed', async () => {
    await at('SW1/P01');
    await more(/^Work on this end/);
    await page.getByLabel('What the tester says').fill('pair 3 open');
    await press('1001 failed');
    await expect.poll(() => page.getByRole('dialog').innerText()).toContain('pair 3 open');
    await picture(page, 'build-work');
    await page.reload();
    await at('SW1/P01');
    await more(/^What is left to build/);
    await page.getByText('test failed: pair 3 open').waitFor();
    await picture(page, 'build-left');
    await page.keyboard.press('Escape');
    await phone.settled();
    const shown = async () => (await page.locator('main').innerText()).replace(/\s+/g, ' ');
    const open = (screen: string) => page.goto(`${phone.origin}/audit/${phone.audit}/${screen}`);
    await open('differences');
    await expect.poll(shown).toContain('SW1 P01: 1001 failed its test: pair 3 open.');
    await pictures(page, 'build-failed');
    await open('fixes');
    await expect.poll(shown).toContain('SW1 P01: repair the end of 1001. The tester said: pair 3 open.');
    await expect.poll(shown).toContain('SW1 P01: test 1001 again, and record the result.');
    await pictures(page, 'build-mend');
    await open('report');
    await page.locator('#report-tests').scrollIntoViewIfNeeded();
    await pictures(page, 'build-tests', () => page.locator('#report-tests').scrollIntoViewIfNeeded());
    const failed = await reportsAgree(page);
    expect(failed.said).toEqual(expect.arrayContaining(['Tests', '1 test, 1 failed now', 'pair 3 open']));
    // The step itself leads to the form in which the result is recorded, and only once.
    await open('fixes');
    await press(/Begin/);
    const step = page.locator('.fix-words').first();
    while (!(await step.innerText()).includes('test 1001 again')) {
      const before = await step.innerText();
      await press(/Next step/);
      await expect.poll(() => step.innerText()).not.toBe(before);
    }
    await pictures(page, 'build-retest');
    await press('Record the test at SW1 P01');
    await page.getByRole('dialog').getByText('Work at SW1 P01').waitFor();
    await press('1001 passed');
    await expect.poll(() => page.getByRole('dialog').innerText()).toContain('done');
    await page.keyboard.press('Escape');
    await phone.settled();
    await open('report');
    const { said } = await reportsAgree(page);
    expect(said).toEqual(expect.arrayContaining(['failed, tested again since', 'passed', '2 tests, 0 failed now']));
    expect(said.join(' ')).not.toContain('failed its test');
  });

  it('asks once why a cable is elsewhere, and keeps the lash-up in the list until its day', async () => {
    await at('SW1/P03');
    await press(/^Type the label/);
    await page.getByRole('dialog').getByRole('textbox').fill('1004');
    await page.keyboard.press('Enter');
    await press('Yes, give the reason');
    await page.getByLabel('Temporary until').fill('1 December');
    await picture(page, 'build-change');
    await press('The planned jack is faulty');
    await expect.poll(verdict).toContain('P03');
    expect(await page.getByRole('button', { name: 'Yes, give the reason' }).count()).toBe(0);
    await more(/^What is left to build/);
    const text = await page.getByRole('dialog').innerText();
    expect(text).toContain('until 1 December');
    expect(text).toContain('The planned jack is faulty. I. Halloran');
  });
});
