// Boxes, measured in a real Chromium: nothing runs out of the sheet, no target or word is too small, no focus lies under
// a bar, the jack in hand is in view; on every screen, sheet and form, small, lying, on a desk and with text of 200 %.
// Rules: WCAG 2.2 (1.4.4, 1.4.10, 2.4.11, 2.5.5, and by axe-core what a machine can check); 64 px at the thumb is the look's own.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { contextOptions, openBrowser, picture, type Served, serve } from './harness.ts';
import { fakeCameraScript } from './labels.ts';
import { LONG_LABELS, LONG_NAMES, LONG_RACK } from './longNames.ts';
import { axeFaults, boxFaults, currentJackFaults, hiddenFocus } from './measure.ts';
import { settled } from './settled.ts';
import {
  BUILD_SHEETS,
  type Opening,
  OVERS,
  openRow,
  PREVIEW_SHEETS,
  resize,
  SHEETS,
  SIZES,
  screensOf,
} from './sheets.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const PHONE = SIZES[1];
/** Sheets and forms that show names of the plan. */
const NAMING = new Set(['more', 'type', 'photos', 'ends', 'radio-asking', 'jump', 'named', 'range', 'lead', 'panel']);

const soon = <T>(ask: () => T | Promise<T>) => expect.poll(ask);

let served: Served;
let browser: Browser;
let page: Page;
let audit = '';
let walk = '';

beforeAll(async () => {
  served = await serve();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await served?.stop();
});
afterEach(async ({ task }) => {
  if (task.result?.state === 'fail') await picture(page, 'failed-layout');
});

/** A phone of its own, empty. */
async function newPhone(): Promise<void> {
  await page?.context().close();
  // The app's own policy would refuse the checker's script; nothing else is changed by this.
  const permissions = ['camera', 'microphone'];
  const context = await browser.newContext({ ...contextOptions({ permissions }), bypassCSP: true });
  await context.addInitScript({ content: AXE });
  await context.addInitScript({ content: fakeCameraScript });
  page = await context.newPage();
  page.setDefaultTimeout(60_000);
  await page.goto(served.origin);
}

async function demo(): Promise<void> {
  await newPhone();
  await page.getByText('Open the demo station').click();
  await page.getByText('148 cables').waitFor();
}

async function begin(occasion?: RegExp): Promise<void> {
  await page.goto(`${served.origin}/start-audit`);
  await page.getByLabel('Your name').fill('I. Halloran');
  if (occasion) await page.getByRole('radio', { name: occasion }).check();
  await page.getByRole('button', { name: /Begin the walk/ }).click();
  await page.waitForURL(/walk/);
  await page.locator('.thumb-states').waitFor();
  audit = /audit\/([^/?]+)/.exec(page.url())?.[1] ?? '';
  walk = page.url().replace(served.origin, '');
}

async function type(label: string): Promise<void> {
  await page.getByRole('button', { name: /^Type the label/ }).click();
  await page.getByRole('dialog').getByRole('textbox').fill(label);
  await page.keyboard.press('Enter');
  const sure = page.getByRole('button', { name: /Record it/ });
  await soon(async () => (await page.getByRole('dialog').count()) === 0 || (await sure.count()) > 0).toBe(true);
  if ((await sure.count()) > 0) await sure.click();
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  // On disk, before a test takes the page away.
  await settled(page);
}

async function open(path: string): Promise<void> {
  await page.goto(served.origin + path);
  await page.locator('main').waitFor();
  await soon(() => page.locator('main').innerText()).not.toMatch(/^(Loading|Opening[^\n]*)?$/);
  await settled(page);
}

/** The circle that a label is held into: whole, and under nothing. */
async function circleFaults(what: string): Promise<string[]> {
  return page.evaluate((name) => {
    const circle = document.querySelector('.finder-circle circle')?.getBoundingClientRect();
    const finder = document.querySelector('.finder-holder');
    if (!circle || !finder) return [`${name}: no circle is drawn`];
    const x = circle.left + circle.width / 2;
    const y = circle.top + circle.height / 2;
    const rim = [
      [x, circle.top + 1],
      [x, circle.bottom - 1],
      [circle.left + 1, y],
      [circle.right - 1, y],
    ] as const;
    return rim.every(([rimX, rimY]) => finder.contains(document.elementFromPoint(rimX, rimY)))
      ? []
      : [`${name}: the circle of the camera is not whole in view`];
  }, what);
}

