// A database that fails for good: what is said meanwhile has a copy beside it, says so, outlives the page, and is in the
// record once when the database works again.
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { PHONE, picture } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('second-place');
const bar = () => phone.page.locator('.not-saved-text');

const sightings = (page: Page) =>
  page.evaluate(async () => {
    const answer = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const found = (await indexedDB.databases()).find(({ name }) => name?.startsWith('asfound-station-'));
    const db = await answer(indexedDB.open(found?.name ?? ''));
    const rows: { text: string }[] = await answer(db.transaction('events').objectStore('events').getAll());
    db.close();
    return rows
      .map(({ text }) => JSON.parse(text))
      .filter(({ kind }) => kind === 'sighting')
      .map(({ payload }) => payload.places[0]);
  });

it('keeps a copy, takes it back once, and says which is which', { timeout: 120_000 }, async () => {
  // In the hidden frames too, so that no other way to the database is left. The sign outlives the page.
  await phone.context.addInitScript(() => {
    const add = IDBObjectStore.prototype.add;
    IDBObjectStore.prototype.add = function (...given) {
      if (this.name === 'events' && localStorage.getItem('broken') === 'yes') {
        this.transaction.abort();
        throw new DOMException('Connection to Indexed Database server lost', 'UnknownError');
      }
      return add.apply(this, given);
    };
  });
  await phone.demoOffline();
  await phone.begin();
  await phone.press(/reads 1001/i);
  await expect.poll(phone.verdict).toContain('P01:');
  await phone.page.evaluate(() => localStorage.setItem('broken', 'yes'));
  await phone.press(/reads 1002/i);
  await expect.poll(phone.verdict).toContain('P02:');
  await bar().getByText('1 entry is not in this phone’s record yet. A copy is kept').waitFor();
  for (const theme of ['light', 'dark'] as const) {
    await phone.page.emulateMedia({ colorScheme: theme });
    await picture(phone.page, `copy-kept-phone-${theme}`);
  }
  const undo = await phone.page.getByRole('button', { name: /^Undo/ }).boundingBox();
  expect((undo?.y ?? 9999) + (undo?.height ?? 0)).toBeLessThanOrEqual(PHONE.height);

  await phone.kill();
  await bar().getByText('1 entry is not in this phone’s record yet. A copy is kept').waitFor();
  expect(await sightings(phone.page)).toHaveLength(1);

  await phone.page.evaluate(() => localStorage.removeItem('broken'));
  for (let start = 0; start < 2; start += 1) {
    await phone.kill();
    await phone.page.locator('.thumb-states').waitFor();
    await expect.poll(() => sightings(phone.page)).toHaveLength(2);
    expect(await bar().count()).toBe(0);
  }
  const left = await phone.page.evaluate(async () => (await (await caches.open('asfound-not-saved')).keys()).length);
  expect(left).toBe(0);
});
