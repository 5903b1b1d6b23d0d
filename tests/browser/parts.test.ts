// Describing at the jack, at phone size without a network: an adapter by one tap and its sockets in the walk, a tail put
// together, a block landed by colour order, a lead by two taps, power by looking along cords, undo, and a reload in
// between. Data: the demo station (invented).
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { contextOptions, picture } from './harness.ts';
import { onePhone } from './onePhone.ts';
import { settled } from './settled.ts';
import { openRow } from './sheets.ts';

const phone = onePhone('parts');
const { press, verdict, more, at } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});

const over = () => page.locator('.walk-over');
const plate = () => page.locator('.plate').first().innerText();
/** Every cell, field and row of a form can be met by a thumb and nothing runs out of the sheet. */
async function fits(): Promise<void> {
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
}

describe('what is met at a jack', () => {
  it('keeps an adapter by one tap, and walks its sockets after the unit it hangs on', async () => {
    await phone.demoOffline();
    await phone.begin(/^After a move/);
    await at('SW1/P01');
    await more(/^Adapter or tail here/);
    await page.getByText('One touch records it').waitFor();
    await picture(page, 'part-here');
    await fits();
    await page.getByLabel('Its label').fill('T07');
    // Put away in the middle of it: what was typed is still there.
    await phone.settled();
    await page.reload();
    await page.locator('.thumb-states').waitFor();
    await more(/^Adapter or tail here/);
    await expect.poll(() => page.getByLabel('Its label').inputValue()).toBe('T07');
    await press(/^RJ45 to 2 XLR, left and right/);
    await expect.poll(verdict).toContain('T07 is plugged in here');
    await picture(page, 'part-kept');
    await at('T07/L');
    expect(await plate()).toContain('T07');
    await picture(page, 'part-socket');
    await press(/L reads 1001/);
    await expect.poll(verdict).toContain('as planned');
    await expect.poll(plate).toContain('R');
  });

  it('one undo takes the description and its look back', async () => {
    await at('SW1/P05');
    await more(/^Adapter or tail here/);
    await press(/^RJ45 to mini-jack/);
    await expect.poll(verdict).toContain('SW1 P05 adapter is plugged in here');
    await press('Undo');
    await expect.poll(() => page.locator('body').innerText()).toContain('Undone');
    await at('SW1-P05-ADAPTER/ST');
    expect(await plate()).not.toContain('adapter');
  });

  it('puts a tail together and states it where its plug sits', async () => {
    await at('SW1/P06');
    await more(/^Adapter or tail here/);
    await press(/^RJ45 to 2 XLR plugs on tails/);
    await page.getByLabel('Tail L goes into').fill('nowhere');
    await press('Save');
    await page.getByText(/names no jack/).waitFor();
    await page.getByLabel('Tail L goes into').fill('SW1 P07');
    await picture(page, 'part-built');
    await fits();
    await press('Save');
    await expect.poll(verdict).toContain('SW1 P06 tail is plugged in here');
    await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
    await expect.poll(() => page.locator('main').innerText()).toContain('SW1 P06 tail is between plug and jack');
  });
});

describe('many at once', () => {
  it('joins two jacks by two taps, followed by eye', async () => {
    await at('SW1/P10');
    await more(/^Patch lead/);
    await over()
      .getByRole('button', { name: /^P11\b/ })
      .click();
    await over()
      .getByRole('button', { name: /^P12\b/ })
      .click();
    await picture(page, 'part-lead');
    await fits();
    await press(/P11 to P12/);
    await expect.poll(verdict).toMatch(/P11/);
  });

  it('describes a block, and lands 25 pairs by colour in one act, proven for none', async () => {
    await at('SW1/P13');
    await more(/^Panel, block or trunk/);
    await page.getByRole('radio', { name: /^Punch block/ }).check();
    await page.getByLabel('Its label').fill('BLK4');
    await page.getByRole('radio', { name: 'In a room' }).check();
    await page.getByLabel('Room, as on the door').fill('Frame room');
    await picture(page, 'part-block');
    await fits();
    await press('Save');
    await expect.poll(plate).toContain('BLK4');
    await more(/^Landed in colour order/);
    await page.getByLabel('Cable').fill('6001');
    await picture(page, 'part-colour');
    await fits();
    await page.getByText('Pair 6: red with blue').waitFor();
    await press(/25 landed by colour/);
    await expect.poll(verdict).toMatch(/25/);
    await at('BLK4/8');
    await picture(page, 'part-landing');
    await press('Undo');
    await expect.poll(() => page.locator('body').innerText()).toContain('Undone');
  });
});

