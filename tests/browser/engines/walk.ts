// The first jacks of the demo station's walk, pressed in any engine, and what of them is really on the disk.
import { expect } from 'vitest';
import type { Engine } from './engine.ts';

const LABELS = ['1001', '1002', '1003', '1004', '1005', '1006', '1007', '1008'];
const toJack = (n: number) => `P${String(n).padStart(2, '0')}`;

/** From an empty phone to the first jack; answers with the walk's address. */
export async function beginDemoWalk(engine: Engine, origin: string): Promise<string> {
  await engine.goto(origin);
  await engine.press('Open the demo station');
  await engine.text('148 cables');
  await engine.goto(`${origin}/start-audit`);
  await fill(engine, 'label:Your name', 'I. Halloran');
  await engine.press('Begin the walk');
  await engine.until(
    'the walk',
    () => /\/walk/.test(location.href) && document.querySelector('.thumb-states') !== null,
  );
  return await engine.run(() => location.origin + location.pathname);
}

/** Types into a field once it is there: `label:` and part of its label, else a selector. */
export async function fill(engine: Engine, which: string, text: string): Promise<void> {
  await engine.until(
    `the field ${which}`,
    (wanted, typed) => {
      const label = [...document.querySelectorAll('label')].find(
        (one) => wanted.startsWith('label:') && one.textContent?.includes(wanted.slice(6)),
      );
      const field = label?.control ?? (wanted.startsWith('label:') ? null : document.querySelector(wanted));
      if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement)) return false;
      field.value = typed;
      field.dispatchEvent(new Event('input', { bubbles: true }));
      field.dispatchEvent(new Event('change', { bubbles: true }));
      return true;
    },
    which,
    text,
  );
}

/** Types a label for the jack in hand. */
export async function typeLabel(engine: Engine, label: string): Promise<void> {
  await engine.press('Type');
  await fill(engine, '#walk-typed', label);
  await engine.pressPrimary();
}

/** The jack that the walk stands at. */
export async function standsAt(engine: Engine, jack: string): Promise<void> {
  await engine.until(
    `the walk at ${jack}`,
    (name) => document.querySelector('.plate')?.textContent?.includes(name),
    jack,
  );
}

/** Says that each jack reads what the plan has there, from one number to another. */
export async function sayJacks(engine: Engine, from: number, to: number): Promise<void> {
  for (let n = from; n <= to; n += 1) await engine.pressUntil(`Reads ${LABELS[n - 1]}`, `${toJack(n)}: `);
}

/** Waits until the service worker has everything on the phone. */
export async function untilKeptOffline(engine: Engine): Promise<void> {
  await engine.until('the app on the phone', async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    return registration?.active?.state === 'activated';
  });
}

/** Rows of a table of the station's database, read past the app. */
async function rowsOf<T>(engine: Engine, table: string): Promise<T[]> {
  return await engine.run(async (name) => {
    const answer = <A>(request: IDBRequest<A>) =>
      new Promise<A>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const found = (await indexedDB.databases()).find((one) => one.name?.startsWith('asfound-station-'));
    const db = await answer(indexedDB.open(found?.name ?? ''));
    const rows: T[] = await answer(db.transaction(name).objectStore(name).getAll());
    db.close();
    return rows;
  }, table);
}

/** Jacks with an entry on the disk, in the order they were said. */
export async function keptJacks(engine: Engine): Promise<string[]> {
  const rows = await rowsOf<{ text: string }>(engine, 'events');
  return rows
    .map(({ text }) => JSON.parse(text) as { kind: string; payload: { places: string[] } })
    .filter(({ kind }) => kind === 'sighting')
    .map(({ payload }) => payload.places[0].split('/').pop() ?? '');
}

/** Waits until the disk knows where the walk stands: an entry is written before that, and a kill may come between. */
export async function untilRemembered(engine: Engine, jack: string): Promise<void> {
  await expect
    .poll(async () => {
      const drafts = await rowsOf<{ value: { place?: string | null } | null }>(engine, 'drafts');
      return drafts.map(({ value }) => value?.place?.split('/').pop());
    })
    .toContain(jack);
}
