// What a unit of 24 jacks costs the hand in the running app: touches and time for each jack, with labels that a scanner
// reads and with plain text, all as planned and with six odd ones. The page is slowed four times. Data invented.
import type { Browser, Page } from 'playwright-core';
import { rowsToCsv } from '../../src/files/csvOut.ts';
import { against, counted, pause, type Row } from './benchMeasure.ts';

const JACKS = 24;
/** A touch is ignored right after the jack has changed; a thumb takes longer than that to come back. */
const THUMB_MS = 340;

type Act = { type: 'reads'; label: string } | { type: 'state'; name: string };
const jackName = (n: number) => `P${String(n).padStart(2, '0')}`;
const label = (n: number) => String(4000 + n);

/** Two pairs exchanged, one empty, one without a label; the rest as planned. */
const ODD: Record<number, Act> = {
  4: { type: 'reads', label: label(6) },
  6: { type: 'reads', label: label(4) },
  10: { type: 'state', name: 'Empty' },
  14: { type: 'reads', label: label(16) },
  16: { type: 'reads', label: label(14) },
  20: { type: 'state', name: 'No label' },
};

/**
 * Counts what a finger really did. A scanner's keys are sent as one burst inside the page: sent one by one from outside, a
 * slowed page would take them for a hand's. Plain text: it runs in the page.
 */
const IN_PAGE = `
window.taps = 0;
addEventListener('pointerdown', (event) => { if (event.isTrusted) window.taps += 1; }, true);
window.scan = (text) => {
  for (const key of [...text, 'Enter'])
    document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
};`;

export async function measureTaps(browser: Browser, origin: string): Promise<Row[]> {
  const rows: Row[] = [];
  let peer: number | null = null;
  for (const coded of [true, false]) {
    for (const odd of [false, true]) {
      const { taps, ms } = await walkUnit(browser, origin, coded, odd ? ODD : {});
      const size = `${JACKS} jacks, ${coded ? 'coded' : 'plain text'}, ${odd ? 'six odd' : 'all as planned'}`;
      const most = JACKS * (coded ? 0 : 1) + (odd ? (coded ? 2 * 2 : 6) : 0);
      const name = 'touches for a unit';
      rows.push(
        most === 0
          ? counted({ name: `${name} (none wanted)`, size, value: taps, unit: '' })
          : against({ name, size, value: taps, unit: '' }, 'goal', `${most}`, most),
      );
      const time = { name: 'time for a jack beside the thumb, page slowed 4×', size, value: ms, unit: 'ms' };
      rows.push(peer === null ? counted(time) : against(time, 'peer', 'coded, all as planned', peer));
      peer ??= ms;
    }
  }
  return rows;
}

async function walkUnit(browser: Browser, origin: string, coded: boolean, odd: Record<number, Act>) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  try {
    const page = await context.newPage();
    page.setDefaultTimeout(60_000);
    await page.addInitScript(IN_PAGE);
    await begin(page, origin);
    const cdp = await context.newCDPSession(page);
    await cdp.send('Emulation.setCPUThrottlingRate', { rate: 4 });
    await page.evaluate('window.taps = 0');
    let spent = 0;
    for (let n = 1; n <= JACKS; n++) {
      await pause(THUMB_MS);
      const from = Date.now();
      await act(page, coded, odd[n] ?? { type: 'reads', label: label(n) });
      await page.locator('.verdict', { hasText: `${jackName(n)}:` }).waitFor();
      spent += Date.now() - from;
    }
    return { taps: await page.evaluate<number>('window.taps'), ms: spent / JACKS };
  } finally {
    await context.close();
  }
}

async function act(page: Page, coded: boolean, one: Act): Promise<void> {
  if (one.type === 'state') {
    await page.locator('.thumb-states').getByRole('button', { name: one.name }).tap();
    return;
  }
  if (coded) {
    await page.evaluate(`window.scan(${JSON.stringify(one.label)})`);
    return;
  }
  const reads = page.locator('.thumb-reads button').first();
  if (new RegExp(`\\b${one.label}\\b`).test(await reads.innerText())) {
    await reads.tap();
    return;
  }
  await page.getByRole('button', { name: /^Type the label/ }).tap();
  await page
    .getByRole('dialog')
    .getByRole('button', { name: new RegExp(`^${one.label}`) })
    .tap();
}

async function begin(page: Page, origin: string): Promise<void> {
  const rows = Array.from({ length: JACKS }, (_, i) => [label(i + 1), 'SW9', jackName(i + 1), 'PP9', String(i + 1)]);
  const buffer = Buffer.from(rowsToCsv([['Cable', 'From', 'From Jack', 'To', 'To Jack'], ...rows]));
  await page.goto(`${origin}/bring-in`);
  await page.locator('input[type=file]').first().setInputFiles({ name: 'unit.csv', mimeType: 'text/csv', buffer });
  await page.getByLabel('Name of the station').fill('Bench');
  await page.getByRole('button', { name: /Use as the plan/ }).click();
  await page.waitForURL(`${origin}/`);
  await page.goto(`${origin}/start-audit`);
  await page.getByLabel('Your name').fill('Bench');
  await page.getByRole('button', { name: /Begin the walk/ }).click();
  await page.locator('.thumb-reads button').first().waitFor();
  await page.goto(`${page.url().split('?')[0]}?at=${encodeURIComponent('SW9/P01')}`);
  await page.locator('.thumb-reads button').first().waitFor();
  await pause(500);
}
