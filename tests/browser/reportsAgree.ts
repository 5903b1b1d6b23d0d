// Holds the report's screen and its file to each other: every heading, table cell and sentence of the one stands in the
// other, in the same order.
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

const SPOKEN = 'h1, h2, h3, th, td, dt, dd, p, .line, .head > .quiet, .photo-row-text, figcaption';

/** @param root What the report's parts are children of. */
async function saidBy(page: Page, root: string): Promise<string[]> {
  return page.locator(root).evaluate((body, spoken) => {
    const parts = [...body.children].filter((one) => one.matches('header, section:not(.report-strokes), footer'));
    const said = parts.flatMap((part) => [...part.querySelectorAll(spoken)]);
    // Isolates are how the screen draws a name that runs from right to left.
    return said.map((one) =>
      (one.textContent ?? '')
        .replace(/[\u2066-\u2069]/g, '')
        .replace(/\s+/g, ' ')
        .trim(),
    );
  }, SPOKEN);
}

/** Makes the file from the report that is on the page, and returns what it says. */
export async function reportsAgree(page: Page): Promise<{ said: string[]; html: string }> {
  await page.locator('.report-sheet').waitFor();
  await page.getByRole('button', { name: /Make files/ }).click();
  const give = page.getByRole('button', { name: /^To read and print/ });
  await give.waitFor();
  const download = page.waitForEvent('download');
  await give.click();
  const more = page.locator('.report-sheet').getByRole('button', { name: /^Show more/ });
  while ((await more.count()) > 0) await more.first().click();
  const html = readFileSync(await (await download).path(), 'utf8');
  const screen = await saidBy(page, '.report-sheet');
  const paper = await page.context().newPage();
  await paper.setContent(html);
  const file = await saidBy(paper, 'body');
  await paper.close();
  expect(screen.length).toBeGreaterThan(30);
  expect(screen).toEqual(file);
  return { said: file, html };
}
