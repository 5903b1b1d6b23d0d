// README's first five minutes, followed literally in a real browser: every press takes its words from README's own list,
// and every claim of the list is looked at. The data is the demo station (invented).
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { contextOptions, newCode, ROOT, untilOffline } from './harness.ts';
import { onePhone } from './onePhone.ts';
import { settled } from './settled.ts';
import { openRow } from './sheets.ts';

const phone = onePhone('readme', { camera: true });

const section = readFileSync(join(ROOT, 'README.md'), 'utf8').split('## Five minutes with the demo')[1] ?? '';
const steps = [...section.matchAll(/^\d+\. (.+)$/gm)].map(([, step = '']) => step);

/** The words that a step prints in bold, in their order; they are to be all used. */
function wordsOf(n: number): { next: () => string; left: () => string[] } {
  const words = [...(steps[n - 1] ?? '').matchAll(/\*\*(.+?)\*\*/g)].map(([, word = '']) => word);
  return {
    next: () => words.shift() ?? `a word that step ${n} of README does not have`,
    left: () => words,
  };
}
/** What a step tells to type. */
const typedIn = (n: number) => [...(steps[n - 1] ?? '').matchAll(/`(\d+)`/g)].map(([, text = '']) => text);

const button = (words: string) =>
  phone.page.getByRole('button', { name: new RegExp(words.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'), 'i') }).first();
const main = () => phone.page.locator('main').innerText();
const plate = () => phone.page.locator('.plate').innerText();
const verdict = () => phone.page.locator('.verdict').innerText();

it('has seven steps, each with words to press', () => {
  expect(steps).toHaveLength(7);
  for (const [i] of steps.entries()) expect(wordsOf(i + 1).left().length, `step ${i + 1}`).toBeGreaterThan(0);
});

it('1 and 2: opens the demo station and begins an audit of one rack', async () => {
  const [one, two] = [wordsOf(1), wordsOf(2)];
  await phone.page.goto(phone.origin);
  await button(one.next()).click();
  await phone.page.getByText('148 cables').waitFor();
  expect(one.left()).toEqual([]);
  await untilOffline(phone.page);
  await button(two.next()).click();
  await phone.page.getByLabel(two.next()).fill('I. Halloran');
  await phone.page.getByRole('checkbox', { name: new RegExp(`^${two.next()}`) }).check();
  expect(await phone.page.getByRole('radio', { name: new RegExp(`^${two.next()}`) }).isChecked()).toBe(true);
  await button(two.next()).click();
  await phone.page.waitForURL(/walk/);
  phone.audit = /audit\/([^/?]+)/.exec(phone.page.url())?.[1] ?? '';
  expect(two.left()).toEqual([]);
});

it('3: reads two jacks by a tap and types what is in the next two', async () => {
  const words = wordsOf(3);
  await expect.poll(plate).toMatch(/SW1[\s\S]*P01/);
  await button(words.next()).click();
  await expect.poll(verdict).toContain('P01:');
  await button(words.next()).click();
  await expect.poll(verdict).toContain('P02:');
  const [type, record] = [words.next(), words.next()];
  for (const [i, label] of typedIn(3).entries()) {
    const jack = ['P03', 'P04'][i]!;
    await expect.poll(plate).toContain(jack);
    await settled(phone.page);
    await button(type).click();
    await phone.page.getByRole('dialog').getByRole('textbox').fill(label);
    await phone.page
      .getByRole('dialog')
      .getByRole('button', { name: new RegExp(record) })
      .click();
    await expect.poll(verdict).toContain(`${jack}:`);
    if (jack === 'P03') expect(await verdict()).toContain('1004 belongs in P04');
  }
  await expect.poll(plate).toContain('P05');
  expect(words.left()).toEqual([]);
});

it('4: says a row of empty ports at once, as one entry that one undo would take back', async () => {
  const words = wordsOf(4);
  await settled(phone.page);
  // The verdict has a button of the same word, for what was said last.
  await phone.page.locator('.thumb-tools').getByRole('button', { name: words.next() }).click();
  await openRow(phone.page, new RegExp(`^${words.next()}`));
  const over = phone.page.locator('.walk-over');
  for (const jack of ['P17', 'P23']) {
    expect(steps[3]).toContain(jack);
    await over.getByRole('button', { name: new RegExp(`^${jack},`) }).click();
  }
  await over.getByRole('button', { name: words.next(), exact: true }).click();
  await over.getByRole('button', { name: new RegExp(words.next()) }).click();
  await expect.poll(verdict).toContain('P17 to P23');
  expect(words.left()).toEqual([]);
});

it('5: is at the same jack after a reload without a network, and takes a photo and a note there', async () => {
  const words = wordsOf(5);
  await settled(phone.page);
  const before = await phone.page.locator('h1').innerText();
  await phone.context.setOffline(true);
  await phone.page.reload();
  await expect.poll(() => phone.page.locator('h1').innerText()).toBe(before);
  await settled(phone.page);
  await button(words.next()).click();
  await settled(phone.page);
  await phone.page.locator('.thumb-tools').getByRole('button', { name: words.next() }).click();
  await phone.page
    .getByRole('dialog')
    .getByRole('button', { name: /Take the photo/ })
    .click();
  await phone.page.getByText('Photo saved at SW1 P05.').waitFor();
  await settled(phone.page);
  await phone.page.locator('.thumb-tools').getByRole('button', { name: words.next() }).click();
  await phone.page.getByRole('dialog').getByRole('textbox').fill('bundle tied to the rail');
  await phone.page.getByRole('dialog').getByRole('button', { name: /Save/ }).click();
  await phone.page.getByRole('dialog').waitFor({ state: 'detached' });
  expect(words.left()).toEqual([]);
});

it('6: shows the two differences as one cause, the work in order, and the report to pass on', async () => {
  const words = wordsOf(6);
  await settled(phone.page);
  await button('Back to the station').click();
  await button(words.next()).click();
  const cause = button(words.next());
  await cause.waitFor();
  await phone.page.getByText('The check that settles most').waitFor();
  await cause.click();
  await phone.page
    .getByRole('button', { name: /^Accept/ })
    .first()
    .waitFor();
  await phone.page.goto(phone.origin);
  await button(words.next()).click();
  await expect.poll(plate).toContain('Work to do');
  await phone.page.goto(phone.origin);
  await button(words.next()).click();
  await button(words.next()).waitFor();
  await button(words.next()).waitFor();
  await expect.poll(main).toContain('1004');
  expect(words.left()).toEqual([]);
});

it('7: sends by itself once it is paired, and a second browser sees the same audit', async () => {
  const words = wordsOf(7);
  await settled(phone.page);
  await phone.context.setOffline(false);
  await phone.page.goto(phone.origin);
  await button(words.next()).click();
  const [code, pair] = [words.next(), words.next()];
  await phone.page.getByLabel(code, { exact: true }).fill(phone.served.code);
  await phone.page.getByRole('button', { name: pair, exact: true }).click();
  await phone.page.getByText('Nothing waits to be sent.').waitFor();
  expect(words.left()).toEqual([]);

  const second = await phone.browser.newContext(contextOptions());
  const other = await second.newPage();
  await other.goto(`${phone.origin}/sync`);
  await other.getByLabel(code, { exact: true }).fill(await newCode(phone.served));
  await other.getByRole('button', { name: pair, exact: true }).click();
  // The empty phone takes the station as its own, and its page begins again there.
  await other.getByText('148 cables').first().waitFor();
  await settled(other);
  await other.goto(`${phone.origin}/audit/${phone.audit}/differences`);
  await expect.poll(() => other.locator('main').innerText(), { timeout: 60_000 }).toContain('1004');
  await second.close();
});
