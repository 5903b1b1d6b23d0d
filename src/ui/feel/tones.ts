// Owns the tones: an audio context made on a tap, woken whenever it is not running, closed when nothing sounded for a
// while. Must never play late: what cannot sound now is dropped. Tried on a stand-in only; no real phone was heard.

import type { Tone } from './cueFor.ts';
import type { FeelSettings } from './settings.ts';

/** The little of an AudioContext that is needed, so that a test can stand in for it. */
export type Context = Pick<
  AudioContext,
  'currentTime' | 'destination' | 'resume' | 'close' | 'createOscillator' | 'createGain' | 'createStereoPanner'
> & { readonly state: string };

type Note = { hz: number; from: number; ms: number };

/** Up for a match, down for a difference, one low and short for "look at the screen", a tick for what was kept. */
export const NOTES: Readonly<Record<Tone, readonly Note[]>> = {
  match: [
    { hz: 880, from: 0, ms: 60 },
    { hz: 1320, from: 70, ms: 90 },
  ],
  differs: [
    { hz: 520, from: 0, ms: 120 },
    { hz: 350, from: 150, ms: 190 },
  ],
  look: [{ hz: 220, from: 0, ms: 160 }],
  kept: [{ hz: 660, from: 0, ms: 30 }],
};

export const IDLE_MS = 90_000;
/** A beep this late would be taken for the next jack's. */
const TOO_LATE_MS = 250;
const LOUD = 0.25;
/** Without a ramp each note begins and ends with a click. */
const RAMP_S = 0.008;
const PAN: Readonly<Record<FeelSettings['ear'], number>> = { both: 0, left: -1, right: 1 };

export interface Tones {
  /** From a tap: makes or wakes the context. Phones let a page sound only after one. */
  wake(): void;
  play(tone: Tone, ear: FeelSettings['ear']): void;
  /** Ends what sounds and lets the context go. */
  silence(): void;
}

export function createTones(ports: {
  makeContext: () => Context | null;
  now: () => number;
  after: (ms: number, fn: () => void) => () => void;
}): Tones {
  let context: Context | null = null;
  let stopIdle = () => {};

  function closeSoon(): void {
    stopIdle();
    stopIdle = ports.after(IDLE_MS, silence);
  }
  function silence(): void {
    stopIdle();
    const closing = context;
    context = null;
    void closing?.close().catch(() => undefined);
  }
  /** After a call or a lock the state is `interrupted`, which a test for `suspended` would miss. */
  function awake(): { on: Context; running: Promise<unknown> } | null {
    if (context?.state === 'closed') context = null;
    context ??= ports.makeContext();
    if (!context) return null;
    closeSoon();
    const running = context.state === 'running' ? Promise.resolve() : context.resume();
    return { on: context, running };
  }

  return {
    wake() {
      awake()?.running.catch(() => undefined);
    },
    play(tone, ear) {
      const asked = ports.now();
      const made = awake();
      if (!made) return;
      const sound = () => {
        if (context !== made.on || made.on.state !== 'running' || ports.now() - asked > TOO_LATE_MS) return;
        for (const note of NOTES[tone]) sing(made.on, note, PAN[ear]);
      };
      if (made.on.state === 'running') sound();
      else void made.running.then(sound, () => undefined);
    },
    silence,
  };
}

function sing(context: Context, { hz, from, ms }: Note, pan: number): void {
  const start = context.currentTime + from / 1000;
  const end = start + ms / 1000;
  const voice = context.createOscillator();
  const gain = context.createGain();
  const panner = context.createStereoPanner();
  voice.frequency.value = hz;
  panner.pan.value = pan;
  gain.gain.setValueAtTime(0, start);
  gain.gain.linearRampToValueAtTime(LOUD, start + RAMP_S);
  gain.gain.setValueAtTime(LOUD, end - RAMP_S);
  gain.gain.linearRampToValueAtTime(0, end);
  voice.connect(gain);
  gain.connect(panner);
  panner.connect(context.destination);
  voice.start(start);
  voice.stop(end);
}
