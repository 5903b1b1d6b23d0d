// Real Chromium pages among the phones of a fault run: the built app on a profile of its own, used by taps, crashed in
// the middle and started again. What it holds is read from its databases.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import type { StationName } from '../../src/wire/sync.ts';
import type { Guest } from '../sync/faultActs.ts';
import type { Holding } from '../sync/faultServer.ts';
import { openPhone } from './harness.ts';
import { settled } from './settled.ts';

const JACKS = Array.from({ length: 24 }, (_, i) => `SW1/P${String(i + 1).padStart(2, '0')}`);
const PATIENCE_MS = 120_000;

type Rows = { events: { id: string; text: string; own: boolean }[]; waiting: number };

/** The app's clock is ahead by as many days as the page's own storage says. */
const CLOCK = `{
  const days = Number(localStorage.getItem('fault-days') ?? 0);
  const now = Date.now.bind(Date);
  Date.now = () => now() + days * 86_400_000;
}`;

export async function openGuests(
  count: number,
  origin: string,
  code: () => Promise<string>,
): Promise<{ guests: Guest[]; station: StationName }> {
  const guests: (Guest & { page: () => Page; audit: string })[] = [];
  let station = { id: '', name: '' };
  for (let n = 0; n < count; n += 1) {
    const profile = mkdtempSync(join(tmpdir(), 'asfound-guest-'));
    const context = await openPhone(profile);
    await context.addInitScript({ content: CLOCK });
    const page = await context.newPage();
    page.setDefaultTimeout(PATIENCE_MS);
    const [first] = guests;
    if (first === undefined) {
      await page.goto(origin);
      await page.getByText('Open the demo station').click();
      await page.getByText('148 cables').waitFor();
    }
    await pair(page, origin, await code());
    if (first === undefined) station = { id: await stationOf(page), name: 'Demo' };
    await page.goto(origin);
    await page.getByText('148 cables').waitFor();
    guests.push(await guestOf(`browser${n}`, origin, station.id, { profile, context, page }));
  }
  return { guests, station };
}

async function pair(page: Page, origin: string, code: string): Promise<void> {
  await page.goto(`${origin}/sync`);
  await page.getByLabel('Code').fill(code);
  await page.keyboard.press('Enter');
  // A phone that joins another station loads anew.
  await page.getByText('Pair with the station’s server').waitFor({ state: 'detached' });
}

async function begin(page: Page, origin: string): Promise<string> {
  await page.goto(`${origin}/start-audit`);
  await page.getByLabel('Your name').fill('I. Halloran');
  await page.getByRole('button', { name: /Begin the walk/ }).click();
  await page.waitForURL(/walk/);
  await page.locator('.thumb-states').waitFor();
  return /audit\/([^/?]+)/.exec(page.url())?.[1] ?? '';
}

type Opened = { profile: string; context: BrowserContext; page: Page };

async function guestOf(name: string, origin: string, station: string, opened: Opened) {
  const { profile, context } = opened;
  let { page } = opened;
  const audit = await begin(page, origin);
  const made = new Map<string, string>();
  /** What it has shown as kept is noted at once, so that it is missed if it is ever gone. */
  const note = async (): Promise<Rows> => {
    const rows = await rowsOf(page, station);
    for (const row of rows.events) if (row.own) made.set(row.id, row.text);
    return rows;
  };
  const reopen = async () => {
    page = await context.newPage();
    page.setDefaultTimeout(PATIENCE_MS);
    await page.goto(`${origin}/audit/${audit}/walk`);
    await page.locator('.thumb-states').waitFor();
  };
  await note();
  return {
    name,
    audit,
    page: () => page,
    made,
    taken: new Set<string>(),
    act: async (random: () => number) => {
      const jack = JACKS[Math.floor(random() * JACKS.length)] ?? 'SW1/P01';
      await page.goto(`${origin}/audit/${audit}/walk?at=${encodeURIComponent(jack)}`);
      await page.locator('.thumb-states').waitFor();
      await settled(page);
      await page.locator('.thumb-states').getByRole('button', { name: 'Empty' }).click();
      await settled(page);
      await note();
    },
    restart: async () => {
      const gone = page.waitForEvent('crash');
      const wire = await context.newCDPSession(page);
      // It never answers: what would have answered is gone.
      void wire.send('Page.crash').catch(() => undefined);
      await gone;
      await page.close();
      await reopen();
      await note();
    },
    nextDay: async () => {
      await page.evaluate(() => {
        const days = Number(localStorage.getItem('fault-days') ?? 0);
        localStorage.setItem('fault-days', String(days + 1.05));
      });
      await page.goto(`${origin}/sync`);
      await page.getByRole('button', { name: 'Send now' }).click();
      const until = Date.now() + PATIENCE_MS / 4;
      while ((await rowsOf(page, station)).waiting > 0 && Date.now() < until) await settled(page);
      await settled(page);
      return (await note()).waiting === 0 ? 'idle' : 'waiting';
    },
    held: async (): Promise<Holding> => {
      const events = new Map<string, string[]>();
      for (const { id, text } of (await note()).events) events.set(id, [...(events.get(id) ?? []), text]);
      return { events, documents: new Map() };
    },
    close: async () => {
      await context.close();
      rmSync(profile, { recursive: true, force: true });
    },
  };
}

async function stationOf(page: Page): Promise<string> {
  const names = await page.evaluate(async () => (await indexedDB.databases()).map((one) => one.name ?? ''));
  const [name] = names.filter((one) => one.startsWith('asfound-station-'));
  return (name ?? '').slice('asfound-station-'.length);
}

async function rowsOf(page: Page, station: string): Promise<Rows> {
  return await page.evaluate(async (name) => {
    const done = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const db = await done(indexedDB.open(name));
    try {
      const tx = db.transaction(['events', 'outbox'], 'readonly');
      const events: { id: string; text: string; origin: string }[] = await done(tx.objectStore('events').getAll());
      const waiting = await done(tx.objectStore('outbox').count());
      return { events: events.map(({ id, text, origin }) => ({ id, text, own: origin === 'own' })), waiting };
    } finally {
      db.close();
    }
  }, `asfound-station-${station}`);
}
