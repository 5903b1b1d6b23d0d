// Photos, marks, pins, labels read later and voice notes in a real Chromium: a camera and a microphone of the test's
// own, a kill in the middle, a full storage, a second phone. The floor is the demo station's (invented).
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { hasCameraData, jpegSegments } from '../../src/files/jpeg.ts';
import { newCode, openPhone, picture, type Served, serve, untilOffline } from './harness.ts';
import { fakeCameraScript } from './labels.ts';
import { drafts, settled } from './settled.ts';
import { openRow } from './sheets.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const OWN = { permissions: ['camera', 'microphone'], flags: ['--use-fake-device-for-media-stream'] };

interface Said {
  id: string;
  kind: string;
  payload: Record<string, unknown>;
}

let served: Served;
let profile: string;
let phone: BrowserContext;
let page: Page;
let walk: string;

async function open(): Promise<void> {
  phone = await openPhone(profile, OWN);
  await phone.addInitScript({ content: fakeCameraScript });
  page = phone.pages()[0] ?? (await phone.newPage());
  page.setDefaultTimeout(60_000);
  page.on('pageerror', (error) => console.error(error));
  page.on('console', (message) => {
    if (/Content Security Policy/i.test(message.text())) console.error(message.text());
  });
}

beforeAll(async () => {
  served = await serve();
  profile = mkdtempSync(join(tmpdir(), 'asfound-photo-'));
  await open();
  await page.goto(served.origin);
  await page.getByText('Open the demo station').click();
  await page.getByText('148 cables').waitFor();
  await page.goto(`${served.origin}/start-audit`);
  await page.getByLabel('Your name').fill('I. Halloran');
  await page.getByRole('checkbox', { name: /^Rack R1/ }).check();
  await page.getByRole('button', { name: /Begin the walk/ }).click();
  await page.locator('.thumb').waitFor();
  walk = page.url().replace(/\?.*$/, '');
});
afterAll(async () => {
  await phone?.close();
  await served?.stop();
  rmSync(profile, { recursive: true, force: true });
});
afterEach(async ({ task }) => {
  if (task.result?.state === 'fail') await picture(page, 'photo-failed');
});

const press = (name: string | RegExp) => page.getByRole('button', { name, exact: true }).first().click();
const inDialog = (name: string | RegExp) =>
  page.getByRole('dialog').getByRole('button', { name, exact: true }).first().click();
const inPhoto = (name: string | RegExp) =>
  page.locator('.photo-full').getByRole('button', { name, exact: true }).first().click();
const body = () => page.locator('body').innerText();
const told = (words: string | RegExp) => expect.poll(body).toMatch(words);

/** Everything said on this phone, oldest first, as it stands in its database. */
async function events(kind?: string): Promise<Said[]> {
  const texts = await page.evaluate(async () => {
    const [{ name = '' } = {}] = (await indexedDB.databases()).filter((one) => one.name?.startsWith('asfound-station'));
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const asked = indexedDB.open(name);
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => reject(asked.error);
    });
    const rows = await new Promise<{ text: string }[]>((resolve) => {
      const asked = db.transaction('events').objectStore('events').getAll();
      asked.onsuccess = () => resolve(asked.result);
    });
    db.close();
    return rows.map((row) => row.text);
  });
  const all = texts.map((text) => JSON.parse(text) as Said);
  return kind === undefined ? all : all.filter((one) => one.kind === kind);
}

/** The bytes kept for a document, whole. */
async function stored(sha: string): Promise<Buffer> {
  const text = await page.evaluate(async (wanted) => {
    const [{ name = '' } = {}] = (await indexedDB.databases()).filter((one) => one.name?.startsWith('asfound-station'));
    const db = await new Promise<IDBDatabase>((resolve) => {
      const asked = indexedDB.open(name);
      asked.onsuccess = () => resolve(asked.result);
    });
    const rows = await new Promise<{ sha: string; n: number; bytes: ArrayBuffer }[]>((resolve) => {
      const asked = db.transaction('documents').objectStore('documents').getAll();
      asked.onsuccess = () => resolve(asked.result);
    });
    db.close();
    const parts = rows.filter((row) => row.sha === wanted).sort((a, b) => a.n - b.n);
    return parts.map(({ bytes }) => Array.from(new Uint8Array(bytes), (b) => String.fromCharCode(b)).join('')).join('');
  }, sha);
  return Buffer.from(text, 'latin1');
}

