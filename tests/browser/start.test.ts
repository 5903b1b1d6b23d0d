// Starts that cannot succeed, or nearly did not: no secure connection, a browser that is too old, a list of stations that
// is gone. Each says exactly what is missing.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openPhone, picture } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('start');
const said = async () => (await phone.page.locator('body').innerText()).replace(/\s+/g, ' ');

it('says over plain HTTP that the connection is not secure, and the two ways to HTTPS', async () => {
  const profile = mkdtempSync(join(tmpdir(), 'asfound-plain-'));
  const context = await openPhone(profile, { flags: ['--host-resolver-rules=MAP studio.invalid 127.0.0.1'] });
  try {
    const [page] = context.pages();
    const { port } = new URL(phone.origin);
    await page.goto(`http://studio.invalid:${port}/`);
    await page.getByText('This address has no secure connection').waitFor();
    for (const theme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme: theme });
      await picture(page, `not-secure-phone-${theme}`);
    }
    const text = await page.locator('body').innerText();
    expect(text).toMatch(/certificate from a public authority, or a certificate authority of your own/);
    expect(text).toMatch(/http:\/\/localhost/);
    expect(text).not.toMatch(/private browsing|no space/i);
  } finally {
    await context.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  }
});

it('says that a browser is too old, by what it lacks or by words it does not know, and otherwise nothing', async () => {
  await phone.page.goto(phone.origin);
  await phone.page.getByText('Open the demo station').waitFor();
  expect(await said()).not.toMatch(/too old/);

  const older = await phone.browser.newContext({ serviceWorkers: 'block' });
  const page = await older.newPage();
  await page.addInitScript(() => {
    CSS.supports = () => false;
  });
  await page.goto(phone.origin);
  await page.getByText('This browser is too old for Asfound.').waitFor();
  expect(await page.locator('#too-old').innerText()).toMatch(/iOS and Safari 16\.4, Chrome 108, Firefox 121/);
  await older.close();

  const stranger = await phone.browser.newContext({ serviceWorkers: 'block', viewport: { width: 390, height: 844 } });
  const blank = await stranger.newPage();
  await blank.route(/assets\/index-.*\.js$/, (route) =>
    route.fulfill({ contentType: 'text/javascript', body: 'let a = ;' }),
  );
  await blank.goto(phone.origin);
  await blank.getByText('This browser is too old for Asfound.').waitFor();
  for (const theme of ['light', 'dark'] as const) {
    await blank.emulateMedia({ colorScheme: theme });
    await picture(blank, `too-old-phone-${theme}`);
  }
  await stranger.close();
});

it('opens the record that is there when the list of stations is gone', async () => {
  await phone.page.goto(phone.origin);
  await phone.page.getByText('Open the demo station').click();
  await phone.page.getByText('148 cables').waitFor();
  await phone.begin();
  await phone.press(/reads 1001/i);
  await expect.poll(phone.verdict).toContain('P01:');
  await phone.settled();
  // Before the app has begun, so that nobody holds the list open.
  await phone.page.goto(`${phone.origin}/icons/icon.svg`);
  await phone.page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const gone = indexedDB.deleteDatabase('asfound');
        gone.onsuccess = () => resolve();
        gone.onerror = () => reject(gone.error);
      }),
  );
  await phone.page.goto(`${phone.origin}/audit/${phone.audit}/walk`);
  await expect.poll(() => phone.page.locator('.plate').innerText()).toContain('P02');
  await phone.page.goto(phone.origin);
  await phone.page.getByText('148 cables').waitFor();
});
