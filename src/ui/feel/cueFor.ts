// Owns which verdict gives which signal to ear and hand. Pure: it plays nothing, so that a test can hold the rule that
// beside a live microphone, and while the walk is paused, there is no sound at all.
import type { Verdict } from '../../core/report/walk/verdict.ts';
import { labelToShow } from '../walk/walkState.ts';
import type { FeelSettings } from './settings.ts';

export type Tone = 'match' | 'differs' | 'look' | 'kept';

/** Milliseconds of buzz and rest in turn, as the Vibration API takes them. */
type Buzz = readonly number[];

interface Cue {
  tone: Tone | null;
  buzz: Buzz | null;
  say: string | null;
}

export type Said = Pick<Verdict, 'variant' | 'jack' | 'label' | 'word'>;

const TONE_OF: Readonly<Record<Verdict['variant'], Tone>> = {
  'as-planned': 'match',
  differs: 'differs',
  question: 'look',
  hazard: 'look',
  note: 'kept',
};

/** One short for a match, two for a difference, one long for "look at the screen", a tick for what was kept. */
export const BUZZ_OF: Readonly<Record<Tone, Buzz>> = {
  match: [40],
  differs: [80, 90, 80],
  look: [260],
  kept: [15],
};

/** "P03, 1004, differs": the jack first, as on the screen. A long or hostile label is cut as on the screen. */
export function toSpoken({ jack, label, word }: Said): string {
  return [jack, label === null ? '' : labelToShow(label), word].filter((part) => part !== '').join(', ');
}

/** Whether anything may sound now. Going live and a microphone near each forbid it alone. */
export function maySound(feel: Pick<FeelSettings, 'micNear'>, paused: boolean): boolean {
  return !feel.micNear && !paused;
}

/** `paused` is "Going live". Vibration is no sound, but a paused walk says nothing in any way. */
export function cueFor(
  verdict: Said,
  feel: Pick<FeelSettings, 'tones' | 'speech' | 'vibration' | 'micNear'>,
  paused: boolean,
): Cue {
  const tone = TONE_OF[verdict.variant];
  const sounds = maySound(feel, paused);
  return {
    tone: sounds && feel.tones ? tone : null,
    buzz: feel.vibration && !paused ? BUZZ_OF[tone] : null,
    say: sounds && feel.speech ? toSpoken(verdict) : null,
  };
}
