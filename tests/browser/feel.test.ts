// How the walk feels in the hand, in a real browser over a stand-in for the phone's sound, voice, buzz, wake lock and
// camera: what is heard and what must not be, which label is taken, rest and return, keys alone, the themes.
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { LONE_MS } from '../../src/ui/feel/remoteKeys.ts';
import { SETTLE_MS } from '../../src/ui/feel/useRemote.ts';
import { fakePhoneScript } from './fakePhone.ts';
import { contextOptions, openBrowser, picture, type Served, serve } from './harness.ts';
import { fakeCameraScript } from './labels.ts';
import { behindTimers, settled } from './settled.ts';

let served: Served;
let browser: Browser;
let phone: BrowserContext;
let page: Page;
let walk: string;

beforeAll(async () => {
  served = await serve();
  browser = await openBrowser();
  phone = await browser.newContext(contextOptions());
  await phone.addInitScript({ content: fakeCameraScript });
  await phone.addInitScript({ content: fakePhoneScript });
  page = await phone.newPage();
  page.setDefaultTimeout(60_000);
  page.on('pageerror', (error) => console.error(error));
  await page.goto(served.origin);
  await page.getByText('Open the demo station').click();
  await page.getByText('148 cables').waitFor();
  walk = await beginAudit(false);
});
afterAll(async () => {
  await browser?.close();
  await served?.stop();
});
afterEach(async ({ task }) => {
  if (task.result?.state === 'fail') await picture(page, 'feel-failed');
});

async function beginAudit(blind: boolean): Promise<string> {
  await page.goto(`${served.origin}/start-audit`);
  await page.getByLabel('Your name').fill('I. Halloran');
  await page.getByRole('checkbox', { name: /^Rack R1/ }).check();
  if (blind) await page.getByRole('checkbox', { name: /[Bb]lind/ }).check();
  await page.getByRole('button', { name: /Begin the walk/ }).click();
  await page.waitForURL(/walk/);
  await page.locator('.thumb').waitFor();
  return page.url().replace(/\?.*$/, '');
}

const plate = () => page.locator('.plate').first().innerText();
const verdict = () => page.locator('.verdict').innerText();
const press = (name: string | RegExp) => page.getByRole('button', { name }).first().click();
const heard = () => page.evaluate(() => window.__heard());
const live = () => page.evaluate(() => window.__cameraCalls().live);
const at = (jack: string) => expect.poll(plate).toContain(jack);

async function setting(name: string | RegExp, on = true): Promise<void> {
  await page.goto(`${served.origin}/settings`);
  await page.getByRole('checkbox', { name }).setChecked(on);
  await written();
}

/** A setting goes to disk on its own; a page that leaves in the same moment would outrun it. */
const written = () => settled(page);

/** So many pictures more of the camera. */
const pictures = async (n: number) => {
  await page.evaluate((count) => window.__ticks(count), n);
  await settled(page);
};

/** A key alone is taken only when nothing follows it for so long. */
const keyTaken = () => behindTimers(page, LONE_MS);

/** The walk settles for a moment after each jack, lest a second tap speaks about the next one. */
const settle = () => settled(page);

async function type(label: string): Promise<void> {
  await press(/^Type the label/);
  await page.getByRole('dialog').getByRole('textbox').fill(label);
  await page.keyboard.press('Enter');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
}

