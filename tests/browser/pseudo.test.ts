// A language longer by half, walked in a real Chromium with nothing cut off: every screen, sheet and form, on two phones, and
// three screens on a desk. How long a language grows is common practice, no source; the texts are made longer in pseudo.ts.
//
// Limits: It proves room, not words. A sentence built of fragments, a text that stands in code and not in a catalogue, and
// another order of words are not seen by it; a drawing or row that counts the letters it is given counts English ones here.
// Nor does it ask for more than half: a button of one short word may grow by more.
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { contextOptions, DESK, openBrowser, PHONE, picture, type Served, serve } from './harness.ts';
import { boxFaults, currentJackFaults } from './measure.ts';
import { cutFaults, inOwnWords, longer, pseudoScript } from './pseudo.ts';
import { settled } from './settled.ts';
import { BUILD_SHEETS, type Opening, OVERS, SHEETS, screensOf } from './sheets.ts';

/** Typed below, and said again in sentences. */
const TYPED = ['Halloran', 'Robin', 'Demo', 'Fenningmoor', 'Community', 'Radio'];
const SMALL = { width: 360, height: 640 };
/** An invented list with what is asked about: a cable twice, a row without its far end, a signal that nobody knows. */
const QUESTIONS = [
  'Cable No,From Unit,From Jack,To Unit,To Jack,Signal',
  '1001,SW1,P01,CON30,NET,network',
  '1001,SW1,P02,CON31,NET,network',
  '1003,SW1,P03,,,network',
  '1004,SW1,P04,CON32,NET,wobble',
].join('\n');

const soon = <T>(ask: () => T | Promise<T>) => expect.poll(ask);

let served: Served;
let browser: Browser;
let page: Page;
let audit = '';

beforeAll(async () => {
  served = await serve();
  browser = await openBrowser();
  const context = await browser.newContext(contextOptions({ permissions: ['camera', 'microphone'] }));
  await context.addInitScript({ content: pseudoScript(TYPED) });
  page = await context.newPage();
  page.setDefaultTimeout(60_000);
});
afterAll(async () => {
  await browser?.close();
  await served?.stop();
});
afterEach(async ({ task }) => {
  if (task.result?.state === 'fail') await picture(page, 'failed-pseudo');
});

