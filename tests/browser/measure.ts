// Measures boxes in the page, never pixels: what runs out of the sheet, what a finger cannot meet, what is too small to
// read, what holds the focus out of sight. Answers in sentences; asserts nothing itself.
import type { Page } from 'playwright-core';

/** Smallest side of what can be pressed, in CSS px: 44 (WCAG 2.2, 2.5.5), 64 in height at the thumb (the look's own rule). */
const TARGET = 44;
const THUMB = 64;
/** Smallest words; notes in drawings may be smaller, as the look has it. */
const WORDS = 14;
const NOTES = 12;

interface Wanted {
  what: string;
  target: number;
  thumb: number;
  words: number;
  notes: number;
}

/** Everything wrong with the sheet as it stands; `what` names it. */
export async function boxFaults(page: Page, what: string): Promise<string[]> {
  const wanted: Wanted = { what, target: TARGET, thumb: THUMB, words: WORDS, notes: NOTES };
  return page.evaluate(({ what, target, thumb, words, notes }) => {
    const found: string[] = [];
    const say = (kind: string, element: Element, more = '') => {
      const name = element.getAttribute('aria-label') ?? element.textContent?.trim().replace(/\s+/g, ' ') ?? '';
      found.push(
        `${what}: ${kind}: ${element.tagName.toLowerCase()}.${element.getAttribute('class')} “${name.slice(0, 50)}” ${more}`,
      );
    };
    const over = document.querySelector('dialog[open]') ?? document.querySelector('.walk-over') ?? document.body;
    const shown = (element: Element) => {
      const box = element.getBoundingClientRect();
      return (
        box.width > 1 &&
        box.height > 1 &&
        !element.closest('.only-spoken, [inert], video') &&
        getComputedStyle(element).visibility === 'visible'
      );
    };
    const scrolls = (element: Element | null): boolean =>
      element !== null && (/auto|scroll/.test(getComputedStyle(element).overflowX) || scrolls(element.parentElement));

    const wide = document.documentElement.scrollWidth - innerWidth;
    if (wide > 0) found.push(`${what}: the page is ${wide} px too wide`);
    // A sheet that scrolls up and down would hide its width from the page: each is asked by itself.
    for (const part of over.querySelectorAll('.screen-middle, .screen-main, .screen-aside, .screen-foot, .dialog-body'))
      if (part.scrollWidth > part.clientWidth + 1 && getComputedStyle(part).display !== 'contents')
        say('too wide', part, `by ${part.scrollWidth - part.clientWidth}`);
    if (over.tagName === 'DIALOG' && over.scrollWidth > over.clientWidth + 1) say('too wide', over);

    for (const element of over.querySelectorAll<HTMLElement>('*')) {
      if (element.closest('svg') || !shown(element)) continue;
      const own = [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim());
      if (!own) continue;
      const style = getComputedStyle(element);
      const box = element.getBoundingClientRect();
      const paper = element.closest('.label-one, .strip-one, .label-ruler');
      if (Number.parseFloat(style.fontSize) < words - 0.01 && !paper) say('small words', element, style.fontSize);
      if (element.parentElement?.closest('.desk-scroll') || paper) continue;
      const cut =
        element.scrollWidth > element.clientWidth + 1 && style.overflowX !== 'visible' && style.display !== 'inline';
      if (cut && !scrolls(element)) say('cut', element);
      if (box.right > innerWidth + 1 || box.left < -1) say('beside the sheet', element, `${box.left} to ${box.right}`);
      // Words that run out of their own cell onto the next one.
      const cell = element.closest('button, .cell, .plate-cell, .row, .field, .choice-cell');
      const edge = cell?.getBoundingClientRect();
      if (edge && (box.right > edge.right + 1.5 || box.left < edge.left - 1.5) && !element.closest('.photo-stage'))
        say('beside its cell', element, `${Math.round(box.right - edge.right)}`);
    }
    for (const text of over.querySelectorAll<SVGTextElement>('svg text')) {
      if (!shown(text)) continue;
      const scale = text.getScreenCTM()?.a ?? 1;
      const size = Number.parseFloat(getComputedStyle(text).fontSize) * scale;
      if (size < notes - 0.05) say('small note', text, `${size.toFixed(1)}px`);
    }

    const press =
      'button, a[href], select, textarea, input, summary, label.plain-button, label.choice-cell, label.check-row, audio';
    for (const element of over.querySelectorAll<HTMLElement>(press)) {
      if (!shown(element)) continue;
      // A mark in its row is pressed anywhere on the row; a symbol in running words goes by its line.
      if (element.matches('input') && element.closest('label')) continue;
      const box = element.getBoundingClientRect();
      const zone = element.matches('.screen-foot .cell, .title-block .cell');
      const low = zone ? thumb : target;
      // Jacks of the row sweep stand as close as in the metal; minus and plus correct the range.
      const narrow = element.matches('.sweep-drawing .jack-button') ? 24 : target;
      if (box.height < low - 0.5 || box.width < narrow - 0.5)
        say('small target', element, `${Math.round(box.width)} × ${Math.round(box.height)}`);
    }
    return found;
  }, wanted);
}

