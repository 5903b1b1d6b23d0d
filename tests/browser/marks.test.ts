// Jacket and metre mark at phone size without a network: what is printed at two bare ends is written down, the pair is
// shown as probable, undo takes it back, a twin at both ends or a trace settles it. Prints and marks are invented; the
// station is the demo (invented).
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { picture } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('marks');
const { press, verdict, more, at } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});

const PRINT = '4 PAIR 23 AWG U/UTP LSZH 1804';
const noLabel = () => page.locator('.thumb-states').getByRole('button', { name: 'No label' }).click();
const dialog = () => page.getByRole('dialog');
const line = (words: string) => page.getByRole('region', { name: 'Jacket and mark' }).filter({ hasText: words });
const fits = async () =>
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);

async function write(print: string | null, mark: string): Promise<void> {
  await more(/^Jacket and metre mark/);
  if (print === null) await dialog().getByRole('button', { name: PRINT }).click();
  else await dialog().getByLabel('Text along the jacket').fill(print);
  await dialog().getByLabel('Running number nearest to this end').fill(mark);
  await dialog().getByRole('button', { name: /Save/ }).click();
  // Going elsewhere loads the page anew: only what is kept by then is kept.
  await expect.poll(verdict).toMatch(/^Jacket and mark at .* saved\.$/);
}

describe('what is printed along two bare ends', () => {
  it('is written down at the first, as typed, over a reload, and undone by one act', async () => {
    await phone.demoOffline();
    await phone.begin(/^Inherit|nobody/i);
    await at('SW1/P09');
    await more(/^Jacket and metre mark/);
    await dialog().getByLabel('Text along the jacket').fill(PRINT);
    await dialog().getByLabel('Running number nearest to this end').fill('0212 m');
    await dialog().getByText('Digits only').waitFor();
    expect(await dialog().getByRole('button', { name: /Save/ }).isDisabled()).toBe(true);
    await phone.settled();
    await page.reload();
    await page.locator('.thumb-states').waitFor();
    await more(/^Jacket and metre mark/);
    await expect.poll(() => dialog().getByLabel('Text along the jacket').inputValue()).toBe(PRINT);
    await dialog().getByLabel('Running number nearest to this end').fill('0212');
    await fits();
    await picture(page, 'marks-sheet');
    await dialog().getByRole('button', { name: /Save/ }).click();
    await expect.poll(verdict).toContain('Jacket and mark at SW1 P09 saved.');
    await press('Undo');
    await expect.poll(verdict).toContain('Undone: jacket and mark at SW1 P09.');
    await write(PRINT, '0212');
    expect(await line('fit').count()).toBe(0);
    await noLabel();
    await expect.poll(verdict).toMatch(/P09: no label/i);
  });

  it('is offered at the second by one tap, and the two are probable', async () => {
    await at('SW2/P20');
    await write(null, '226');
    await line('SW1 P09 (about 14 m of cable between the marks). Probable.').waitFor();
    await fits();
    await picture(page, 'marks-line');
    await more(/^Temporary tags/);
    await dialog().getByText('May be one cable, by jacket and marks').waitFor();
    expect(await dialog().innerText()).toContain('About 14 m of cable between the marks. Probable.');
    await picture(page, 'marks-list');
    await page.keyboard.press('Escape');
  });

  it('cannot be told once a third end bears it, in the report too', async () => {
    await at('SW1/P11');
    await write(null, '243');
    await line('3 ends have this print; the marks give 17 m to').waitFor();
    await picture(page, 'marks-three');
    await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
    const left = page.getByText('Still to prove: one cable, by jacket and marks');
    await left.waitFor();
    await left.scrollIntoViewIfNeeded();
    await picture(page, 'marks-report');
    expect(await page.locator('body').innerText()).toContain('the marks cannot show which two belong together');
    expect(await page.locator('body').innerText()).toContain('Marks: 212 m, 243 m and 226 m.');
    await at('SW1/P11');
    await press('Undo');
    await expect.poll(verdict).toContain('Undone: jacket and mark at SW1 P11.');
    await at('SW2/P20');
    await line('Probable.').waitFor();
  });
});

describe('a probable pair is settled', () => {
  it('by a twin on both: half here, half there, by one tap each', async () => {
    await more(/What you may do/);
    await dialog().getByText('Touch', { exact: true }).click();
    await expect.poll(() => page.locator('.permission-yes').allInnerTexts()).toContain('touch');
    await line('Record “No label” first').waitFor();
    await noLabel();
    await line('Probable.').getByRole('button', { name: 'Put a tag on both ends' }).click();
    await line('Stick U-001 on this end').waitFor();
    // The next number is offered once, by the pair.
    expect(await page.getByRole('button', { name: 'U-001 is on it' }).count()).toBe(1);
    await picture(page, 'marks-twin');
    await press('U-001 is on it');
    await expect.poll(verdict).toContain('U-001 is on');
    await at('SW1/P09');
    await line('which has tag U-001').getByRole('button', { name: 'U-001 is on this end too' }).click();
    await expect.poll(verdict).toContain('U-001 is on');
    await expect.poll(() => line('fit').count()).toBe(0);
    await more(/^Temporary tags/);
    await dialog().getByText('Both ends known').waitFor();
    expect(await dialog().innerText()).not.toContain('May be one cable');
    await page.keyboard.press('Escape');
  });

  it('by following it, told at both ends by one act', async () => {
    await at('SW1/P10');
    await write('RG 59 B/U 0.6/3.7', '17');
    await at('SW2/P21');
    await write('rg 59  b/u 0.6/3.7', '31');
    await line('SW1 P10').getByRole('button', { name: 'Follow it to be sure' }).click();
    await dialog().getByText('Do not unplug it').waitFor();
    await picture(page, 'marks-follow');
    await dialog()
      .getByRole('button', { name: /it ends at/ })
      .click();
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
    // The walk goes on once it is kept.
    await expect.poll(() => line('fit').count()).toBe(0);
    await at('SW1/P10');
    await page.locator('.thumb-states').waitFor();
    await expect.poll(() => line('fit').count()).toBe(0);
    await more(/^Temporary tags/);
    await dialog().getByText('which ends are left').waitFor();
    await phone.settled();
    expect(await dialog().innerText()).not.toContain('May be one cable');
  });
});