describe('ear and hand', () => {
  it('are told nothing until somebody asks for it, but the screen stays on', async () => {
    await at('P01');
    await type('1001');
    await at('P02');
    expect(await heard()).toEqual(['screen kept on']);
    expect(await page.getByRole('button', { name: /live microphone near/ }).count()).toBe(0);
  });

  it('are told each verdict once: buzz, tone, words', async () => {
    for (const name of [/^Tones/, /^Spoken words/, /^Vibration/]) await setting(name);
    await page.goto(walk);
    await at('P02');
    await heard();
    await type('1002');
    await at('P03');
    const told = await heard();
    expect(told.filter((what) => what !== 'screen kept on')).toEqual([
      'buzz 40',
      'tone 880',
      'tone 1320',
      'says P02, 1002, as planned',
    ]);
    await type('1004');
    await at('P04');
    expect(await heard()).toEqual(['buzz 80 90 80', 'tone 520', 'tone 350', 'says P03, 1004, differs']);
    // A later look at the record says nothing a second time.
    await page.reload();
    await at('P04');
    expect((await heard()).filter((what) => what !== 'screen kept on')).toEqual([]);
  });

  it('hear nothing beside a live microphone, and it stays so through a reload', async () => {
    await page.getByRole('button', { name: /live microphone near/ }).click();
    await written();
    await page.reload();
    await at('P04');
    expect(await page.locator('.permission').innerText()).toContain('No sound');
    await heard();
    await type('1003');
    await at('P05');
    expect(await heard()).toEqual(['buzz 80 90 80']);
    await page.getByRole('button', { name: /live microphone near/ }).click();
    await written();
  });

  it('hear and feel nothing while going live, and the camera is let go', async () => {
    await press('Start camera');
    await expect.poll(live).toBe(1);
    await heard();
    await press(/Going live/);
    await expect.poll(live).toBe(0);
    await page.evaluate(() => window.__showLabel('1005'));
    await pictures(12);
    expect(await heard()).toEqual(['screen let go']);
    // A phone that was locked or killed meanwhile comes back paused, at the same jack.
    await page.reload();
    await expect.poll(() => page.locator('body').innerText()).toContain('Go on at SW1 P05');
    expect(await live()).toBe(0);
    await page.evaluate(() => window.__showLabel(null));
    await press(/Go on at/);
    await at('P05');
    await expect.poll(live).toBe(1);
  });
});

describe('the viewfinder', () => {
  /** The circle stands only while frames come; before that a jump of the clock would be a stalled start. */
  const runs = async () => {
    await page.locator('.finder-circle').waitFor();
    expect(await live()).toBe(1);
  };

  it('takes the label in the circle, shows which, and never its neighbour', async () => {
    await page.evaluate(() =>
      window.__showLabels([
        { text: '1006', x: 900, y: 360, size: 150 },
        { text: '1005', x: 640, y: 360, size: 150 },
      ]),
    );
    await expect.poll(verdict).toContain('P05:');
    expect(await verdict()).toContain('1005');
    expect(await page.locator('.finder-read').innerText()).toContain('1 other in view');
    const [outline, frame] = await Promise.all([
      page.locator('.finder-quad polygon').last().boundingBox(),
      page.locator('.finder-frame').boundingBox(),
    ]);
    if (!outline || !frame) throw new Error('nothing is drawn over the picture');
    expect((await page.locator('.finder-circle').boundingBox())?.height).toBeGreaterThan(60);
    // The outline lies round the middle of the picture, where the taken label is.
    expect(Math.abs(outline.x + outline.width / 2 - frame.x - frame.width / 2)).toBeLessThan(12);
    expect(outline.width).toBeGreaterThan(20);
    await picture(page, 'walk-taken-light');
    await pictures(30);
    expect(await plate()).toContain('P06');
  });

  it('takes nothing from a near miss, and says what to do', async () => {
    await page.evaluate(() => window.__showLabels([{ text: '1006', x: 850, y: 360, size: 150 }]));
    await page.getByText('Bring the label into the circle.').waitFor();
    await pictures(30);
    expect(await plate()).toContain('P06');
    await page.evaluate(() => window.__showLabel('1006'));
    await expect.poll(verdict).toContain('P06:');
    await page.evaluate(() => window.__showLabel(null));
  });

  it('has the torch at one tap, begins enlarged, and remembers the zoom', async () => {
    const last = (key: string) => page.evaluate((name) => window.__told().findLast((one) => name in one)?.[name], key);
    expect(await last('zoom')).toBe(2);
    await press('Torch on');
    await expect.poll(() => last('torch')).toBe(true);
    await press('Torch off');
    await expect.poll(() => last('torch')).toBe(false);
    await press(/^Camera$/);
    const sheet = page.getByRole('dialog');
    expect(await sheet.innerText()).toContain('The screen stays on');
    await sheet.getByRole('button', { name: /more zoom/ }).click();
    await expect.poll(() => last('zoom')).toBe(2.5);
    await written();
    await picture(page, 'walk-camera-light');
    await sheet.getByRole('button', { name: 'Done' }).click();
    await page.locator('.finder-touch').click();
    await expect.poll(() => last('focusMode')).toBe('single-shot');
    await page.reload();
    await expect.poll(live).toBe(1);
    await expect.poll(() => last('zoom')).toBe(2.5);
  });

  it('runs again after a reload where the browser asks each time, and in another tab waits for a tap', async () => {
    // What Firefox and WebKit tell after each load.
    const asking = { content: `navigator.permissions.query = async () => ({ state: 'prompt' });` };
    await page.addInitScript(asking);
    await page.reload();
    await expect.poll(live).toBe(1);
    const other = await phone.newPage();
    await other.addInitScript(asking);
    await other.goto(walk);
    await other.getByRole('button', { name: 'Start camera' }).waitFor();
    await settled(other);
    expect(await other.evaluate(() => window.__cameraCalls().live)).toBe(0);
    await other.close();
  });

  it('rests after a minute without use, and any statement or touch wakes it', async () => {
    await page.close();
    page = await phone.newPage();
    await page.clock.install();
    await page.goto(walk);
    await runs();
    await page.clock.fastForward(50_000);
    await page.mouse.click(200, 300);
    await page.clock.fastForward(50_000);
    expect(await live()).toBe(1);
    await page.clock.fastForward(11_000);
    await expect.poll(live).toBe(0);
    await picture(page, 'walk-rests-light');
    await press('Camera paused. Touch to start');
    await runs();
    await page.clock.fastForward(61_000);
    await expect.poll(live).toBe(0);
    await press(/reads 1007/i);
    await expect.poll(verdict).toContain('P07:');
    await expect.poll(live).toBe(1);
    await page.close();
    page = await phone.newPage();
    page.setDefaultTimeout(60_000);
  });
});