/** A JPEG of the browser's own with an Exif segment of a place in front (JEITA CP-3451; EXIF GPS IFD, tag 0x8825). */
async function jpegWithPlace(): Promise<Buffer> {
  const text = await page.evaluate(async () => {
    const canvas = new OffscreenCanvas(2000, 1500);
    const context = canvas.getContext('2d');
    context?.fillRect(0, 0, 900, 900);
    const blob = await canvas.convertToBlob({ type: 'image/jpeg' });
    return Array.from(new Uint8Array(await blob.arrayBuffer()), (b) => String.fromCharCode(b)).join('');
  });
  const plain = Buffer.from(text, 'latin1');
  const tiff = Buffer.alloc(8 + 2 + 12 + 4 + 2 + 12 + 4);
  tiff.write('MM', 0, 'latin1');
  tiff.writeUInt16BE(42, 2);
  tiff.writeUInt32BE(8, 4);
  tiff.writeUInt16BE(1, 8);
  tiff.writeUInt16BE(0x8825, 10);
  tiff.writeUInt16BE(4, 12);
  tiff.writeUInt32BE(1, 14);
  tiff.writeUInt32BE(26, 18);
  tiff.writeUInt16BE(1, 26);
  tiff.writeUInt16BE(1, 28);
  tiff.writeUInt16BE(2, 30);
  tiff.writeUInt32BE(2, 32);
  tiff.write('N\0', 36, 'latin1');
  const content = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff, Buffer.from('GPSPLACE', 'latin1')]);
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(content.length + 2, 2);
  return Buffer.concat([plain.subarray(0, 2), head, content, plain.subarray(2)]);
}

