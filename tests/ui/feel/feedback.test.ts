// What ear and hand are told after a verdict, in which order, and that silence is silence. On a stand-in for a phone.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BUZZ_OF, cueFor, type Said, toSpoken } from '../../../src/ui/feel/cueFor.ts';
import { DEFAULT_FEEL, feelOf } from '../../../src/ui/feel/settings.ts';
import { IDLE_MS } from '../../../src/ui/feel/tones.ts';
import { fakePhone, settled } from './phone.ts';

const P02: Said = { variant: 'as-planned', jack: 'P02', label: '1002', word: 'as planned' };
const P03: Said = { variant: 'differs', jack: 'P03', label: '1004', word: 'differs' };
const ALL = { tones: true, speech: true, vibration: true };
const said = fc.record({
  variant: fc.constantFrom<Said['variant'][]>('as-planned', 'differs', 'question', 'hazard', 'note'),
  jack: fc.string(),
  label: fc.option(fc.string()),
  word: fc.string(),
});
const settings = fc.record({
  tones: fc.boolean(),
  speech: fc.boolean(),
  vibration: fc.boolean(),
  micNear: fc.boolean(),
});

describe('which verdict gives which signal', () => {
  it('says nothing in any way until somebody turned it on', () => {
    fc.assert(
      fc.property(said, (verdict) => {
        expect(cueFor(verdict, DEFAULT_FEEL, false)).toEqual({ tone: null, buzz: null, say: null });
      }),
    );
  });

  it('has no sound beside a live microphone or while going live, whatever is set', () => {
    fc.assert(
      fc.property(said, settings, fc.boolean(), (verdict, feel, paused) => {
        const signal = cueFor(verdict, feel, paused);
        if (feel.micNear || paused) expect(signal).toMatchObject({ tone: null, say: null });
        if (paused) expect(signal.buzz).toBeNull();
        if (feel.micNear && !paused) expect(signal.buzz !== null).toBe(feel.vibration);
      }),
    );
  });

  it('tells match, difference and "look" apart by tone and by buzz alone', () => {
    const of = (variant: Said['variant']) => cueFor({ ...P03, variant }, { ...ALL, micNear: false }, false);
    const kinds = (['as-planned', 'differs', 'hazard', 'note'] as const).map(of);
    expect(new Set(kinds.map(({ tone }) => tone)).size).toBe(4);
    expect(new Set(kinds.map(({ buzz }) => buzz?.join())).size).toBe(4);
    expect(of('question')).toEqual(of('hazard'));
    for (const buzz of Object.values(BUZZ_OF)) expect(buzz.reduce((sum, ms) => sum + ms, 0)).toBeLessThan(400);
  });

  it('speaks the jack first, then the label, then the word', () => {
    expect(toSpoken(P03)).toBe('P03, 1004, differs');
    expect(toSpoken({ ...P03, label: null, word: 'empty, as planned' })).toBe('P03, empty, as planned');
    expect(toSpoken({ ...P03, label: `10\u202E04${'x'.repeat(900)}` }).length).toBeLessThan(80);
  });
});

