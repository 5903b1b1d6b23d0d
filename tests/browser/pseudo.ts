// A pseudo-language at the page's edge: every text on the screen, and every placeholder, title and spoken name, longer by
// half, with brackets at both ends so that a cut one is seen. Names, labels, numbers and what was typed stay as they are.
import type { Page } from 'playwright-core';

/** What is a name of the plant or is printed: it would be the same in every language. */
const NAMES =
  '.ident, .cable-label, .svg-label, .drawing-ident, .drawing-mono, .code-text, .label-one, .strip-one, .label-ruler';

/** Words of a text longer by half each; a token with a digit or without a small letter is a name. Plain: it runs in both. */
export function longer(text: string, kept: readonly string[]): string {
  const added = 'éüåîõ';
  const words = text.replace(/\S+/g, (token) => {
    if (/\p{N}|[/_@]/u.test(token) || !/\p{Ll}/u.test(token)) return token;
    return token.replace(/\p{L}+/gu, (word) => {
      if (word.length < 2 || kept.includes(word)) return word;
      const middle = Math.ceil(word.length / 2);
      const more = Array.from({ length: middle }, (_, i) => added[i % added.length]).join('');
      return word.slice(0, middle) + more + word.slice(middle);
    });
  });
  return words === text ? text : words.replace(/^(\s*)([\s\S]*?)(\s*)$/, '$1[$2]$3');
}

declare global {
  interface Window {
    __pseudo: { speak(on: boolean): void };
  }
}

/** For addInitScript. `kept` are words that a person typed in the test and that stand in sentences afterwards. */
export function pseudoScript(kept: readonly string[]): string {
  return `(${inPage})(${longer}, ${JSON.stringify(kept)}, ${JSON.stringify(NAMES)})`;
}

/**
 * Keeps beside every node what it said and what stands there now. What the app writes anew differs from what stands there
 * and is made longer anew; nothing is made longer twice. The nodes stay the app's own.
 */
function inPage(make: typeof longer, kept: readonly string[], names: string): void {
  const ATTRIBUTES = ['aria-label', 'placeholder', 'title'];
  const texts = new WeakMap<Node, { was: string; now: string }>();
  const spoken = new WeakMap<Element, Map<string, { was: string; now: string }>>();
  let speaking = true;
  const text = (node: Text) => {
    if (node.parentElement?.closest(`script, style, textarea, ${names}`)) return;
    const known = texts.get(node);
    const was = known && known.now === node.data ? known.was : node.data;
    const now = speaking ? make(was, kept) : was;
    texts.set(node, { was, now });
    if (node.data !== now) node.data = now;
  };
  const attribute = (element: Element, name: string) => {
    const value = element.getAttribute(name);
    if (value === null) return;
    const own = spoken.get(element) ?? new Map<string, { was: string; now: string }>();
    spoken.set(element, own);
    const known = own.get(name);
    const was = known && known.now === value ? known.was : value;
    const now = speaking ? make(was, kept) : was;
    own.set(name, { was, now });
    if (value !== now) element.setAttribute(name, now);
  };
  const all = (root: Node) => {
    const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
    for (let node: Node | null = root; node; node = walker.nextNode())
      if (node instanceof Text) text(node);
      else if (node instanceof Element) for (const name of ATTRIBUTES) attribute(node, name);
  };
  new MutationObserver((changes) => {
    for (const change of changes)
      if (change.type === 'childList') for (const node of change.addedNodes) all(node);
      else if (change.target instanceof Text) text(change.target);
      else if (change.target instanceof Element) attribute(change.target, change.attributeName ?? '');
  }).observe(document, {
    childList: true,
    subtree: true,
    characterData: true,
    attributes: true,
    attributeFilter: ATTRIBUTES,
  });
  window.__pseudo = {
    speak(on) {
      speaking = on;
      all(document);
    },
  };
}

/** Finds and presses by the app's own words, then goes on in the pseudo-language. */
export async function inOwnWords<T>(page: Page, act: () => Promise<T>): Promise<T> {
  await page.evaluate(() => window.__pseudo.speak(false));
  const result = await act();
  await page.evaluate(() => window.__pseudo.speak(true));
  return result;
}

/**
 * What of the longer texts is cut off, runs out of its own cell or into another text, or leaves no room for what scrolls;
 * says so too where nothing was made longer, for then nothing would be proven.
 */
