// Whole walks by keyboard alone, without mouse or touch: after a move from the first screen to the report, every sheet and
// form opened and closed on the way, and the first work of the three other occasions. The focus is looked at on every
// stop. What it is held to: WCAG 2.2, 2.1.1, 2.1.2, 2.4.3 and 2.4.7. Data: the demo station (invented).
import type { Locator, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { keyboard } from './keys.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('keyboard-walk');
const { verdict } = phone;
let page: Page;
let keys: ReturnType<typeof keyboard>;
beforeAll(() => {
  page = phone.page;
  keys = keyboard(page);
});

const button = (name: string | RegExp) => page.getByRole('button', { name }).first();
const inDialog = (name: string | RegExp) => page.getByRole('dialog').getByRole('button', { name }).first();
const tool = (name: string | RegExp) => page.locator('.thumb-tools').getByRole('button', { name });
const state = (name: string) => page.locator('.thumb-states').getByRole('button', { name });
const primary = () => page.locator('.thumb-reads button').first();
const jack = () => page.locator('.plate h1 .plate-big').first().innerText();
const heading = () => page.getByRole('heading', { level: 1 }).last().innerText();
const left = async () => {
  const text = (await page.locator('.plate').first().innerText()).replace(/\s+/g, ' ');
  return Number(/To go (\d+)/.exec(text)?.[1]);
};

/** The walk's More and one of its rows. */
async function more(row: RegExp): Promise<void> {
  await keys.press(tool('More'));
  await page.getByRole('dialog').waitFor();
  await unfold(inDialog(row));
  await keys.press(inDialog(row));
}

/** Opens the groups of More one after the other until the row is there. */
async function unfold(row: Locator): Promise<void> {
  const folded = page.getByRole('dialog').locator('.walk-fold:not([open]) > summary');
  while ((await row.count()) === 0) await keys.press(folded.first());
}

/** Cells leave a press alone for a moment after the jack has changed. */
const { settled } = phone;

async function typeLabel(label: string): Promise<void> {
  await keys.press(tool(/^Type/));
  await keys.back(page.getByRole('textbox', { name: 'Label, as printed' }), 'Type');
  await page.keyboard.type(label);
  await page.keyboard.press('Enter');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await keys.back(tool(/^Type/), 'a label was typed');
}

/** From the first screen to the walk, or to what stands before it. */
async function begin(occasion: RegExp, may?: RegExp): Promise<void> {
  await page.goto(phone.origin);
  await page.getByText('148 cables').waitFor();
  await keys.press(button(/^Begin an audit/));
  await expect.poll(heading).toContain('Begin an audit');
  await keys.type(page.getByLabel('Your name'), 'I. Halloran');
  await keys.choose(occasion);
  if (may) await keys.choose(may);
  await keys.press(button(/Begin the walk/));
}

describe('after a move, by keyboard alone', () => {
  it('opens the demo station and begins', async () => {
    await page.goto(phone.origin);
    await keys.press(button(/^Open the demo station/));
    await page.getByText('148 cables').waitFor();
    await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).not.toBe('BODY');
    await keys.held('the demo station came');
    await begin(/^After a move/);
    await expect.poll(jack).toBe('P01');
    await keys.held('the walk began');
  });

  it('passes every control of the walk in a ring and is caught by none', async () => {
    const all = await page
      .locator('#app')
      .getByRole('button', { disabled: false })
      .evaluateAll((found) => found.filter((one) => one.getClientRects().length > 0).length);
    expect(all).toBeGreaterThan(15);
    const passed = new Set<string>();
    const first = await (async () => {
      await keys.to(tool('More'));
      return keys.held('More');
    })();
    let round = 0;
    for (; round < 80; round++) {
      await page.keyboard.press('Tab');
      // Past the last control the page ends; the next Tab begins it anew.
      if (await page.evaluate(() => document.activeElement === document.body)) continue;
      const what = await keys.held('Tab round the walk');
      passed.add(what);
      if (what === first) break;
    }
    expect(round, 'the ring closes').toBeLessThan(80);
    expect([...passed].filter((what) => what.includes('BUTTON')).length).toBe(all);
  });

  it('says six jacks as planned, one after the other, from the same place', async () => {
    await keys.to(primary());
    for (let n = 1; n <= 6; n++) {
      await expect.poll(jack).toBe(`P0${n}`);
      await settled();
      await page.keyboard.press('Enter');
      await expect.poll(verdict).toContain(`P0${n}: 100${n}`);
      await keys.back(primary(), `P0${n} was said`);
    }
    expect(await left()).toBe(18);
  });

  it('types another label, says empty and no label, and takes it back to the last', async () => {
    await typeLabel('1012');
    await expect.poll(verdict).toContain('P07');
    await settled();
    await keys.press(state('Empty'), 'Space');
    await expect.poll(verdict).toContain('P08');
    await keys.back(state('Empty'), 'Empty');
    await settled();
    await keys.press(state('No label'));
    await expect.poll(verdict).toContain('P09');
    await expect.poll(jack).toBe('P10');
    await keys.press(tool('Undo'));
    await expect.poll(jack).toBe('P09');
    await keys.back(tool('Undo'), 'one was taken back');
    expect(await left()).toBe(16);
    // Everything taken back: nothing is left for Undo, and the hand is not left in the air.
    for (let i = 8; i >= 1; i--) {
      await page.keyboard.press('Enter');
      await expect.poll(left).toBe(25 - i);
      if (i > 1) await keys.back(tool('Undo'), 'another was taken back');
    }
    await expect.poll(() => tool('Undo').isDisabled()).toBe(true);
    await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).not.toBe('BODY');
    await keys.held('everything was taken back');
  });

  it('opens every sheet and form behind More, and Escape comes back to More', async () => {
    await keys.press(tool('More'));
    await page.getByRole('dialog').waitFor();
    const rows = await page
      .getByRole('dialog')
      .locator('.walk-group .row-title')
      .evaluateAll((found) => found.map((one) => one.textContent ?? ''));
    await page.keyboard.press('Escape');
    await keys.back(tool('More'), 'More was closed');
    // These say or do something at once, or go to another screen.
    const acts = /^(Plugged|Blanked|Next jack|Previous jack|Label first|Read labels from|A unit or rack|Renaming)/;
    const opening = rows.filter((title) => !acts.test(title));
    expect(opening.length).toBeGreaterThan(15);
    for (const title of opening) {
      await keys.press(tool('More'));
      await page.getByRole('dialog', { name: /^More at/ }).waitFor();
      const row = page.getByRole('dialog').getByRole('button').filter({ hasText: title });
      await unfold(row);
      await keys.press(row.first());
      const opened = page.locator('dialog[open]:not(:has-text("More at SW1")), .walk-over h1');
      await opened.first().waitFor();
      await expect
        .poll(() => page.evaluate(() => document.activeElement?.tagName), { message: title })
        .not.toBe('BODY');
      await keys.held(`${title} was opened`);
      await page.keyboard.press('Escape');
      await expect.poll(() => opened.count(), { message: title }).toBe(0);
      await keys.back(tool('More'), `${title} was closed`);
    }
  });

  it('opens and closes the other sheets of the thumb, each back to its own cell', async () => {
    for (const cell of [tool(/^Photo/), tool(/^Note/), tool(/^Type/), state('Can’t read it')]) {
      await keys.press(cell);
      await page.getByRole('dialog').waitFor();
      await keys.held('a sheet was opened');
      await page.keyboard.press('Escape');
      await page.getByRole('dialog').waitFor({ state: 'detached' });
      await keys.back(cell, 'a sheet was closed');
    }
    // A choice inside a sheet puts other rows in its place.
    await more(/^Hazard seen/);
    await keys.press(inDialog(/^Mains/));
    await page.getByRole('dialog', { name: /^Hazard at/ }).waitFor();
    await expect.poll(() => page.evaluate(() => document.activeElement?.closest('dialog') !== null)).toBe(true);
    await keys.held('a hazard was chosen');
    await page.keyboard.press('Escape');
    await keys.back(tool('More'), 'the hazard was left');
    await typeLabel('1004');
    await keys.press(button(/^More about P01/));
    await expect.poll(heading).toContain('P01');
    await page.locator('.walk-over').waitFor();
    await keys.held('the details were opened');
    await page.keyboard.press('Escape');
    await keys.back(button(/^More about P01/), 'the details were closed');
  });

  it('pauses and goes on', async () => {
    await keys.press(button(/Going live/));
    await page.getByRole('heading', { name: 'Paused.' }).waitFor();
    await keys.press(button(/Go on at SW1 P02/));
    await page.getByRole('heading', { name: 'Paused.' }).waitFor({ state: 'detached' });
    await keys.back(button(/Going live/), 'the pause');
  });

  it('says a row at once', async () => {
    await more(/^Record a row/);
    const over = page.locator('.walk-over');
    await keys.press(over.getByRole('button', { name: /^P17/ }));
    await keys.press(over.getByRole('button', { name: /^P23/ }));
    await keys.press(over.getByRole('button', { name: 'First jack one on' }));
    await keys.press(over.getByRole('button', { name: /Record 6 as empty/ }));
    await expect.poll(verdict).toContain('P18 to P23');
    await keys.back(tool('More'), 'a row was said');
  });

  it('goes to another unit, by name and by its drawing', async () => {
    await more(/^Go to another unit/);
    await keys.press(inDialog(/^SW2/));
    await expect.poll(() => page.locator('.plate h1').first().innerText()).toContain('SW2');
    await keys.back(tool('More'), 'another unit was chosen');
    await keys.press(page.locator('.jack-window').getByRole('button', { name: /^P03/ }));
    await expect.poll(jack).toBe('P03');
    await keys.held('a jack was chosen');
    await settled();
    await keys.press(primary());
    await expect.poll(verdict).toContain('P03');
  });

  it('closes the audit and stands before the report', async () => {
    await more(/^Close the audit/);
    await keys.type(page.getByRole('dialog').getByRole('textbox'), 'the rest on Monday');
    await keys.press(inDialog('Close it'));
    await page.waitForURL(/report/);
    await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe('H1');
    await keys.held('the audit was closed');
    await expect.poll(() => page.locator('main').innerText()).toContain('the rest on Monday');
  });
});

