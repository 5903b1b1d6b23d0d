// An audit of one rack that has to go beyond it: the far end of a rename in another room, a rack added by name, what is
// left at the end of a walk, and the way on from home. Phone size, no network. Data: the demo station (invented).
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { pictures } from './harness.ts';
import { onePhone } from './onePhone.ts';
import { settled } from './settled.ts';

const phone = onePhone('scope');
const { press, more, at, verdict } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});
const text = () => page.locator('body').innerText();
const soon = <T>(ask: () => T | Promise<T>) => expect.poll(ask);
const jack = () => page.locator('.plate h1').innerText();
const type = async (label: string) => {
  await press(/^Type the label/);
  await page.getByRole('dialog').getByRole('textbox').fill(label);
  await page.keyboard.press('Enter');
};

describe('a relabelling of one rack', () => {
  it('begins with one rack and a list of one name', async () => {
    await phone.demoOffline();
    await page.goto(`${phone.origin}/start-audit`);
    await page.getByLabel('Your name').fill('I. Halloran');
    await page.locator('label.choice-cell', { hasText: 'Relabel' }).click();
    await page.locator('label.choice-cell', { hasText: 'Touch' }).click();
    await page.locator('label', { hasText: 'Rack R1' }).click();
    await press(/Begin the walk/);
    await soon(text).toContain('Renaming list');
    phone.audit = /audit\/([^/?]+)/.exec(page.url())![1]!;
    await page.locator('label.choice-cell', { hasText: 'Pasted' }).click();
    await page.getByLabel('One pair a line').fill('1001 -> 9001');
    await press('Show every pair');
    await soon(text).toContain('To be renamed');
    await press(/Save 1 pair/);
    await soon(text).toContain('Not started');
  });

  it('says at the first end that the other is still to do, and goes there by one touch', async () => {
    await at('SW1/P01');
    await type('1001');
    await page.getByRole('button', { name: /^New label .* is on$/ }).click();
    await soon(text).toContain('half done: 1001');
    await page.locator('.renaming-half').click();
    const row = page.getByRole('region', { name: 'Half done' });
    await soon(() => row.innerText()).toMatch(/CON\d+ NET: put the new label 9001 on\./);
    await pictures(page, 'scope-half-done');
    await row.getByRole('button', { name: /^Go to CON\d+ NET, outside this audit$/ }).click();
    await soon(jack).toContain('NET');
    await soon(text).toMatch(/CON\d+ is outside this audit/);
    await pictures(page, 'scope-outside');
  });

  it('takes the far end like any other: old label, new one beside it', async () => {
    await type('1001');
    await soon(verdict).toContain('old label, becomes 9001');
    await soon(jack).toContain('NET');
    await page.getByRole('button', { name: /^New label .* is on$/ }).click();
    await soon(verdict).toContain('9001');
    await at('SW1/P01');
    await soon(text).toContain('Both ends have 9001. Take 1001 off.');
  });
});

describe('a scope that grows', () => {
  it('adds a unit on the spot, and takes it back', async () => {
    await page.goto(`${phone.origin}/audit/${phone.audit}/walk?at=${encodeURIComponent('SW2/P01')}`);
    await soon(text).toContain('SW2 is outside this audit');
    await press('Add unit SW2');
    await soon(text).toContain('Added to this audit: unit SW2.');
    await soon(text).not.toContain('SW2 is outside this audit');
    await press('Undo');
    await soon(text).toContain('Undone: adding unit SW2.');
  });

  it('adds a rack by its name, which the report tells with who and when', async () => {
    await at('SW1/P02');
    await more(/^Add a rack, room or unit/);
    const sheet = page.getByRole('dialog');
    await sheet.getByLabel('Rack, room or unit').fill('R2');
    await sheet.getByRole('button', { name: /^rack R2/ }).waitFor();
    await pictures(page, 'scope-add');
    await sheet.getByRole('button', { name: /^rack R2/ }).click();
    await soon(text).toContain('Added to this audit: rack R2.');
    await page.goto(`${phone.origin}/audit/${phone.audit}/walk?at=${encodeURIComponent('SW2/P01')}`);
    await soon(jack).toContain('P01');
    expect(await text()).not.toContain('is outside this audit');
    await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
    await soon(text).toMatch(/Added during the audit[\s\S]*rack R2[\s\S]{0,20}I\. Halloran/);
    expect(await text()).not.toContain('unit SW2');
  });
});

describe('the way on from home', () => {
  it('goes on with the audit under way, and has its differences and work one touch away', async () => {
    await settled(page);
    await page.goto(phone.origin);
    await page.getByRole('button', { name: /^Differences of/ }).waitFor();
    await pictures(page, 'scope-home');
    const dark = page.locator('.cell-primary');
    expect(await dark.innerText()).toMatch(/Go on/);
    await press(/^Differences of/);
    await soon(() => page.url()).toContain(`/audit/${phone.audit}/differences`);
    await page.goBack();
    await press(/^Work of/);
    await soon(() => page.url()).toContain(`/audit/${phone.audit}/fixes`);
    await page.goBack();
  });

  it('tells at the end what was not looked at, then differences, work and report, and does not begin another', async () => {
    await page.goto(`${phone.origin}/start-audit`);
    await page.getByLabel('Your name').fill('I. Halloran');
    await page.locator('label', { hasText: 'Room Studio B' }).click();
    await press(/Begin the walk/);
    await page.waitForURL(/walk/);
    phone.audit = /audit\/([^/?]+)/.exec(page.url())![1]!;
    await page.locator('.thumb-states').waitFor();
    const next = page.getByRole('region', { name: 'Next', exact: true });
    // Every jack of the room gets an entry: what is seen by one tap, two of them out of sight.
    for (let n = 0; (await next.count()) === 0; n++) {
      const before = page.url();
      await (n < 2
        ? press(/Can’t see it/)
        : page
            .locator('.thumb-states')
            .getByRole('button', { name: /^Empty/ })
            .click());
      await settled(page);
      if ((await next.count()) === 0) await soon(() => page.url()).not.toBe(before);
    }
    expect(await next.innerText()).toContain('Every jack has an entry. 2 jacks were not looked at.');
    await pictures(page, 'scope-end');
    expect((await next.getByRole('button').allInnerTexts()).slice(0, 4)).toEqual([
      'Next: 2 jacks not looked at',
      'Differences',
      'Work',
      'Report',
    ]);
    await page.goto(phone.origin);
    const dark = page.locator('.cell-primary');
    await soon(() => dark.innerText()).toMatch(/Go on/);
    await dark.click();
    await soon(() => page.url()).toContain(`/audit/${phone.audit}/walk`);
    await next.waitFor();
    await next.getByRole('button', { name: 'Next: 2 jacks not looked at' }).click();
    await soon(() => page.locator('.walk-ask, .verdict, .plate').allInnerTexts()).not.toEqual([]);
  });
});
