// Every screen, and every sheet and form of the walk with the way it is opened, for tests that look at all of them.
// Opens; says nothing into the record.
import type { Page } from 'playwright-core';
import { settled } from './settled.ts';

export const SIZES = [
  { name: 'small', width: 360, height: 640, text: 100 },
  { name: 'phone', width: 390, height: 844, text: 100 },
  { name: 'lying', width: 844, height: 390, text: 100 },
  { name: 'desk', width: 1280, height: 800, text: 100 },
  { name: 'large text', width: 390, height: 844, text: 200 },
] as const;
type Size = (typeof SIZES)[number];

export async function resize(page: Page, { width, height, text }: Size): Promise<void> {
  await page.setViewportSize({ width, height });
  await page.evaluate((percent) => {
    document.documentElement.style.fontSize = percent === 100 ? '' : `${percent}%`;
  }, text);
  await settled(page);
}

export const screensOf = (audit: string): [name: string, path: string][] => [
  ['home', '/'],
  ['bring-in', '/bring-in'],
  ['plan', '/plan'],
  ['desk-check', '/desk-check'],
  ['site-rules', '/site-rules'],
  ['rack', '/plan/R2'],
  ['search', '/search?for=AIO'],
  ['cable', '/cable/1004'],
  ['start-audit', '/start-audit'],
  ['walk', `/audit/${audit}/walk?at=SW1%2FP06`],
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
  ['audit-labels', `/labels/${audit}`],
  ['sync', '/sync'],
  ['settings', '/settings'],
  ['help', '/help'],
  ['help-marks', '/help/marks'],
  ['not-found', '/nowhere/at/all'],
];

export interface Opening {
  name: string;
  open(page: Page): Promise<void>;
}

const thumb = (name: string | RegExp) => async (page: Page) => {
  await page.locator('.thumb').getByRole('button', { name }).first().click();
};
/** A row of More, which may stand in a group that is folded. */
export async function openRow(page: Page, row: string | RegExp): Promise<void> {
  const more = page.getByRole('dialog', { name: /^More at/ });
  await more.waitFor();
  const wanted = more.getByRole('button', { name: row });
  while ((await wanted.count()) === 0) await more.locator('.walk-fold:not([open]) > summary').first().click();
  await wanted.first().click();
}
const more = (row: string | RegExp) => async (page: Page) => {
  await page.locator('.thumb-tools').getByRole('button', { name: 'More' }).click();
  await openRow(page, row);
};
const typed = (label: string) => async (page: Page) => {
  await thumb(/^Type/)(page);
  await page.getByRole('dialog').getByRole('textbox').fill(label);
  await page.keyboard.press('Enter');
};

/** Dialogs over the walk. */
export const SHEETS: Opening[] = [
  { name: 'more', open: thumb('More') },
  { name: 'type', open: thumb(/^Type/) },
  { name: 'note', open: thumb(/^Note/) },
  { name: 'photo', open: thumb(/^Photo/) },
  { name: 'pattern', open: thumb(/read it$/) },
  { name: 'refused', open: more(/^Not checked/) },
  { name: 'hazard', open: more(/^Hazard seen/) },
  { name: 'photos', open: more(/^Photos at/) },
  { name: 'voice', open: more(/^Voice note/) },
  { name: 'whole-photo', open: more(/^Photo of the whole/) },
  { name: 'way', open: more(/^Walking order/) },
  { name: 'ends', open: more(/^Which ends are left/) },
  { name: 'radio', open: more(/^Far end by radio/) },
  {
    name: 'radio-asking',
    open: async (page) => {
      await more(/^Far end by radio/)(page);
      await page.getByLabel('Name of the helper').fill('Robin');
      await page.getByRole('button', { name: 'Start asking' }).click();
      await page
        .getByRole('dialog')
        .getByRole('heading', { name: /^Ask Robin/ })
        .waitFor();
    },
  },
  { name: 'jump', open: more(/^Go to another unit/) },
  { name: 'twins', open: more(/^Temporary tags/) },
  { name: 'jacket', open: more(/^Jacket and metre mark/) },
  { name: 'unit-here', open: more(/^What unit is here/) },
  { name: 'loose', open: more(/^Loose end/) },
  { name: 'setting', open: more(/^Read off/) },
  { name: 'window', open: more(/^For the maintenance window/) },
  { name: 'permission', open: more(/^What you may do/) },
  { name: 'finish', open: more(/^Close the audit/) },
  { name: 'scope', open: more(/^Add a rack, room or unit/) },
  { name: 'named', open: typed('SW2') },
  { name: 'unlikely', open: typed('http://192.0.2.7/a-page-that-is-no-label-of-any-cable-at-all') },
];

/** Dialogs that only a build has. */
export const BUILD_SHEETS: Opening[] = [
  { name: 'work', open: more(/^Work on this end/) },
  { name: 'left-to-build', open: more(/^What is left to build/) },
];

/** Forms and screens laid over the walk. */
export const OVERS: Opening[] = [
  { name: 'range', open: more(/^Record a row/) },
  {
    name: 'part',
    open: async (page) => {
      await more('Adapter or tail here')(page);
      await page.getByRole('button', { name: /Put one together/ }).click();
      await page.getByRole('button', { name: 'Add a tail' }).click();
    },
  },
  { name: 'lead', open: more('Patch lead') },
  { name: 'colour', open: more('Landed in colour order') },
  { name: 'panel', open: more('Panel, block or trunk') },
  { name: 'power', open: more(/^Power/) },
  {
    name: 'paused',
    open: async (page) => {
      await page.getByRole('button', { name: /Going live/ }).click();
    },
  },
];

/** All rows of a sheet that is being imported, and what is laid over them; each opened from where the one before was left. */
export const PREVIEW_SHEETS: Opening[] = [
  {
    name: 'preview: a row',
    open: async (page) => {
      await page.getByRole('button', { name: 'Look at all rows' }).click();
      await page.locator('.sheet-line:enabled').nth(1).click();
      await page
        .getByRole('dialog')
        .getByRole('button', { name: /Not an item/ })
        .waitFor();
    },
  },
  {
    name: 'preview: rows that are no item',
    open: async (page) => {
      await page.locator('.sheet-line:enabled').nth(1).click();
      await page
        .getByRole('dialog')
        .getByRole('button', { name: /Not an item/ })
        .click();
      await page
        .getByRole('dialog')
        .getByText(/rows below it/)
        .click();
      await page.getByLabel('Last of these rows').waitFor();
    },
  },
];
