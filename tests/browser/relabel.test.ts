// A relabelling in a real browser at phone size, without a network: a list in, two cables walked of which two exchange
// their names, the page killed between the acts, closing refused, the rest handed over, the new names made the plan.
// Data invented after the Quillmere list; the exchange is field scenario 5.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { goOffline, openPhone, picture, type Served, serve, untilOffline } from './harness.ts';
import { fakeCameraScript } from './labels.ts';
import { openRow } from './sheets.ts';

const SCHEDULE = [
  'Cable No,From Unit,From Jack,To Unit,To Jack,Signal,Source name',
  '2004,COD41,AES OUT,DIO21,I1,AES3,Studio feed',
  '2005,COD42,AES OUT,DIO22,I1,AES3,Codec 2005',
  '2006,COD43,AES OUT,DIO23,I1,AES3,Return',
].join('\n');
const LIST = ['Old,New,Why', '2004,2005,exchanged', '2005,2004,exchanged', '9999,1,', '2007,,', ',,'].join('\n');

let served: Served;
let profile: string;
let phone: BrowserContext;
let page: Page;
let audit = '';

async function open(): Promise<void> {
  phone = await openPhone(profile);
  await phone.addInitScript({ content: fakeCameraScript });
  page = await phone.newPage();
  page.setDefaultTimeout(60_000);
  page.on('pageerror', (error) => console.error(error));
}

/** Ends the browser as a phone does that kills the app, and comes back to the walk without a network. */
async function killAndReturn(): Promise<void> {
  const { pathname, search } = new URL(page.url());
  await phone.close();
  await open();
  await phone.setOffline(true);
  await page.goto(`${served.origin}${pathname}${search}`);
}

beforeAll(async () => {
  served = await serve();
  profile = mkdtempSync(join(tmpdir(), 'asfound-phone-'));
  await open();
});
afterAll(async () => {
  await phone?.close();
  await served?.stop();
  rmSync(profile, { recursive: true, force: true });
});
afterEach(async ({ task }) => {
  if (task.result?.state === 'fail') await picture(page, 'relabel-failed');
});

const text = () => page.locator('body').innerText();
const press = (name: string | RegExp) => page.getByRole('button', { name }).first().click();
const soon = <T>(ask: () => T | Promise<T>) => expect.poll(ask);
const renaming = () => page.getByLabel('Renaming', { exact: true });
const verdict = () => page.locator('.verdict').innerText();
const standAt = (jack: string) => expect.poll(() => page.locator('.plate').innerText()).toContain(jack);

async function goTo(place: string): Promise<void> {
  await page.goto(`${served.origin}/audit/${audit}/walk?at=${encodeURIComponent(place)}`);
  await renaming().waitFor();
}

