// The word in the walk's bar by which sound is silenced at once, there only for who turned sound on.
import type { FeelSettings } from './settings.ts';
import { hasSound } from './settings.ts';
import type { Feel } from './useFeel.ts';

/** One press says that a live microphone is near: no sound until the next press, through a reload too. */
export function SoundToggle({ feel }: { feel: Pick<Feel, 'settings' | 'set'> }) {
  const settings = feel.settings.value;
  if (!hasSound(settings)) return null;
  return (
    <button
      type="button"
      class="walk-caution"
      aria-label={`${soundWords(settings)}, live microphone near`}
      aria-pressed={settings.micNear}
      onClick={() => feel.set({ micNear: !feel.settings.peek().micNear })}
    >
      {soundWords(settings)}
    </button>
  );
}

function soundWords(settings: Pick<FeelSettings, 'micNear'>): string {
  return settings.micNear ? 'No sound' : 'Sound on';
}
