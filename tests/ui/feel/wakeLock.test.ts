// The screen stays on while a walk is open and seen. On a stand-in for the browser's wake lock.
import { describe, expect, it } from 'vitest';
import { createWakeLock, type WakeState } from '../../../src/ui/feel/wakeLock.ts';
import { settled } from './phone.ts';

function screen(options: { missing?: boolean } = {}) {
  const told: WakeState[] = [];
  const held: (() => void)[] = [];
  const state = { visible: true, refuses: false, asked: 0, released: 0 };
  const lock = createWakeLock({
    request: options.missing
      ? null
      : async () => {
          state.asked += 1;
          if (state.refuses) throw new Error('battery low');
          let gone = () => {};
          held.push(() => gone());
          return {
            async release() {
              state.released += 1;
              gone();
            },
            addEventListener(_type, fn) {
              gone = fn;
            },
          };
        },
    visible: () => state.visible,
    tell: (next) => told.push(next),
  });
  const dropAll = () => {
    for (const drop of held.splice(0)) drop();
  };
  return { lock, state, told, dropAll };
}

describe('the wake lock', () => {
  it('is asked for once when the walk opens, and given up when it pauses', async () => {
    const { lock, state, told } = screen();
    lock.want(true);
    lock.seen();
    lock.want(true);
    await settled();
    expect(state).toMatchObject({ asked: 1, released: 0 });
    lock.want(false);
    await settled();
    expect(state).toMatchObject({ asked: 1, released: 1 });
    expect(told).toEqual(['held', 'off']);
  });

  it('comes back when the page is seen again, since the browser drops it with a hidden page', async () => {
    const { lock, state, told, dropAll } = screen();
    lock.want(true);
    await settled();
    state.visible = false;
    dropAll();
    await settled();
    expect(state.asked).toBe(1);
    state.visible = true;
    lock.seen();
    await settled();
    expect(state.asked).toBe(2);
    expect(told).toEqual(['held', 'off', 'held']);
  });

  it('is not kept when the walk was left while the browser was still answering', async () => {
    const { lock, state } = screen();
    lock.want(true);
    lock.want(false);
    await settled();
    expect(state).toMatchObject({ asked: 1, released: 1 });
  });

  it('tells when the browser refuses or has none', async () => {
    const refusing = screen();
    refusing.state.refuses = true;
    refusing.lock.want(true);
    await settled();
    expect(refusing.told).toEqual(['refused']);
    refusing.state.refuses = false;
    refusing.lock.seen();
    await settled();
    expect(refusing.told).toEqual(['refused', 'held']);
    const without = screen({ missing: true });
    without.lock.want(true);
    expect(without.told).toEqual(['missing']);
  });
});