async function scan(label: string, then: RegExp): Promise<void> {
  await expect.poll(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
  await page.evaluate((shown) => window.__showLabel(shown), label);
  await expect.poll(verdict).toMatch(then);
  await page.evaluate(() => window.__showLabel(null));
}

describe('a relabelling', () => {
  it('begins with a list, shows every pair and leaves nothing unsaid', async () => {
    await page.goto(served.origin);
    await press(/Import a schedule/);
    await page
      .locator('input[type=file]')
      .first()
      .setInputFiles({
        name: 'codecs.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from(SCHEDULE),
      });
    await press(/Use as the plan/);
    await soon(text).toContain('3 cables');
    await untilOffline(page);
    await goOffline(phone, served);

    await press(/Begin an audit/);
    await page.getByLabel('Your name').fill('I. Halloran');
    await page.locator('label.choice-cell', { hasText: 'Relabel' }).click();
    await page.locator('label.choice-cell', { hasText: 'Touch' }).click();
    await press(/Begin the walk/);
    await soon(text).toContain('Renaming list');
    audit = /audit\/([^/]+)/.exec(page.url())![1]!;
    await picture(page, 'relabel-list-empty');
    await page
      .locator('input[type=file]')
      .first()
      .setInputFiles({
        name: 'new names.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from(LIST),
      });
    await soon(text).toContain('To be renamed');
    const shown = await text();
    expect(shown).toContain('The plan has no cable with this old name.');
    expect(shown).toContain('Not read: no new name.');
    expect(shown).toContain('2 rows left out');
    expect(shown).toContain('takes a name that this list frees');
    await picture(page, 'relabel-preview');
    await press(/Save 2 pairs/);
    await soon(text).toContain('Not started');
    await picture(page, 'relabel-list-new');
  });

  it('takes further names as pasted lines or by a rule, and a list that nobody began is taken back', async () => {
    const take = async (name: string) => {
      await press('Show every pair');
      await soon(text).toContain('COD43 AES OUT to DIO23 I1');
      await press(/Save 1 pair/);
      await soon(text).toContain(name);
    };
    await press(/Import another list/);
    await page.locator('label.choice-cell', { hasText: 'Pasted' }).click();
    await page.getByLabel('One pair a line').fill('2OO6 -> 3006');
    await press('Show every pair');
    await soon(text).toContain('Questions to answer');
    await picture(page, 'relabel-ask');
    await press(/It is 2006/);
    await soon(text).toContain('To be renamed');
    await press(/Save 1 pair/);
    await soon(text).toContain('Pasted list');
    await page.getByRole('button', { name: 'Remove this list' }).last().click();
    await press('Remove the whole list');
    await soon(text).not.toContain('Pasted list');

    await press(/Import another list/);
    await page.locator('label.choice-cell', { hasText: 'By rule' }).click();
    await page.locator('label.choice-cell', { hasText: '2005 becomes 3005' }).click();
    await page.getByLabel('Add to the last number').fill('1000');
    await page.getByLabel('Only labels that begin with').fill('2006');
    await picture(page, 'relabel-rule');
    await take('Number plus 1000, labels beginning with 2006');
    await soon(text).toContain('0 of 3');
  });

  it('reads the old label, puts the new one beside it, and is there again after the app was killed', async () => {
    await goTo('COD42/AES-OUT');
    await press('Start camera');
    await scan('2005', /old label, becomes 2004/);
    expect(await renaming().innerText()).toContain('follow it or have that confirmed first');
    await picture(page, 'relabel-put');
    await killAndReturn();
    await standAt('AES OUT');
    expect(await renaming().innerText()).toContain('follow it or have that confirmed first');
    await press(/^New label .* is on$/);
    await soon(() => renaming().innerText()).toContain('1 cable half done: 2005');
  });

  it('says of the other end what it is: old label, becomes 2004, the other end is done', async () => {
    await goTo('DIO22/I1');
    await scan('2005', /old label, becomes 2004/);
    expect(await verdict()).toContain('The other end is done: COD42 AES OUT has 2004.');
    await picture(page, 'relabel-other-end');
    // Not done, so the old one is nowhere offered to come off.
    expect(await page.getByRole('button', { name: /^Old label/ }).count()).toBe(0);
  });

  it('shows on the first screen what is half done', async () => {
    await page.goto(served.origin);
    await press(/1 cable half done: 2005/);
    await soon(text).toContain('DIO22 I1: put the new label 2004 on.');
    await page.goBack();
    await soon(text).toContain('1 cable half done: 2005');
    await picture(page, 'relabel-home');
  });

  it('asks where a label may be the new one or another cable’s, and takes the answer back', async () => {
    await goTo('DIO21/I1');
    await scan('2005', /which cable\?/);
    await picture(page, 'relabel-unclear');
    await press('It is cable 2005');
    await soon(verdict).toContain('differs');
    await press('Undo');
    await soon(verdict).toContain('Undone');
    expect(await page.locator('.renaming-half').innerText()).toBe('1 cable half done: 2005');
    // What was read stands again, and so does the question.
    await page.getByRole('button', { name: 'It is cable 2005' }).waitFor();
  });

  it('offers nothing to a hand where hands are not allowed', async () => {
    await goTo('DIO22/I1');
    expect(await page.getByRole('button', { name: /^New label .* is on$/ }).count()).toBe(1);
    await press('More');
    await openRow(page, /What you may do/);
    await page.getByRole('dialog').getByRole('button', { name: /^Look/ }).click();
    await soon(() => renaming().innerText()).toContain('Look only: do not touch it.');
    expect(await page.getByRole('button', { name: /^(New|Old) label/ }).count()).toBe(0);
    await page.emulateMedia({ colorScheme: 'dark' });
    await picture(page, 'relabel-look-dark');
    await press('More');
    await openRow(page, /What you may do/);
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /^Touch/ })
      .click();
    await page.getByRole('button', { name: /^New label .* is on$/ }).waitFor();
    await picture(page, 'relabel-put-dark');
    await page.emulateMedia({ colorScheme: 'light' });
  });

  it('finds both meanings of an exchanged name', async () => {
    await page.goto(`${served.origin}/search?for=2004`);
    await soon(text).toContain('now 2005, becomes 2004');
    expect(await text()).toContain('becomes 2005');
  });

  it('is not closed while a pair is half done', async () => {
    await goTo('DIO22/I1');
    await press('More');
    await openRow(page, 'Close the audit');
    const sheet = page.getByRole('dialog');
    await soon(() => sheet.innerText()).toContain('1 cable is half renamed: 2005');
    expect(await sheet.getByRole('button', { name: 'Close it' }).isDisabled()).toBe(true);
    await picture(page, 'relabel-refused');
    await page.goto(`${served.origin}/audit/${audit}/report`);
    await press(/Close/);
    await soon(() => page.getByRole('dialog').innerText()).toContain('half renamed: 2005');
    expect(
      await page
        .getByRole('dialog')
        .getByRole('button', { name: /^Close/ })
        .isDisabled(),
    ).toBe(true);
  });

  it('takes the reading of the new label at its jack for the tap, and then the old ones off', async () => {
    await goTo('DIO22/I1');
    await scan('2004', /is on, old 2005 is still on/);
    await standAt('I1');
    expect(await renaming().innerText()).toContain('Both ends have 2004. Take 2005 off.');
    await picture(page, 'relabel-off');
    await press(/^Old label .* is off$/);
    await soon(verdict).toContain('old 2005 is off');
    await goTo('COD42/AES-OUT');
    await press(/^Old label .* is off$/);
    await soon(verdict).toContain('old 2005 is off');
    // The page of DIO22 still says Codec 2005: labels alone do not make it done.
    await goTo('COD42/AES-OUT');
    await press('What is left');
    await soon(text).toContain('DIO22 I1, name: Codec 2005');
    await picture(page, 'relabel-settings');
    await press('It shows Codec 2004');
    await soon(text).toContain('1 of 3');
    await goTo('COD42/AES-OUT');
    expect(await page.locator('.renaming-half').count()).toBe(0);
  });

  it('takes labels that another person left for what they are, and hands over what stays half done', async () => {
    await goTo('COD41/AES-OUT');
    await press(/reads 2004/i);
    await press(/^New label .* is on$/);
    await soon(verdict).toContain('is on, old 2004 is still on');
    await goTo('DIO21/I1');
    await press('Type');
    await page.getByRole('dialog').getByRole('textbox').fill('2004');
    await page.keyboard.press('Enter');
    // It was read as 2005 before.
    await page.getByRole('dialog').getByRole('button', { name: 'Misread' }).click();
    await soon(verdict).toMatch(/old label, becomes 2005/);
    await press(/^New label .* is on$/);
    await soon(() => renaming().innerText()).toContain('Take 2004 off');
    await killAndReturn();
    await press(/^Old label .* is off$/);
    await soon(verdict).toContain('old 2004 is off');
    await goTo('COD41/AES-OUT');
    await press(/^Old label .* is off$/);
    await soon(verdict).toContain('was 2004, renamed');

    await goTo('COD43/AES-OUT');
    await press(/reads 2006/i);
    await press('Record it as followed');
    await soon(() => renaming().innerText()).toContain('Followed to DIO23 I1.');
    expect(await page.getByRole('button', { name: 'Record it as followed' }).count()).toBe(0);
    await press('Not now');
    await standAt('DIO21');
    await goTo('COD43/AES-OUT');
    await press(/^New label .* is on$/);
    await soon(() => renaming().innerText()).toContain('1 cable half done: 2006');
    await press(/1 cable half done/);
    await soon(text).toContain('DIO23 I1: put the new label 3006 on.');
    await picture(page, 'relabel-half');
    await press('Hand over');
    await page.getByRole('dialog').getByRole('textbox').fill('P. Oduya puts 3006 on at DIO23 on Monday.');
    await picture(page, 'relabel-hand-over');
    await page.getByRole('dialog').getByRole('button', { name: 'Hand over' }).click();
    await soon(text).toContain('Handed over: P. Oduya');
  });

  it('makes only the finished names the plan', async () => {
    await soon(text).toContain('2 cables get their new names in the plan, and 1 setting with them');
    await page.getByText('Make the new names the plan').scrollIntoViewIfNeeded();
    await picture(page, 'relabel-adopt');
    await page.emulateMedia({ colorScheme: 'dark' });
    await picture(page, 'relabel-adopt-dark');
    await page.emulateMedia({ colorScheme: 'light' });
    await press(/^Update the plan: /);
    await soon(text).toContain('The plan has the new names.');
    await page.goto(`${served.origin}/search?for=AES OUT`);
    await soon(text).toContain('COD42 AES OUT to DIO22 I1');
    const hit = page.getByRole('button', { name: /COD42 AES OUT to DIO22 I1/ });
    expect(await hit.innerText()).toContain('2004');
    expect(await page.getByRole('button', { name: /COD43 AES OUT to DIO23 I1/ }).innerText()).toContain('2006');
  });

  it('prints what is still to be put on, and may be closed now', async () => {
    await page.goto(`${served.origin}/labels/${audit}`);
    await press(/Labels for the renaming list/);
    await soon(text).toContain('Print 1 label');
    // CSS counts 96 px to 25.4 mm: a label is 60 by 16 mm, the ruler 100 mm.
    const millimetres = (part: string) =>
      page.locator(part).evaluate((box) => {
        const { width, height } = box.getBoundingClientRect();
        return [width, height].map((px) => Math.round((px * 254) / 96) / 10);
      });
    expect(await millimetres('.strip-one')).toEqual([60, 16]);
    // On a phone's screen there is no room for it; paper has it whole.
    await page.emulateMedia({ media: 'print' });
    expect((await millimetres('.label-ruler'))[0]).toBe(100);
    await page.emulateMedia({ media: 'screen' });
    await picture(page, 'relabel-labels');
    await goTo('COD43/AES-OUT');
    await press('More');
    await openRow(page, 'Close the audit');
    await page.getByRole('dialog').getByRole('button', { name: 'Close it' }).click();
    await page.waitForURL(/report/);
    const told = page.getByRole('cell', { name: /P\. Oduya/ });
    await told.scrollIntoViewIfNeeded();
    await picture(page, 'relabel-report');
  });
});
