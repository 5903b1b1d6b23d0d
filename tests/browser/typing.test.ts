// What is typed is never lost to the app's own pace: the field is there right behind the tap, and each letter is on its
// way to the disk with its key stroke. Data: the demo station (invented).
import { expect, it } from 'vitest';
import { onePhone } from './onePhone.ts';

const phone = onePhone('typing');

/** In the page: what comes in the very next turn, before anything is drawn. */
const NEXT_TURN = `new Promise((done) => {
  const turn = new MessageChannel();
  turn.port1.onmessage = () => done();
  turn.port2.postMessage(null);
})`;

it('a letter typed right behind the tap stands in the field', async () => {
  await phone.demoOffline();
  await phone.begin(/^After a move/);
  await phone.at('SW1/P05');
  const held = await phone.page.evaluate<string>(`(async () => {
    [...document.querySelectorAll('.thumb-tools button')].find((one) => /Type/.test(one.ariaLabel ?? one.innerText)).click();
    await ${NEXT_TURN};
    return document.activeElement.id;
  })()`);
  expect(held).toBe('walk-typed');
  await phone.page.keyboard.press('Escape');
});

/** Forms that keep a draft: where each is, how it is opened, the first field typed into. */
const FORMS: [name: string, open: () => Promise<void>][] = [
  ['a label', () => tool(/^Type/)],
  ['a worn label', () => state('Can’t read it')],
  ['a note', () => tool(/^Note/)],
  ['a reason why a jack was not opened', () => phone.more(/^Not checked/)],
  ['a loose end', () => phone.more(/^Loose end/)],
  ['a setting', () => phone.more(/^Read off/)],
  ['closing words', () => phone.more(/^Close the audit/)],
  ['a plug-in supply', () => phone.more(/^Power/)],
  ['an adapter', () => phone.more(/^Adapter or tail here/)],
  ['a rack', () => describe('rack')],
  ['a unit', () => describe('unit')],
  ['a renaming list', pastedList],
  ['a new audit', () => goto('/start-audit')],
];
const tool = (name: RegExp) => phone.page.locator('.thumb-tools').getByRole('button', { name }).click();
const state = (name: string) => phone.page.locator('.thumb-states').getByRole('button', { name }).click();
const goto = async (path: string) => void (await phone.page.goto(phone.origin + path));
const describe = (what: string) => goto(`/audit/${phone.audit}/describe?what=${what}`);
async function pastedList(): Promise<void> {
  await goto(`/audit/${phone.audit}/renaming`);
  await phone.page.locator('label.choice-cell', { hasText: 'Pasted' }).click();
}

it.each(FORMS)('%s is being written to the disk with each key stroke', async (_, open) => {
  await phone.at('SW1/P05');
  await open();
  await phone.settled();
  const places = ['dialog[open]', '.walk-over', 'main'].map((place) => phone.page.locator(place));
  const counts = await Promise.all(places.map((place) => place.count()));
  const inside = places[counts.findIndex((n) => n > 0)];
  const field = inside.locator('textarea, input:is([type=text], :not([type]))').last();
  const written = await field.evaluate(async (element, nextTurn) => {
    const { put } = IDBObjectStore.prototype;
    const values: string[] = [];
    IDBObjectStore.prototype.put = function (...given) {
      if (this.name === 'drafts' || this.name === 'settings') values.push(JSON.stringify(given[0]));
      return put.apply(this, given);
    };
    (element as HTMLInputElement).value = 'half 7';
    element.dispatchEvent(new InputEvent('input', { bubbles: true }));
    await new Function(`return ${nextTurn}`)();
    IDBObjectStore.prototype.put = put;
    return values;
  }, NEXT_TURN);
  expect(written.join('\n')).toContain('half 7');
});
