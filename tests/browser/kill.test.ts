// The page killed in the middle of each occasion, without a network: nothing said is lost, what was half typed is there
// again, and the walk goes on at the same jack, found without its address. A photo and a voice note cut short are in
// photo.test.ts, a killed browser in store.test.ts. Data: the demo station (invented).
import { describe, expect, it } from 'vitest';
import { picture } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('kill');
const { press, verdict, more, at, kill, onDisk } = phone;

const soon = <T>(ask: () => T | Promise<T>) => expect.poll(ask);
const sheet = () => phone.page.getByRole('dialog');
const field = (name: string | RegExp) => phone.page.getByLabel(name).last();
const text = () => phone.page.locator('body').innerText();
const value = (name: string | RegExp) => soon(() => field(name).inputValue());
const jack = () => soon(() => phone.page.locator('.plate h1 .plate-big').first().innerText());
const unit = () => soon(() => phone.page.locator('.plate h1 .plate-small').first().innerText());
const tool = (name: RegExp) => phone.page.locator('.thumb-tools').getByRole('button', { name }).click();
const state = (name: string) => phone.page.locator('.thumb-states').getByRole('button', { name }).click();
const inSheet = (name: string | RegExp) => sheet().getByRole('button', { name }).first().click();

async function walking(place: string): Promise<void> {
  await phone.page.locator('.thumb-states').waitFor();
  await jack().toBe(place);
}

async function type(label: string): Promise<void> {
  await tool(/^Type/);
  await sheet().getByRole('textbox').fill(label);
  await phone.page.keyboard.press('Enter');
}

