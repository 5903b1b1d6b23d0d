// Owns hand scanners that act as a keyboard: a burst of keys faster than any hand, ended by Enter or Tab.
// Must never swallow slow typing nor anything typed into a text field.
//
// Limits: One text twice within 300 ms is taken for a trigger that bounced, at whatever jack.
import { createHub } from './hub.ts';
import type { Scanner } from './scanner.ts';
import type { OnBug } from './watched.ts';

// Common practice, no source: scanners send a key every 1 to 30 ms, quick typists one every 100 ms or so.
export const MAX_GAP_MS = 50;
const MIN_KEYS = 3;

type Key = { key: string; at: number; repeat?: boolean; withModifier?: boolean; inTextField?: boolean };

type BurstAnswer =
  /** Not for us, or not yet known to be. */
  | { type: 'pass' }
  /** Surely a scanner by now: keep the page from acting on the key. */
  | { type: 'hold' }
  | { type: 'burst'; text: string };

export function createBurst(options: { maxGapMs?: number; minKeys?: number } = {}): (key: Key) => BurstAnswer {
  const maxGap = options.maxGapMs ?? MAX_GAP_MS;
  const minKeys = options.minKeys ?? MIN_KEYS;
  let keys: string[] = [];
  let last = Number.NEGATIVE_INFINITY;
  return (key) => {
    // Shift and its like come between the letters of a burst and carry no text.
    if (isModifierKey(key.key)) return { type: 'pass' };
    const prompt = key.at - last <= maxGap;
    last = key.at;
    if (!prompt || key.inTextField || key.withModifier || key.repeat) keys = [];
    if (key.inTextField || key.withModifier || key.repeat) return { type: 'pass' };
    if (key.key === 'Enter' || key.key === 'Tab') {
      const text = keys.join('');
      const whole = keys.length >= minKeys;
      keys = [];
      return whole ? { type: 'burst', text } : { type: 'pass' };
    }
    if (!isOneCharacter(key.key)) {
      keys = [];
      return { type: 'pass' };
    }
    keys.push(key.key);
    return { type: keys.length >= minKeys ? 'hold' : 'pass' };
  };
}

function isModifierKey(key: string): boolean {
  return key === 'Shift' || key === 'CapsLock' || key === 'AltGraph';
}

function isOneCharacter(key: string): boolean {
  return [...key].length === 1;
}

/** The little of a keyboard event that is needed, so that a test can make one. */
export type KeyLike = {
  key: string;
  timeStamp: number;
  repeat?: boolean;
  isComposing?: boolean;
  ctrlKey?: boolean;
  altKey?: boolean;
  metaKey?: boolean;
  target?: unknown;
  preventDefault(): void;
  stopPropagation(): void;
};

/** Where keys are heard: `document` in the app. */
export type KeyTarget = {
  addEventListener(type: 'keydown', fn: (event: KeyLike) => void, capture: boolean): void;
  removeEventListener(type: 'keydown', fn: (event: KeyLike) => void, capture: boolean): void;
};

/** A hand scanner. What it read at one jack may be read at the next one at once. */
export type Wedge = Scanner & { moved(): void };

export function createWedge(options: {
  target: KeyTarget;
  now: () => number;
  isTextField?: (target: unknown) => boolean;
  onBug?: OnBug;
}): Wedge {
  const isTextField = options.isTextField ?? looksLikeTextField;
  let burst = createBurst();
  const hub = createHub(
    { by: 'wedge', now: options.now, onBug: options.onBug },
    {
      async open() {
        burst = createBurst();
        options.target.addEventListener('keydown', heard, true);
        return null;
      },
      async close() {
        options.target.removeEventListener('keydown', heard, true);
      },
    },
  );

  function heard(event: KeyLike): void {
    const answer = burst({
      key: event.key,
      at: event.timeStamp,
      repeat: event.repeat === true,
      withModifier: event.ctrlKey === true || event.altKey === true || event.metaKey === true,
      inTextField: event.isComposing === true || isTextField(event.target),
    });
    if (answer.type === 'pass') return;
    // Otherwise the closing Enter would press whichever button has the focus. Also while paused.
    event.preventDefault();
    event.stopPropagation();
    if (answer.type !== 'burst') return;
    const sight = { text: answer.text };
    hub.look([sight], { sight, aimed: true });
  }

  return hub;
}

const NOT_TEXT = new Set(['button', 'checkbox', 'radio', 'range', 'color', 'file', 'submit', 'reset', 'image']);

function looksLikeTextField(target: unknown): boolean {
  if (typeof target !== 'object' || target === null) return false;
  const element = target as { tagName?: unknown; type?: unknown; isContentEditable?: unknown };
  if (element.isContentEditable === true) return true;
  if (element.tagName === 'TEXTAREA') return true;
  return element.tagName === 'INPUT' && !NOT_TEXT.has(String(element.type));
}