describe('a small keyboard', () => {
  const key = async (name: string) => {
    await settle();
    await page.keyboard.press(name);
  };

  it('says nothing until it is asked to', async () => {
    await page.goto(walk);
    await at('P08');
    await page.locator('body').click({ position: { x: 5, y: 300 } });
    await page.keyboard.press('Enter');
    await keyTaken();
    expect(await plate()).toContain('P08');
  });

  it('is set by pressing its keys', async () => {
    await setting(/^Use keys in the walk/);
    await page.getByRole('button', { name: /^No label/ }).click();
    await page.getByText('Press the key now').waitFor();
    await page.keyboard.press('l');
    await expect.poll(() => page.getByRole('button', { name: /^No label/ }).innerText()).toContain('L');
    await written();
    await page.reload();
    await expect.poll(() => page.getByRole('button', { name: /^No label/ }).innerText()).toContain('L');
  });

  it('walks the rest of a unit by keys alone', async () => {
    await page.goto(walk);
    await at('P08');
    await key('Enter');
    await expect.poll(verdict).toMatch(/P08:[\s\S]*as planned/);
    await key('e');
    await expect.poll(verdict).toMatch(/P09:[\s\S]*empty/);
    await key('Backspace');
    await expect.poll(verdict).toMatch(/Undone/);
    await at('P09');
    await key('l');
    await expect.poll(verdict).toMatch(/P09:[\s\S]*no label/);
    await key('x');
    await expect.poll(verdict).toMatch(/P10:[\s\S]*cannot be seen/);
    for (let jack = 11; jack <= 24; jack++) {
      await at(`P${jack}`);
      await key('Enter');
      await expect.poll(verdict).toContain(`P${jack}:`);
    }
    await expect.poll(plate).not.toContain('SW1');
  });

  it('does not press again the cell that was tapped last', async () => {
    const before = await plate();
    await press(/^Empty|: empty/);
    await expect.poll(plate).not.toBe(before);
    const after = await plate();
    await key('q');
    await keyTaken();
    expect(await plate()).toBe(after);
    await key('Enter');
    await expect.poll(verdict).toMatch(/as planned/);
  });

  it('leaves a hand scanner its burst and a text field its letters', async () => {
    const before = await plate();
    await settle();
    await page.evaluate(() => {
      for (const one of [...'00', 'Enter'])
        document.body.dispatchEvent(new KeyboardEvent('keydown', { key: one, bubbles: true, cancelable: true }));
    });
    await keyTaken();
    expect(await plate()).toBe(before);
    await press(/^Type the label/);
    await page.getByRole('dialog').getByRole('textbox').focus();
    await page.keyboard.type('e0', { delay: 120 });
    expect(await page.getByRole('dialog').getByRole('textbox').inputValue()).toBe('e0');
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    expect(await plate()).toBe(before);
  });

  it('cannot say "as planned" in a blind audit', async () => {
    await beginAudit(true);
    await at('P01');
    await key('Enter');
    await keyTaken();
    expect(await plate()).toContain('P01');
    // The key before counts as pressed, and a second one on its heels as a slip.
    await behindTimers(page, SETTLE_MS);
    await key('0');
    await expect.poll(verdict).toContain('P01:');
  });
});

