// What was kept of this phone's settings is read by its form. Names and values are invented.
import { describe, expect, it } from 'vitest';
import { DEFAULT_FEEL } from '../../../src/ui/feel/settings.ts';
import { phoneSettingsOf } from '../../../src/ui/settings/phoneSettings.ts';

describe('settings of the phone', () => {
  it('are the defaults where nothing was kept', () => {
    expect(phoneSettingsOf({})).toEqual({ author: '', theme: 'auto', hand: 'right', camera: null, feel: null });
  });

  it('come back as they were kept', () => {
    const kept = {
      author: 'Mara Field',
      theme: 'sunlight',
      hand: 'left',
      camera: { id: 'c1', label: 'Back camera' },
      feel: { ...DEFAULT_FEEL, tones: true, ear: 'left' as const },
    };
    expect(phoneSettingsOf(kept)).toEqual(kept);
  });

  it('lose a spoiled value or one of another version alone', () => {
    const kept = { author: 7, theme: 'sepia', hand: 'left', camera: { id: 'c1' }, feel: 'loud', later: true };
    expect(phoneSettingsOf(kept)).toEqual({
      author: '',
      theme: 'auto',
      hand: 'left',
      camera: null,
      feel: DEFAULT_FEEL,
    });
  });
});
