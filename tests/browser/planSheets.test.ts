// A large schedule given back as a sheet: how far it is stands on the screen, cancelling ends it at once and changes
// nothing, and made again it is ready. Rows invented.
import { expect, it } from 'vitest';
import { DESK, PHONE, picture } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('plan-sheets');
const ROWS = 6_000;
const SHEET = [
  'Cable No,From Unit,From Jack,To Unit,To Jack,Signal,Notes',
  ...Array.from({ length: ROWS }, (_, i) => {
    const [unit, jack] = [Math.floor(i / 24) + 1, (i % 24) + 1];
    return `${10_000 + i},FRM${unit},OUT ${jack},PNL${unit},J${jack},line,row ${i}`;
  }),
].join('\n');

it('tells how far it is, is cancelled at once, and is ready when made again', async () => {
  const { page, press } = phone;
  await page.goto(phone.origin);
  await press(/Import a schedule/);
  const file = { name: 'large.csv', mimeType: 'text/csv', buffer: Buffer.from(SHEET) };
  await page.locator('input[type=file]').first().setInputFiles(file);
  await page.getByLabel('Name of the station').fill('Fennigmoor');
  await press(/Use as the plan/);
  await page
    .getByRole('button', { name: /Begin an audit/ })
    .first()
    .waitFor();
  await page.goto(`${phone.origin}/plan`);
  const part = page.getByRole('region', { name: 'The schedule as a sheet' });
  await part.getByRole('button', { name: 'Make CSV' }).click();
  await part.getByRole('progressbar', { name: 'Made so far' }).waitFor();
  await part.getByText('Making the sheet.').waitFor();
  await part.scrollIntoViewIfNeeded();
  await picture(page, 'plan-sheets-making-phone');
  await part.getByRole('button', { name: 'Cancel' }).click();
  await part.getByText('Cancelled; no sheet was made.').waitFor();
  await expect.poll(() => part.getByRole('progressbar').count()).toBe(0);
  await picture(page, 'plan-sheets-cancelled-phone');
  await part.getByRole('button', { name: 'Make CSV' }).click();
  await part.getByText('no cell changed').waitFor();
  for (const [name, size, theme] of [
    ['phone-light', PHONE, 'light'],
    ['desk-dark', DESK, 'dark'],
  ] as const) {
    await page.setViewportSize(size);
    await page.emulateMedia({ colorScheme: theme });
    await part.scrollIntoViewIfNeeded();
    await picture(page, `plan-sheets-ready-${name}`);
  }
});