describe('the other occasions, by keyboard alone', () => {
  it('inherited: says what is in the first jack', async () => {
    await begin(/^Inherited/);
    await expect.poll(jack).toBe('P01');
    await settled();
    await typeLabel('77');
    await expect.poll(verdict).toContain('P01');
    await expect.poll(verdict).toContain('77');
    await expect.poll(jack).toBe('P02');
  });

  it('build: lands the first end', async () => {
    await begin(/^Build/, /^Unplug/);
    await settled();
    await keys.press(button('P01 Plugged 1001, as planned'));
    await expect.poll(verdict).toContain('P01: 1001');
    await keys.back(button(/^P02 Plugged 1002/), 'an end was landed');
    await more(/^Work on this end/);
    await keys.press(inDialog(/^Pulled/));
    await expect.poll(() => page.getByRole('dialog').innerText()).toMatch(/Pulled\s+done/);
    await keys.held('an end was pulled');
    await page.keyboard.press('Escape');
    await keys.back(tool('More'), 'the work was said');
  });

  it('relabel: takes one name from a pasted list and puts the labels right at both ends', async () => {
    await begin(/^Relabel/, /^Touch/);
    await expect.poll(() => page.locator('body').innerText()).toContain('Renaming list');
    await keys.held('the list was asked for');
    await keys.choose(/^Pasted/);
    await keys.type(page.getByLabel('One pair a line'), '1001 -> 8001');
    await keys.press(button('Show every pair'));
    await keys.press(button(/^.*Save 1 pair/));
    await expect.poll(() => page.locator('body').innerText()).toContain('Not started');
    await keys.held('the list was taken');
    await keys.press(button(/To the walk/));
    await page.locator('.thumb-states').waitFor();
    await expect.poll(jack).toBe('P01');
    await settled();
    await keys.press(button(/reads 1001/i));
    await expect.poll(verdict).toMatch(/old label, becomes 8001/);
    await keys.press(button(/^New label .* is on/));
    await expect.poll(verdict).toContain('is on, old 1001 is still on');
    await keys.held('the new label was put on');
    await settled();
    await keys.press(page.locator('.jack-window').getByRole('button', { name: /^P01/ }));
    await keys.press(button(/^Go to CON30 NET/));
    await expect.poll(jack).toBe('NET');
    await keys.held('the far end was chosen');
    await settled();
    await keys.press(button(/reads 1001/i));
    await keys.press(button(/^New label 8001 is on/));
    await keys.press(page.locator('.jack-window').getByRole('button', { name: /^NET,/ }));
    await keys.press(button(/^Old label 1001 is off/));
    await expect.poll(verdict).toContain('old 1001 is off');
    await keys.held('the old label was taken off');
  });
});
