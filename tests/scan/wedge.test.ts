// Telling a hand scanner from a hand. Key gaps are common practice, no source.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createBurst, createWedge, type KeyLike, type KeyTarget, MAX_GAP_MS } from '../../src/scan/wedge.ts';

function press(keys: readonly string[], gap: number, more: object = {}) {
  const burst = createBurst();
  return keys.map((key, i) => burst({ key, at: 1_000 + i * gap, ...more })).at(-1);
}

const graph = fc.string({ unit: 'grapheme-ascii', minLength: 3, maxLength: 40 });

describe('the burst', () => {
  test('any text sent fast and ended by Enter or Tab is a reading, exactly as sent', () => {
    fc.assert(
      fc.property(graph, fc.integer({ min: 1, max: MAX_GAP_MS }), fc.constantFrom('Enter', 'Tab'), (text, gap, end) => {
        expect(press([...text, end], gap)).toEqual({ type: 'burst', text });
      }),
    );
  });

  test('the same text typed slowly is not, and no key of it is kept from the page', () => {
    fc.assert(
      fc.property(graph, fc.integer({ min: MAX_GAP_MS + 1, max: 500 }), (text, gap) => {
        const burst = createBurst();
        for (const [i, key] of [...text, 'Enter'].entries()) {
          expect(burst({ key, at: i * gap })).toEqual({ type: 'pass' });
        }
      }),
    );
  });

  test('shift between the letters does not break a burst', () => {
    expect(press(['Shift', 'R', 'Shift', 'A', '1', 'Enter'], 8)).toEqual({ type: 'burst', text: 'RA1' });
  });

  test('a held key, a shortcut and a text field never make one', () => {
    const keys = ['1', '0', '0', '3', 'Enter'];
    expect(press(keys, 8, { repeat: true })).toEqual({ type: 'pass' });
    expect(press(keys, 8, { withModifier: true })).toEqual({ type: 'pass' });
    expect(press(keys, 8, { inTextField: true })).toEqual({ type: 'pass' });
  });

  test('a slow key before a burst is not part of it', () => {
    const burst = createBurst();
    burst({ key: 'x', at: 0 });
    for (const [i, key] of ['1', '0', '0', '3'].entries()) burst({ key, at: 900 + i * 5 });
    expect(burst({ key: 'Enter', at: 925 })).toEqual({ type: 'burst', text: '1003' });
  });
});

describe('on a page', () => {
  function page() {
    const heard = new Set<(event: KeyLike) => void>();
    const target: KeyTarget = {
      addEventListener: (_type, fn) => void heard.add(fn),
      removeEventListener: (_type, fn) => void heard.delete(fn),
    };
    let at = 0;
    const held: string[] = [];
    const send = (keys: readonly string[], gap: number, on: unknown = null) => {
      for (const key of keys) {
        at += gap;
        const event = { key, timeStamp: at, target: on, preventDefault: () => void held.push(key) };
        for (const fn of heard) fn({ ...event, stopPropagation: () => undefined });
      }
    };
    return { target, send, held, listening: () => heard.size, now: () => at };
  }

  test('the Enter of a burst presses no button, the Enter of a person does', async () => {
    const { target, send, held, now } = page();
    const scanner = createWedge({ target, now });
    const texts: string[] = [];
    scanner.onReading(({ text }) => texts.push(text));
    await scanner.start();
    send(['1', '0', '0', '3', 'Enter'], 5);
    expect(held).toContain('Enter');
    held.length = 0;
    send(['1', '0', '0', '4', 'Enter'], 120);
    expect(held).toEqual([]);
    expect(texts).toEqual(['1003']);
  });

  test('text fields keep their keys, tick boxes do not count as text fields', async () => {
    const { target, send, now } = page();
    const scanner = createWedge({ target, now });
    const texts: string[] = [];
    scanner.onReading(({ text }) => texts.push(text));
    await scanner.start();
    send(['1', '0', '0', '3', 'Enter'], 5, { tagName: 'INPUT', type: 'text' });
    send(['1', '0', '0', '4', 'Enter'], 5, { tagName: 'TEXTAREA' });
    send(['1', '0', '0', '5', 'Enter'], 5, { tagName: 'DIV', isContentEditable: true });
    expect(texts).toEqual([]);
    send(['1', '0', '0', '6', 'Enter'], 5, { tagName: 'INPUT', type: 'checkbox' });
    expect(texts).toEqual(['1006']);
  });

  test('no key is heard before the start or after the stop', async () => {
    const { target, listening, now } = page();
    const scanner = createWedge({ target, now });
    expect(listening()).toBe(0);
    await scanner.start();
    expect(listening()).toBe(1);
    await scanner.stop();
    expect(listening()).toBe(0);
  });
});
