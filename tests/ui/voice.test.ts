// Speaking a note: microphone asked for on the press only, let go whatever happens, two minutes at most. Microphone
// and recorder are doubles; tests/browser/photo.test.ts uses the browser's own.
import { describe, expect, it } from 'vitest';
import { createVoice, lastsToWords, type RecorderLike, VOICE_MAX_MS, type VoicePorts } from '../../src/ui/voice.ts';

function bench(change: Partial<VoicePorts> = {}) {
  const log: string[] = [];
  const spoken: { size: number; type: string; lasts: number }[] = [];
  let time = 1000;
  let late: (() => void) | null = null;
  let ended: (() => void) | null = null;
  let recorder: RecorderLike | null = null;
  const track = {
    stop: () => log.push('let go'),
    addEventListener: (_: string, call: () => void) => {
      ended = call;
    },
  };
  const stream = { getTracks: () => [track] } as unknown as MediaStream;
  const voice = createVoice(
    {
      microphone: async () => {
        log.push('asked');
        return stream;
      },
      recorder: (_, mime) => {
        recorder = {
          mimeType: mime ?? '',
          state: 'inactive',
          start() {
            this.state = 'recording';
            log.push(`records ${mime}`);
          },
          stop() {
            this.state = 'inactive';
            this.ondataavailable?.({ data: new Blob(['sound']) });
            this.onstop?.();
          },
          ondataavailable: null,
          onstop: null,
          onerror: null,
        };
        return recorder;
      },
      canRecord: (mime) => mime === 'audio/mp4',
      now: () => time,
      after: (ms, call) => {
        log.push(`at most ${ms}`);
        late = call;
        return () => {
          late = null;
        };
      },
      ...change,
    },
    (sound, lasts) => spoken.push({ size: sound.size, type: sound.type, lasts }),
  );
  return {
    voice,
    log,
    spoken,
    pass: (ms: number) => {
      time += ms;
    },
    late: () => late?.(),
    takeAway: () => ended?.(),
    recorder: () => recorder,
  };
}

describe('a voice note', () => {
  it('asks for the microphone on the press, records what the browser can, and lets go at the stop', async () => {
    const { voice, log, spoken, pass } = bench();
    expect(log).toEqual([]);
    await voice.start();
    expect(voice.state.value).toEqual({ type: 'recording', since: 1000 });
    expect(log).toEqual(['asked', `at most ${VOICE_MAX_MS}`, 'records audio/mp4']);
    pass(4200);
    voice.stop();
    expect(spoken).toEqual([{ size: 5, type: 'audio/mp4', lasts: 4200 }]);
    expect(log.at(-1)).toBe('let go');
    expect(voice.state.value).toEqual({ type: 'ready' });
  });

  it('ends by itself after two minutes, and when a call takes the microphone away', async () => {
    const long = bench();
    await long.voice.start();
    long.pass(VOICE_MAX_MS + 50);
    long.late();
    expect(long.spoken).toEqual([{ size: 5, type: 'audio/mp4', lasts: VOICE_MAX_MS }]);
    const called = bench();
    await called.voice.start();
    called.pass(900);
    called.takeAway();
    expect(called.spoken).toMatchObject([{ lasts: 900 }]);
    expect(called.log.filter((what) => what === 'let go')).toHaveLength(1);
  });

  it('thrown away is handed to nobody, also while the microphone is only asked for', async () => {
    const { voice, spoken, log } = bench();
    await voice.start();
    voice.discard();
    expect(spoken).toEqual([]);
    expect(log.at(-1)).toBe('let go');
    const asking = bench();
    const begun = asking.voice.start();
    asking.voice.discard();
    await begun;
    expect(asking.log).toEqual(['asked', 'let go']);
    expect(asking.voice.state.value).toEqual({ type: 'ready' });
  });

  it('begins once, however often it is pressed', async () => {
    const { voice, log } = bench();
    await Promise.all([voice.start(), voice.start()]);
    await voice.start();
    expect(log.filter((what) => what === 'asked')).toHaveLength(1);
  });

  it.each([
    ['NotAllowedError', 'no-permission'],
    ['SecurityError', 'no-permission'],
    ['NotFoundError', 'no-microphone'],
    ['NotReadableError', 'microphone-in-use'],
  ])('refused with %s it says %s', async (name, why) => {
    const { voice } = bench({ microphone: () => Promise.reject(new DOMException('no', name)) });
    await voice.start();
    expect(voice.state.value).toEqual({ type: 'failed', why });
  });

  it('tells a browser without microphone or recorder, and lets go where the recorder breaks', async () => {
    const bare = bench({ microphone: null });
    await bare.voice.start();
    expect(bare.voice.state.value).toEqual({ type: 'failed', why: 'insecure-context' });
    const old = bench({ recorder: null });
    await old.voice.start();
    expect(old.voice.state.value).toEqual({ type: 'failed', why: 'no-recorder' });
    expect(old.log).toEqual([]);
    const broken = bench({
      recorder: () => {
        throw new DOMException('no', 'NotSupportedError');
      },
    });
    await broken.voice.start();
    expect(broken.voice.state.value).toEqual({ type: 'failed', why: 'no-recorder' });
    expect(broken.log).toEqual(['asked', 'let go']);
  });
});

it('writes lengths as minutes and seconds', () => {
  expect([0, 499, 65_000, VOICE_MAX_MS].map(lastsToWords)).toEqual(['0:00', '0:00', '1:05', '2:00']);
});
