// What a person enters: jacks in one line, a far place as typed, a name once. On one phone without a network, and on a
// second one that joins an audit begun elsewhere. Data: the demo station (invented).
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { contextOptions, newCode, picture } from './harness.ts';
import { onePhone } from './onePhone.ts';
import { settled } from './settled.ts';

const phone = onePhone('entry');
const { press, verdict, more, at } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});

const dialog = () => page.getByRole('dialog');
const main = () => page.locator('main').innerText();

describe('a second phone', () => {
  let hers: Page;
  const pair = async (one: Page, code: string) => {
    await one.goto(`${phone.origin}/sync`);
    await one.getByLabel('Code', { exact: true }).fill(code);
    await one.getByRole('button', { name: /^Pair$/ }).click();
  };
  const walk = (audit: string, place = 'SW1/P03') =>
    `${phone.origin}/audit/${audit}/walk?at=${encodeURIComponent(place)}`;
  const who = () => hers.getByRole('dialog', { name: 'Who is checking here?' });

  it('joins an audit begun elsewhere, is asked for a name once before its first entry, and may put it off once', async () => {
    await page.goto(phone.origin);
    await page.getByText('Open the demo station').click();
    await page.getByText('148 cables').waitFor();
    await settled(page);
    await phone.begin(/^After a move/);
    const first = phone.audit;
    await phone.begin(/^After a move/);
    await pair(page, phone.served.code);
    await page.getByText('Nothing waits to be sent').first().waitFor();
    hers = await (await phone.browser.newContext(contextOptions({ size: { width: 360, height: 640 } }))).newPage();
    hers.setDefaultTimeout(60_000);
    await pair(hers, await newCode(phone.served));
    await hers.getByText('148 cables').first().waitFor();
    await settled(hers);
    await hers.goto(walk(first));
    await who().waitFor();
    await settled(hers);
    expect(await hers.evaluate(() => document.activeElement?.getAttribute('type'))).toBe('text');
    await picture(hers, 'name-first');
    await hers.getByRole('button', { name: /Later/ }).click();
    await who().waitFor({ state: 'detached' });
    await settled(hers);
    // The same walk does not ask again.
    await hers.reload();
    await hers.locator('.thumb-states').waitFor();
    await settled(hers);
    expect(await who().count()).toBe(0);
  });

  it('is asked again at the next walk, and never once the name is there', async () => {
    await hers.goto(walk(phone.audit));
    await who().waitFor();
    expect(await hers.getByRole('button', { name: /Later/ }).count()).toBe(0);
    await hers.getByLabel('Your name').fill('Ilse');
    await hers.keyboard.press('Enter');
    await who().waitFor({ state: 'detached' });
    await hers.getByRole('button', { name: /P03 reads 1003/ }).click();
    await expect.poll(() => hers.locator('.verdict').innerText()).toContain('as planned');
    await settled(hers);
    await hers.reload();
    await hers.locator('.thumb-states').waitFor();
    await settled(hers);
    expect(await who().count()).toBe(0);
    await page.goto(walk(phone.audit));
    await expect
      .poll(async () => {
        await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
        await settled(page);
        return main();
      })
      .toContain('Ilse');
    await hers.context().close();
  });
});

describe('jacks in one line', () => {
  it('are read as they are written, shown before they count, and told where they are not understood', async () => {
    await page.goto(`${phone.origin}/audit/${phone.audit}/describe?what=unit`);
    await page.getByLabel('Label on the unit').fill('AIO-9');
    const line = page.getByLabel('On one line');
    const shown = page.getByRole('region', { name: 'Jacks to be added' });
    await line.fill('8 XLR in + 2 RJ45 (A/B), 12 XRL');
    await page.getByText('Not understood: “12 XRL”').waitFor();
    await expect.poll(() => shown.innerText()).toMatch(/IN 1 to IN 8[\s\S]*8 jacks[\s\S]*XLR, in/);
    await picture(page, 'jacks-not-understood');
    await press(/Walk its jacks/);
    // Nothing is made until it is corrected.
    await page.getByText(/Jacks: “12 XRL”/).waitFor();
    expect(page.url()).toContain('describe');
    await line.fill('8 XLR in + 2 RJ45 (A/B), 16 XLR');
    await page.getByText('Not understood').waitFor({ state: 'detached' });
    await expect.poll(() => shown.innerText()).toMatch(/J1 to J16[\s\S]*16 jacks/);
    await picture(page, 'jacks-shown');
    await press(/Save, 26 jacks/);
    await page.locator('.thumb-states').waitFor();
    await expect.poll(() => page.locator('h1').innerText()).toContain('IN 1');
    await settled(page);
    await at('AIO-9/B');
    await expect.poll(() => page.locator('h1').innerText()).toMatch(/\bB$/);
  });
});

