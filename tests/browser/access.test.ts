// Every screen and every sheet of the walk against the WCAG 2.2 rules that a machine can check (axe-core, W3C ACT rules),
// in both themes; and at small, wide and enlarged sizes nothing runs out of the sheet. Data: the demo station (invented).
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { contextOptions, openBrowser, picture, type Served, serve } from './harness.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const SIZES: readonly [name: string, width: number, height: number, text: number][] = [
  ['small', 360, 640, 100],
  ['phone', 390, 844, 100],
  ['lying', 844, 390, 100],
  ['desk', 1280, 800, 100],
  ['large text', 390, 844, 200],
];

let served: Served;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let audit = '';

/** Says a few things at SW1, so that screens have something to show. */
async function station(): Promise<void> {
  await page.goto(served.origin);
  await page.getByText('Look at the demo station').click();
  await page.getByText('148 cables').waitFor();
  await page.goto(`${served.origin}/start-audit`);
  await page.getByLabel('Your name').fill('I. Halloran');
  await page.getByRole('button', { name: /Begin the walk/ }).click();
  await page.waitForURL(/walk/);
  audit = /audit\/([^/?]+)/.exec(page.url())?.[1] ?? '';
  for (const [place, label] of [
    ['SW1/P03', '1004'],
    ['SW1/P04', '1003'],
    ['SW1/P05', '7777-written-by-hand-long-ago'],
  ]) {
    await page.goto(`${served.origin}/audit/${audit}/walk?at=${encodeURIComponent(place!)}`);
    await page.getByRole('button', { name: /^Type the label/ }).click();
    await page.getByRole('dialog').getByRole('textbox').fill(label!);
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await page.locator('.verdict').getByText(label!.slice(0, 4)).first().waitFor();
  }
}

const screens = (): [string, string][] => [
  ['home', '/'],
  ['bring-in', '/bring-in'],
  ['plan', '/plan'],
  ['rack', '/plan/R2'],
  ['search', '/search?for=AIO'],
  ['cable', '/cable/1004'],
  ['start-audit', '/start-audit'],
  ['walk', `/audit/${audit}/walk`],
  ['differences', `/audit/${audit}/differences`],
  ['fixes', `/audit/${audit}/fixes`],
  ['report', `/audit/${audit}/report`],
  ['describe', `/audit/${audit}/describe`],
  ['describe-rack', `/audit/${audit}/describe?what=rack`],
  ['describe-unit', `/audit/${audit}/describe?what=unit`],
  ['make-plan', `/audit/${audit}/make-plan`],
  ['renaming', `/audit/${audit}/renaming`],
  ['photos', `/audit/${audit}/photos`],
  ['labels', '/labels'],
  ['sync', '/sync'],
  ['settings', '/settings'],
  ['help', '/help/marks'],
  ['not-found', '/nowhere/at/all'],
];

/** Rows of More that open a sheet; each is opened from the walk and closed with Escape. */
const SHEETS = [
  'Not opened',
  'Hazard seen',
  'Go to another unit',
  'Loose end',
  'Unit here',
  /^Read off/,
  'What you may do',
  'Close the audit',
  /^Photos at/,
  /^Voice note/,
  /^Photo of the whole/,
];

/** Rows of More that lay a form over the walk. */
const FORMS = [
  'Adapter or tail here',
  'Patch lead',
  'Landed in colour order',
  'Panel, block or trunk',
  /^Power/,
] as const;