describe('a trunk between two panels', () => {
  const panel = async (label: string) => {
    await more(/^Panel, block or trunk/);
    await page.getByRole('radio', { name: /^Panel\b/ }).check();
    await page.getByLabel('Its label').fill(label);
    await page.getByLabel('Holes, J1 and on').fill('6');
    await page.getByRole('radio', { name: 'In a room' }).check();
    await page.getByLabel('Room, as on the door').fill('Frame room');
    await press('Save');
    await expect.poll(plate).toContain(label);
  };
  const landings = async () => {
    await at('TP1/J1-J6-REAR');
    await more(/^Landed in colour order/);
    await page.getByText('What to record').waitFor();
  };

  it('is described where it is met and told row by row and one by one, each with one undo', async () => {
    await at('SW1/P13');
    await panel('TP1');
    await panel('TP2');
    await at('TP1/J1-REAR');
    await more(/^Panel, block or trunk/);
    await page.getByRole('radio', { name: /^Trunk/ }).check();
    await page.getByLabel('Its label').fill('TR1');
    await page.getByRole('radio', { name: 'Fibres', exact: true }).check();
    await page.getByLabel('How many of them').fill('9');
    await press('Save');
    await page.getByText('TP1 J1-J9 rear: 3 of these 9 landings are not known there.').waitFor();
    await page.getByLabel('How many of them').fill('6');
    await page.getByLabel('First landing at the other end, if known').fill('TP2 J1 rear');
    await picture(page, 'part-trunk');
    await fits();
    await press('Save');
    await expect.poll(verdict).toContain('TR1');
    await picture(page, 'part-trunk-kept');
    await landings();
    await page.getByText('6 fibres. 6 not seen.').waitFor();
    await press('6 landed in order');
    await page.locator('.walk-over').waitFor({ state: 'detached' });
    await landings();
    await page.getByText('6 landed by number, not proven.', { exact: false }).waitFor();
    await page.getByRole('radio', { name: 'Dead' }).check();
    await page.getByLabel('First landing').fill('5');
    // Put away in the middle of it: what was typed is still there.
    await phone.settled();
    await page.reload();
    await page.locator('.thumb-states').waitFor();
    await more(/^Landed in colour order/);
    await expect.poll(() => page.getByLabel('First landing').inputValue()).toBe('5');
    await page.getByLabel('Last landing').fill('5');
    await picture(page, 'part-trunk-dead');
    await fits();
    await press('1 dead');
    await expect.poll(verdict).toContain('TR1 5: dead.');
    await landings();
    await page.getByLabel('Landing on TP1').fill('3');
    await page.getByLabel('Landing it goes to, TP2').fill('4');
    await page.getByRole('button', { name: 'Record J3 rear and J4 rear as crossed' }).scrollIntoViewIfNeeded();
    await picture(page, 'part-trunk-crossed');
    await press('Record J3 rear and J4 rear as crossed');
    await expect.poll(verdict).toContain('TR1: J3 rear and J4 rear crossed.');
    await press('Undo');
    await expect.poll(verdict).toContain('Undone: J3 rear and J4 rear crossed');
    await landings();
    await page.getByText('6 fibres. 5 dead. 6 landed by number, not proven.').waitFor();
    await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
    await expect.poll(() => page.locator('main').innerText()).toContain('6 fibres. 5 dead. 6 landed by number');
    // The far end is still wanted.
    await at('TP2/J1-REAR');
    await more(/^Which ends are left/);
    await expect.poll(() => page.getByRole('dialog').innerText()).toContain('TR1');
    await picture(page, 'part-trunk-ends-left');
  });
});

