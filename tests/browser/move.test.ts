// After a move at phone size without a network: a cable is read anywhere in the bundle and its jack touched, on this unit
// and on another one, kept through a reload; in a blind audit nothing expected is anywhere in the page before it was
// stated. Data: the demo station (invented).
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { picture } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('move', { camera: true });
const { press, verdict, more, begin } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});

describe('label first', () => {
  it('asks where a cable goes that was read anywhere, with a ring where the plan has it', async () => {
    await phone.demoOffline();
    await begin();
    await more(/^Label first/);
    await press('Start camera');
    await page.evaluate(() => window.__showLabel('1009'));
    await expect.poll(verdict).toContain('where does it go?');
    await page.evaluate(() => window.__showLabel(null));
    await page.getByText('In the plan it is where the ring is dashed.').waitFor();
    expect(await page.locator('.walk-held .range-line').count()).toBe(1);
    await picture(page, 'label-first');
  });

  it('keeps the label in hand through a reload, and one touch of a jack says it', async () => {
    await page.reload();
    await expect.poll(verdict).toContain('where does it go?');
    await page.locator('.walk-held').getByRole('button', { name: /^P09/ }).click();
    await expect.poll(verdict).toContain('P09');
    await expect.poll(verdict).toContain('as planned');
    expect(await page.locator('.walk-held').count()).toBe(0);
  });

  it('shows the other unit where the plan has it there, and a touch elsewhere is a difference', async () => {
    await press(/^Type the label/);
    await page.getByRole('dialog').getByRole('textbox').fill('1035');
    await page.keyboard.press('Enter');
    await press(/^Show SW2/);
    await expect.poll(() => page.locator('.plate h1').innerText()).toContain('SW2');
    await page.locator('.walk-held').getByRole('button', { name: /^P07/ }).click();
    await expect.poll(verdict).toContain('P07');
    await expect.poll(verdict).toContain('1035');
    await press('Back to jack first');
    expect(await page.getByText('Label first: read a cable').count()).toBe(0);
  });
});

describe('the auditor’s own slip', () => {
  const type = async (label: string) => {
    await page.locator('.thumb-tools').getByRole('button', { name: /^Type/ }).click();
    await page.getByRole('dialog').getByRole('textbox').fill(label);
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  };

  it('is asked about, and “me” moves what was said with the note that hangs on it', async () => {
    await page.goto(`${phone.origin}/audit/${phone.audit}/walk?at=SW1%2FP14`);
    await page.locator('.thumb-states').waitFor();
    await type('1015');
    // What was said must stand before the page goes: the jack alone is named from the start.
    await expect.poll(verdict).toContain('1015');
    // What undo and the slip know of it is written right behind the statement.
    await phone.settled();
    await page.goto(`${phone.origin}/audit/${phone.audit}/walk?at=SW1%2FP14`);
    await page.locator('.thumb-states').waitFor();
    await page.locator('.thumb-tools').getByRole('button', { name: /^Note/ }).click();
    await page.getByRole('dialog').getByRole('textbox').fill('boot is cracked');
    await press('Save the note');
    await expect.poll(verdict).toContain('Note saved');
    await page.goto(`${phone.origin}/audit/${phone.audit}/walk?at=SW1%2FP15`);
    await page.locator('.thumb-states').waitFor();
    await type('1016');
    await page.getByText('You or the cables?').waitFor();
    await picture(page, 'slip');
    await press('Me: move my entries');
    await expect.poll(verdict).toContain('P14 is open again');
    await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
    await expect.poll(() => page.locator('main').innerText()).toContain('1035');
    const text = await page.locator('main').innerText();
    expect(text).not.toContain('1015');
    expect(text).not.toContain('1016');
    await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
    await expect.poll(() => page.locator('main').innerText()).toContain('boot is cracked');
    expect((await page.locator('main').innerText()).replace(/\s+/g, ' ')).toMatch(
      /SW1 P15[^.]{0,40}boot is cracked|boot is cracked[^.]{0,60}SW1 P15/,
    );
  });
});