describe('on a stand-in for a phone', () => {
  it('buzzes, sounds and speaks once for each verdict, in that order', async () => {
    const phone = fakePhone();
    phone.set(ALL);
    phone.feedback.tapped();
    await settled();
    phone.feedback.verdict(P02);
    phone.feedback.verdict(P03);
    expect(phone.heard).toEqual([
      'context made',
      'context runs',
      'buzz 40',
      'tone 880',
      'tone 1320',
      'hushed',
      'says P02, 1002, as planned',
      'buzz 80 90 80',
      'tone 520',
      'tone 350',
      'hushed',
      'says P03, 1004, differs',
    ]);
  });

  it('makes no context at all while nothing is turned on, or a microphone is near', async () => {
    const phone = fakePhone();
    phone.feedback.tapped();
    phone.feedback.verdict(P03);
    phone.set({ ...ALL, micNear: true });
    phone.feedback.tapped();
    phone.feedback.verdict(P03);
    await settled();
    expect(phone.heard).toEqual(['buzz 80 90 80']);
  });

  it('falls silent at once when going live, and stays so until it is over', async () => {
    const phone = fakePhone();
    phone.set(ALL);
    phone.feedback.tapped();
    await settled();
    phone.state.paused = true;
    phone.feedback.changed();
    phone.heard.length = 0;
    phone.feedback.tapped();
    phone.feedback.verdict(P03);
    await settled();
    expect(phone.heard).toEqual([]);
    expect(phone.contexts.map(({ state }) => state)).toEqual(['closed']);
    phone.state.paused = false;
    phone.feedback.tapped();
    await settled();
    phone.feedback.verdict(P02);
    expect(phone.heard).toContain('tone 880');
  });

  it('hushes the words that are being spoken when the microphone is said to be near', () => {
    const phone = fakePhone();
    phone.set(ALL);
    phone.feedback.verdict(P03);
    phone.heard.length = 0;
    phone.set({ micNear: true });
    phone.feedback.changed();
    expect(phone.heard).toContain('hushed');
  });

  it('puts tones on the ear that was chosen', async () => {
    for (const [ear, pan] of [
      ['left', -1],
      ['right', 1],
      ['both', 0],
    ] as const) {
      const phone = fakePhone();
      phone.set({ tones: true, ear });
      phone.feedback.tapped();
      await settled();
      phone.feedback.verdict(P02);
      expect(phone.contexts[0]?.pans).toEqual([pan, pan]);
    }
  });

  it('wakes a context that a call interrupted, on the next tap', async () => {
    const phone = fakePhone();
    phone.set({ tones: true });
    phone.feedback.tapped();
    await settled();
    for (const context of phone.contexts) context.state = 'interrupted';
    phone.feedback.tapped();
    await settled();
    phone.feedback.verdict(P02);
    expect(phone.contexts).toHaveLength(1);
    expect(phone.heard.filter((what) => what.startsWith('tone'))).toEqual(['tone 880', 'tone 1320']);
  });

  it('never plays a tone late, nor one that the phone did not allow', async () => {
    const refused = fakePhone({ resumes: false });
    refused.set({ tones: true });
    refused.feedback.verdict(P02);
    await settled();
    expect(refused.heard).toEqual(['context made']);
    const late = fakePhone();
    late.set({ tones: true });
    late.feedback.verdict(P02);
    late.pass(2000);
    await settled();
    expect(late.heard.filter((what) => what.startsWith('tone'))).toEqual([]);
  });

  it('lets the context go when nothing sounded for a while, and makes another when it is needed', async () => {
    const phone = fakePhone();
    phone.set({ tones: true });
    phone.feedback.tapped();
    await settled();
    phone.feedback.verdict(P02);
    phone.pass(IDLE_MS - 1);
    expect(phone.contexts[0]?.state).toBe('running');
    phone.pass(1);
    expect(phone.contexts[0]?.state).toBe('closed');
    phone.feedback.verdict(P02);
    await settled();
    expect(phone.contexts).toHaveLength(2);
    expect(phone.contexts[1]?.hz).toEqual([880, 1320]);
  });

  it('speaks only by a voice of the phone itself', () => {
    const phone = fakePhone({ voices: [{ localService: false, lang: 'en-GB', default: true }] });
    phone.set({ speech: true });
    phone.feedback.verdict(P03);
    expect(phone.heard).toEqual([]);
  });
});

describe('what was kept', () => {
  it('is made whole again, whatever it was', () => {
    expect(feelOf(null)).toEqual(DEFAULT_FEEL);
    fc.assert(
      fc.property(fc.object(), (kept) => {
        const feel = feelOf(kept);
        expect(Object.keys(feel).sort()).toEqual(Object.keys(DEFAULT_FEEL).sort());
        expect(feelOf(feel)).toEqual(feel);
      }),
    );
    expect(feelOf({ tones: 'yes', ear: 'left', zoom: Number.NaN, keys: { empty: ['5'], undo: 7 } })).toEqual({
      ...DEFAULT_FEEL,
      ear: 'left',
      keys: { ...DEFAULT_FEEL.keys, empty: ['5'] },
    });
  });
});
