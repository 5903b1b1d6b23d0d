// The work to do at phone size without a network: a shifted row is found in the walk, put back step by step with the way
// back at hand, kept through a reload, and gone from the list once the jacks were looked at again. Data: the demo station
// (invented).
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { DESK, PHONE, picture } from './harness.ts';
import { onePhone } from './onePhone.ts';
import { settled } from './settled.ts';

const phone = onePhone('fixes');
const { press, verdict } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});

const now = () => page.locator('.fix-words').first().innerText();

async function say(place: string, label: string | null): Promise<void> {
  await phone.at(place);
  if (label === null) await page.locator('.thumb-states').getByRole('button', { name: 'Empty' }).click();
  else {
    await page.locator('.thumb-tools').getByRole('button', { name: /^Type/ }).click();
    await page.getByRole('dialog').getByRole('textbox').fill(label);
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  }
  await expect.poll(verdict).toContain(label ?? 'mpty');
}

describe('the work to do', () => {
  it('is entered from the differences, and what needs a hand waits while only looking is allowed', async () => {
    await phone.demoOffline();
    await phone.begin();
    await say('SW2/P05', null);
    await say('SW2/P06', '1035');
    await say('SW2/P07', '1036');
    await say('SW2/P08', '1037');
    await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
    await press('Work to do');
    await page.waitForURL(/\/fixes$/);
    await page.getByText('permission to unplug').first().waitFor();
    await expect.poll(() => page.locator('main').innerText()).toContain('SW2 P06: move 1035 to P05.');
    expect(await page.getByRole('button', { name: /Begin/ }).count()).toBe(0);
    await picture(page, 'fixes-waiting');
  });

  it('is allowed by a window that somebody agreed, said so at the step, and waits again without it', async () => {
    await press(/^No maintenance window is agreed/);
    const sheet = page.getByRole('dialog');
    await sheet.getByRole('button', { name: /Agreed$/ }).click();
    await sheet.getByText('Type when it is.').waitFor();
    await picture(page, 'fixes-window-missing');
    await sheet.getByLabel('When, as agreed').fill('Thursday night, 02:00 to 04:00');
    await sheet.getByLabel('Agreed with').fill('the duty controller');
    await sheet.getByRole('checkbox', { name: /^Rack R2/ }).check();
    // A draft is on disk a moment after the last touch.
    await phone.settled();
    await page.reload();
    await press(/^No maintenance window is agreed/);
    await expect.poll(() => sheet.getByLabel('Agreed with').inputValue()).toBe('the duty controller');
    await picture(page, 'fixes-window');
    await sheet.getByRole('button', { name: /Agreed$/ }).click();
    await sheet.waitFor({ state: 'detached' });
    await page.getByText('Only in the maintenance window: Thursday night, 02:00 to 04:00.').waitFor();
    await page.getByRole('button', { name: /Only in the maintenance window Begin/ }).waitFor();
    await picture(page, 'fixes-window-agreed');
    await press(/^Thursday night/);
    await sheet.getByRole('button', { name: /Withdraw it/ }).click();
    await page.getByText('No maintenance window is agreed').waitFor();
    await expect.poll(() => page.getByRole('button', { name: /Begin/ }).count()).toBe(0);
  });

  it('goes step by step once unplugging is allowed, and stands where it stood after a reload', async () => {
    await phone.at('SW2/P05');
    await phone.more(/^What you may do/);
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /^Unplug/ })
      .click();
    await expect.poll(() => page.locator('.permission-yes').allInnerTexts()).toContain('unplug');
    await page.goto(`${phone.origin}/audit/${phone.audit}/fixes`);
    await press(/Begin/);
    await expect.poll(now).toContain('listen to the air signal');
    await press(/Next step/);
    await expect.poll(now).toBe('SW2 P06: move 1035 to P05.');
    await page.getByText('1035 (by plan').first().waitFor();
    await picture(page, 'fixes-step');
    await press(/Next step/);
    await expect.poll(now).toBe('SW2 P07: move 1036 to P06.');
    await settled(page);
    await page.reload();
    await expect.poll(now).toBe('SW2 P07: move 1036 to P06.');
  });

  it('leads back to the floor as found from any step', async () => {
    await press(/Roll back/);
    await expect.poll(now).toBe('SW2 P05: move 1035 to P06.');
    await picture(page, 'fixes-back');
    await press(/As it was found/);
    await page.getByRole('button', { name: /Begin/ }).waitFor();
  });
});