describe('after a move, killed', () => {
  it('with half a label typed', async () => {
    await phone.demoOffline();
    await phone.begin(/^After a move/);
    await at('SW1/P05');
    await tool(/^Type/);
    await phone.page.keyboard.type('10');
    await value('Label, as printed').toBe('10');
    await onDisk('10');
    await kill();
    await walking('P05');
    await tool(/^Type/);
    await value('Label, as printed').toBe('10');
    await phone.page.keyboard.type('05');
    await phone.page.keyboard.press('Enter');
    await soon(verdict).toContain('P05: 1005');
    await phone.settled();
    await kill();
    await walking('P06');
    await at('SW1/P05');
    expect(await phone.page.getByRole('button', { name: /^P05, plan 1005, found 1005/ }).count()).toBe(1);
    // What became a statement is half typed no more.
    await tool(/^Type/);
    await value('Label, as printed').toBe('');
    await phone.page.keyboard.press('Escape');
  });

  it('with a worn label, a note, a reason and a hazard half told', async () => {
    await at('SW1/P07');
    for (const [open, name, half] of [
      [() => state('Can’t read it'), /^Put \? for each/, '1?0'],
      [() => tool(/^Note/), 'What you see, in your words', 'boot is cra'],
      [() => more(/^Not checked/), 'Another reason', 'the lid is scr'],
      [() => more(/^Loose end/), 'Label', 'X-9'],
      [() => more(/^Read off/), /^(Name|What)/, 'sour'],
    ] as const) {
      await open();
      await sheet().getByLabel(name).first().fill(half);
      await onDisk(half);
      await kill();
      await walking('P07');
      await open();
      await soon(() => sheet().getByLabel(name).first().inputValue()).toBe(half);
      await phone.page.keyboard.press('Escape');
    }
  });

  it('with a label in hand that waits for its jack', async () => {
    await more(/^Label first/);
    await type('1009');
    await soon(verdict).toContain('where does it go?');
    await phone.settled();
    await kill();
    await walking('P07');
    await soon(verdict).toContain('1009');
    await soon(verdict).toContain('where does it go?');
    await phone.page.locator('.walk-held').getByRole('button', { name: /^P09/ }).click();
    await soon(verdict).toContain('P09');
    await press('Back to jack first');
  });

  it('with the question open whether it was the hand or the cables', async () => {
    await at('SW1/P14');
    await type('1015');
    await soon(verdict).toContain('1015');
    await jack().toBe('P15');
    await type('1016');
    await phone.page.getByText('You or the cables?').waitFor();
    await phone.settled();
    await kill();
    await walking('P16');
    await phone.page.getByText('You or the cables?').waitFor();
    await picture(phone.page, 'kill-slip');
    await press('Me: move my entries');
    await soon(verdict).toContain('P14 is open again');
    await jack().toBe('P14');
    await phone.settled();
    // Answered once: it is not asked again.
    await phone.settled();
    await kill();
    await walking('P14');
    await phone.settled();
    expect(await phone.page.getByText('You or the cables?').count()).toBe(0);
  });

  it('with a statement that waits for an answer', async () => {
    const long = 'https://example.invalid/a/label/that/nobody/put/on/a/plug';
    await at('SW1/P20');
    await type(long);
    await phone.page.getByText('This does not look like the label of a cable.').waitFor();
    await phone.settled();
    await kill();
    await phone.page.getByText('This does not look like the label of a cable.').waitFor();
    await jack().toBe('P20');
    await inSheet(/Record it/);
    await soon(verdict).toContain('P20');
    await at('SW2/P01');
    await state('Empty');
    await soon(verdict).toContain('P01');
    await at('SW1/P05');
    await state('Empty');
    await phone.page.getByText('Misread before, or changed since?').waitFor();
    await phone.settled();
    await kill();
    await phone.page.getByText('Misread before, or changed since?').waitFor();
    await picture(phone.page, 'kill-earlier');
    await inSheet(/Misread/);
    await soon(verdict).toContain('P05: empty');
    await phone.settled();
    await kill();
    await walking('P06');
    expect(await sheet().count()).toBe(0);
    await at('SW1/P05');
    expect(await phone.page.getByRole('button', { name: /^P05, plan 1005, empty/ }).count()).toBe(1);
  });

  it('with half a strip of outlets and half a lead described', async () => {
    await at('SW1/P10');
    await more(/^Power/);
    await phone.page.getByRole('radio', { name: /^Plug-in supply/ }).check();
    await field('Its label').fill('PSU 4');
    await field('Its plug is in outlet').fill('ST1 OU');
    await onDisk('ST1 OU');
    await kill();
    await walking('P10');
    await more(/^Power/);
    await value('Its label').toBe('PSU 4');
    await value('Its plug is in outlet').toBe('ST1 OU');
    expect(await phone.page.getByRole('radio', { name: /^Plug-in supply/ }).isChecked()).toBe(true);
    await picture(phone.page, 'kill-power');
    // Kept, it is half told no more.
    await field('Its plug is in outlet').fill('');
    await press(/Save/);
    await phone.page.locator('.walk-over').waitFor({ state: 'detached' });
    await soon(verdict).toContain('P10');
    await phone.settled();
    await at('SW1/P10');
    await more(/^Power/);
    await value('Its label').toBe('');
    await phone.page.keyboard.press('Escape');
    await at('SW1/P11');
    await more(/^Patch lead/);
    await phone.page.locator('.walk-over').getByRole('button', { name: /^P11/ }).click();
    await field('Its other end is in another unit').fill('SW2 P');
    await press(/^Both plugs, not the lead/);
    await onDisk('SW2 P');
    await phone.settled();
    await kill();
    await walking('P11');
    await more(/^Patch lead/);
    await value('Its other end is in another unit').toBe('SW2 P');
    expect(await phone.page.getByRole('button', { name: /Only seen/ }).getAttribute('aria-pressed')).toBe('true');
    await phone.page.keyboard.press('Escape');
    await phone.page.locator('.walk-over').waitFor({ state: 'detached' });
  });

  it('with the closing half filled in', async () => {
    await more(/^Close the audit/);
    await sheet().getByRole('textbox').fill('the rest on Mon');
    await onDisk('the rest on Mon');
    await kill();
    await walking('P11');
    await more(/^Close the audit/);
    await soon(() => sheet().getByRole('textbox').inputValue()).toBe('the rest on Mon');
    await inSheet('Close it');
    await phone.page.waitForURL(/report/);
    await soon(text).toContain('the rest on Mon');
  });
});