describe('power', () => {
  it('shows its caution first, and tells a strip in a strip without a word of unplugging', async () => {
    await at('SW1/P14');
    await more(/^Power/);
    await page.getByText('Mains: look only', { exact: false }).waitFor();
    await page.getByLabel('Its label').fill('ST1');
    await press('Save');
    await page.locator('.thumb-states').waitFor();
    await more(/^Power/);
    await page.getByLabel('Its label').fill('ST2');
    await page.getByLabel('Its plug is in outlet').fill('ST1 OUT 3');
    await press('Save');
    await page.locator('.thumb-states').waitFor();
    await more(/^Power/);
    await page.getByText('Strip ST2 is fed from strip ST1', { exact: false }).waitFor();
    await picture(page, 'part-power');
    await fits();
    await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
    await expect.poll(() => page.locator('main').innerText()).toContain('Power strips in a row');
    expect(await page.locator('main').innerText()).not.toMatch(/unplug (it|this|one)/i);
  });
});

describe('twenty-five pairs between two blocks', () => {
  const SHEET = [
    'Cable No,From Room,From Unit,From Jack,To Room,To Unit,To Jack,Signal,Status',
    '6001,Frame room,BLK4,1-25,Studio A,BLK1,1-25,Ana,in',
    '6002,Frame room,BLK4,26-50,Studio B,BLK2,1-25,Ana,in',
  ].join('\n');

  it('the label at both blocks, one act for the order, two pairs followed: told in the report as what each is', async () => {
    const dark = await phone.browser.newContext(contextOptions({ theme: 'dark' }));
    const second = await dark.newPage();
    second.setDefaultTimeout(60_000);
    const tap = (name: string | RegExp) => second.getByRole('button', { name }).first().click();
    const said = () => second.locator('.verdict').innerText();
    await second.goto(phone.origin);
    await tap(/Import a schedule/);
    const file = { name: 'blocks.csv', mimeType: 'text/csv', buffer: Buffer.from(SHEET) };
    await second.locator('input[type=file]').first().setInputFiles(file);
    await second.getByLabel('Name of the station').fill('Fennigmoor Community Radio');
    await tap(/Use as the plan/);
    // The plan is kept once this is offered; the words before it stand on the preview already.
    await tap(/Begin an audit/);
    await second.getByLabel('Your name').fill('I. Halloran');
    await second.getByRole('radio', { name: /^After a move/ }).check();
    await tap(/Begin the walk/);
    await second.waitForURL(/walk/);
    const walk = second.url().split('?')[0];
    const stand = async (place: string) => {
      await second.goto(`${walk}?at=${encodeURIComponent(place)}`);
      await second.locator('.thumb-states').waitFor();
      await settled(second);
    };
    const open = async (row: RegExp) => {
      await second.locator('.thumb-tools').getByRole('button', { name: 'More' }).click();
      await openRow(second, row);
    };
    for (const block of ['BLK4', 'BLK1']) {
      await stand(`${block}/1-25`);
      await tap(/1-25 reads 6001/);
      await expect.poll(said).toContain('as planned');
    }
    await stand('BLK4/1-25');
    await open(/^Landed in colour order/);
    await second.getByText('25 landings').first().waitFor();
    await tap(/25 landed by colour/);
    await second.locator('.walk-over').waitFor({ state: 'detached' });
    for (const [from, to] of [
      ['6', '11'],
      ['11', '6'],
    ] as const) {
      await stand('BLK4/1-25');
      await open(/^Landed in colour order/);
      await second.getByLabel('Landing on BLK4').fill(from);
      await second.getByLabel('Landing it goes to, BLK1').fill(to);
      await tap('Record it as followed');
      await second.locator('.walk-over').waitFor({ state: 'detached' });
    }
    await stand('BLK4/1-25');
    await open(/^Landed in colour order/);
    await second.getByText('Pairs 6 and 11 swapped.', { exact: false }).waitFor();
    await picture(second, 'part-pairs-dark');
    const audit = /audit\/([^/?]+)/.exec(second.url())?.[1];
    await second.goto(`${phone.origin}/audit/${audit}/differences`);
    await expect.poll(() => second.locator('main').innerText()).toContain('6001 pair 6');
    await picture(second, 'part-differences-dark');
    await second.goto(`${phone.origin}/audit/${audit}/report`);
    await expect.poll(() => second.locator('main').innerText()).toContain('23 landed by colour, not proven.');
    await second.getByText('23 landed by colour', { exact: false }).scrollIntoViewIfNeeded();
    await picture(second, 'part-report-dark');
    await dark.close();
  });
});