async function open(path: string): Promise<void> {
  await page.goto(served.origin + path);
  await page.locator('main').waitFor();
  await soon(() => page.locator('main').innerText()).not.toMatch(/^\[?(Load|Open[^\n]*)?$/);
  await settled(page);
}

const at = (place: string) => open(`/audit/${audit}/walk?at=${encodeURIComponent(place)}`);

/** Of the sheet as it stands, in each size. */
async function faults(name: string, sizes = [PHONE, SMALL]): Promise<string[]> {
  const wrong: string[] = [];
  for (const size of sizes) {
    await page.setViewportSize(size);
    // As it is opened, and on the small phone with everything in it that unfolds.
    if (size === SMALL)
      await page.locator('details').evaluateAll((folds) => {
        for (const fold of folds) (fold as HTMLDetailsElement).open = true;
      });
    await settled(page);
    const what = `${name}, ${size.width}`;
    await picture(page, `pseudo-${name.replace(/\W+/g, '-')}-${size.width}`);
    wrong.push(...(await cutFaults(page, what)), ...(await boxFaults(page, what)));
    if (/walk$/.test(name)) wrong.push(...(await currentJackFaults(page, what)));
  }
  await page.setViewportSize(PHONE);
  return wrong;
}

/** Each opened over the walk, one behind the other. */
async function faultsOf(openings: readonly Opening[]): Promise<string[]> {
  const wrong: string[] = [];
  const dialog = page.getByRole('dialog');
  for (const { name, open: go } of openings) {
    if ((await page.locator('.thumb-states').count()) === 0 || (await page.locator('.walk-over').count()) > 0)
      await at('SW1/P06');
    await settled(page);
    await inOwnWords(page, () => go(page));
    wrong.push(...(await faults(name)));
    if ((await dialog.count()) > 0) {
      await page.keyboard.press('Escape');
      await dialog.first().waitFor({ state: 'detached' });
    }
  }
  return wrong;
}

/** By the places of the fields and buttons alone, in the pseudo-language all the way. */
async function begin(occasion = 0): Promise<void> {
  await open('/start-audit');
  await page.locator('main input.field-input').nth(1).fill('I. Halloran');
  await page.getByRole('radio').nth(occasion).check();
  await page.locator('.screen-foot .cell-primary').click();
  await page.waitForURL(/walk/);
  await page.locator('.thumb-states').waitFor();
  audit = /audit\/([^/?]+)/.exec(page.url())?.[1] ?? '';
  await settled(page);
}

async function type(label: string): Promise<void> {
  await page.locator('.thumb-tools button').nth(2).click();
  await page.getByRole('dialog').getByRole('textbox').fill(label);
  await page.keyboard.press('Enter');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await settled(page);
}

it('makes a text longer by half and leaves names, numbers and what was typed', () => {
  const text = 'Pull the plug at SW1 P03, read by I. Halloran at 14:05 on U12.';
  const made = longer(text, TYPED);
  for (const name of ['SW1 P03,', 'I. Halloran', '14:05', 'U12.]']) expect(made).toContain(name);
  expect(made.startsWith('[Puéüll théüe ')).toBe(true);
  expect(longer('Every unit of the rack', TYPED).length).toBeGreaterThanOrEqual(1.5 * 'Every unit of the rack'.length);
  expect(longer('SW1/P03', TYPED)).toBe('SW1/P03');
});

it('home on an empty phone, and a list with questions', async () => {
  await open('/');
  const wrong = await faults('first home');
  await open('/bring-in');
  const file = { name: 'questions.csv', mimeType: 'text/csv', buffer: Buffer.from(QUESTIONS) };
  await page.locator('input[type=file]').first().setInputFiles(file);
  await page.locator('main details').first().waitFor();
  await settled(page);
  wrong.push(...(await faults('questions')));
  expect(wrong).toEqual([]);
});

it('the walk in the pseudo-language alone, said once and not twice, with its verdicts', async () => {
  await open('/');
  await inOwnWords(page, () => page.getByText('Open the demo station').click());
  await page.getByText(/148/).first().waitFor();
  await begin();
  await at('SW1/P03');
  const wrong = await faults('first walk');
  await type('1004');
  await soon(() => page.locator('.verdict').innerText()).toContain('1004');
  wrong.push(...(await faults('differs, walk')));
  await page.locator('.verdict-more').click();
  await page.locator('.walk-over').waitFor();
  wrong.push(...(await faults('details')));
  await at('SW1/P05');
  for (const state of [0, 1, 3]) {
    const before = await page.locator('.plate h1').innerText();
    await page.locator('.thumb-states button').nth(state).click();
    await soon(() => page.locator('.plate h1').innerText()).not.toBe(before);
    await settled(page);
    wrong.push(...(await faults(`state ${state}, walk`)));
    const said = await page.locator('.verdict').innerText();
    expect(said).toMatch(/[éüåîõ]/);
    const own = await inOwnWords(page, () => page.locator('.verdict').innerText());
    expect(said.replace(/[[\]éüåîõ]/g, '')).toBe(own);
  }
  expect(wrong).toEqual([]);
});

it('every screen', async () => {
  const wrong: string[] = [];
  for (const [name, path] of screensOf(audit)) {
    await open(path);
    const desk = ['walk', 'differences', 'plan'].includes(name) ? [DESK] : [];
    wrong.push(...(await faults(name, [PHONE, SMALL, ...desk])));
  }
  expect(wrong).toEqual([]);
});

it('a difference, what it is signed for, the window and closing', async () => {
  const dialog = page.getByRole('dialog');
  const shut = async () => {
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
  };
  await open(`/audit/${audit}/differences`);
  await page.locator('main button.row').first().click();
  await page.locator('.decide').first().waitFor();
  await settled(page);
  const wrong = await faults('a difference', [PHONE, SMALL, DESK]);
  await page.locator('.decide .details-foot button').last().click();
  await dialog.waitFor();
  wrong.push(...(await faults('signing')));
  await shut();
  await open(`/audit/${audit}/fixes`);
  await inOwnWords(page, () =>
    page
      .locator('main')
      .getByRole('button', { name: /window/ })
      .first()
      .click(),
  );
  await dialog.waitFor();
  wrong.push(...(await faults('agreeing a window')));
  await shut();
  await open(`/audit/${audit}/report`);
  await page.locator('.screen-foot .cell').last().click();
  await dialog.waitFor();
  wrong.push(...(await faults('closing')));
  expect(wrong).toEqual([]);
});

it('every sheet and form of the walk', async () => {
  const wrong = await faultsOf(SHEETS);
  wrong.push(...(await faultsOf(OVERS)));
  expect(wrong).toEqual([]);
});

it('a build', async () => {
  await begin(3);
  const wrong = await faults('build, walk');
  wrong.push(...(await faultsOf(BUILD_SHEETS)));
  expect(wrong).toEqual([]);
});