describe('on every sheet', () => {
  it.each([
    ['phone', PHONE, 'light'],
    ['phone', PHONE, 'dark'],
    ['desk', DESK, 'light'],
    ['desk', DESK, 'dark'],
  ] as const)('stands on a %s %o in the %s theme', async (device, size, theme) => {
    await page.setViewportSize(size);
    await page.emulateMedia({ colorScheme: theme });
    await page.goto(`${phone.origin}/audit/${phone.audit}/fixes`);
    await page.locator('.fix-words').first().waitFor();
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(over).toBeLessThanOrEqual(0);
    await picture(page, `fixes-${device}-${theme}`);
  });
});

describe('the end of the work', () => {
  it('ends with a look at each place, and those looks take it off the list', async () => {
    await page.setViewportSize(PHONE);
    await press(/Begin/);
    for (let i = 0; i < 5; i++) await press(/Next step/);
    await page.getByText('Done. Look again.').waitFor();
    await picture(page, 'fixes-done');
    await press(/^Look again SW2 P05/);
    await page.waitForURL(/walk\?at=SW2/);
    await expect.poll(() => page.locator('.plate h1 .plate-big').innerText()).toBe('P05');
    await say('SW2/P05', '1035');
    // What P06 bore before the work is no fault of P05.
    expect(await verdict()).toMatch(/P05: 1035, as planned\.\s+Now check P06\./);
    await picture(page, 'fixes-check-next');
    await phone.settled();
    await page.goto(`${phone.origin}/audit/${phone.audit}/fixes`);
    await page.getByRole('button', { name: /^SW2 P05\s*Checked again/ }).waitFor();
    expect(await page.getByRole('button', { name: /Finish/ }).count()).toBe(0);
    await press(/^Look again SW2 P06/);
    await say('SW2/P06', '1036');
    await say('SW2/P07', '1037');
    expect(await page.getByRole('button', { name: 'Finish the work' }).count()).toBe(0);
    await say('SW2/P08', null);
    expect(await verdict()).toContain('as planned');
    await press('Finish the work');
    await page.waitForURL(/\/fixes$/);
    await page.getByText('every place was checked again').waitFor();
    await picture(page, 'fixes-checked');
    await press('Finish');
    await page.getByText('No work to do.').waitFor();
    await picture(page, 'fixes-none');
    await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
    await page.getByText('As found and as left').waitFor();
    const report = await page.locator('main').innerText();
    expect(report.replace(/\s+/g, ' ')).toMatch(/SW2 P05 1035 empty \([^)]*\) 1035 \([^)]*\) as planned/);
    await page.getByText('As found and as left').scrollIntoViewIfNeeded();
    await picture(page, 'fixes-left');
  });

  it('leaves what was found on record beside what was left', async () => {
    const kinds = await page.evaluate(async () => {
      const names = (await indexedDB.databases()).map(({ name }) => name ?? '');
      const texts: string[] = [];
      for (const name of names) {
        const db = await new Promise<IDBDatabase>((done, fail) => {
          const asked = indexedDB.open(name);
          asked.onsuccess = () => done(asked.result);
          asked.onerror = () => fail(asked.error);
        });
        if (db.objectStoreNames.contains('events')) {
          const rows = await new Promise<{ text: string }[]>((done, fail) => {
            const asked = db.transaction('events').objectStore('events').getAll();
            asked.onsuccess = () => done(asked.result);
            asked.onerror = () => fail(asked.error);
          });
          texts.push(...rows.map(({ text }) => text));
        }
        db.close();
      }
      return texts.map((text) => JSON.parse(text) as { kind: string; payload: Record<string, unknown> });
    });
    const looks = kinds.filter(({ kind }) => kind === 'sighting');
    expect(looks).toHaveLength(8);
    expect(looks.filter(({ payload }) => payload.withdraws)).toEqual([]);
    expect(looks.filter(({ payload }) => payload.changedSince)).toHaveLength(4);
  });
});
