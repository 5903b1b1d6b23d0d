// What must not get lost or be claimed too early in the walk, at phone size without a network: a row half chosen, the undo
// of what was said as the page ended, a permission that is not on disk, one label at two jacks by a hand scanner, and a
// unit where the plan has another one. Data: the demo station (invented).
import { beforeAll, describe, expect, it } from 'vitest';
import { picture } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('walk-kept');
const { press, verdict, more, at, kill } = phone;

const soon = <T>(ask: () => T | Promise<T>) => expect.poll(ask);
const over = () => phone.page.locator('.walk-over');
const jack = () => soon(() => phone.page.locator('.plate h1 .plate-big').first().innerText());
const set = (name: 'full' | 'nodrafts', value: 'yes' | 'no') =>
  phone.page.evaluate(([key, to]) => document.documentElement.setAttribute(`data-${key}`, to), [name, value] as const);

beforeAll(async () => {
  // The database refuses events as it does on a full disk, or drafts as if the page had ended before they were written.
  await phone.context.addInitScript(() => {
    const { add, put } = IDBObjectStore.prototype;
    const is = (name: string) => document.documentElement.getAttribute(`data-${name}`) === 'yes';
    const refuse = (store: IDBObjectStore) => {
      store.transaction.abort();
      throw new DOMException('no room', 'QuotaExceededError');
    };
    IDBObjectStore.prototype.add = function (...given) {
      return this.name === 'events' && is('full') ? refuse(this) : add.apply(this, given);
    };
    IDBObjectStore.prototype.put = function (...given) {
      return this.name === 'drafts' && is('nodrafts') ? refuse(this) : put.apply(this, given);
    };
  });
});

describe('a row half chosen', () => {
  it('is there again after the page was killed, with its state and what was taken out', async () => {
    await phone.demoOffline();
    await phone.begin(/^After a move/);
    await at('SW1/P05');
    await more(/^Record a row/);
    await over().getByRole('button', { name: /^P10,/ }).click();
    await over().getByRole('button', { name: /^P14,/ }).click();
    await over().getByRole('button', { name: /^P12,/ }).click();
    await over().getByRole('button', { name: 'No label' }).click();
    await over()
      .getByRole('button', { name: /Record 4 as without label/ })
      .waitFor();
    await phone.settled();
    await kill();
    await over()
      .getByRole('button', { name: /Record 4 as without label/ })
      .waitFor();
    await soon(() => over().locator('.walk-range-words h2').innerText()).toContain('P10 to P14 without P12');
    await picture(phone.page, 'range-resumed');
    await press(/Record 4 as without label/);
    await soon(verdict).toContain('P10 to P14');
    // Said, or backed out of: there is nothing to come back to.
    await phone.settled();
    await kill();
    await phone.page.locator('.thumb-states').waitFor();
    await phone.settled();
    expect(await over().count()).toBe(0);
    await more(/^Record a row/);
    await over().getByRole('button', { name: /^P15,/ }).click();
    await phone.page.keyboard.press('Escape');
    await over().waitFor({ state: 'detached' });
    await phone.settled();
    await phone.page.reload();
    await phone.page.locator('.thumb-states').waitFor();
    await phone.settled();
    expect(await over().count()).toBe(0);
  });
});

describe('a statement as the page ended', () => {
  it('can be undone, though nothing but the statement reached the disk', async () => {
    await at('SW1/P05');
    await set('nodrafts', 'yes');
    await press(/P05 reads 1005/);
    await soon(verdict).toContain('P05: 1005');
    await phone.page.reload();
    await phone.page.locator('.thumb-states').waitFor();
    await press('Undo');
    await soon(verdict).toContain('Undone: SW1 P05, 1005.');
    await at('SW1/P05');
    await phone.page.getByRole('button', { name: 'P05, plan 1005, not looked at yet' }).waitFor();
  });
});

describe('a permission', () => {
  it('is not called given before it is on disk', async () => {
    await at('SW1/P05');
    await set('full', 'yes');
    await more(/What you may do/);
    const sheet = phone.page.getByRole('dialog');
    await sheet.getByText('Touch', { exact: true }).click();
    await sheet.getByRole('alert').getByText('The phone is full: this is only in memory.').waitFor();
    await picture(phone.page, 'permission-not-on-disk');
    await set('full', 'no');
    await sheet.getByRole('button', { name: 'Cancel' }).click();
    await press('Try again');
    await soon(() => phone.page.locator('.not-saved-text').count()).toBe(0);
    await more(/What you may do/);
    await sheet.getByText('Unplug', { exact: true }).click();
    await soon(() => sheet.count()).toBe(0);
    await soon(verdict).toMatch(/You may (disconnect|unplug)/i);
    await phone.page.reload();
    await soon(() => phone.page.locator('.permission-yes').allInnerTexts()).toContain('touch');
  });
});

describe('a hand scanner', () => {
  const trigger = async (text: string) => {
    // In one turn of the page: keys sent one by one are as far apart as this machine is busy, and then no burst.
    await phone.page.evaluate(
      (keys) => {
        for (const key of keys)
          document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
      },
      [...text, 'Enter'],
    );
  };

  it('reads one label at two jacks within a second, and a trigger that bounces once', async () => {
    await at('SW1/P06');
    await trigger('1006');
    await soon(verdict).toContain('P06: 1006');
    await jack().toBe('P07');
    // Past the time in which a second trigger counts as a bounce: the cells take a tap again only then.
    await phone.settled();
    await trigger('1006');
    await soon(verdict).toContain('P07: 1006, differs');
    await at('SW1/P08');
    await trigger('1008');
    await trigger('1008');
    await soon(verdict).toContain('P08: 1008');
    await jack().toBe('P09');
    await phone.settled();
    expect(await verdict()).toContain('P08: 1008');
  });
});

describe('a unit where the plan has another one', () => {
  const field = (name: string) => phone.page.getByLabel(name, { exact: true });
  const describeAt = async (label: string) => {
    await phone.page.goto(`${phone.origin}/audit/${phone.audit}/describe`);
    await press(/Describe a unit/);
    await field('Label on the unit').fill(label);
    await phone.page.getByRole('radio', { name: 'R2', exact: true }).check();
    await field('Lowest U it takes up').fill('40');
    await press(/Save the unit/);
    await phone.page.getByText('The plan has SW2 at U40. Is it gone from there?').waitFor();
  };
  const differences = async () => {
    await phone.page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
    await phone.page.getByRole('heading', { level: 2 }).first().waitFor();
    return phone.page.locator('main');
  };

  it('is kept either way; one tap says that the planned one is gone, and the record then says so', async () => {
    await describeAt('CLK8');
    await picture(phone.page, 'describe-gone');
    await press('Cannot tell: save CLK8 anyway');
    await phone.page.locator('.describe-kept').getByText('CLK8 at U40 saved.').waitFor();
    await soon(async () => (await differences()).innerText()).toContain('P07');
    expect(await phone.page.locator('main').innerText()).not.toContain('CLK8');
    await phone.page.goto(`${phone.origin}/audit/${phone.audit}/describe`);
    await press('Undo');
    await phone.page.getByText('Undone: CLK8').waitFor();
    await describeAt('CLK9');
    await press('Gone: CLK9 is at U40');
    await phone.page.locator('.describe-kept').getByText('CLK9 at U40 saved.').waitFor();
    await soon(async () => (await differences()).innerText()).toContain('A different unit is in R2 U40.');
    await picture(phone.page, 'describe-gone-differs');
  });
});