/** The sheet as it stands, in every size; axe once in each theme at the size of a phone, where names are ordinary. */
async function faults(name: string, sizes = SIZES.map((size) => size.name as string)): Promise<string[]> {
  const wrong: string[] = [];
  for (const size of SIZES) {
    if (!sizes.includes(size.name)) continue;
    await resize(page, size);
    const what = `${name}, ${size.name}`;
    wrong.push(...(await boxFaults(page, what)));
    if (/walk$/.test(name)) wrong.push(...(await currentJackFaults(page, what)));
    wrong.push(...(await hiddenFocus(page, what)));
  }
  await resize(page, PHONE);
  if (sizes.length < SIZES.length) return wrong;
  for (const theme of ['dark', 'light'] as const) {
    await page.emulateMedia({ colorScheme: theme });
    wrong.push(...(await axeFaults(page, `${name}, ${theme}`, theme === 'dark')));
  }
  return wrong;
}

async function faultsOf(openings: readonly Opening[]): Promise<string[]> {
  const wrong: string[] = [];
  for (const { name, open: go } of openings) {
    await open(walk);
    await go(page);
    await settled(page);
    wrong.push(...(await faults(name)));
    // A question that is owed would be asked again wherever the walk is opened next.
    const dialog = page.getByRole('dialog');
    if ((await dialog.count()) > 0) {
      await page.keyboard.press('Escape');
      await dialog.first().waitFor({ state: 'detached' });
      await settled(page);
    }
  }
  return wrong;
}

