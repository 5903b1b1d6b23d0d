// Describing racks and units on one phone: what is typed survives a reload, a U holds one unit, faces of several rows
// are kept, a correction loses nothing, and one line takes the last act back. Data invented.
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { DESK, PHONE, picture } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('describe');
const { press } = phone;
let page: Page;
let audit = '';
beforeAll(() => {
  page = phone.page;
});

const field = (name: string) => page.getByLabel(name, { exact: true });
const plate = () => page.locator('.plate').innerText();
const list = async () => {
  await page.goto(`${phone.origin}/audit/${audit}/describe`);
  await page.getByRole('heading', { name: 'What is here' }).waitFor();
};
const anew = async () => {
  await list();
  await press(/Describe a unit/);
  await field('Label on the unit').waitFor();
};
const kept = (words: string) => page.locator('.describe-kept').getByText(words).waitFor();
/** The list as it is read, without line ends. */
const listed = async () => (await page.locator('main').innerText()).replace(/\s+/g, ' ');

describe('describing what is here', () => {
  it('puts the next unit into the rack that was named last, and says in one line what was kept', async () => {
    await page.goto(phone.origin);
    await press(/Begin with no plan/);
    await page.getByLabel('Your name').fill('I. Halloran');
    await press(/Begin the walk/);
    await page.getByText('Nothing is described yet.').waitFor();
    audit = /audit\/([^/?]+)/.exec(page.url())?.[1] ?? '';
    await press(/Name a rack/);
    await field('Label on the rack').fill('R 9');
    await press(/Save the rack/);
    await kept('Rack R 9 saved.');
    await field('Label on the unit').fill('AIO21');
    await field('On one line').fill('8 x XLR in');
    await press(/Next unit/);
    await kept('AIO21 at U42 saved.');
    await list();
    await press(/Name a rack/);
    await field('Label on the rack').fill('R 2');
    await press(/Save the rack/);
    await expect.poll(plate).toContain('Rack R 2');
    await field('Label on the unit').fill('SW1');
    await press(/Next unit/);
    await kept('SW1 at U42 saved.');
    await list();
    expect(await listed()).toMatch(/Rack R 2 .* SW1 U42 .* Rack R 9 .* AIO21 U42/);
  });

  it('takes a typed number of jacks, and keeps half a line over a reload', async () => {
    await anew();
    await field('Label on the unit').fill('PATCH 1');
    await page
      .getByRole('radio', { name: 'TT' })
      .or(page.getByRole('radio', { name: 'TRS' }))
      .first()
      .check();
    await field('How many').fill('48');
    await field('Name of the first jack').fill('J');
    await page.reload();
    await expect.poll(() => field('How many').inputValue()).toBe('48');
    expect(await field('Name of the first jack').inputValue()).toBe('J');
    await field('How many').fill('4800');
    await page.getByText('A whole number from 1 to 512; until then 48 counts.').waitFor();
    await field('How many').fill('48');
    await press('Add 48 × TRS in');
    await expect.poll(() => field('On one line').inputValue()).toBe('48 x TRS in J');
    await field('On one line').fill('48 x TRS in J, 2 x RJ4');
    await page.reload();
    await expect.poll(() => field('On one line').inputValue()).toBe('48 x TRS in J, 2 x RJ4');
    expect(await field('Label on the unit').inputValue()).toBe('PATCH 1');
    await field('On one line').fill('48 x TRS in J, "IN, L');
    await page.getByText('The quote is not closed.').waitFor();
    await page.reload();
    await expect.poll(() => field('On one line').inputValue()).toBe('48 x TRS in J, "IN, L');
    await field('On one line').fill('48 x TRS in J');
  });

  it('draws and keeps faces of three and four rows', async () => {
    await page.getByRole('radio', { name: 'Three' }).check();
    await page.getByText('J 1 to J 46 over J 2 to J 47 over J 3 to J 48').waitFor();
    await page.getByRole('radio', { name: 'Four' }).check();
    await page.getByRole('radio', { name: 'Along each row' }).check();
    const four = 'J 1 to J 12 over J 13 to J 24 over J 25 to J 36 over J 37 to J 48';
    await page.getByText(four).waitFor();
    await page.getByText(four).scrollIntoViewIfNeeded();
    await picture(page, 'describe-four-rows');
    await press(/Next unit/);
    await kept('PATCH 1 at U41 saved.');
    await list();
    await press(/^PATCH 1/);
    await page.getByText(four).waitFor();
    await field('On one line').fill('J1-J8/J9-J16/J17-J24');
    await page.getByText('J1 to J8 over J9 to J16 over J17 to J24').waitFor();
    await page.getByText('In 3 rows, as typed.').waitFor();
    await press(/Walk its jacks/);
    await expect.poll(() => page.locator('.plate h1 .plate-big').innerText()).toBe('J1');
    await expect.poll(() => page.locator('.jack-window button').count()).toBeGreaterThan(5);
    await picture(page, 'describe-three-rows-walk');
  });

  it('says what was typed anew is back when a correction is undone, and that statements stay', async () => {
    await page
      .locator('.thumb-states')
      .getByRole('button', { name: /^Empty/ })
      .click();
    await expect.poll(() => page.locator('.plate h1 .plate-big').innerText()).toBe('J2');
    await list();
    await press(/^PATCH 1/);
    await field('What it is').fill('bay, grey');
    await press(/Back to the list/);
    await kept('PATCH 1 at U41 saved.');
    await picture(page, 'describe-kept');
    await press('Undo');
    await kept(
      'Undone: PATCH 1 at U41. The earlier description stands again. Entries at 1 jack of it stay in the record.',
    );
    await press(/^PATCH 1/);
    await expect.poll(() => field('On one line').inputValue()).toBe('24 x J1-J24');
    expect(await field('What it is').inputValue()).toBe('');
    await page.getByText('J1 to J8 over J9 to J16 over J17 to J24').waitFor();
  });

  it('offers the next free U, and refuses one that is taken, naming the unit that is there', async () => {
    await anew();
    await expect.poll(plate).toContain('U40');
    await field('Label on the unit').fill('CLOCK 2');
    await field('Lowest U it takes up').fill('41');
    await page.getByText('PATCH 1 is there already, as described.').waitFor();
    await press(/Next unit|Save the unit/);
    await page.getByText('PATCH 1 is already at U41 (1 U high). Choose another U').waitFor();
    await picture(page, 'describe-taken');
    await field('Lowest U it takes up').fill('20');
    await press(/Next unit/);
    await kept('CLOCK 2 at U20 saved.');
    // SW1 at the top is corrected: what follows it is the free U below PATCH 1, not PATCH 1's own.
    await list();
    await press(/^SW1/);
    await press(/Back to the list/);
    await kept('SW1 at U42 saved.');
    await press(/Describe a unit/);
    await expect.poll(plate).toContain('U40');
  });

  it('lists a unit that stands in a room, and keeps all of it when it is corrected', async () => {
    await field('Label on the unit').fill('A clock with a very long name on the wall of the corridor 0000000001');
    await page.getByRole('radio', { name: 'In a room' }).check();
    await field('Room, as on the door').fill('Corridor');
    await field('What it is').fill('wall clock');
    await field('Serial number').fill('0042');
    await field('MAC address').fill('00:00:5E:00:53:01');
    await field('On one line').fill('1 x XLR "XLR 1", 1 x "IN, L", 1 x BNC REF');
    await page.getByRole('radio', { name: 'Front' }).last().check();
    await press(/Next unit/);
    await kept('in Corridor saved.');
    await list();
    expect(await listed()).toMatch(/Corridor 1 unit A clock .* 3 jacks; press to correct/);
    await press(/^A clock/);
    await field('What it is').waitFor();
    expect(await field('Room, as on the door').inputValue()).toBe('Corridor');
    expect(await field('What it is').inputValue()).toBe('wall clock');
    expect(await field('Serial number').inputValue()).toBe('0042');
    expect(await field('MAC address').inputValue()).toBe('00:00:5E:00:53:01');
    expect(await field('On one line').inputValue()).toBe('1 x XLR XLR 1, 1 x "IN, L", 1 x BNC REF');
    await page.getByText('XLR 1 to REF, front, from the left.').waitFor();
  });

  it('runs over at no size, by day and by night', async () => {
    const urls = [
      ['list', ''],
      ['unit', '?what=unit'],
      ['correct', '?what=unit&of=PATCH+1'],
    ] as const;
    const looks = [
      [{ width: 360, height: 640 }, 'light'],
      [PHONE, 'dark'],
      [DESK, 'dark'],
    ] as const;
    for (const [size, theme] of looks) {
      await page.emulateMedia({ colorScheme: theme });
      await page.setViewportSize(size);
      for (const [name, query] of urls) {
        await page.goto(`${phone.origin}/audit/${audit}/describe${query}`);
        await page.locator('.title-block').waitFor();
        expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
        await picture(page, `describe-${name}-${size.width}-${theme}`);
      }
    }
    await expect.poll(plate).toContain('Correct PATCH 1');
  });
});
