// Owns the order of things after a verdict: buzz, tone, words; and the silence. One object per walk. It decides nothing
// about verdicts (cueFor does) and must never sound once silence was asked for.

import { cueFor, maySound, type Said } from './cueFor.ts';
import type { FeelSettings } from './settings.ts';
import type { Speaker } from './speech.ts';
import type { Tones } from './tones.ts';

interface FeedbackPorts {
  tones: Tones;
  speaker: Speaker;
  vibrate: (pattern: readonly number[]) => void;
}

export interface Feedback {
  verdict(said: Said): void;
  /** Any tap: the only moment in which a phone lets a page begin to sound. */
  tapped(): void;
  /** Settings or pause changed: what may not sound any more ends at once. */
  changed(): void;
  end(): void;
}

export function createFeedback(ports: FeedbackPorts, state: () => { feel: FeelSettings; paused: boolean }): Feedback {
  const silence = () => {
    ports.tones.silence();
    ports.speaker.silence();
  };
  return {
    verdict(said) {
      const { feel, paused } = state();
      const signal = cueFor(said, feel, paused);
      if (signal.buzz) ports.vibrate(signal.buzz);
      if (signal.tone) ports.tones.play(signal.tone, feel.ear);
      if (signal.say) ports.speaker.say(signal.say);
    },
    tapped() {
      const { feel, paused } = state();
      if (feel.tones && maySound(feel, paused)) ports.tones.wake();
    },
    changed() {
      const { feel, paused } = state();
      const may = maySound(feel, paused);
      if (!may || !feel.tones) ports.tones.silence();
      if (!may || !feel.speech) ports.speaker.silence();
    },
    end: silence,
  };
}
