// Walks the app with the keyboard alone. Every stop of the Tab key is looked at: something must have the focus, and it
// must look different from itself without it. Drives only; what a stop means is for the test to say.
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';

/** More stops than any screen has: past this the focus is caught somewhere or never comes by. */
const MOST = 160;

/** What has the focus, and whether that can be seen. Plain text: it runs in the page. */
const HELD = `(() => {
  const held = document.activeElement;
  if (!held || held === document.body) return { lost: true, shown: false, what: 'body' };
  // A radio or a check is drawn by the cell round it.
  const drawn = [held, held.closest('label')].filter(Boolean);
  const outline = () => drawn.map((element) => {
    const { outlineStyle, outlineWidth, outlineColor, outlineOffset } = getComputedStyle(element);
    return outlineStyle === 'none' || parseFloat(outlineWidth) < 2 ? 'none' : [outlineWidth, outlineColor, outlineOffset].join(' ');
  });
  const withFocus = outline();
  held.blur();
  const without = outline();
  held.focus({ preventScroll: true });
  const shown = withFocus.some((one, i) => one !== 'none' && one !== without[i]);
  return { lost: false, shown, what: (held.getAttribute('aria-label') ?? held.textContent ?? '').slice(0, 60) + ' <' + held.tagName + '>' };
})()`;

/** Whether Shift and Tab is the way to it. It only chooses the way: every stop is a real key. */
const LIES_BEFORE = (target: Element) =>
  document.activeElement !== null &&
  (target.compareDocumentPosition(document.activeElement) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;

export function keyboard(page: Page) {
  const has = (what: Locator) => what.evaluate((element) => element === document.activeElement);
  const keys = {
    /** The focus is somewhere and can be seen. */
    async held(after: string): Promise<string> {
      const look = () => page.evaluate<{ lost: boolean; shown: boolean; what: string }>(HELD);
      let { what } = await look();
      // What comes in place of what went is drawn first; for so long nothing can have the focus.
      await expect
        .poll(
          async () => {
            const now = await look();
            what = now.what;
            return { lost: now.lost, shown: now.shown };
          },
          { message: `the focus after ${after}` },
        )
        .toEqual({ lost: false, shown: true });
      return what;
    },
    /** Goes there by Tab or Shift and Tab, as a hand does that sees where it is. */
    async to(what: Locator): Promise<void> {
      await what.waitFor();
      const key = (await what.evaluate(LIES_BEFORE)) ? 'Shift+Tab' : 'Tab';
      const passed: string[] = [];
      while (!(await has(what))) {
        if (passed.length > MOST) throw new Error(`Never reached ${what}; passed ${passed.slice(-30).join(' | ')}`);
        await page.keyboard.press(key);
        passed.push(await keys.held(`${passed.length + 1} times ${key} on the way to ${what}`));
      }
    },
    async press(what: Locator, key: 'Enter' | 'Space' = 'Enter'): Promise<void> {
      await keys.to(what);
      await page.keyboard.press(key);
    },
    /** Into a field, over what stands there. */
    async type(field: Locator, text: string): Promise<void> {
      await keys.to(field);
      await page.keyboard.press('ControlOrMeta+a');
      await page.keyboard.type(text);
    },
    /** One of several: Tab reaches the chosen one, the arrows the others. */
    async choose(name: RegExp): Promise<void> {
      const wanted = page.getByRole('radio', { name });
      await wanted.waitFor();
      const group = page.getByRole('group').filter({ has: wanted });
      await keys.to(group.locator('input:checked'));
      const options = await group.getByRole('radio').count();
      for (let i = 0; i < options && !(await wanted.isChecked()); i++) {
        await page.keyboard.press('ArrowDown');
        await keys.held('an arrow');
      }
      expect(await wanted.isChecked()).toBe(true);
    },
    /** Waits until the focus stands there, without pressing anything. */
    async back(to: Locator, after: string): Promise<void> {
      await expect.poll(() => has(to), { message: `the focus comes back after ${after}` }).toBe(true);
      await keys.held(after);
    },
  };
  return keys;
}