/** What takes the focus but does not show it: each is focused in turn, as by keys, and looked for where it should stand. */
export async function hiddenFocus(page: Page, what: string): Promise<string[]> {
  return page.evaluate((name) => {
    const found: string[] = [];
    const over = document.querySelector('dialog[open]') ?? document.querySelector('.walk-over') ?? document.body;
    const can = 'button:not(:disabled), a[href], select, textarea, input:not(:disabled), summary';
    for (const element of over.querySelectorAll<HTMLElement>(can)) {
      if (element.closest('[inert]') || (over === document.body && element.closest('dialog, .walk-over'))) continue;
      element.focus();
      if (document.activeElement !== element) continue;
      // A mark shows its focus on the label round it; beside many lines of words the mark itself is what is looked for.
      const label = element.closest('label');
      const box = (label && label.offsetHeight < innerHeight / 3 ? label : element).getBoundingClientRect();
      if (box.width < 2 || box.height < 2) continue;
      // The whole of it; of what is taller than its room, as much as a finger needs.
      let room: Element | null = element.parentElement;
      while (room && !/auto|scroll/.test(getComputedStyle(room).overflowY)) room = room.parentElement;
      const tall = box.height > (room ? room.clientHeight : innerHeight / 2);
      const top = tall ? Math.max(box.top, room?.getBoundingClientRect().top ?? 0) : box.top;
      const low = (tall ? top + 44 : box.bottom) - 3;
      const points = [
        [box.left + 3, top + 3],
        [box.right - 3, top + 3],
        [box.left + 3, low],
        [box.right - 3, low],
      ] as const;
      const hidden = points.filter(([x, y]) => {
        const there = document.elementFromPoint(x, y);
        return !there || !(element.contains(there) || there.contains(element));
      });
      if (hidden.length > 0) {
        const [x, y] = hidden[0]!;
        const by = document.elementFromPoint(x, y);
        const said = element.getAttribute('aria-label') ?? element.textContent?.trim() ?? '';
        found.push(
          `${name}: focus hidden: ${element.className} “${said.slice(0, 40)}” at ${Math.round(box.top)}..${Math.round(box.bottom)}, by ${by?.className ?? 'the edge'}`,
        );
      }
    }
    return found;
  }, what);
}

/** Whether the jack in hand is wholly in view, under nothing. */
export async function currentJackFaults(page: Page, what: string): Promise<string[]> {
  return page.evaluate((name) => {
    const jack = document.querySelector('.jack-window [aria-current="true"]');
    if (!jack) return [`${name}: no jack in hand is drawn`];
    const box = jack.getBoundingClientRect();
    const points = [
      [box.left + 2, box.top + 2],
      [box.right - 2, box.top + 2],
      [box.left + 2, box.bottom - 2],
      [box.right - 2, box.bottom - 2],
    ] as const;
    return points.every(([x, y]) => document.elementFromPoint(x, y) === jack)
      ? []
      : [
          `${name}: the jack in hand is not in view: ${Math.round(box.left)},${Math.round(box.top)} to ${Math.round(box.right)},${Math.round(box.bottom)}`,
        ];
  }, what);
}

/** By the rules of axe-core, or of colours alone; how large targets are is measured above, where a half-scrolled row is no fault. */
export async function axeFaults(page: Page, what: string, onlyColours = false): Promise<string[]> {
  const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
  const runOnly = onlyColours ? ['color-contrast'] : rules;
  return page.evaluate(
    async ([name, only]) => {
      type Found = { violations: { id: string; nodes: { html: string }[] }[] };
      const { axe } = window as unknown as { axe: { run(root: Document, options: object): Promise<Found> } };
      const { violations } = await axe.run(document, {
        runOnly: only,
        resultTypes: ['violations'],
        rules: { 'target-size': { enabled: false } },
      });
      return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${name}: ${id}: ${html.slice(0, 140)}`));
    },
    [what, runOnly] as const,
  );
}
