// The walk as a screen reader has it, by roles and names alone: what each control is called, which jack is in hand, what is
// announced and in which order, how headings run, what a sheet is called. Held to WAI-ARIA 1.2 and WCAG 2.2 (1.3.1, 1.4.1,
// 2.4.6, 4.1.2, 4.1.3). Data: the demo station (invented).
import type { Locator, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { onePhone } from './onePhone.ts';
import { openRow } from './sheets.ts';

const phone = onePhone('reader-walk');
let page: Page;
beforeAll(() => {
  page = phone.page;
});

/** Notes every change of a live region once it has been drawn, as a reader would speak it. Plain text: it runs in the page. */
const LISTEN = `(() => {
  window.spoken = [];
  const told = new WeakMap();
  const live = '[role=status], [role=alert], [aria-live=polite], [aria-live=assertive]';
  const words = (region) => region.innerText.replace(/\\s+/g, ' ').replace(/ ([,.:])/g, '$1').trim();
  for (const region of document.querySelectorAll(live)) told.set(region, words(region));
  new MutationObserver(() => {
    for (const region of document.querySelectorAll(live)) {
      const now = words(region);
      if (told.get(region) === now) continue;
      told.set(region, now);
      if (now && !region.closest('[inert]')) window.spoken.push(now);
    }
  }).observe(document.body, { subtree: true, childList: true, characterData: true });
})()`;

const spoken = () => page.evaluate<string[]>('window.spoken');
const button = (name: string | RegExp, within: Page | Locator = page) => within.getByRole('button', { name }).first();
const say = () => page.getByRole('region', { name: 'Record what you see' });
const sheet = () => page.getByRole('dialog');
const inHand = () => page.locator('[aria-current=true]');
const { settled } = phone;

/** Buttons, fields and choices of a part of the page, by the names that a reader is given. */
async function controls(part: Locator): Promise<string[]> {
  const tree = await part.ariaSnapshot();
  return [
    ...tree.matchAll(/^\s*- '?(button|textbox|radio|checkbox|combobox|searchbox|link)(?: "(.*?)")?(?= \[|:|'|$)/gm),
  ].map(([, role, name]) => `${role} ${name ?? ''}`.trim());
}

async function distinct(part: Locator, what: string): Promise<void> {
  const names = await controls(part);
  expect(names.length, what).toBeGreaterThan(0);
  expect(
    names.filter((name) => !/^\w+ \S/.test(name)),
    `${what}: controls without a name`,
  ).toEqual([]);
  expect(
    names.filter((name, i) => names.indexOf(name) !== i),
    `${what}: names given twice`,
  ).toEqual([]);
}

/** Begins with its own heading, the only one of the first level, and none skips a level on the way down. */
async function headings(part: Locator, what: string, top = 1): Promise<void> {
  const levels = [...(await part.ariaSnapshot()).matchAll(/heading .*?\[level=(\d)\]/g)].map(([, level]) =>
    Number(level),
  );
  expect(levels[0], `${what} begins with its heading`).toBe(top);
  expect(levels.filter((level) => level === 1).length, `${what} has one heading of the first level`).toBe(2 - top);
  expect(
    levels.filter((level, i) => i > 0 && level > levels[i - 1]! + 1),
    `${what} skips a level`,
  ).toEqual([]);
}

async function more(row: RegExp): Promise<void> {
  await button('More', say()).click();
  await openRow(page, row);
}