export async function cutFaults(page: Page, what: string): Promise<string[]> {
  return page.evaluate((name) => {
    const found: string[] = [];
    const over = document.querySelector('dialog[open]') ?? document.querySelector('.walk-over') ?? document.body;
    const CELL = 'button, .cell, .plate-cell, .row, .field, .choice-cell, .check-row, .plain-button';
    const walker = document.createTreeWalker(over, NodeFilter.SHOW_TEXT);
    const drawn: { box: DOMRect; text: string; node: Node }[] = [];
    let longerOnes = 0;
    for (let node = walker.nextNode() as Text | null; node; node = walker.nextNode() as Text | null) {
      const parent = node.parentElement;
      if (!parent || !node.data.trim() || parent.closest('.only-spoken, [inert], video, option, script, style'))
        continue;
      if (getComputedStyle(parent).visibility !== 'visible' || !parent.checkVisibility()) continue;
      const long = /^\s*\[/.test(node.data) && /[éüåîõ]/.test(node.data);
      const range = document.createRange();
      range.selectNodeContents(node);
      const rects = [...range.getClientRects()].filter((rect) => rect.width > 1 && rect.height > 1);
      if (rects.length === 0) continue;
      if (long) longerOnes += 1;
      const say = (kind: string, more = '') =>
        found.push(
          `${name}: ${kind}: ${parent.tagName.toLowerCase()}.${parent.getAttribute('class')} “${node?.data.slice(0, 60)}” ${more}`,
        );
      for (const rect of rects) {
        let [left, top, right, bottom] = [rect.left, rect.top, rect.right, rect.bottom];
        let [goesX, goesY] = [false, false];
        let wrong = '';
        for (
          let around: Element | null = parent;
          around && around !== document.documentElement;
          around = around.parentElement
        ) {
          const style = getComputedStyle(around);
          const box = around.getBoundingClientRect();
          const svg = around.tagName === 'svg';
          if (style.display === 'inline' || style.display === 'contents' || (around.closest('svg') && !svg)) continue;
          const clipsX = svg ? style.overflowX !== 'visible' : style.overflowX !== 'visible';
          const clipsY = style.overflowY !== 'visible';
          if (/auto|scroll/.test(style.overflowX)) goesX = true;
          if (/auto|scroll/.test(style.overflowY)) goesY = true;
          if (clipsX && !goesX && (left < box.left - 1.5 || right > box.right + 1.5))
            wrong ||= `across, by ${around.getAttribute('class')}`;
          // Half a leading above and below the letters is no part of what is read.
          if (clipsY && !goesY && (top < box.top - 4 || bottom > box.bottom + 4))
            wrong ||= `down, by ${around.getAttribute('class')}`;
          if (clipsX || clipsY) {
            [left, right] = [Math.max(left, box.left), Math.min(right, box.right)];
            [top, bottom] = [Math.max(top, box.top), Math.min(bottom, box.bottom)];
          }
        }
        if (long && wrong) say('cut', wrong);
        const cell = parent.closest(CELL);
        const edge = cell?.getBoundingClientRect();
        if (long && edge && !parent.closest('.photo-stage')) {
          const out = Math.max(
            rect.right - edge.right,
            edge.left - rect.left,
            rect.bottom - edge.bottom - 2,
            edge.top - rect.top - 2,
          );
          if (out > 1.5) say('out of its cell', `by ${Math.round(out)}`);
        }
        if (right - left > 3 && bottom - top > 3)
          drawn.push({ box: new DOMRect(left, top, right - left, bottom - top), text: node.data, node });
      }
    }
    for (const [i, { box, text, node }] of drawn.entries())
      for (const other of drawn.slice(i + 1)) {
        if (other.node === node || (!/^\s*\[/.test(text) && !/^\s*\[/.test(other.text))) continue;
        const across = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
        const down = Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top);
        if (across > 2 && down > 5)
          found.push(
            `${name}: two texts in one place: “${text.slice(0, 40)}” and “${other.text.slice(0, 40)}” ${Math.round(across)} × ${Math.round(down)}`,
          );
      }
    // The one text that the page does not lay out itself: measured as it is set.
    const pen = document.createElement('canvas').getContext('2d');
    for (const field of over.querySelectorAll<HTMLInputElement>('input:placeholder-shown')) {
      const style = getComputedStyle(field);
      if (!pen || !field.checkVisibility()) continue;
      // The short form is empty where a part of it has no short form.
      pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
      const room = field.clientWidth - Number.parseFloat(style.paddingLeft) - Number.parseFloat(style.paddingRight);
      if (pen.measureText(field.placeholder).width > room + 1)
        found.push(`${name}: cut example: “${field.placeholder}”`);
    }
    for (const room of over.querySelectorAll<HTMLElement>('.screen-middle, .dialog-body'))
      if (
        room.clientHeight < 96 &&
        room.scrollHeight > room.clientHeight + 1 &&
        getComputedStyle(room).display !== 'contents'
      )
        found.push(`${name}: ${room.className} has ${room.clientHeight} px for ${room.scrollHeight}`);
    if (longerOnes === 0) found.push(`${name}: nothing was made longer`);
    return [...new Set(found)];
  }, what);
}
