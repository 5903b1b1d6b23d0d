// Owns the browser's own sound, voice, buzz, wake lock and orientation, made small enough to stand in for. Only this
// file names them. What a real phone makes of each is unproven: it was run against stand-ins in tests.
//
// Limits: All of these were tried on stand-ins in Chromium; no real phone was used.
import { createSpeaker, type Speaker } from './speech.ts';
import { createTones, type Tones } from './tones.ts';
import type { WakePorts } from './wakeLock.ts';

export function phoneTones(): Tones {
  return createTones({
    makeContext: () => (typeof AudioContext === 'function' ? new AudioContext({ latencyHint: 'interactive' }) : null),
    now: () => performance.now(),
    after(ms, fn) {
      const timer = setTimeout(fn, ms);
      return () => clearTimeout(timer);
    },
  });
}

export function phoneSpeaker(): Speaker {
  const synth = 'speechSynthesis' in globalThis ? speechSynthesis : null;
  // Some browsers load their voices only once they were asked for.
  synth?.getVoices();
  return createSpeaker(synth, (words, voice) => {
    const utterance = new SpeechSynthesisUtterance(words);
    utterance.voice = voice;
    utterance.lang = voice.lang;
    return utterance;
  });
}

export function canVibrate(): boolean {
  return typeof navigator.vibrate === 'function';
}

export function vibrate(pattern: readonly number[]): void {
  if (canVibrate()) navigator.vibrate([...pattern]);
}

export const phoneWake: Pick<WakePorts, 'request' | 'visible'> = {
  request: 'wakeLock' in navigator ? () => navigator.wakeLock.request('screen') : null,
  visible: () => document.visibilityState === 'visible',
};

type Lockable = ScreenOrientation & { lock?: (to: 'portrait') => Promise<void> };

/** Holds the page upright; false where the browser does not let a page do that (mostly outside the installed app). */
export async function holdUpright(hold: boolean): Promise<boolean> {
  const orientation = screen.orientation as Lockable | undefined;
  try {
    if (!hold) orientation?.unlock();
    else if (orientation?.lock) await orientation.lock('portrait');
    else return false;
    return true;
  } catch {
    return false;
  }
}