describe('after a move, as a reader has it', () => {
  const app = () => page.locator('#app');

  it('names every control of the first screens apart, under headings in order', async () => {
    await page.goto(phone.origin);
    await button(/^Open the demo station/).waitFor();
    await distinct(app(), 'the first screen');
    await headings(app(), 'the first screen');
    await button(/^Open the demo station/).click();
    await button('Plan 148 cables').waitFor();
    await distinct(app(), 'home');
    await headings(app(), 'home');
    await button(/^Begin an audit/).click();
    await page.getByRole('textbox', { name: 'Your name' }).fill('I. Halloran');
    await page.getByRole('radio', { name: /^After a move/ }).check();
    await distinct(app(), 'the start of an audit');
    await headings(app(), 'the start of an audit');
    await button(/Begin the walk/).click();
    await page.getByRole('heading', { level: 1, name: /SW1.*P01/ }).waitFor();
  });

  it('tells the jack in hand and every state in words', async () => {
    await distinct(app(), 'the walk');
    await headings(app(), 'the walk');
    expect(await inHand().count()).toBe(1);
    expect(await inHand().getAttribute('aria-label')).toBe('P01, plan 1001, not looked at yet');
    await button(/^You may look not touch not unplug$/).waitFor();
    expect(await page.getByRole('status').count()).toBeGreaterThan(0);
  });

  it('speaks each verdict once, the jack first, in the order in which it was said', async () => {
    await page.evaluate(LISTEN);
    for (let n = 1; n <= 6; n++) {
      await button(`P0${n} reads 100${n}, as planned`).click();
      await expect.poll(async () => (await spoken()).length).toBe(n);
      await settled();
    }
    await button(/^Type the label of SW1 P07/).click();
    await page.getByRole('textbox', { name: 'Label, as printed' }).fill('1012');
    await button('Record', sheet()).click();
    await expect.poll(async () => (await spoken()).length).toBe(7);
    await settled();
    await button('Empty', say()).click();
    await expect.poll(async () => (await spoken()).length).toBe(8);
    await settled();
    await button('No label', say()).click();
    await expect.poll(async () => (await spoken()).length).toBe(9);
    await settled();
    await button('Undo', say()).click();
    await expect.poll(async () => (await spoken()).length).toBe(10);
    expect(await spoken()).toEqual([
      'P01: 1001, as planned. By eye. From end CON30 NET: not seen yet.',
      'P02: 1002, as planned. By eye. From end CON30 NET2: not seen yet.',
      'P03: 1003, as planned. By eye. From end MIO31 NET: not seen yet.',
      'P04: 1004, as planned. By eye. From end CON32 NET: not seen yet.',
      'P05: 1005, as planned. By eye. From end CON32 NET2: not seen yet.',
      'P06: 1006, as planned. By eye. From end MIO33 NET: not seen yet.',
      'P07: 1012, differs. Plan 1007. 1012 belongs in P12.',
      'P08: empty. Plan 1008.',
      'P09: no label. Plan has 1009 here; not confirmed.',
      'Undone: SW1 P09, no label.',
    ]);
  });

  it('shows the same on the drawing: found, differing, empty, each by its word', async () => {
    const jack = (name: string) => button(new RegExp(`^${name},`)).getAttribute('aria-label');
    expect(await jack('P07')).toBe('P07, plan 1007, found 1012, differs');
    expect(await jack('P08')).toBe('P08, plan 1008, empty, differs');
    expect(await jack('P09')).toBe('P09, plan 1009, not looked at yet');
    expect(await inHand().count()).toBe(1);
    expect(await inHand().getAttribute('aria-label')).toBe(await jack('P09'));
    await more(/^Record a row/);
    expect(await button(/^P01,/, page.locator('.walk-over')).getAttribute('aria-label')).toBe(
      'P01, plan 1001, found 1001, as planned',
    );
    await page.keyboard.press('Escape');
    await page.locator('.walk-over').waitFor({ state: 'detached' });
  });

  it('gives every sheet the part of a dialog and a name of its own', async () => {
    const names: string[] = [];
    for (const row of [
      /^Not checked/,
      /^Hazard seen/,
      /^Photos at/,
      /^Voice note/,
      /^Walking order/,
      /^Which ends/,
      /^Far end/,
      /^Go to another unit/,
      /^Temporary tags/,
      /^What unit is here/,
      /^Loose end/,
      /^Read off/,
      /^For the maintenance window/,
      /^What you may do/,
      /^Close the audit/,
    ]) {
      await button('More', say()).click();
      await distinct(sheet(), 'More');
      await headings(sheet(), 'More', 2);
      await openRow(page, row);
      await expect.poll(() => page.getByRole('dialog', { name: /^More at/ }).count()).toBe(0);
      await sheet().waitFor();
      await distinct(sheet(), String(row));
      await headings(sheet(), String(row), 2);
      names.push((await sheet().getByRole('heading', { level: 2 }).first().innerText()).trim());
      expect(await page.getByRole('dialog', { name: names.at(-1)!, exact: true }).count(), names.at(-1)).toBe(1);
      await page.keyboard.press('Escape');
      await expect.poll(() => sheet().count()).toBe(0);
    }
    expect(new Set(names).size).toBe(names.length);
  });

  it('speaks a row and another unit, and names what lies over the walk by its heading', async () => {
    await page.evaluate('window.spoken.length = 0');
    await more(/^Record a row/);
    const over = page.locator('.walk-over');
    await headings(over, 'a row at once');
    await distinct(over, 'a row at once');
    await button(/^P18,/, over).click();
    await button(/^P23,/, over).click();
    await button(/Record 6 as empty/, over).click();
    await button('Undo', say()).waitFor();
    await expect.poll(async () => (await spoken()).at(-1)).toContain('P18 to P23');
    await more(/^Go to another unit/);
    await button(/^SW2/, sheet()).click();
    await page.getByRole('heading', { level: 1, name: /SW2.*P01/ }).waitFor();
    await expect.poll(() => inHand().getAttribute('aria-label')).toMatch(/^P01,/);
    await settled();
    await button(/^P01 /, say()).click();
    await expect.poll(async () => (await spoken()).at(-1)).toMatch(/^P01: /);
    expect(await spoken()).toEqual([
      'P18 to P23: empty. You record that you looked into each of these 6 jacks and found no plug. In the plan all 6 are empty. By eye, I. Halloran. 6 entries; one Undo takes them all back.',
      'P18 to P23: empty. 6 jacks recorded. One Undo takes them all back.',
      'P01: 1031, as planned. By eye. From end AIO21 NET: not seen yet.',
    ]);
  });

  it('closes, and the report and the list of differences run under headings in order', async () => {
    await more(/^Close the audit/);
    await button('Close it', sheet()).click();
    await page.waitForURL(/report/);
    await page.getByRole('heading', { level: 2 }).first().waitFor();
    await headings(app(), 'the report');
    await distinct(app(), 'the report');
    await page.goto(page.url().replace('report', 'differences'));
    await page.getByRole('heading', { level: 2 }).first().waitFor();
    await headings(app(), 'the differences');
  });
});
