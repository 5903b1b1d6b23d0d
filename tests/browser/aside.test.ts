// A file with holes and forgeries in it is brought in: what does not fit is shown with whose it is, and taken once the
// rest comes; this phone goes on recording. The lines of entries that were not saved come in by the same button.
import { createHash } from 'node:crypto';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { writeBundle } from '../../src/files/bundle.ts';
import { contextOptions, openBrowser, pictures, type Served, serve } from './harness.ts';

let served: Served;
let browser: Browser;
let page: Page;

const STATION = 'b7c1f0aa-aside';
const NOW = Date.now();
const hash = (text: string) => createHash('sha256').update(text).digest('hex');

function entry(log: string, seq: number, prev: string | null, more: Record<string, unknown> = {}): string {
  return JSON.stringify({
    ...{
      v: 1,
      id: `${log}-${seq}`,
      station: STATION,
      log,
      seq,
      prev,
      author: 'Ilse Dorn',
      at: NOW - 3_600_000,
      zone: 0,
    },
    ...{ kind: 'note', payload: { text: `Note ${seq}` } },
    ...more,
  });
}

function logOf(log: string, length: number, more: (seq: number) => Record<string, unknown> = () => ({})): string[] {
  const texts: string[] = [];
  for (let seq = 0; seq < length; seq++) {
    const before = texts.at(-1);
    texts.push(entry(log, seq, before === undefined ? null : hash(before), more(seq)));
  }
  return texts;
}

async function bring(name: string, body: Uint8Array | string): Promise<void> {
  const buffer = Buffer.from(body as string);
  await page.locator('input[type=file]').setInputFiles({ name, mimeType: 'application/octet-stream', buffer });
}
const bundle = (events: string[]) =>
  writeBundle({ station: STATION, stationName: 'Lowmoor', events, documents: new Map() });

beforeAll(async () => {
  served = await serve();
  browser = await openBrowser();
  page = await (await browser.newContext(contextOptions())).newPage();
  page.setDefaultTimeout(60_000);
});
afterAll(async () => {
  await browser?.close();
  await served?.stop();
});

it('shows what does not fit in a file, whose it is and what to do, and takes it when the rest comes', async () => {
  const ilse = logOf('ilse', 16);
  const adopted = (author: string, name: string) => () => ({
    ...{ author, kind: 'plan-adopted', payload: { revision: hash(name), name, bytes: 10 } },
  });
  const mara = logOf('mara', 1, adopted('Mara Field', 'Rev B'));
  const ivo = logOf('ivo', 1, adopted('Ivo Rand', 'Rev C'));
  const ahead = logOf('ahead', 2, () => ({ author: 'Ada Quill', at: NOW + 40 * 24 * 3_600_000 }));
  const forged = entry('ilse', Number.MAX_SAFE_INTEGER - 1, 'f'.repeat(64));
  await page.goto(`${served.origin}/sync`);
  // The phone is empty: it takes the station of the file as its own, and the page begins anew in it.
  await bring(
    'lowmoor.asfound.zip',
    bundle([...ilse.slice(0, 11), ...ilse.slice(14), forged, ...mara, ...ivo, ...ahead]),
  );
  await page.waitForURL(/\/$/);
  await page.goto(`${served.origin}/sync`);
  const text = () => page.locator('body').innerText();
  await expect.poll(text).toContain('Entries 12 to 14 of Ilse Dorn’s phone have not arrived. 2 later entries are kept');
  expect(await text()).toContain('1 entry of Ilse Dorn’s phone has a number much too high.');
  await expect.poll(text).toContain('Ada Quill: 2 entries are dated in the future');
  for (const said of ['Ivo Rand put the plan Rev C in force, ', 'Mara Field put the plan Rev B in force, '])
    expect(await text()).toContain(said);
  await page.getByRole('heading', { name: 'Entries that do not fit' }).scrollIntoViewIfNeeded();
  await pictures(page, 'aside', () =>
    page.getByRole('heading', { name: 'Entries that do not fit' }).scrollIntoViewIfNeeded(),
  );

  await bring('rest.asfound.zip', bundle(ilse.slice(11, 14)));
  await expect.poll(text).toContain('Imported: 5 new entries');
  await expect.poll(text).not.toContain('have not arrived');
  expect(await text()).toContain('much too high');
});

it('takes the file of entries that were not saved, once', async () => {
  const lines = `${[entry('gone', 7, hash('x')), entry('gone', 8, hash('y'))].join('\n')}\n`;
  await page.goto(`${served.origin}/sync`);
  await bring('not-saved.jsonl', lines);
  const text = () => page.locator('body').innerText();
  await expect.poll(text).toContain('Imported: 2 new entries');
  await bring('not-saved.jsonl', lines);
  await expect.poll(text).toContain('Imported: 0 new entries and 0 documents. 2 entries were here already.');
});