describe('the look for light and hand', () => {
  it.each(['Day', 'Night', 'Sunlight', 'Black'])('%s stands upright and on its side', async (theme) => {
    await page.goto(`${served.origin}/settings`);
    await page.getByRole('radio', { name: theme }).check({ force: true });
    await written();
    await page.goto(walk);
    await page.locator('.thumb').waitFor();
    const root = await page.evaluate(() => document.documentElement.dataset.theme);
    expect(root).toBe(theme.toLowerCase());
    await bothWays(`feel-walk-${theme.toLowerCase()}`);
  });

  it('gloves make every cell of the thumb zone at least 76 px high, with 8 px between, on the left too', async () => {
    await setting(/^Gloves/);
    await page.getByRole('group', { name: /^Hand/ }).getByRole('radio', { name: 'Left' }).check({ force: true });
    await written();
    await page.goto(walk);
    await page.locator('.thumb').waitFor();
    const boxes = await page.locator('.thumb-upper .cell').evaluateAll((cells) =>
      cells.map((cell) => {
        const { left, right, top, bottom } = cell.getBoundingClientRect();
        return { left, right, top, bottom };
      }),
    );
    expect(boxes.length).toBeGreaterThanOrEqual(5);
    for (const a of boxes) {
      expect(a.bottom - a.top).toBeGreaterThanOrEqual(76);
      for (const b of boxes) {
        if (a === b) continue;
        const apart = Math.max(b.left - a.right, a.left - b.right, b.top - a.bottom, a.top - b.bottom);
        expect(apart).toBeGreaterThanOrEqual(7.5);
      }
    }
    const reads = await page.locator('.thumb-reads').boundingBox();
    const states = await page.locator('.thumb-states').boundingBox();
    expect(reads?.x).toBeLessThan(states?.x ?? 0);
    await bothWays('feel-walk-gloves');
    await page.goto(`${served.origin}/settings`);
    await page.setViewportSize({ width: 390, height: 2900 });
    await page.getByText('Remote keys').waitFor();
    await picture(page, 'feel-settings');
  });
});

async function bothWays(name: string): Promise<void> {
  await settled(page);
  for (const [way, size] of [
    ['upright', { width: 390, height: 844 }],
    ['side', { width: 844, height: 390 }],
  ] as const) {
    await page.setViewportSize(size);
    await settled(page);
    await picture(page, `${name}-${way}`);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(over, way).toBeLessThanOrEqual(0);
    // The picture and the cells share the screen whichever way it is held.
    for (const part of ['.finder', '.thumb']) {
      const box = await page.locator(part).boundingBox();
      expect(box?.y, `${part} ${way}`).toBeLessThan(size.height - 48);
    }
  }
  await page.setViewportSize({ width: 390, height: 844 });
}