/** Middle of the picture plus a share of its size, in CSS pixels of the page. */
async function onPhoto(x: number, y: number): Promise<{ x: number; y: number }> {
  const box = await page.locator('.photo-laid').boundingBox();
  if (!box) throw new Error('no photo on the screen');
  return { x: box.x + box.width * x, y: box.y + box.height * y };
}
async function tapPhoto(x: number, y: number): Promise<void> {
  const at = await onPhoto(x, y);
  await page.mouse.click(at.x, at.y);
}
/** What axe-core finds wrong by the WCAG 2.2 rules that a machine can check, in both themes; also takes the pictures. */
async function looksRight(name: string): Promise<void> {
  await page.evaluate(AXE);
  const wrong: string[] = [];
  for (const theme of ['dark', 'light'] as const) {
    await page.emulateMedia({ colorScheme: theme });
    await picture(page, `${name}-${theme}`);
    const found = await page.evaluate(async () => {
      type Found = { violations: { id: string; nodes: { html: string }[] }[] };
      const { axe } = window as unknown as { axe: { run(root: Document, options: object): Promise<Found> } };
      const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
      return (await axe.run(document, { runOnly: rules, resultTypes: ['violations'] })).violations;
    });
    wrong.push(...found.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${theme} ${id}: ${html.slice(0, 140)}`)));
  }
  expect(wrong).toEqual([]);
}
const estimate = (share: number) =>
  page.evaluate((used) => {
    navigator.storage.estimate = async () => ({ usage: used * 1e9, quota: 1e9 });
  }, share);

describe('a photo at a jack', () => {
  it('is begun with the caution, once in an audit', async () => {
    await press(/^Photo of SW1 P01/);
    // The viewfinder is off, so the phone's own camera app is offered: one sheet, with the caution in it.
    const caution = page.getByRole('dialog', { name: 'Photo at SW1 P01' });
    await caution.waitFor();
    expect(await caution.innerText()).toMatch(/Passwords[\s\S]*faces/);
    expect(await caution.getByRole('button', { name: /Open the camera app/ }).count()).toBe(1);
    await picture(page, 'photo-caution-light');
  });

  it('refuses HEIC and what is no picture in a sentence, and loses nothing', async () => {
    const input = page.getByLabel('Photo file');
    const heic = Buffer.from('\0\0\0\u0018ftypheic\0\0\0\0mif1heic', 'latin1');
    await input.setInputFiles({ name: 'a.heic', mimeType: 'image/heic', buffer: heic });
    await told(/HEIC format, which other phones cannot show/);
    await input.setInputFiles({ name: 'a.txt', mimeType: 'text/plain', buffer: Buffer.from('no picture') });
    await told(/That is not a picture/);
    expect(await events('photo')).toEqual([]);
  });

  it('keeps nothing of what the camera wrote beside the pixels', async () => {
    const tagged = await jpegWithPlace();
    expect(hasCameraData(tagged)).toBe(true);
    await page.getByLabel('Photo file').setInputFiles({ name: 'a.jpg', mimeType: 'image/jpeg', buffer: tagged });
    await told(/Photo saved at SW1 P01/);
    const [photo] = await events('photo');
    expect(photo?.payload).toMatchObject({ place: 'SW1/P01', mime: 'image/jpeg', width: 1600, height: 1200 });
    const bytes = await stored(String(photo?.payload.document));
    expect(bytes.length).toBe(photo?.payload.bytes);
    expect(jpegSegments(bytes)?.length).toBeGreaterThan(3);
    expect(hasCameraData(bytes)).toBe(false);
    expect(bytes.includes('GPSPLACE')).toBe(false);
    expect(bytes.includes('Exif')).toBe(false);
  });

  it('is taken through the viewfinder without leaving the walk, several at one jack', async () => {
    await press('Start camera');
    await expect.poll(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
    for (const count of [2, 3]) {
      await press(/^Photo of SW1 P01/);
      await expect.poll(async () => (await events('photo')).length).toBe(count);
    }
    expect(await page.getByRole('dialog').count()).toBe(0);
    // The picture was made small in its worker, not in the page.
    expect(page.workers().some((worker) => /photo/.test(worker.url()))).toBe(true);
    await press('More');
    await openRow(page, /^Photos at SW1 P01/);
    await expect.poll(() => page.locator('.photo-row img').count()).toBe(3);
    await looksRight('photo-gallery');
  });
});

describe('marks', () => {
  it('are an arrow by one finger and a circle by two touches', async () => {
    await page.locator('.photo-row').nth(1).click();
    await page.locator('.photo-laid').waitFor();
    await inPhoto('Arrow');
    const [from, to] = [await onPhoto(0.2, 0.8), await onPhoto(0.5, 0.5)];
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2, { steps: 4 });
    await page.mouse.move(to.x, to.y, { steps: 4 });
    await page.mouse.up();
    await told(/Arrow saved/);
    await inPhoto('Done');
    await inPhoto('Circle');
    await tapPhoto(0.4, 0.3);
    await tapPhoto(0.6, 0.7);
    await told(/Circle saved/);
    const marks = (await events('photo-marked')).map(({ payload }) => payload.marks as { shape: string }[]);
    expect(marks).toMatchObject([
      [{ shape: 'arrow', from: { x: expect.closeTo(0.2, 1) }, to: { x: expect.closeTo(0.5, 1) } }],
      [{ shape: 'circle', from: { x: expect.closeTo(0.4, 1) }, to: { y: expect.closeTo(0.7, 1) } }],
    ]);
    await expect.poll(() => page.locator('.photo-marks .photo-mark').count()).toBe(2);
    await looksRight('photo-marks');
  });

  it('are drawn and taken back with keys alone, and leave the picture as it was', async () => {
    const before = await stored(String((await events('photo'))[1]?.payload.document));
    await page.locator('.photo-keys').focus();
    await page.keyboard.press('Enter');
    for (let n = 0; n < 6; n++) await page.keyboard.press('ArrowRight');
    for (let n = 0; n < 6; n++) await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await events('photo-marked')).length).toBe(3);
    await inPhoto('Undo');
    await told(/Undone: the last mark/);
    await expect.poll(() => page.locator('.photo-marks .photo-mark').count()).toBe(2);
    expect(await stored(String((await events('photo'))[1]?.payload.document))).toEqual(before);
  });

  it('stay on the photo while it is enlarged', async () => {
    await inPhoto('Done');
    const width = (await page.locator('.photo-laid').boundingBox())?.width ?? 0;
    await inPhoto('Zoom in');
    await inPhoto('Zoom in');
    const wide = (await page.locator('.photo-laid').boundingBox())?.width ?? 0;
    expect(wide / width).toBeCloseTo(2.25, 1);
    expect(await page.locator('.photo-marks').boundingBox()).toMatchObject({ width: expect.closeTo(wide, 0) });
    await looksRight('photo-close');
  });

  it('go with a photo that is taken back', async () => {
    await inPhoto('Close');
    await page.locator('.photo-row').nth(2).click();
    await inPhoto('Withdraw');
    await told(/Withdraw this photo\?/);
    await looksRight('photo-take-back');
    await inPhoto('Withdraw the photo');
    await expect.poll(() => page.locator('.photo-row').count()).toBe(2);
    await inDialog('Cancel');
  });
});

describe('one photo of a whole unit', () => {
  it('is pinned jack after jack with one touch each', async () => {
    await press('More');
    await openRow(page, /^Photo of the whole/);
    await told(/Touch P01 on the photo/);
    // Two touches with no look at the screen between them: each means the jack after the one before.
    await tapPhoto(0.1, 0.3);
    await tapPhoto(0.1, 0.6);
    await told(/P02 pinned[\s\S]*Touch P03/);
    await inPhoto('Another jack');
    await page.getByRole('dialog', { name: /Which jack of SW1/ }).waitFor();
    await picture(page, 'photo-pin-choice-light');
    await page.getByRole('button', { name: /^P09/ }).click();
    await tapPhoto(0.9, 0.3);
    await told(/P09 pinned/);
    await inPhoto('Undo');
    await told(/Undone: the last pin/);
    await looksRight('photo-pins');
    const pins = await events('photo-pinned');
    expect(pins.map(({ payload }) => payload.place)).toEqual(['SW1/P01', 'SW1/P02', 'SW1/P09']);
    expect(pins.map(({ payload }) => payload.at)).toMatchObject([
      { y: expect.closeTo(0.3, 1) },
      { y: expect.closeTo(0.6, 1) },
      { x: expect.closeTo(0.9, 1) },
    ]);
    const whole = (await events('photo')).at(-1)?.payload;
    expect(whole).toMatchObject({ place: 'SW1' });
    await inPhoto('Done');
    await inPhoto('Close');
    await expect.poll(() => page.locator('.photo-full').count()).toBe(0);
  });

  it('is read later, after the app was closed, with the answers of the walk', async () => {
    await page.reload();
    await page.goto(walk.replace(/walk$/, 'photos'));
    await told(/To read\s+2/);
    await looksRight('photo-list');
    await press(/^SW1|Start at SW1 P01/);
    await told(/Which label is in SW1 P01\?/);
    await page.locator('.photo-laid').waitFor();
    await looksRight('photo-read');
    // A finger that bounces has answered once.
    await page.getByRole('button', { name: /P01 reads 1001/ }).evaluate((cell: HTMLElement) => {
      cell.click();
      cell.click();
    });
    await told(/P01: 1001, as planned/);
    await told(/Which label is in SW1 P02\?/);
    expect(await body()).toMatch(/Read off a photo of \d\d:\d\d/);
    await press(/^Type the label of SW1 P02/);
    await page.getByRole('dialog').getByRole('textbox').fill('1004');
    await page.keyboard.press('Enter');
    await told(/P02: 1004, differs/);
    await picture(page, 'photo-read-done-light');
    const looks = (await events('sighting')).map(({ payload }) => payload);
    const document = (await events('photo')).at(-1)?.payload.document;
    expect(looks).toMatchObject([
      { places: ['SW1/P01'], basis: 'seen', by: 'tapped', photo: document, plugs: [{ labels: [{ text: '1001' }] }] },
      { places: ['SW1/P02'], basis: 'seen', by: 'typed', photo: document, plugs: [{ labels: [{ text: '1004' }] }] },
    ]);
    await press('Undo');
    await told(/Which label is in SW1 P02\?/);
    await press(/P02 reads 1002/);
    await told(/P02: 1002, as planned/);
    await told(/Nothing is left to read/);
  });
});

describe('a voice note', () => {
  it('is spoken at a jack while the camera rests, and played again', async () => {
    await page.goto(walk);
    await page.locator('.thumb').waitFor();
    await expect.poll(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
    const plate = await page.locator('.plate').first().innerText();
    const jack = /P\d\d/.exec(plate)?.[0];
    await press('More');
    await openRow(page, /^Voice note/);
    await told(/Never beside a live microphone/);
    await looksRight('photo-voice');
    await press('Record');
    await told(/Recording 0:0\d of 2:00/);
    expect(await page.evaluate(() => window.__cameraCalls().live)).toBe(0);
    await picture(page, 'photo-recording-light');
    // The app rounds: at 0:02 a second has gone by.
    await told(/Recording 0:0[2-9] of 2:00/);
    await press(/Stop and save/);
    await told(/Voice note of 0:0\d saved at SW1/);
    await expect.poll(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
    const [note] = await events('voice-note');
    expect(note?.payload).toMatchObject({ place: `SW1/${jack}`, mime: expect.stringMatching(/^audio\/(webm|mp4)$/) });
    expect(Number(note?.payload.lasts)).toBeGreaterThanOrEqual(1000);
    const bytes = await stored(String(note?.payload.document));
    // EBML head, RFC 8794; the file type box of ISO/IEC 14496-12.
    const head = note?.payload.mime === 'audio/webm' ? bytes.subarray(0, 4) : bytes.subarray(4, 8);
    expect([Buffer.from([0x1a, 0x45, 0xdf, 0xa3]), Buffer.from('ftyp')]).toContainEqual(Buffer.from(head));
    await press('More');
    await openRow(page, /^Photos at/);
    await press('Play');
    await expect.poll(() => page.evaluate(() => document.querySelector('audio')?.currentTime ?? 0)).toBeGreaterThan(0);
    await picture(page, 'photo-play-light');
    await inDialog('Cancel');
  });

  it('that this browser cannot play says so, and can be taken away as a file', async () => {
    // Another phone's browser made it in a form that this one does not know.
    await page.evaluate(() => {
      const real = URL.createObjectURL.bind(URL);
      URL.createObjectURL = (given) =>
        real(given instanceof Blob && given.type.startsWith('audio/') ? new Blob(['?'], { type: given.type }) : given);
    });
    await press('More');
    await openRow(page, /^Photos at/);
    await press('Play');
    await told(/cannot play this recording/);
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('dialog').getByRole('link', { name: 'Save as file' }).click(),
    ]);
    expect(file.suggestedFilename()).toMatch(/^Voice note SW1 P\d\d/);
    await picture(page, 'photo-cannot-play-light');
    await page.goto(walk);
    await page.locator('.thumb').waitFor();
    await expect.poll(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
  });

  it('ends, and is kept, when the studio goes live in the middle of it', async () => {
    await press('More');
    await openRow(page, /^Voice note/);
    await press('Record');
    await told(/Recording 0:0/);
    await told(/Recording 0:0[1-9]/);
    await inDialog('Going live');
    await told(/Camera and sound are off/);
    await expect.poll(async () => (await events('voice-note')).length).toBe(2);
    expect(await page.getByRole('dialog').count()).toBe(0);
    expect(await page.evaluate(() => window.__cameraCalls().live)).toBe(0);
    await press(/^When you may walk again/);
    await expect.poll(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
  });

  it('is not begun once the studio goes live while the phone still asks for the microphone', async () => {
    await page.evaluate(() => {
      const { mediaDevices } = navigator;
      const real = mediaDevices.getUserMedia.bind(mediaDevices);
      const late = window as unknown as { allow?: () => void; given?: MediaStream };
      mediaDevices.getUserMedia = async (want) => {
        if (!want?.audio) return real(want);
        await new Promise<void>((resolve) => {
          late.allow = resolve;
        });
        late.given = await real(want);
        return late.given;
      };
    });
    const before = (await events('voice-note')).length;
    await press('More');
    await openRow(page, /^Voice note/);
    await press('Record');
    await picture(page, 'photo-asking-light');
    await inDialog('Going live');
    await told(/Camera and sound are off/);
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await page.evaluate(() => (window as unknown as { allow?: () => void }).allow?.());
    const tracks = () =>
      page.evaluate(() =>
        (window as unknown as { given?: MediaStream }).given?.getTracks().map(({ readyState }) => readyState),
      );
    await expect.poll(tracks).toEqual(['ended']);
    expect((await events('voice-note')).length).toBe(before);
    await press(/^When you may walk again/);
    await expect.poll(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
  });

  it('is refused in a sentence where the microphone is not allowed', async () => {
    await page.evaluate(() => {
      navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('no', 'NotAllowedError'));
    });
    await press('More');
    await openRow(page, /^Voice note/);
    await press('Record');
    await told(/The microphone is not allowed/);
    await inDialog('Cancel');
    await page.reload();
    await page.locator('.thumb').waitFor();
    await settled(page);
    expect(await body()).not.toMatch(/voice note .* was started/i);
  });
});

describe('a storage that fills up', () => {
  it('is told at 80 %, refuses pictures at 95 %, and never a statement', async () => {
    await expect.poll(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
    await estimate(0.85);
    const before = (await events('photo')).length;
    await press(/^Photo of SW1/);
    await told(/Photo saved at SW1 P\d\d\. The app’s storage on this phone is more than 80 % full/);
    await estimate(0.96);
    await press(/^Photo of SW1/);
    await told(/Storage on this phone is almost full: no more photos/);
    await picture(page, 'photo-full-light');
    expect((await events('photo')).length).toBe(before + 1);
    const looks = (await events('sighting')).length;
    await press(/reads \d+/i);
    await expect.poll(async () => (await events('sighting')).length).toBe(looks + 1);
  });
});

describe('a kill in the middle', () => {
  it('of a photo is told at the next start, and the photo can be taken then', async () => {
    await page.reload();
    await page.locator('.thumb').waitFor();
    await expect.poll(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
    const photos = (await events('photo')).length;
    await page.evaluate(() => {
      // The camera answers so late that the app is gone by then.
      (window as unknown as { ImageCapture: unknown }).ImageCapture = class {
        takePhoto = () => new Promise(() => undefined);
      };
    });
    await press(/^Photo of SW1/);
    await expect.poll(async () => Object.keys(await drafts(page))).toContainEqual(expect.stringMatching(/^photo:/));
    await phone.close();
    await open();
    await page.goto(walk);
    await told(/A photo at SW1 P\d\d was started and did not arrive/);
    await picture(page, 'photo-cut-light');
    expect((await events('photo')).length).toBe(photos);
    await press('Not needed');
  });

  it('of a voice note is told too', async () => {
    await expect.poll(() => page.evaluate(() => window.__cameraCalls().live)).toBe(1);
    await press('More');
    await openRow(page, /^Voice note/);
    await press('Record');
    await told(/Recording 0:0/);
    await expect.poll(async () => Object.keys(await drafts(page))).toContainEqual(expect.stringMatching(/^voice/));
    await phone.close();
    await open();
    await page.goto(walk);
    await told(/A voice note at SW1 P\d\d was started and not saved/);
    await press('Not needed');
    await settled(page);
    await page.reload();
    await page.locator('.thumb').waitFor();
    await settled(page);
    expect(await body()).not.toMatch(/was started/);
  });
});

describe('the report and another phone', () => {
  it('shows them small with their marks, and its file carries picture and marks', async () => {
    await page.goto(walk.replace(/walk$/, 'report'));
    await told(/Photos and voice notes/);
    await expect.poll(() => page.locator('.photo-row img').count()).toBeGreaterThan(2);
    await page.locator('.photo-row').first().scrollIntoViewIfNeeded();
    await picture(page, 'photo-report-light');
    await press(/Make files/);
    await press(/HTML/);
    const download = page.waitForEvent('download');
    await press(/HTML/);
    const html = readFileSync(await (await download).path(), 'utf8');
    expect(html).toContain('<image href="data:image/jpeg;base64,');
    expect(html.match(/<path class="mark"/g)).toHaveLength(2);
    expect(html).toContain('>P01</text>');
    const paper = await phone.newPage();
    await paper.setContent(html);
    await paper.locator('figure').first().scrollIntoViewIfNeeded();
    await picture(paper, 'photo-report-file');
    await paper.close();
  });

  it('lets another phone open them once they were sent, and only when they are opened', async () => {
    await page.goto(`${served.origin}/sync`);
    await page.getByLabel('Code', { exact: true }).fill(served.code);
    await press(/^Pair$/);
    await expect.poll(body).toContain('Nothing waits to be sent');
    expect(await body()).not.toMatch(/refused/i);
    const elsewhere = mkdtempSync(join(tmpdir(), 'asfound-photo-'));
    const second = await openPhone(elsewhere, { theme: 'dark' });
    const other = second.pages()[0] ?? (await second.newPage());
    await other.goto(`${served.origin}/sync`);
    await other.getByLabel('Code', { exact: true }).fill(await newCode(served));
    await other.getByRole('button', { name: /^Pair$/ }).click();
    await expect.poll(() => other.locator('body').innerText()).toContain('R1');
    await untilOffline(other);
    await other.goto(walk.replace(/walk$/, 'report'));
    await expect.poll(() => other.locator('body').innerText()).toContain('Not here yet');
    await other.locator('.photo-row').nth(1).scrollIntoViewIfNeeded();
    await picture(other, 'photo-absent-dark');
    await other.locator('.photo-row').nth(1).click();
    await other.locator('.photo-laid img').waitFor();
    await expect.poll(() => other.locator('.photo-full .photo-marks .photo-mark').count()).toBe(2);
    await picture(other, 'photo-marks-dark');
    await second.close();
    rmSync(elsewhere, { recursive: true, force: true });
  });
});
