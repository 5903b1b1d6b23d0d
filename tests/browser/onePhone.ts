// One phone for a whole file of walk tests: server, browser and page begin before the first test and end after the last;
// a failed test leaves a picture. The demo station, its audit and the walk's own controls by name.
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect } from 'vitest';
import { contextOptions, openBrowser, picture, type Served, serve, untilOffline } from './harness.ts';
import { fakeCameraScript } from './labels.ts';
import { drafts, settled } from './settled.ts';
import { openRow } from './sheets.ts';

/** `name` marks the picture of a failure; with a camera, `window.__showLabel` says what it sees. Fields hold inside tests only. */
export function onePhone(name: string, { camera = false } = {}) {
  let served: Served;
  let browser: Browser;
  const phone = {
    page: undefined as unknown as Page,
    context: undefined as unknown as BrowserContext,
    browser: undefined as unknown as Browser,
    origin: '',
    served: undefined as unknown as Served,
    /** Id of the audit begun last. */
    audit: '',
    press: (what: string | RegExp) => phone.page.getByRole('button', { name: what }).first().click(),
    verdict: () => phone.page.locator('.verdict').innerText(),
    /** Opens the walk's More, and its row if one is named. */
    async more(row?: RegExp): Promise<void> {
      await phone.page.locator('.thumb-tools').getByRole('button', { name: 'More' }).click();
      if (row) await openRow(phone.page, row);
    },
    async at(place: string): Promise<void> {
      // What was said last is kept before the page goes.
      await settled(phone.page);
      await phone.page.goto(`${served.origin}/audit/${phone.audit}/walk?at=${encodeURIComponent(place)}`);
      await phone.page.locator('.thumb-states').waitFor();
      await settled(phone.page);
    },
    /** Goes to the jack and types the label that is read there. */
    async read(place: string, label: string): Promise<void> {
      await phone.at(place);
      const dialog = phone.page.getByRole('dialog');
      await phone.page.locator('.thumb-tools').getByRole('button', { name: /^Type/ }).click();
      await dialog.getByRole('textbox').fill(label);
      await phone.page.keyboard.press('Enter');
      await dialog.waitFor({ state: 'detached' });
      await expect.poll(phone.verdict).toContain(label);
    },
    /** Until the page has nothing in hand: what was said until now is on disk, and a tap is taken. */
    settled: () => settled(phone.page),
    /** Until a draft with exactly this text, or with a field of it, is on disk. */
    onDisk: (text: string) =>
      expect
        .poll(async () =>
          Object.values(await drafts(phone.page)).flatMap((one) =>
            typeof one === 'object' && one !== null ? Object.values(one) : [one],
          ),
        )
        .toContain(text),
    /** The demo station on the phone, then no network for the rest of the file. */
    async demoOffline(): Promise<void> {
      await phone.page.goto(served.origin);
      await phone.page.getByText('Open the demo station').click();
      await phone.page.getByText('148 cables').waitFor();
      await untilOffline(phone.page);
      await phone.context.setOffline(true);
    },
    /** Ends the page in the middle, as a phone does that needs the memory, and opens the app anew: the walk, without its jack. */
    async kill(path?: string): Promise<void> {
      const gone = phone.page.waitForEvent('crash');
      const wire = await phone.context.newCDPSession(phone.page);
      // It never answers: what would have answered is gone.
      void wire.send('Page.crash').catch(() => undefined);
      await gone;
      await phone.page.close();
      phone.page = await openPage(phone.context);
      await phone.page.goto(served.origin + (path ?? `/audit/${phone.audit}/walk`));
    },
    async begin(occasion?: RegExp, blind = false): Promise<void> {
      await phone.page.goto(`${served.origin}/start-audit`);
      await phone.page.getByLabel('Your name').fill('I. Halloran');
      if (occasion) await phone.page.getByRole('radio', { name: occasion }).check();
      if (blind) await phone.page.getByText('Blind checking').click();
      await phone.press(/Begin the walk/);
      await phone.page.waitForURL(/walk/);
      await phone.page.locator('.thumb-states').waitFor();
      phone.audit = /audit\/([^/?]+)/.exec(phone.page.url())?.[1] ?? '';
    },
  };
  beforeAll(async () => {
    served = await serve();
    browser = await openBrowser();
    const context = await browser.newContext(contextOptions());
    if (camera) await context.addInitScript({ content: fakeCameraScript });
    const page = await openPage(context);
    Object.assign(phone, { page, context, browser, origin: served.origin, served });
  });
  afterAll(async () => {
    await browser?.close();
    await served?.stop();
  });
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await picture(phone.page, `failed-${name}`);
  });
  return phone;
}

async function openPage(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  page.on('pageerror', (error) => console.error(error));
  return page;
}
