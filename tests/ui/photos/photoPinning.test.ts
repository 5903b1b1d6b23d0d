// Pins set by fast touches, on a record that is slower than the finger. Jacks and spots are invented.
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createPinning } from '../../../src/ui/photos/photoPinning.ts';
import type { Services } from '../../../src/ui/services.ts';

const JACKS = ['P01', 'P02', 'P03', 'P04'];
type Pin = { event: string; place: string; at: { x: number; y: number } };

/** A record that answers late, and whether a write fails. */
function bench(failing: () => boolean = () => false) {
  let pins: Pin[] = [];
  const log: string[] = [];
  let time = 0;
  let n = 0;
  const later = () => new Promise<void>((resolve) => setTimeout(resolve, 1));
  const ask = async (question: string) => {
    await later();
    const jacks = JACKS.map((label) => ({ place: `SW1/${label}`, label, words: `SW1 ${label}` }));
    const next = jacks.find(({ place }) => !pins.some((pin) => pin.place === place))?.place ?? null;
    return question === 'pinChoice'
      ? { jacks, next }
      : { photo: { pins: [...pins] }, lastPin: pins.at(-1)?.event ?? null, lastMark: null };
  };
  const record = async (kind: string, payload: { place: string; at: Pin['at']; target: { event: string } }) => {
    await later();
    if (failing()) return { type: 'not-saved', event: '', why: 'too long' };
    n += 1;
    const event = `e${n}`;
    if (kind === 'photo-pinned') pins = [...pins, { event, place: payload.place, at: payload.at }];
    else pins = pins.filter((pin) => pin.event !== payload.target.event);
    log.push(kind);
    return { type: 'saved', event };
  };
  const services = { ask, record, now: () => time } as unknown as Services;
  const pinning = createPinning(services, 'audit', 'photo');
  return {
    pinning,
    log,
    wait: (ms: number) => {
      time += ms;
    },
    pins: () => pins.map(({ place, at }) => [place.slice(4), at.x]),
  };
}

describe('pins set by touch', () => {
  it('mean one jack after the other, however fast the touches come', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.integer({ min: 0, max: 400 }), { maxLength: 6 }), async (pauses) => {
        const { pinning, wait, pins } = bench();
        const touches = pauses.map((pause, i) => {
          wait(pause);
          return pinning.pin({ x: i / 10, y: 0.5 }, null, null);
        });
        const done = await Promise.all(touches);
        expect(pins()).toEqual(JACKS.slice(0, pauses.length).map((label, i) => [label, i / 10]));
        expect(done.filter(({ type }) => type === 'none-left')).toHaveLength(Math.max(0, pauses.length - JACKS.length));
      }),
      { numRuns: 20 },
    );
  });

  it('count a finger that bounces once, and a second touch at the same spot later as the next jack', async () => {
    const { pinning, wait, pins } = bench();
    const first = pinning.pin({ x: 0.5, y: 0.5 }, null, null);
    wait(100);
    expect(await pinning.pin({ x: 0.501, y: 0.5 }, null, null)).toEqual({ type: 'bounced' });
    wait(1000);
    await Promise.all([first, pinning.pin({ x: 0.5, y: 0.5 }, null, null)]);
    expect(pins()).toEqual([
      ['P01', 0.5],
      ['P02', 0.5],
    ]);
  });

  it('move a jack that is chosen again, the new pin before the old one goes', async () => {
    const { pinning, wait, pins, log } = bench();
    await pinning.pin({ x: 0.1, y: 0.5 }, null, null);
    wait(1000);
    await pinning.pin({ x: 0.9, y: 0.5 }, null, 'SW1/P01');
    expect(pins()).toEqual([['P01', 0.9]]);
    expect(log).toEqual(['photo-pinned', 'photo-pinned', 'withdrawn']);
  });

  it('keep the old pin where the new one is not kept', async () => {
    let fails = false;
    const { pinning, wait, pins } = bench(() => fails);
    await pinning.pin({ x: 0.1, y: 0.5 }, null, null);
    wait(1000);
    fails = true;
    expect(await pinning.pin({ x: 0.9, y: 0.5 }, null, 'SW1/P01')).toMatchObject({ result: { type: 'not-saved' } });
    expect(pins()).toEqual([['P01', 0.1]]);
  });

  it('are taken back one by one, also by two presses at once', async () => {
    const { pinning, wait, pins } = bench();
    for (const x of [0.1, 0.2, 0.3]) {
      wait(1000);
      await pinning.pin({ x, y: 0.5 }, null, null);
    }
    await Promise.all([pinning.undo('lastPin'), pinning.undo('lastPin')]);
    expect(pins()).toEqual([['P01', 0.1]]);
    await pinning.undo('lastPin');
    expect(await pinning.undo('lastPin')).toBeNull();
    expect(await pinning.undo('lastMark')).toBeNull();
  });
});
