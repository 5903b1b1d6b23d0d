// A stand-in for a phone's sound, voice, buzz and wake lock, which writes down what it was asked for in order. Real
// phones differ; what holds here is our own order and our own silence.
import { createFeedback } from '../../../src/ui/feel/feedback.ts';
import { DEFAULT_FEEL, type FeelSettings } from '../../../src/ui/feel/settings.ts';
import { createSpeaker } from '../../../src/ui/feel/speech.ts';
import { type Context, createTones } from '../../../src/ui/feel/tones.ts';

type State = 'suspended' | 'running' | 'interrupted' | 'closed';

export function fakePhone(options: { resumes?: boolean; voices?: Partial<SpeechSynthesisVoice>[] } = {}) {
  const heard: string[] = [];
  const contexts: { state: State; pans: number[]; hz: number[] }[] = [];
  let time = 0;
  let timers: { at: number; fn: () => void }[] = [];

  function makeContext(): Context {
    const mine: { state: State; pans: number[]; hz: number[] } = { state: 'suspended', pans: [], hz: [] };
    contexts.push(mine);
    heard.push('context made');
    const param = (put: (value: number) => void) => ({
      set value(value: number) {
        put(value);
      },
      setValueAtTime() {},
      linearRampToValueAtTime() {},
    });
    const node = (more: object) => ({ connect() {}, ...more });
    return {
      get state() {
        return mine.state;
      },
      currentTime: 0,
      destination: {},
      async resume() {
        if (options.resumes === false) throw new Error('no tap yet');
        // As on a phone, it runs only a moment after it was asked to.
        await Promise.resolve();
        mine.state = 'running';
        heard.push('context runs');
      },
      async close() {
        mine.state = 'closed';
        heard.push('context closed');
      },
      createOscillator: () =>
        node({
          frequency: param((hz) => mine.hz.push(hz)),
          start() {
            heard.push(`tone ${mine.hz.at(-1)}`);
          },
          stop() {},
        }),
      createGain: () => node({ gain: param(() => {}) }),
      createStereoPanner: () => node({ pan: param((pan) => mine.pans.push(pan)) }),
    } as unknown as Context;
  }

  const tones = createTones({
    makeContext,
    now: () => time,
    after(ms, fn) {
      const timer = { at: time + ms, fn };
      timers.push(timer);
      return () => {
        timers = timers.filter((one) => one !== timer);
      };
    },
  });
  const voices = options.voices ?? [{ localService: true, lang: 'en-GB', default: true }];
  const speaker = createSpeaker(
    {
      speak: (utterance) => heard.push(`says ${utterance.text}`),
      cancel: () => heard.push('hushed'),
      getVoices: () => voices as SpeechSynthesisVoice[],
    },
    (words) => ({ text: words }) as SpeechSynthesisUtterance,
  );
  const state: { feel: FeelSettings; paused: boolean } = { feel: DEFAULT_FEEL, paused: false };
  const feedback = createFeedback(
    { tones, speaker, vibrate: (pattern) => heard.push(`buzz ${pattern.join(' ')}`) },
    () => state,
  );
  return {
    heard,
    contexts,
    tones,
    feedback,
    state,
    set(feel: Partial<FeelSettings>) {
      state.feel = { ...state.feel, ...feel };
    },
    pass(ms: number) {
      time += ms;
      const due = timers.filter(({ at }) => at <= time);
      timers = timers.filter(({ at }) => at > time);
      for (const { fn } of due) fn();
    },
  };
}

/** Promises that are under way are done after this. */
export const settled = () => new Promise<void>((resolve) => setTimeout(resolve, 0));
