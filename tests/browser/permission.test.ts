// With permission to look nothing is offered that a hand would have to do, on any occasion; with permission to unplug the
// same walks offer it, so that the check can fail. Data: the demo station (invented).
import { expect, it } from 'vitest';
import { onePhone } from './onePhone.ts';
import { settled } from './settled.ts';
import { SHEETS } from './sheets.ts';

const phone = onePhone('permission');
/** What the app calls work of the hands where it offers it: a label on or off, an end landed or pulled, a plug moved. */
const BY_HAND = /\bis (on|off)$|\b(landed|pulled|put|pull|plug it|move)\b|\bplugged (?:\d|.*\brecord$)|\bBegin$/i;
/** Rows that only tell what is said there: of pairs, of an end's history, of an agreed time. */
const ONLY_TOLD = /^(Landed in colour order|Work on this end|No maintenance window is agreed)/;
/** Sheets in which a hand might be offered something. */
const ASKED = new Set(['more', 'twins', 'jacket', 'unit-here', 'loose', 'finish']);

async function offers(): Promise<string[]> {
  const { page } = phone;
  const found: string[] = [];
  const take = async () => {
    const buttons = await page.locator('button:enabled:visible:not([data-waits=true] *)').allInnerTexts();
    found.push(
      ...buttons
        .map((text) => text.replace(/\s+/g, ' ').trim())
        .filter((text) => BY_HAND.test(text) && !ONLY_TOLD.test(text)),
    );
  };
  await phone.at('SW1/P02');
  await take();
  for (const { open } of SHEETS.filter(({ name }) => ASKED.has(name))) {
    await open(page);
    await page.getByRole('dialog').waitFor();
    await take();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  }
  await page.goto(`${phone.origin}/audit/${phone.audit}/fixes`);
  await page.getByRole('heading', { name: 'Work to do' }).waitFor();
  await page.getByRole('button', { name: 'Walk on' }).waitFor();
  await settled(page);
  await take();
  return found;
}

async function allow(what: RegExp): Promise<void> {
  await phone.at('SW1/P02');
  await phone.more(/^What you may do/);
  await phone.page.getByRole('dialog').getByRole('button', { name: what }).click();
  await phone.page.getByRole('dialog').waitFor({ state: 'detached' });
  // It counts once it is on disk; leaving the page before would lose it.
  await expect.poll(() => phone.page.locator('.permission-yes').allInnerTexts()).toContain('unplug');
  await phone.settled();
}

/** Each with one thing that unplugging, or touching, would offer. */
const OCCASIONS: [name: string, occasion: RegExp, prepare: () => Promise<void>, offered: RegExp][] = [
  [
    'after a move, with a plug that bears no label and a row one jack off',
    /^After a move/,
    async () => {
      for (const [place, label] of [
        ['SW2/P06', '1035'],
        ['SW2/P07', '1036'],
        ['SW2/P08', '1037'],
      ] as const) {
        await phone.at(place);
        await phone.page.locator('.thumb-tools').getByRole('button', { name: /^Type/ }).click();
        await phone.page.getByRole('dialog').getByRole('textbox').fill(label);
        await phone.page.keyboard.press('Enter');
        await expect.poll(phone.verdict).toContain(label);
      }
      await phone.at('SW2/P05');
      await phone.page.locator('.thumb-states').getByRole('button', { name: 'Empty' }).click();
      await expect.poll(phone.verdict).toContain('P05:');
      await phone.at('SW1/P02');
      await phone.page.locator('.thumb-states').getByRole('button', { name: 'No label' }).click();
      await expect.poll(phone.verdict).toContain('P02:');
    },
    /SW2 P06: move 1035/,
  ],
  [
    'relabelling',
    /^Relabel/,
    async () => {
      const { page } = phone;
      await page.goto(`${phone.origin}/audit/${phone.audit}/renaming`);
      await page.locator('label.choice-cell', { hasText: 'Pasted' }).click();
      await page.getByLabel('One pair a line').fill('1002 -> 8002');
      await phone.press('Show every pair');
      await phone.press(/Save 1 pair/);
      await page.getByText('Not started').first().waitFor();
      await phone.settled();
      await phone.at('SW1/P02');
      await page.locator('.thumb-reads button').first().click();
      await expect.poll(phone.verdict).toContain('P02:');
    },
    /is on$/,
  ],
  ['a build', /^Build/, async () => {}, /\bplugged (?:\d|.*\brecord$)/i],
];

async function beginRelabelling(): Promise<void> {
  await phone.page.goto(`${phone.origin}/start-audit`);
  await phone.page.getByRole('radio', { name: /^Relabel/ }).check();
  await phone.press(/Begin the walk/);
  await phone.page.waitForURL(/renaming/);
  phone.audit = /audit\/([^/?]+)/.exec(phone.page.url())?.[1] ?? '';
}

it.each(OCCASIONS)('%s', async (name, occasion, prepare, offered) => {
  if (name.startsWith('after')) await phone.demoOffline();
  // A renaming begins with its list, not at a jack.
  await (name === 'relabelling' ? beginRelabelling() : phone.begin(occasion));
  await prepare();
  expect(await offers()).toEqual([]);
  await allow(/^Unplug/);
  expect((await offers()).filter((text) => offered.test(text))).not.toEqual([]);
});
