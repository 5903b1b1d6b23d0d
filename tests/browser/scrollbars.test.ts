// Where scrollbars take room, as on a desk or in an embedded view, the walk keeps its width while its drawing changes.
import { chromium } from 'playwright-core';
import { expect, it } from 'vitest';
import { CHROMIUM, FLAGS, serve } from './harness.ts';
import { settled } from './settled.ts';

it('the walk stands still at every height that just fits it', async () => {
  const served = await serve();
  const browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: FLAGS,
    ignoreDefaultArgs: ['--hide-scrollbars'],
  });
  try {
    const page = await browser.newPage({ viewport: { width: 390, height: 851 }, serviceWorkers: 'allow' });
    page.setDefaultTimeout(60_000);
    await page.goto(served.origin);
    await page.getByText('Open the demo station').click();
    await page.getByText('148 cables').waitFor();
    await page.goto(`${served.origin}/start-audit`);
    await page.getByLabel('Your name').fill('I. Halloran');
    await page.getByRole('button', { name: /Begin the walk/ }).click();
    await page.locator('.thumb').waitFor();
    const widths: [number, number][] = [];
    for (let height = 700; height <= 900; height += 1) {
      await page.setViewportSize({ width: 390, height });
      const seen = await page.evaluate(async () => {
        const drawing = document.querySelector('.screen-main');
        const found = new Set<number>();
        for (let frame = 0; frame < 6; frame += 1) {
          await new Promise((resolve) => requestAnimationFrame(resolve));
          found.add(drawing?.clientWidth ?? 0);
        }
        return [...found];
      });
      for (const width of seen) widths.push([height, width]);
    }
    await settled(page);
    // Scrollbars do take room here, or nothing would be proven.
    expect(Math.max(...widths.map(([, width]) => width))).toBeLessThan(390);
    expect([...new Set(widths.map(([, width]) => width))]).toHaveLength(1);
  } finally {
    await browser.close();
    await served.stop();
  }
}, 240_000);