describe('a typed far place', () => {
  const lead = async (from: string, to: string) => {
    await more(/^Patch lead/);
    await page.locator('.walk-over').getByRole('button', { name: from }).first().click();
    await page.getByLabel('Its other end is in another unit').fill(to);
    await page
      .locator('.walk-over')
      .getByRole('button', { name: new RegExp(`to ${to}`) })
      .click();
  };

  it('that nobody knows is asked, with the nearest offered, and may be kept in its words', async () => {
    await at('PB1/J45');
    await lead('J45', 'sw2 99');
    await page.getByRole('dialog', { name: 'SW2 has no jack “sw2 99”. Which is it?' }).waitFor();
    await settled(page);
    await picture(page, 'far-place');
    await dialog()
      .getByRole('button', { name: /Use “sw2 99”/ })
      .click();
    await page.locator('.walk-over').waitFor({ state: 'detached' });
    await settled(page);
    await press('Undo');
    await expect.poll(verdict).toContain('Undone');
  });

  it('that lacks a letter leads to the jack it means, with the hazard that this jack raises', async () => {
    await at('PB1/J45');
    await lead('J45', 'sw2 15');
    await dialog()
      .getByRole('button', { name: /^SW2 P15/ })
      .click();
    await page.locator('.walk-over').waitFor({ state: 'detached' });
    await settled(page);
    await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
    await expect.poll(main).toContain('SW2 P15');
  });

  it('in other letters is the same place at once', async () => {
    await at('PB1/J46');
    await lead('J46', 'Sw2 p16');
    await page.locator('.walk-over').waitFor({ state: 'detached' });
    await settled(page);
    await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
    await expect.poll(main).toContain('SW2 P16');
  });
});

describe('a label that looks like some other name', () => {
  const type = async (label: string) => {
    await page.getByRole('button', { name: /^Type the label/ }).click();
    await dialog().getByRole('textbox').fill(label);
    await page.keyboard.press('Enter');
  };

  it('is asked about and entered as a cable, at both ends, the second time without a question', async () => {
    // A101 is AIO-1 by its folded name; the plan of the demo station has AIO21.
    await at('SW1/P20');
    await type('A1O21');
    await dialog()
      .getByRole('heading', { name: /^That is the label of unit AIO21/ })
      .waitFor();
    await settled(page);
    await picture(page, 'named-or-cable');
    await dialog().getByRole('button', { name: 'No, it is cable A1O21' }).click();
    await expect.poll(verdict).toContain('A1O21');
    await at('SW1/P21');
    await type('A1O21');
    await expect.poll(verdict).toContain('P21');
    expect(await dialog().count()).toBe(0);
    await type('SW2 P03');
    await dialog().getByRole('button', { name: 'No, it is cable SW2 P03' }).click();
    await expect.poll(verdict).toContain('SW2 P03');
  });
});

