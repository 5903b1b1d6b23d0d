// When a camera that nobody uses is let go.
import { expect, test } from 'vitest';
import { createRest, REST_MS } from '../../../src/ui/feel/rest.ts';

function bench() {
  let time = 0;
  let timers: { at: number; fn: () => void }[] = [];
  let rests = 0;
  const rest = createRest(
    (ms, fn) => {
      const timer = { at: time + ms, fn };
      timers.push(timer);
      return () => {
        timers = timers.filter((one) => one !== timer);
      };
    },
    () => {
      rests += 1;
    },
  );
  const pass = (ms: number) => {
    time += ms;
    const due = timers.filter(({ at }) => at <= time);
    timers = timers.filter(({ at }) => at > time);
    for (const { fn } of due) fn();
  };
  return { rest, pass, rests: () => rests };
}

test('a camera rests a minute after the last use, and once', () => {
  const { rest, pass, rests } = bench();
  rest.runs(true);
  pass(REST_MS - 1);
  rest.used();
  rest.runs(true);
  pass(REST_MS - 1);
  expect(rests()).toBe(0);
  pass(1);
  expect(rests()).toBe(1);
  rest.runs(false);
  pass(10 * REST_MS);
  expect(rests()).toBe(1);
});

test('a camera that was stopped, or never ran, does not rest', () => {
  const { rest, pass, rests } = bench();
  rest.used();
  pass(REST_MS);
  rest.runs(true);
  rest.runs(false);
  pass(REST_MS);
  expect(rests()).toBe(0);
});