describe('an inherited place, killed', () => {
  it('with the name of a rack, of a unit and of what is in a jack half typed', async () => {
    await phone.begin(/^Inherited/);
    const describePath = (what: string) => `/audit/${phone.audit}/describe?what=${what}`;
    for (const [what, label, half] of [
      ['rack', 'Label on the rack', 'R '],
      ['unit', 'Label on the unit', 'DA-'],
    ] as const) {
      await phone.page.goto(phone.origin + describePath(what));
      await field(label).fill(half);
      await onDisk(half);
      await kill(describePath(what));
      await value(label).toBe(half);
    }
    await at('SW1/P02');
    await tool(/^Type/);
    await phone.page.keyboard.type('7');
    await onDisk('7');
    await kill();
    await walking('P02');
    await tool(/^Type/);
    await value('Label, as printed').toBe('7');
    await phone.page.keyboard.press('Enter');
    await soon(verdict).toContain('P02: 7');
    await phone.settled();
    await kill();
    await walking('P03');
  });
});

describe('a build, killed', () => {
  it('with an end pulled that is not landed, and the tester half quoted', async () => {
    await phone.begin(/^Build/);
    await more(/What you may do/);
    await sheet().getByText('Unplug', { exact: true }).click();
    await soon(() => phone.page.locator('.permission-yes').allInnerTexts()).toContain('unplug');
    await at('SW1/P03');
    await more(/^Work on this end/);
    await inSheet(/^Pulled/);
    await soon(() => sheet().innerText()).toMatch(/Pulled\s+done/);
    await field('What the tester says').fill('pair 3 op');
    await onDisk('pair 3 op');
    await kill();
    await walking('P03');
    await more(/^Work on this end/);
    await soon(() => sheet().innerText()).toMatch(/Pulled\s+done/);
    expect(await sheet().innerText()).not.toMatch(/Plugged\s+done/);
    await value('What the tester says').toBe('pair 3 op');
    await phone.page.keyboard.press('Escape');
    await more(/^What is left to build/);
    await soon(() => sheet().innerText()).toContain('1003');
    await phone.page.keyboard.press('Escape');
  });
});

describe('a relabelling, killed', () => {
  it('with half a list pasted', async () => {
    await phone.page.goto(`${phone.origin}/start-audit`);
    await phone.page.getByLabel('Your name').fill('I. Halloran');
    await phone.page.getByRole('radio', { name: /^Relabel/ }).check();
    await phone.page.getByRole('radio', { name: /^Touch/ }).check();
    await press(/Begin the walk/);
    await soon(text).toContain('Renaming list');
    phone.audit = /audit\/([^/?]+)/.exec(phone.page.url())?.[1] ?? '';
    await phone.page.locator('label.choice-cell', { hasText: 'Pasted' }).click();
    await field('One pair a line').fill('1001 -> 8001');
    await onDisk('1001 -> 8001');
    await kill(`/audit/${phone.audit}/renaming`);
    await value('One pair a line').toBe('1001 -> 8001');
    await press('Show every pair');
    await press(/Save 1 pair/);
    await soon(text).toContain('Not started');
  });

  it('with the new label on at one end, the old one not off, and half a sentence to who goes on', async () => {
    await at('SW1/P01');
    await press(/reads 1001/i);
    await press(/^New label .* is on/);
    await soon(verdict).toContain('is on, old 1001 is still on');
    await phone.settled();
    await kill();
    await walking('P02');
    await at('SW1/P01');
    await soon(text).toContain('1 cable half done: 1001');
    await phone.page.getByRole('button', { name: 'Go to CON30 NET' }).waitFor();
    await press(/1 cable half done/);
    await press('Hand over');
    await sheet().getByRole('textbox').fill('P. Oduya puts 8001 on at CON');
    await onDisk('P. Oduya puts 8001 on at CON');
    await kill(`/audit/${phone.audit}/renaming`);
    await soon(text).toMatch(/1001\s+becomes/);
    await press('Hand over');
    await soon(() => sheet().getByRole('textbox').inputValue()).toBe('P. Oduya puts 8001 on at CON');
    await picture(phone.page, 'kill-hand-over');
    await phone.page.keyboard.press('Escape');
    await phone.settled();
    await kill();
    await walking('P01');
    await unit().toContain('SW1');
  });
});
