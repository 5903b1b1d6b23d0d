// The whole job in a real browser at phone size: a schedule in, a walk by a camera that shows label pictures, the
// network gone and the page reloaded in the middle, photo and note, the network back, a second browser, the report.
// The floor walked is the demo station's (invented); what must differ is its planted list.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { renderSVG } from 'uqr';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import {
  contextOptions,
  DESK,
  newCode,
  openBrowser,
  picture,
  ROOT,
  type Served,
  serve,
  untilOffline,
} from './harness.ts';
import { fakeCameraScript } from './labels.ts';

const planted = (
  JSON.parse(readFileSync(join(ROOT, 'public', 'demo', 'planted.json'), 'utf8')) as {
    planted: { kind: string; places: string[]; labels: string[] }[];
  }
).planted;

let served: Served;
let browser: Browser;
let phone: BrowserContext;
let page: Page;

beforeAll(async () => {
  served = await serve();
  browser = await openBrowser();
  phone = await browser.newContext(contextOptions());
  await phone.addInitScript({ content: fakeCameraScript });
  page = await phone.newPage();
  page.setDefaultTimeout(60_000);
  page.on('pageerror', (error) => console.error(error));
});
afterAll(async () => {
  await browser?.close();
  await served?.stop();
});

afterEach(async ({ task }) => {
  if (task.result?.state === 'fail') await picture(page, 'failed');
});

const verdict = () => page.locator('.verdict');
const press = (name: string | RegExp) => page.getByRole('button', { name }).first().click();

/** Shows a label to the camera and waits until the jack has its verdict. */
async function scan(jack: string, label: string): Promise<void> {
  await page.evaluate((text) => window.__showLabel(text), label);
  await expect.poll(() => verdict().innerText()).toContain(`${jack}:`);
  await page.evaluate(() => window.__showLabel(null));
}