describe('with the demo station', () => {
  beforeAll(async () => {
    await demo();
    await begin();
  });

  it('every screen', async () => {
    for (const [place, label] of [
      ['SW1/P03', '1004'],
      ['SW1/P04', '1003'],
      ['SW1/P05', '7777-written-by-hand-long-ago'],
    ] as const) {
      await open(`/audit/${audit}/walk?at=${encodeURIComponent(place)}`);
      await type(label);
      await page.locator('.verdict').getByText(label.slice(0, 4)).first().waitFor();
    }
    walk = `/audit/${audit}/walk?at=SW1%2FP06`;
    const wrong: string[] = [];
    for (const [name, path] of screensOf(audit)) {
      await open(path);
      wrong.push(...(await faults(name)));
    }
    expect(wrong).toEqual([]);
  }, 480_000);

  it('what stands after a difference, and its details', async () => {
    await open(`/audit/${audit}/walk?at=SW1%2FP09`);
    await type('1020');
    await soon(() => page.locator('.plate h1').innerText()).toContain('P10');
    await soon(() => page.locator('.verdict').innerText()).toContain('1020');
    const wrong = await faults('after a difference: walk');
    await page.locator('.verdict-more').click();
    await page.locator('.walk-over').waitFor();
    wrong.push(...(await faults('details')));
    expect(wrong).toEqual([]);
  });

  it('every sheet of the walk', async () => {
    expect(await faultsOf(SHEETS)).toEqual([]);
  }, 480_000);

  it('every form that lies over the walk', async () => {
    expect(await faultsOf(OVERS)).toEqual([]);
  }, 480_000);

  it('the sheet of the camera while it runs', async () => {
    await begin();
    await page.getByRole('button', { name: 'Start camera' }).click();
    await soon(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
    const wrong: string[] = [];
    // At 200 % the sheet scrolls as a whole, and the picture with it.
    for (const size of SIZES.filter(({ text }) => text === 100)) {
      await resize(page, size);
      wrong.push(...(await currentJackFaults(page, `camera runs, ${size.name}`)));
      wrong.push(...(await circleFaults(size.name)));
    }
    await resize(page, PHONE);
    await page.getByRole('button', { name: 'Camera', exact: true }).click();
    await page.getByRole('dialog').waitFor();
    wrong.push(...(await faults('camera')));
    expect(wrong).toEqual([]);
  });

  it('what a difference is signed for stays open while the phone is turned', async () => {
    await open(`/audit/${audit}/walk?at=SW1%2FP09`);
    await type('1020');
    await page.locator('.verdict').getByText('1020').first().waitFor();
    await settled(page);
    await open(`/audit/${audit}/differences`);
    await page
      .locator('main')
      .getByRole('button', { name: /No\. \d+\./ })
      .first()
      .click();
    await page.getByRole('button', { name: 'Leave it' }).first().click();
    await page.getByLabel('Why').fill('The owner knows.');
    for (const size of [SIZES[3], SIZES[1], SIZES[2]]) {
      await resize(page, size);
      expect(await page.getByLabel('Why').inputValue(), size.name).toBe('The owner knows.');
    }
    await resize(page, PHONE);
    await page.getByRole('button', { name: 'Cancel' }).click();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  });

  it('the sheets of a build', async () => {
    await begin(/^Build/);
    expect(await faultsOf(BUILD_SHEETS)).toEqual([]);
  });

  /** From the first jack to the last by “cannot be seen”, so that the window has to follow. */
  it.each([SIZES[0], SIZES[2]])(
    'the jack in hand stays in view along a face of 24 in the size “$name”',
    async (size) => {
      await begin();
      await resize(page, size);
      const wrong: string[] = [];
      for (let jack = 1; jack <= 24; jack++) {
        wrong.push(...(await currentJackFaults(page, `P${jack}`)));
        const before = await page.locator('.plate h1').innerText();
        await page.locator('.thumb-states').getByRole('button', { name: 'Can’t see it' }).click();
        await soon(() => page.locator('.plate h1').innerText()).not.toBe(before);
        await settled(page);
      }
      expect(wrong).toEqual([]);
      await resize(page, PHONE);
    },
    120_000,
  );

  it('the jack in hand comes back into view when the phone is turned', async () => {
    for (const size of [SIZES[1], SIZES[2], SIZES[0], SIZES[2]]) {
      await resize(page, size);
      await soon(() => currentJackFaults(page, size.name)).toEqual([]);
    }
    await resize(page, PHONE);
  });
});

describe('with something in them', () => {
  const dialog = () => page.getByRole('dialog');
  const shut = async () => {
    await page.keyboard.press('Escape');
    await dialog().waitFor({ state: 'detached' });
  };
  const at = (place: string) => open(`/audit/${audit}/walk?at=${encodeURIComponent(place)}`);

  it('the sheets of decisions, of the window, of closing and of a look that differs from an earlier one', async () => {
    await demo();
    await begin();
    await at('SW1/P03');
    await type('1004');
    await page.locator('.verdict').getByText('1004').first().waitFor();
    await settled(page);
    await open(`/audit/${audit}/differences`);
    await page
      .locator('main')
      .getByRole('button', { name: /Label not in its planned jack/ })
      .first()
      .click();
    const wrong = await faults('a difference, open');
    await page.getByRole('button', { name: 'Leave it' }).first().click();
    await dialog().waitFor();
    wrong.push(...(await faults('signing')));
    await shut();
    await open(`/audit/${audit}/fixes`);
    await page.getByRole('button', { name: /^No maintenance window is agreed/ }).click();
    await dialog().waitFor();
    wrong.push(...(await faults('window')));
    await shut();
    await open(`/audit/${audit}/report`);
    await page.getByRole('button', { name: /Close the audit/ }).click();
    await dialog().waitFor();
    wrong.push(...(await faults('closing')));
    await shut();
    // A word at another unit ends the visit; that is kept behind it.
    await at('SW2/P01');
    await page.locator('.thumb-states').getByRole('button', { name: 'Empty' }).click();
    await page.locator('.verdict').getByText('P01:').first().waitFor();
    await settled(page);
    await at('SW1/P03');
    await page.locator('.thumb-states').getByRole('button', { name: 'Empty' }).click();
    await page.getByText('Misread before, or changed since?').waitFor();
    wrong.push(...(await faults('an earlier look')));
    expect(wrong).toEqual([]);
  });

  it('the check that settles a cause, a cable off the plan, a label like another one, and the end of a walk', async () => {
    await demo();
    await begin();
    for (const [place, label] of [
      ['SW1/P03', '1004'],
      ['SW1/P04', '1003'],
    ] as const) {
      await at(place);
      await type(label);
    }
    await open(`/audit/${audit}/differences`);
    await page
      .getByRole('button', { name: /SW1 P0\d$/ })
      .first()
      .click();
    await dialog()
      .getByRole('heading', { name: /^Which device does/ })
      .waitFor();
    const wrong = await faults('a check');
    await dialog()
      .getByRole('button', { name: /CON32$/ })
      .click();
    await dialog().getByText('Recorded. That settles it.').waitFor();
    wrong.push(...(await faults('a check, settled')));
    await shut();
    await begin(/^Build/);
    for (const place of ['SW1/P20', 'SW2/P15']) {
      await at(place);
      await type('A7778');
    }
    await page.getByRole('region', { name: 'A cable off the plan' }).waitFor();
    wrong.push(...(await faults('a cable off the plan: walk')));
    await at('SW1/P21');
    await page.getByRole('button', { name: /^Type the label/ }).click();
    await dialog().getByRole('textbox').fill('A-7778');
    await page.keyboard.press('Enter');
    await dialog().getByRole('heading', { name: 'A-7778: same as A7778?' }).waitFor();
    wrong.push(...(await faults('a label like another one')));
    await shut();
    // All of a room with few jacks, so that its end is near.
    await open('/start-audit');
    await page.locator('label', { hasText: 'Room Studio B' }).click();
    await page.getByRole('button', { name: /Begin the walk/ }).click();
    await page.waitForURL(/walk/);
    await page.locator('.thumb-states').waitFor();
    const next = page.getByRole('region', { name: 'Next', exact: true });
    while ((await next.count()) === 0) {
      const before = page.url();
      await page.locator('.thumb-states').getByRole('button', { name: 'Can’t see it' }).click();
      await settled(page);
      if ((await next.count()) === 0) await soon(() => page.url()).not.toBe(before);
    }
    wrong.push(...(await faults('the end of a walk')));
    expect(wrong).toEqual([]);
  }, 240_000);

  it('entries that contradict each other, the walk outside its audit, and a relabel that is half done', async () => {
    await demo();
    await begin();
    await at('SW1/P07');
    await type('1007');
    await at('SW2/P01');
    await page.locator('.thumb-states').getByRole('button', { name: 'Empty' }).click();
    await settled(page);
    await at('SW1/P07');
    await page.getByRole('button', { name: /^Type the label/ }).click();
    await dialog().getByRole('textbox').fill('1012');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Cannot tell: keep both' }).click();
    await settled(page);
    await open(`/audit/${audit}/differences`);
    await page.getByRole('button', { name: /Entries contradict each other/ }).click();
    const wrong = await faults('a conflict');
    await open('/start-audit');
    await page.getByRole('radio', { name: /^Relabel/ }).check();
    await page.getByRole('radio', { name: /^Touch/ }).check();
    await page.locator('label', { hasText: 'Rack R1' }).click();
    await page.getByRole('button', { name: /Begin the walk/ }).click();
    await page.waitForURL(/renaming/);
    audit = /audit\/([^/?]+)/.exec(page.url())?.[1] ?? '';
    await page.locator('label.choice-cell', { hasText: 'Pasted' }).click();
    await page.getByLabel('One pair a line').fill('1001 -> 9001');
    await page.getByRole('button', { name: 'Show every pair' }).click();
    await page.getByRole('button', { name: /Save 1 pair/ }).click();
    await page.getByRole('button', { name: /Import another list/ }).waitFor();
    await at('SW1/P01');
    await type('1001');
    await page.getByRole('button', { name: /^New label .* is on$/ }).click();
    await settled(page);
    await open(`/audit/${audit}/renaming`);
    await page.getByRole('button', { name: /^Go to CON30 NET/ }).waitFor();
    wrong.push(...(await faults('half done')));
    await page.getByRole('button', { name: /^Go to CON30 NET/ }).click();
    await page.getByText('CON30 is outside this audit').waitFor();
    await settled(page);
    wrong.push(...(await faults('outside its audit: walk')));
    expect(wrong).toEqual([]);
  }, 240_000);

  it('the list of twins with one of them given', async () => {
    await begin();
    await page.locator('.thumb-tools').getByRole('button', { name: 'More' }).click();
    await openRow(page, /What you may do/);
    await dialog().getByText('Touch', { exact: true }).click();
    await dialog().waitFor({ state: 'detached' });
    await page.locator('.thumb-states').getByRole('button', { name: 'No label' }).click();
    await page.getByRole('button', { name: /^U-\d+ is on it$/ }).click();
    await page.locator('.thumb-tools').getByRole('button', { name: 'More' }).click();
    await openRow(page, /^Temporary tags/);
    await dialog()
      .getByText(/^U-\d+/)
      .first()
      .waitFor();
    expect(await faults('twins')).toEqual([]);
  });

  it('a list of renames before it is taken, a rule, and the walk with a name to be given', async () => {
    await open('/start-audit');
    await page.getByRole('radio', { name: /^Relabel/ }).check();
    await page.getByRole('button', { name: /Begin the walk/ }).click();
    await page.waitForURL(/renaming/);
    audit = /audit\/([^/?]+)/.exec(page.url())?.[1] ?? '';
    await page.locator('label.choice-cell', { hasText: 'Pasted' }).click();
    await page.getByLabel('One pair a line').fill('1001 -> 8001\n1002 -> 8002\n9999 -> 1003');
    // What already has the focus is not brought into view again when it is reached.
    await page.getByLabel('One pair a line').blur();
    const wrong = await faults('renaming, typed');
    await page.getByRole('button', { name: 'Show every pair' }).click();
    await page.getByRole('button', { name: /Save 2 pairs/ }).waitFor();
    wrong.push(...(await faults('renaming, pairs')));
    await page.getByRole('button', { name: /Save 2 pairs/ }).click();
    await page.getByRole('button', { name: /Import another list/ }).waitFor();
    wrong.push(...(await faults('renaming, listed')));
    await page.getByRole('button', { name: /Import another list/ }).click();
    await page.locator('label.choice-cell', { hasText: 'By rule' }).click();
    await page.locator('label.choice-cell', { hasText: '2005 becomes 3005' }).click();
    await page.getByLabel('Add to the last number').fill('1000');
    await page.getByLabel('Add to the last number').blur();
    wrong.push(...(await faults('renaming, rule')));
    await at('SW1/P01');
    wrong.push(...(await faults('renaming: walk')));
    expect(wrong).toEqual([]);
  });
});

describe('with names as long as a sheet lets them be', () => {
  it('every screen, sheet and form holds them', async () => {
    await newPhone();
    await page.getByRole('button', { name: /Import a schedule/ }).click();
    const file = { name: 'long.csv', mimeType: 'text/csv', buffer: Buffer.from(LONG_NAMES) };
    await page.locator('input[type=file]').first().setInputFiles(file);
    await page.getByText('Use as the plan').waitFor();
    const wrong = await faults('preview');
    await page.locator('main details').evaluateAll((folds) => {
      for (const fold of folds) (fold as HTMLDetailsElement).open = true;
    });
    wrong.push(...(await faults('preview unfolded')));
    await page.getByRole('button', { name: 'Correct it' }).first().click();
    await page.getByLabel('What it should say').waitFor();
    wrong.push(...(await faults('a cell said otherwise')));
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    for (const { name, open: openSheet } of PREVIEW_SHEETS) {
      await openSheet(page);
      wrong.push(...(await faults(name)));
      await page.keyboard.press('Escape');
      await page.getByRole('dialog').waitFor({ state: 'detached' });
    }
    await page.getByRole('button', { name: 'Back to the preview' }).click();
    await page.getByRole('button', { name: /Use as the plan/ }).click();
    await page
      .getByRole('button', { name: /Begin an audit/ })
      .first()
      .waitFor();
    await begin();
    for (const label of LONG_LABELS) {
      await type(label);
      await settled(page);
    }
    walk = page.url().replace(served.origin, '');
    const own: Record<string, string> = {
      walk,
      rack: `/plan/${encodeURIComponent(LONG_RACK)}`,
      search: '/search?for=STUDIO',
      cable: '/cable/ANUNBROKENCABLELABELOFMORETHANFORTYLETTERS0001',
    };
    for (const [name, path] of screensOf(audit)) {
      await open(own[name] ?? path);
      wrong.push(...(await faults(`long ${name}`, ['small', 'lying', 'large text'])));
    }
    for (const { name, open: go } of [...SHEETS, ...OVERS].filter(({ name }) => NAMING.has(name))) {
      await open(walk);
      await go(page);
      await settled(page);
      wrong.push(...(await faults(`long ${name}`, ['small', 'large text'])));
    }
    expect(wrong).toEqual([]);
  }, 480_000);
});