/** In a sheet that scrolls, a row half under the edge looks too small to the checker; rows are measured elsewhere. */
async function violations(what: string, isSheet = false): Promise<string[]> {
  const found = await page.evaluate(
    async ([rules, half]) => {
      const axe = (
        window as unknown as {
          axe: {
            run(root: Document, options: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
          };
        }
      ).axe;
      return (
        await axe.run(document, {
          runOnly: rules,
          resultTypes: ['violations'],
          rules: { 'target-size': { enabled: !half } },
        })
      ).violations;
    },
    [RULES, isSheet] as const,
  );
  return found.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${what}: ${id}: ${html.slice(0, 140)}`));
}

/** Words that are cut, and whatever runs out of the sheet sideways. */
async function overflow(what: string): Promise<string[]> {
  return page.evaluate((name) => {
    const found: string[] = [];
    const over = document.documentElement.scrollWidth - innerWidth;
    if (over > 0) found.push(`${name}: the sheet is ${over} px too wide`);
    const scrolls = (element: Element | null): boolean =>
      element !== null && (/auto|scroll/.test(getComputedStyle(element).overflowX) || scrolls(element.parentElement));
    for (const element of document.querySelectorAll<HTMLElement>('main *, footer *, header *, dialog *')) {
      if (
        element.closest('svg, .only-spoken, video') ||
        scrolls(element.parentElement) ||
        element.children.length > 0 ||
        !element.textContent?.trim()
      )
        continue;
      const box = element.getBoundingClientRect();
      if (box.width < 1 || box.height < 1) continue;
      const style = getComputedStyle(element);
      const cut =
        element.scrollWidth > element.clientWidth + 1 && style.overflowX !== 'visible' && style.display !== 'inline';
      if (cut || box.right > innerWidth + 1) found.push(`${name}: cut: ${element.outerHTML.slice(0, 140)}`);
    }
    return found.slice(0, 4);
  }, what);
}

async function opened(path: string): Promise<void> {
  await page.goto(served.origin + path);
  await page.locator('main').waitFor();
  await expect.poll(() => page.locator('main').innerText()).not.toMatch(/^(Loading|Opening[^\n]*)?$/);
  await page.waitForTimeout(150);
}

beforeAll(async () => {
  served = await serve();
  browser = await openBrowser();
  // The app's own policy would refuse the checker's script; nothing else is changed by this.
  context = await browser.newContext({ ...contextOptions(), bypassCSP: true });
  await context.addInitScript({ content: AXE });
  page = await context.newPage();
  page.setDefaultTimeout(15_000);
  await station();
});
afterAll(async () => {
  await browser?.close();
  await served?.stop();
});

describe('every screen', () => {
  it('keeps the rules in both themes, the sheets of the walk too', async () => {
    const wrong: string[] = [];
    for (const [name, path] of screens()) {
      await opened(path);
      for (const theme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme: theme });
        wrong.push(...(await violations(`${name} ${theme}`)));
      }
    }
    await page.emulateMedia({ colorScheme: 'light' });
    for (const row of SHEETS) {
      await opened(`/audit/${audit}/walk`);
      await page.getByRole('button', { name: 'More', exact: true }).last().click();
      await page.getByRole('dialog').getByRole('button', { name: row }).first().click();
      await page.getByRole('dialog').waitFor();
      await page.waitForTimeout(200);
      wrong.push(...(await violations(`sheet ${row}`, true)));
      await page.keyboard.press('Escape');
    }
    expect(wrong).toEqual([]);
  }, 240_000);

  it('keeps the rules in the forms laid over the walk, and cuts no word there', async () => {
    const wrong: string[] = [];
    for (const row of FORMS) {
      await opened(`/audit/${audit}/walk`);
      await page.getByRole('button', { name: 'More', exact: true }).last().click();
      await page.getByRole('dialog').getByRole('button', { name: row }).first().click();
      await page.locator('.walk-over h1').waitFor();
      if (row === 'Adapter or tail here') {
        await page.getByRole('button', { name: /Put one together/ }).click();
        await page.getByRole('button', { name: 'Add a tail' }).click();
      }
      for (const theme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme: theme });
        wrong.push(...(await violations(`form ${row} ${theme}`, true)));
      }
      await page.emulateMedia({ colorScheme: 'light' });
      for (const [size, width, height, text] of SIZES) {
        await page.setViewportSize({ width, height });
        await page.evaluate((percent) => {
          document.documentElement.style.fontSize = percent === 100 ? '' : `${percent}%`;
        }, text);
        await page.waitForTimeout(80);
        wrong.push(...(await overflow(`form ${row} ${size}`)));
        await picture(page, `form-${String(row).replace(/\W+/g, '-')}-${size.replace(' ', '-')}`);
      }
      await page.setViewportSize({ width: 390, height: 844 });
    }
    expect(wrong).toEqual([]);
  }, 240_000);

  it('cuts no word and runs out of no sheet at any size', async () => {
    const wrong: string[] = [];
    for (const [name, path] of screens()) {
      await opened(path);
      for (const [size, width, height, text] of SIZES) {
        await page.setViewportSize({ width, height });
        await page.evaluate((percent) => {
          document.documentElement.style.fontSize = percent === 100 ? '' : `${percent}%`;
        }, text);
        await page.waitForTimeout(80);
        wrong.push(...(await overflow(`${name} ${size}`)));
        await picture(page, `${name}-${size.replace(' ', '-')}`);
      }
      await page.setViewportSize({ width: 390, height: 844 });
    }
    expect(wrong).toEqual([]);
  }, 240_000);
});