describe('without a plan for the jack', () => {
  it('the label is typed by a large button, the next number is offered, and what nearly is one is asked', async () => {
    await phone.begin(/^Inherited/);
    await page.goto(`${phone.origin}/audit/${phone.audit}/describe?what=unit`);
    await page.getByLabel('Label on the unit').fill('DA-7');
    await page.getByLabel('On one line').fill('8 XLR in');
    await press(/Save, 8 jacks/);
    await page.locator('.thumb-states').waitFor();
    await settled(page);
    const large = page.getByRole('button', { name: /type what the label reads$/ });
    expect((await large.boundingBox())?.height).toBeGreaterThan(100);
    await picture(page, 'type-large');
    await large.click();
    await dialog().getByRole('textbox').fill('K102');
    await page.keyboard.press('Enter');
    await expect.poll(verdict).toContain('K102');
    await settled(page);
    await picture(page, 'next-number');
    await page.getByRole('button', { name: 'IN 2 reads K103, the next number' }).click();
    await expect.poll(verdict).toContain('K103');
    await settled(page);
    await large.click();
    await dialog().getByRole('textbox').fill('K-102');
    await page.keyboard.press('Enter');
    await page.getByRole('dialog', { name: 'K-102: same as K102?' }).waitFor();
    await settled(page);
    await picture(page, 'same-as');
    await dialog()
      .getByRole('button', { name: /^Same as K102/ })
      .click();
    // One cable, at two jacks that are both inputs.
    await expect.poll(verdict).toContain('IN 1 and IN 3 are both inputs');
  });

  it('what was recorded stands at the jack when somebody comes back, and what a worn label fits', async () => {
    await settled(page);
    await page.locator('.thumb-states').getByRole('button', { name: 'Can’t read it' }).click();
    await dialog().getByRole('textbox').fill('K10?');
    await page.keyboard.press('Enter');
    await dialog().waitFor({ state: 'detached' });
    await at('DA-7/IN-4');
    const said = page.getByRole('region', { name: 'Recorded at IN 4 before' });
    await expect.poll(() => said.innerText()).toMatch(/I\. Halloran, \d\d:\d\d/);
    await expect.poll(() => said.innerText()).toContain('K10? fits K102 and K103.');
    await picture(page, 'said-here');
    await at('DA-7/IN-1');
    await expect
      .poll(() => page.getByRole('region', { name: 'Recorded at IN 1 before' }).innerText())
      .toContain('K102');
    await at('DA-7/IN-3');
    await expect
      .poll(() => page.getByRole('region', { name: 'Recorded at IN 3 before' }).innerText())
      .toContain('K102 (marked K-102), I. Halloran');
  });

  it('a label typed for a loose end that nearly is one read before is asked about, and may be another cable', async () => {
    await settled(page);
    await more(/^Loose end/);
    await dialog().getByLabel('Where it is').fill('tray of R1');
    await dialog().getByLabel('Its label').fill('K-103');
    await dialog().getByRole('button', { name: 'Record', exact: true }).click();
    await page.getByRole('dialog', { name: 'K-103: same as K103?' }).waitFor();
    await settled(page);
    await picture(page, 'same-as-loose');
    await dialog().getByRole('button', { name: 'No, it is cable K-103' }).click();
    await expect.poll(verdict).toContain('K-103');
  });
});

describe('More', () => {
  it('stands on two small screens at most, what fits first, the rest folded; and what you may do can be pressed', async () => {
    await phone.begin(/^After a move/);
    await at('SW1/P03');
    await page.setViewportSize({ width: 360, height: 640 });
    await more();
    await settled(page);
    const sheet = page.locator('.dialog-body');
    expect(await sheet.evaluate((body) => body.scrollHeight / body.clientHeight)).toBeLessThanOrEqual(2);
    expect(
      await dialog()
        .getByRole('button', { name: /^Hazard seen/ })
        .count(),
    ).toBe(1);
    expect(
      await dialog()
        .getByRole('button', { name: /^Photos at/ })
        .count(),
    ).toBe(0);
    await dialog().locator('summary', { hasText: 'Photos and voice' }).click();
    expect(
      await dialog()
        .getByRole('button', { name: /^Photos at/ })
        .count(),
    ).toBe(1);
    await page.keyboard.press('Escape');
    await dialog().waitFor({ state: 'detached' });
    // A patch bay has leads.
    await at('PB1/J45');
    await more();
    expect(
      await dialog()
        .getByRole('button', { name: /^Patch lead/ })
        .count(),
    ).toBe(1);
    await page.keyboard.press('Escape');
    await dialog().waitFor({ state: 'detached' });
    await press(/^You may look/);
    await dialog()
      .getByRole('button', { name: /^Touch/ })
      .waitFor();
    await page.keyboard.press('Escape');
  });
});
