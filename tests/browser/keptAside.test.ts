// What the phone kept beside the record and this version cannot use, at phone size without a network: it is told on the
// screen it belongs to, seen, deleted, and the walk goes on. The foreign memories are planted in the database.
import { expect, it } from 'vitest';
import { pictures } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('kept-aside');
const told = () => phone.page.getByRole('region', { name: 'Kept on this phone' });
const soon = <T>(ask: () => T | Promise<T>) => expect.poll(ask);

/** As another version of the app would have kept it. */
async function plant(rows: { key: string; value: unknown; at: number; version?: number }[]): Promise<void> {
  await phone.settled();
  await phone.page.evaluate(async (planted) => {
    const done = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    for (const { name = '' } of await indexedDB.databases()) {
      const db = await done(indexedDB.open(name));
      if (db.objectStoreNames.contains('drafts')) {
        const store = db.transaction('drafts', 'readwrite').objectStore('drafts');
        await Promise.all(planted.map((row) => done(store.put(row))));
      }
      db.close();
    }
  }, rows);
}

it('a walk memory of another version is put aside and named, and the walk goes on', async () => {
  await phone.demoOffline();
  await phone.begin(/^After a move/);
  await phone.page.goto(`${phone.origin}/settings`);
  await phone.page.getByText('Your name').first().waitFor();
  await plant([
    { key: `walk:${phone.audit}`, value: { place: { unit: 'SW1', jack: 'P07' }, acts: 'none yet' }, at: 1 },
    { key: `way:${phone.audit}`, value: { spiral: true }, at: 2, version: 9 },
  ]);
  await phone.page.goto(`${phone.origin}/audit/${phone.audit}/walk`);
  await phone.page.locator('.thumb-states').waitFor();
  await soon(() => told().innerText()).toMatch(/Put aside, not deleted\. Where the walk stood.*The walking order/s);
  expect(await told().innerText()).toMatch(/The record is not touched/);
  await pictures(phone.page, 'kept-aside');
  // The walk is not hindered by the bar.
  await phone.press('Empty');
  await soon(phone.verdict).toMatch(/empty/i);

  await told().getByRole('button', { name: 'See it' }).click();
  const dialog = phone.page.getByRole('dialog');
  await dialog.getByRole('button', { name: /^Where the walk stood/ }).click();
  await soon(() => dialog.innerText()).toContain('"acts": "none yet"');
  await pictures(phone.page, 'kept-aside-text');
  await dialog.getByRole('button', { name: /Delete it/ }).click();
  await soon(() => dialog.getByRole('button', { name: /^Where the walk stood/ }).count()).toBe(0);
  await dialog.getByRole('button', { name: /^The walking order/ }).waitFor();
  await dialog.getByRole('button', { name: 'Close' }).click();
  await told().getByRole('button', { name: 'Go on' }).click();
  await told().waitFor({ state: 'detached' });

  // What was said since is kept in the place of what was put aside.
  await phone.settled();
  await phone.page.reload();
  await phone.page.locator('.thumb-states').waitFor();
  await phone.press('Undo');
  await soon(phone.verdict).toContain('Undone');
  expect(await told().count()).toBe(0);
});

it('what is left stands under Settings', async () => {
  await phone.settled();
  await phone.page.goto(`${phone.origin}/settings`);
  await phone.page.getByText('Put aside on this phone').waitFor();
  await phone.page.getByRole('button', { name: /^The walking order/ }).click();
  const dialog = phone.page.getByRole('dialog');
  await soon(() => dialog.innerText()).toContain('spiral');
  await dialog.getByRole('button', { name: /Delete it/ }).click();
  await soon(() => phone.page.getByText('Put aside on this phone').count()).toBe(0);
});

it('a draft that cannot be read is told as that, and typing anew does not take it away', async () => {
  await phone.page.goto(`${phone.origin}/settings`);
  await phone.page.getByText('Your name').first().waitFor();
  await plant([{ key: `make-plan:${phone.audit}`, value: 'Half a name', at: 3, version: 1 }]);
  await phone.context.addInitScript(() => {
    const { get } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.get = function (...given) {
      if (this.name !== 'drafts' || sessionStorage.getItem('dead') !== 'yes') return get.apply(this, given);
      this.transaction.abort();
      throw new DOMException('the connection is gone', 'InvalidStateError');
    };
  });
  await phone.page.evaluate(() => sessionStorage.setItem('dead', 'yes'));
  await phone.page.goto(`${phone.origin}/audit/${phone.audit}/make-plan`);
  await soon(() => told().innerText()).toMatch(
    /Not read from this phone\. The name of the plan.*storage does not answer/s,
  );
  await pictures(phone.page, 'kept-unread');
  await phone.page.evaluate(() => sessionStorage.removeItem('dead'));
  await phone.page.getByRole('textbox').first().fill('Anew');
  await phone.settled();
  await phone.page.goto(`${phone.origin}/settings`);
  await phone.page.getByRole('button', { name: /^The name of the plan/ }).click();
  await soon(() => phone.page.getByRole('dialog').innerText()).toContain('Half a name');
});
