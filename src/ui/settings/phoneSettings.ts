// What this phone is set to, read by its form: every value is kept by itself, and one that is missing, spoiled or of
// another version is the default. By hand, since the first screen does without the schemas.
import { feelOf } from '../feel/settings.ts';
import type { PhoneSettings } from '../services.ts';

const THEMES = ['auto', 'day', 'night', 'sunlight', 'black'] as const satisfies readonly PhoneSettings['theme'][];

export function phoneSettingsOf(kept: Readonly<Record<string, unknown>>): PhoneSettings {
  const { author, theme, hand, camera, feel } = kept;
  return {
    author: typeof author === 'string' ? author : '',
    theme: THEMES.find((one) => one === theme) ?? 'auto',
    hand: hand === 'left' ? 'left' : 'right',
    camera: cameraOf(camera),
    feel: feel === undefined || feel === null ? null : feelOf(feel),
  };
}

function cameraOf(kept: unknown): PhoneSettings['camera'] {
  if (typeof kept !== 'object' || kept === null || !('id' in kept) || !('label' in kept)) return null;
  const { id, label } = kept;
  return typeof id === 'string' && typeof label === 'string' ? { id, label } : null;
}
