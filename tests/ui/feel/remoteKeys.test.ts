// What a key of a small keyboard means, and that a hand scanner's burst never speaks through it.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MAX_GAP_MS } from '../../../src/scan/wedge.ts';
import {
  actionOf,
  createRemote,
  LONE_MS,
  mayBeSet,
  type PressedKey,
  withKey,
} from '../../../src/ui/feel/remoteKeys.ts';
import { DEFAULT_KEYS, REMOTE_ACTIONS } from '../../../src/ui/feel/settings.ts';

const SETTLE = 300;

/** Presses keys and asks after each one as the page does: a little later, if the next key did not come before. */
function play(keys: readonly PressedKey[]): string[] {
  const remote = createRemote(DEFAULT_KEYS, SETTLE);
  const done: string[] = [];
  keys.forEach((key, i) => {
    const answer = remote.key(key);
    const next = keys[i + 1];
    if (answer.type !== 'wait' || (next && next.at < key.at + LONE_MS)) return;
    const action = remote.due(key.at + LONE_MS);
    if (action) done.push(action);
  });
  return done;
}

describe('a lone key', () => {
  it.each([
    ['Enter', 'planned'],
    ['0', 'empty'],
    ['E', 'empty'],
    ['e', 'empty'],
    ['n', 'unlabelled'],
    ['x', 'not-visible'],
    ['p', 'photo'],
    ['Backspace', 'undo'],
  ])('%s means %s', (key, action) => {
    expect(play([{ key, at: 1000 }])).toEqual([action]);
  });

  it('means nothing with a modifier, held down, in a text field or on a control reached by keyboard', () => {
    for (const more of [{ withModifier: true }, { repeat: true }, { taken: true }]) {
      expect(play([{ key: 'Enter', at: 1000, ...more }])).toEqual([]);
    }
    expect(play([{ key: 'q', at: 1000 }])).toEqual([]);
  });

  it('counts once when the thumb slips', () => {
    expect(
      play([
        { key: 'Enter', at: 1000 },
        { key: 'Enter', at: 1000 + SETTLE - 1 },
        { key: 'Enter', at: 1000 + 2 * SETTLE },
      ]),
    ).toEqual(['planned', 'planned']);
  });
});

describe('a hand scanner', () => {
  it('says nothing through the remote, whatever it types and however short it is', () => {
    const gap = fc.integer({ min: 0, max: MAX_GAP_MS });
    const key = fc.constantFrom('0', 'e', 'n', 'x', 'p', '1', '4', 'E', '-');
    fc.assert(
      fc.property(fc.array(fc.tuple(key, gap), { minLength: 1, maxLength: 20 }), gap, (typed, last) => {
        let at = 10_000;
        const keys: PressedKey[] = typed.map(([one, wait]) => {
          at += wait;
          return { key: one, at };
        });
        keys.push({ key: 'Enter', at: at + last });
        expect(play(keys)).toEqual([]);
      }),
    );
  });

  it('does not keep the next lone key from meaning something', () => {
    const burst = [...'0101'].map((key, i) => ({ key, at: 1000 + i * 10 }));
    expect(play([...burst, { key: 'Enter', at: 1040 }, { key: 'Enter', at: 2000 }])).toEqual(['planned']);
  });
});

describe('the keys that were set', () => {
  it('never mean two things at once', () => {
    const names = fc.constantFrom('a', 'Enter', '0', 'PageDown', ' ', 'F5', 'ArrowUp');
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom(...REMOTE_ACTIONS), names)), (changes) => {
        let keys = DEFAULT_KEYS;
        for (const [action, key] of changes) {
          keys = withKey(keys, action, key);
          expect(actionOf(keys, key)).toBe(action);
        }
        const all = REMOTE_ACTIONS.flatMap((action) => keys[action]);
        expect(new Set(all).size).toBe(all.length);
      }),
    );
  });

  it('leave Tab, Escape and the modifiers to the browser', () => {
    expect(['Tab', 'Escape', 'Shift', 'Control', 'Unidentified', ''].filter(mayBeSet)).toEqual([]);
    expect(mayBeSet('AudioVolumeUp')).toBe(true);
  });
});
