// One line in the walk, there only for who turned sound on: what may be heard, and the way to silence all of it.
import type { FeelSettings } from './settings.ts';
import { hasSound } from './settings.ts';
import type { Feel } from './useFeel.ts';

export function SoundBar({ feel }: { feel: Pick<Feel, 'settings' | 'set'> }) {
  const settings = feel.settings.value;
  if (!hasSound(settings)) return null;
  return (
    <div class="sound-bar">
      <span role="status">{soundWords(settings)}</span>
      <button
        type="button"
        aria-pressed={settings.micNear}
        onClick={() => feel.set({ micNear: !feel.settings.peek().micNear })}
      >
        Live microphone near
      </button>
    </div>
  );
}

export function soundWords(settings: Pick<FeelSettings, 'micNear' | 'tones' | 'speech'>): string {
  if (settings.micNear) return 'No sound.';
  if (settings.tones && settings.speech) return 'Tones and words are on.';
  return settings.tones ? 'Tones are on.' : 'Spoken words are on.';
}