describe('one audit from the sheet to the second browser', () => {
  it('brings the schedule in and shows how it was read', async () => {
    await page.goto(served.origin);
    await press(/Import a schedule/);
    await page
      .locator('input[type=file]')
      .first()
      .setInputFiles(join(ROOT, 'public', 'demo', 'schedule.xlsx'));
    await page.getByRole('button', { name: /Use as the plan/ }).waitFor();
    expect(await page.locator('main').innerText()).toContain('148');
    await page.getByLabel('Name of the station').fill('Fennigmoor Community Radio');
    await picture(page, 'bring-in-light', 'bring-in');
    await press(/Use as the plan/);
    await expect.poll(() => page.locator('body').innerText()).toContain('148 cables');
    await untilOffline(page);
  });

  it('starts an audit of one rack and stands before its first jack', async () => {
    await press(/Begin an audit/);
    await page.getByLabel('Your name').fill('I. Halloran');
    await page.getByRole('checkbox', { name: /^Rack R1/ }).check();
    await press(/Begin the walk/);
    await expect.poll(() => page.locator('body').innerText()).toContain('Reads');
    await press('Start camera');
    await picture(page, 'walk-start-light');
  });

  it('reads label after label without a tap, and a mismatch does not stop it', async () => {
    for (const [jack, label] of [
      ['P01', '1001'],
      ['P02', '1002'],
      ['P03', '1004'],
      ['P04', '1003'],
      ['P05', '1005'],
    ] as const) {
      await scan(jack, label);
      if (jack === 'P03') {
        expect(await verdict().innerText()).toMatch(/differs/);
        await picture(page, 'walk-differs-light', 'difference');
      }
    }
    await picture(page, 'walk-light', 'walk');
  });

  it('goes on without a network, and at the same jack after a reload', async () => {
    await phone.setOffline(true);
    await scan('P06', '1006');
    await page.reload();
    await expect.poll(() => page.locator('.plate').innerText()).toContain('P07');
    // Allowed once, the camera comes back by itself.
    await expect.poll(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
    await scan('P07', '1007');
  });

  it('takes plain-text labels with one tap each', async () => {
    for (let jack = 8; jack <= 16; jack++) {
      const name = `P${String(jack).padStart(2, '0')}`;
      await press(/reads \d+/i);
      await expect.poll(() => verdict().innerText()).toContain(`${name}:`);
      expect(await verdict().innerText()).toContain('as planned');
    }
  });

  it('takes a photo and a note, offline', async () => {
    await press('Photo');
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /Take the photo/ })
      .click();
    await expect.poll(() => page.locator('body').innerText()).toMatch(/1 photo|photo (kept|saved)|1 taken/i);
    await press('Note');
    await page.getByRole('dialog').getByRole('textbox').fill('bundle tied to the rail');
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /Keep|Save|Write/ })
      .click();
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
  });

  it('types what no code says', async () => {
    for (const empty of ['P17', 'P18', 'P19', 'P20']) {
      await press(/^Empty/);
      await expect.poll(() => verdict().innerText()).toContain(`${empty}:`);
    }
    for (const [jack, label] of [
      ['P21', '7777'],
      ['P22', '1122'],
    ] as const) {
      await press('Type');
      await page.getByRole('dialog').getByRole('textbox').fill(label);
      await page.keyboard.press('Enter');
      await expect.poll(() => verdict().innerText()).toContain(`${jack}:`);
    }
    await press(/^Empty/);
    await expect.poll(() => verdict().innerText()).toContain('P23:');
  });

  it('reads a label from a still picture', async () => {
    const paper = await phone.newPage();
    await paper.setContent(renderSVG('1024', { border: 4, pixelSize: 8 }));
    const still = await paper.locator('svg').screenshot();
    await paper.close();
    await press('Camera');
    const picker = page.getByRole('dialog').locator('input[type=file]');
    await picker.setInputFiles({ name: 'label.png', mimeType: 'image/png', buffer: still });
    await expect.poll(() => verdict().innerText()).toContain('P24:');
    expect(await verdict().innerText()).toContain('as planned');
  });

  it('sends everything by itself once it is paired and the network is back', async () => {
    await phone.setOffline(false);
    await page.goto(`${served.origin}/sync`);
    await page.getByLabel('Code', { exact: true }).fill(served.code);
    await press(/^Pair$/);
    await expect.poll(() => page.locator('body').innerText()).toMatch(/Sent and received/);
    await expect.poll(() => page.locator('body').innerText()).toContain('Nothing waits to be sent');
    await picture(page, 'sync-light', 'sync');
  });

  it('shows the second browser the same audit, and the differences that were planted', async () => {
    const second = await browser.newContext(contextOptions({ theme: 'dark' }));
    const other = await second.newPage();
    await other.goto(`${served.origin}/sync`);
    await other.getByLabel('Code', { exact: true }).fill(await newCode(served));
    await other.getByRole('button', { name: /^Pair$/ }).click();
    await expect.poll(() => other.locator('body').innerText()).toContain('Fennigmoor');
    await expect.poll(() => other.locator('body').innerText()).toMatch(/R1/);
    await picture(other, 'home-dark');
    await other
      .getByRole('button', { name: /After the move/ })
      .first()
      .click();
    await other.waitForURL(/audit/);
    const audit = /audit\/([^/?]+)/.exec(other.url())?.[1];
    await other.goto(`${served.origin}/audit/${audit}/differences`);
    await expect.poll(() => other.locator('main').innerText()).toContain('7777');
    // The two that changed places are one cause; one by one every difference is there.
    await other.getByRole('button', { name: /Crossed, or the labels are swapped/ }).waitFor();
    await picture(other, 'causes-dark');
    await other.getByLabel(/^One by one/).check();
    const text = await other.locator('main').innerText();
    const onSwitch = planted.filter(({ places, kind }) => places[0]?.startsWith('SW1 ') && kind !== 'old-label-left');
    expect(onSwitch.length).toBe(4);
    for (const { labels, places } of onSwitch) {
      expect(text).toContain(labels[0]);
      expect(text).toContain(places[0]);
    }
    await picture(other, 'differences-dark');
    await page.goto(`${served.origin}/audit/${audit}/report`);
    await expect.poll(() => page.locator('main').innerText()).toMatch(/not looked at/i);
    await picture(page, 'report-light', 'report');
    await second.close();
  });

  it('leaves as one file and comes in on an empty phone without a server', async () => {
    await page.goto(`${served.origin}/sync`);
    await page
      .getByRole('button', { name: /^Prepare|^Make the/ })
      .first()
      .click();
    const download = page.waitForEvent('download');
    await page
      .getByRole('button', { name: /^Save|^Share|^Hand/ })
      .first()
      .click();
    const file = await (await download).path();
    const third = await browser.newContext(contextOptions({ size: DESK }));
    const empty = await third.newPage();
    await empty.goto(`${served.origin}/bring-in`);
    await empty
      .locator('input[type=file]')
      .first()
      .setInputFiles({
        name: 'station.asfound.zip',
        mimeType: 'application/zip',
        buffer: readFileSync(file),
      });
    await expect.poll(() => empty.locator('body').innerText()).toContain('After the move: R1');
    expect(await empty.locator('body').innerText()).toContain('Fennigmoor');
    await third.close();
  });
});