describe('which ends are left', () => {
  it('names the nearest and goes there, with no estimate from a handful of statements', async () => {
    await page.goto(`${phone.origin}/audit/${phone.audit}/walk?at=SW1%2FP20`);
    await page.locator('.thumb-states').waitFor();
    await more(/^Which ends are left/);
    await page.getByText('Too few entries yet').waitFor();
    await picture(page, 'ends-left');
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /^1001 SW1 P01/ })
      .click();
    await expect.poll(() => page.locator('.plate h1 .plate-big').innerText()).toBe('P01');
  });

  it('leads from end to end where the walk goes along the cables, and on after a reload', async () => {
    await more(/^Which ends are left/);
    await press('Go along the cables from here');
    await page.getByText(/^Along the cables: 1001; its other end/).waitFor();
    await picture(page, 'along-the-cables');
    await page.reload();
    await page.getByText(/^Along the cables: 1001; its other end/).waitFor();
    await press(/reads 1001, as planned/);
    await expect.poll(verdict).toContain('P01');
    await page.getByText(/^Along the cables: (?!1001)/).waitFor();
    await more(/^Which ends are left/);
    await press('Go along the jacks again');
    await page.getByText(/^Along the cables/).waitFor({ state: 'detached' });
  });
});

describe('a helper far away', () => {
  it('is asked one thing after the other, and the answers stand as told, by name', async () => {
    await more(/^Far end by radio/);
    await page.getByLabel('Name of the helper').fill('Robin');
    await press('Start asking');
    const title = page.getByRole('dialog').getByRole('heading').first();
    await expect.poll(() => title.innerText()).toMatch(/Ask Robin: which label is in .+\?/);
    const first = await title.innerText();
    await picture(page, 'radio');
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /^Reads \d/ })
      .click();
    await expect.poll(() => title.innerText()).not.toBe(first);
    await page.getByRole('dialog').getByRole('button', { name: 'Cannot be seen from there' }).click();
    await press('Stop asking');
    await more(/^For the maintenance window/);
    await expect.poll(() => page.getByRole('dialog').innerText()).toContain('could not be seen');
    await picture(page, 'window-list');
    await page.keyboard.press('Escape');
  });
});

describe('a blind audit', () => {
  /** Everything a person or a screen reader could meet in the page. */
  const everything = () =>
    page.evaluate(() =>
      [
        document.title,
        document.body.innerText,
        ...[...document.querySelectorAll('*')].flatMap((element) => [
          element.tagName === 'SCRIPT' || element.tagName === 'STYLE'
            ? ''
            : element.children.length === 0
              ? element.textContent
              : '',
          ...[...element.attributes].map(({ name, value }) => (name === 'href' || name === 'd' ? '' : value)),
        ]),
      ].join('\n'),
    );

  it('shows no expected label anywhere before it was stated', async () => {
    await begin(undefined, true);
    const leak = /\b10(0[1-9]|1\d|2[0-4])\b/;
    expect(await everything()).not.toMatch(leak);
    await page.locator('.thumb-tools').getByRole('button', { name: /^Type/ }).click();
    await page.getByRole('dialog').getByRole('textbox').fill('10');
    await phone.settled();
    expect(await everything()).not.toMatch(leak);
    await page.keyboard.press('Escape');
    await more(/^Label first/);
    await page.locator('.thumb-tools').getByRole('button', { name: /^Type/ }).click();
    await page.getByRole('dialog').getByRole('textbox').fill('zz-1');
    await page.keyboard.press('Enter');
    await expect.poll(verdict).toContain('where does it go?');
    expect(await everything()).not.toMatch(leak);
    expect(await page.locator('.walk-held .range-line').count()).toBe(0);
    await picture(page, 'label-first-blind');
    await press('Back to jack first');
    await more(/^Go to another unit/);
    await phone.settled();
    expect(await everything()).not.toMatch(leak);
    await page.keyboard.press('Escape');
    await page.goto(`${phone.origin}/audit/${phone.audit}/walk?at=SW1%2FP05`);
    await page.locator('.thumb-states').waitFor();
    expect(await everything()).not.toMatch(leak);
  });
});
