// Owns what a key of a small keyboard or remote means in the walk. Pure: times are arguments. Must never take a key out
// of a hand scanner's burst, out of a text field, or away from a control that was reached by keyboard.
import { MAX_GAP_MS } from '../../scan/wedge.ts';
import { REMOTE_ACTIONS, type RemoteAction, type RemoteKeys } from './settings.ts';

export interface PressedKey {
  key: string;
  at: number;
  repeat?: boolean;
  withModifier?: boolean;
  /** A text field has the focus, or a control that the Tab key reached. */
  taken?: boolean;
}

type RemoteAnswer =
  /** Not ours. */
  | { type: 'pass' }
  /** Ours if nothing follows at once: keep the page from acting on it, and ask `due` after `LONE_MS`. */
  | { type: 'wait'; action: RemoteAction };

/** A key alone for longer than a hand scanner leaves between two of its keys. */
export const LONE_MS = MAX_GAP_MS + 10;

/** Letters without their case, since a remote may send either; other keys by their name. */
function keyName(key: string): string {
  return [...key].length === 1 ? key.toLowerCase() : key;
}

export function actionOf(keys: RemoteKeys, key: string): RemoteAction | null {
  const name = keyName(key);
  return REMOTE_ACTIONS.find((action) => keys[action].includes(name)) ?? null;
}

const RESERVED = new Set(['Tab', 'Escape', 'Shift', 'Control', 'Alt', 'AltGraph', 'Meta', 'CapsLock', 'Dead']);

/** Keys that the browser, the dialog or assistive technology needs, and keys without a name. */
export function mayBeSet(key: string): boolean {
  return key !== '' && key !== 'Unidentified' && key !== 'Process' && !RESERVED.has(key);
}

/** One key for one action: taken from whichever action had it before. */
export function withKey(keys: RemoteKeys, action: RemoteAction, key: string): RemoteKeys {
  const name = keyName(key);
  const next = { ...keys };
  for (const one of REMOTE_ACTIONS) next[one] = keys[one].filter((had) => had !== name);
  return { ...next, [action]: [name] };
}

export interface Remote {
  key(pressed: PressedKey): RemoteAnswer;
  /** The action that the last key asked for, once it was alone long enough; given once. */
  due(at: number): RemoteAction | null;
}

/** `settleMs`: a second action within this time is a slip of the thumb. */
export function createRemote(keys: RemoteKeys, settleMs: number): Remote {
  let last = Number.NEGATIVE_INFINITY;
  let acted = Number.NEGATIVE_INFINITY;
  let waiting: { action: RemoteAction; at: number } | null = null;
  return {
    key({ key, at, repeat, withModifier, taken }) {
      // Shift and its like come between the keys of a burst and say nothing.
      if (RESERVED.has(key) && key !== 'Tab' && key !== 'Escape') return { type: 'pass' };
      const alone = at - last > LONE_MS;
      last = at;
      if (!alone) waiting = null;
      if (!alone || repeat || withModifier || taken) return { type: 'pass' };
      const action = actionOf(keys, key);
      waiting = action === null ? null : { action, at };
      return action === null ? { type: 'pass' } : { type: 'wait', action };
    },
    due(at) {
      if (!waiting || at - waiting.at < LONE_MS) return null;
      const { action, at: pressed } = waiting;
      waiting = null;
      if (pressed - acted < settleMs) return null;
      acted = pressed;
      return action;
    },
  };
}
