// Hebrew and Arabic names and hidden direction signs in a real browser: where each part of a sentence stands on the line, and
// that nothing of it gets into what is kept or exported. Names invented.
import { expect, it } from 'vitest';
import { contextOptions, picture, untilOffline } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('bidi');
const UNIT = 'אולפן-2';
const SHEET = [
  'Cable No,From Room,From Unit,From Jack,To Room,To Unit,To Jack,Signal',
  `1003,חדר בקרה,${UNIT},NET 3,Studio A,SW1,P03,network`,
  '10\u202e40,Studio A,الخلاط,OUT 1,Studio A,SW1,P04,network',
  '1005,Studio A,MIO5,NET,Studio A,SW1,P05,network',
].join('\n');

/** Left edge of the first letter of a text on the screen, as drawn. Plain text: it runs in the page. */
const LEFT = `(text, within) => {
  for (const root of document.querySelectorAll(within)) {
    const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const at = node.data.indexOf(text);
      if (at < 0) continue;
      const range = document.createRange();
      range.setStart(node, at);
      range.setEnd(node, at + text.length);
      return range.getBoundingClientRect().left;
    }
  }
  return null;
}`;

it('keeps every name in its place in the sentence, shows hidden signs, and keeps and exports the bare text', async () => {
  const context = await phone.browser.newContext({ ...contextOptions(), acceptDownloads: true });
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  const tap = (name: string | RegExp) => page.getByRole('button', { name }).first().click();
  const left = (text: string, within = '.verdict-second') =>
    page.evaluate<number | null>(`(${LEFT})(${JSON.stringify(text)}, ${JSON.stringify(within)})`);
  await page.goto(phone.origin);
  await tap(/Import a schedule/);
  const file = { name: 'names.csv', mimeType: 'text/csv', buffer: Buffer.from(SHEET) };
  await page.locator('input[type=file]').first().setInputFiles(file);
  await page.getByLabel('Name of the station').fill('תחנה ב');
  await picture(page, 'bidi-preview');
  await tap(/Use as the plan/);
  await tap(/Begin an audit/);
  await page.getByLabel('Your name').fill('I. Halloran');
  await page.getByRole('radio', { name: /^After a move/ }).check();
  await tap(/Begin the walk/);
  await page.waitForURL(/walk/);
  const audit = /audit\/([^/?]+)/.exec(page.url())?.[1] ?? '';
  await untilOffline(page);
  await context.setOffline(true);
  await page.goto(`${phone.origin}/audit/${audit}/walk?at=${encodeURIComponent('SW1/P03')}`);
  await tap(/P03 reads 1003/);
  const second = page.locator('.verdict-second');
  await expect.poll(() => second.innerText()).toContain('not seen yet');
  // "By eye. From end אולפן-2 NET 3: not seen yet." reads from the left, part by part.
  const [from, name, jack, rest] = [
    await left('From end'),
    await left('NET 3'),
    await left('3:'),
    await left('not seen'),
  ];
  expect(await second.innerText()).toContain(`\u2068${UNIT}\u2069 NET 3: not seen yet.`);
  const unit = await left(UNIT);
  expect(unit).not.toBeNull();
  const order = [from, unit, name, jack, rest].map((x) => x ?? Number.NaN);
  // The name may break the line; each line runs on from the left.
  expect(order.every((x) => !Number.isNaN(x))).toBe(true);
  expect(order[0]!).toBeLessThan(order[1]!);
  expect(order[2]!).toBeLessThan(order[3]!);
  await picture(page, 'bidi-walk');
  await page.goto(`${phone.origin}/audit/${audit}/walk?at=${encodeURIComponent('SW1/P05')}`);
  await page.locator('.thumb-states').waitFor();
  await tap(/^Type/);
  await page.getByRole('textbox', { name: 'Label, as printed' }).fill('10\u202e40');
  await page.getByRole('button', { name: 'Record' }).click();
  await expect.poll(() => page.locator('.verdict-first').innerText()).toContain('10[U+202E]40');
  await picture(page, 'bidi-hidden');
  await page.goto(`${phone.origin}/audit/${audit}/differences`);
  await expect.poll(() => page.locator('main').innerText()).toContain('10[U+202E]40');
  await picture(page, 'bidi-differences');
  // What is kept is what was read: no isolate, no number of a sign.
  const kept = await page.evaluate(async () => {
    const texts: string[] = [];
    for (const { name = '' } of await indexedDB.databases()) {
      const db = await new Promise<IDBDatabase>((resolve, reject) => {
        const open = indexedDB.open(name);
        open.onsuccess = () => resolve(open.result);
        open.onerror = () => reject(open.error);
      });
      if (db.objectStoreNames.contains('events')) {
        const rows = await new Promise<{ text: string }[]>((resolve) => {
          const all = db.transaction('events').objectStore('events').getAll();
          all.onsuccess = () => resolve(all.result);
        });
        texts.push(...rows.map(({ text }) => text));
      }
      db.close();
    }
    return texts.join('\n');
  });
  expect(kept).toContain('10\u202e40');
  expect(kept).not.toMatch(/[\u2068\u2069]|\[U\+/);
  await context.close();
});
