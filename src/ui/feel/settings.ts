// Owns what a person may set about the feel of a walk, its defaults, and the reading of what was kept. Sound, speech,
// vibration, remote keys and gloves are all off until somebody turns them on.

export const REMOTE_ACTIONS = ['planned', 'empty', 'unlabelled', 'not-visible', 'photo', 'undo'] as const;
export type RemoteAction = (typeof REMOTE_ACTIONS)[number];
/** Names of keys as the browser gives them (UI Events, KeyboardEvent key values); letters in lower case. */
export type RemoteKeys = Readonly<Record<RemoteAction, readonly string[]>>;

export interface FeelSettings {
  tones: boolean;
  speech: boolean;
  vibration: boolean;
  /** The ear that tones go to; the other one stays with the room. */
  ear: 'both' | 'left' | 'right';
  /** A live microphone is near: no sound at all, whatever else is set. */
  micNear: boolean;
  gloves: boolean;
  upright: boolean;
  remote: boolean;
  keys: RemoteKeys;
  /** Factor of the camera's own scale; null until somebody moves the slider. */
  zoom: number | null;
}

/** Letters of the words on the cells; Page Up and Down are what many small presenters send (from memory). */
export const DEFAULT_KEYS: RemoteKeys = {
  planned: ['Enter', 'PageDown'],
  empty: ['0', 'e'],
  unlabelled: ['n'],
  'not-visible': ['x'],
  photo: ['p'],
  undo: ['Backspace', 'PageUp'],
};

export const DEFAULT_FEEL: FeelSettings = {
  tones: false,
  speech: false,
  vibration: false,
  ear: 'both',
  micNear: false,
  gloves: false,
  upright: false,
  remote: false,
  keys: DEFAULT_KEYS,
  zoom: null,
};

/** What was kept, made whole: a missing or spoiled value is the default, a value of another version is ignored. */
export function feelOf(kept: unknown): FeelSettings {
  const from = fieldsOf(kept);
  const on = (key: keyof FeelSettings) => from[key] === true;
  return {
    tones: on('tones'),
    speech: on('speech'),
    vibration: on('vibration'),
    ear: from.ear === 'left' || from.ear === 'right' ? from.ear : 'both',
    micNear: on('micNear'),
    gloves: on('gloves'),
    upright: on('upright'),
    remote: on('remote'),
    keys: keysOf(from.keys),
    zoom: typeof from.zoom === 'number' && Number.isFinite(from.zoom) && from.zoom > 0 ? from.zoom : null,
  };
}

function keysOf(kept: unknown): RemoteKeys {
  const from = fieldsOf(kept);
  const one = (action: RemoteAction) => {
    const keys = from[action];
    return Array.isArray(keys) && keys.every((key) => typeof key === 'string') ? keys : DEFAULT_KEYS[action];
  };
  return {
    planned: one('planned'),
    empty: one('empty'),
    unlabelled: one('unlabelled'),
    'not-visible': one('not-visible'),
    photo: one('photo'),
    undo: one('undo'),
  };
}

function fieldsOf(kept: unknown): Readonly<Record<string, unknown>> {
  return typeof kept === 'object' && kept !== null ? { ...kept } : {};
}

/** Whether anything would be heard at all; then, and only then, the walk offers the way to silence it. */
export function hasSound(feel: Pick<FeelSettings, 'tones' | 'speech'>): boolean {
  return feel.tones || feel.speech;
}
