// The parts of the camera that need no browser: errors as data, the stall rule, picture sizes, failures of a start.
import { expect, test } from 'vitest';
import { failureFrom } from '../../src/scan/cameraErrors.ts';
import { STALL_MS, TRUST_MS, verdictOn } from '../../src/scan/cameraWatch.ts';
import { createDouble } from '../../src/scan/double.ts';
import { fitted, LONG_SIDE } from '../../src/scan/picture.ts';
import { createTyped } from '../../src/scan/typed.ts';

// The error names are those of getUserMedia in W3C Media Capture and Streams (section number from memory: 10.2).
test.each([
  ['Error getting userMedia, error = NotAllowedError: Permission denied', 'no-permission'],
  ['Error getting userMedia, error = NotFoundError: Requested device not found', 'no-camera'],
  ['Error getting userMedia, error = OverconstrainedError', 'no-camera'],
  ['Error getting userMedia, error = NotReadableError: Could not start video source', 'camera-in-use'],
  ['Error getting userMedia, error = AbortError: Starting videoinput failed', 'camera-in-use'],
  ['Error getting userMedia, error = SecurityError: insecure', 'insecure-context'],
  ['Camera access is only supported in secure context like https or localhost.', 'insecure-context'],
  ['Camera streaming not supported by the browser.', 'no-camera'],
])('the thrown string "%s" becomes %s', (thrown, type) => {
  expect(failureFrom(thrown)).toEqual({ type });
});

test('what is not known keeps its words as data', () => {
  expect(failureFrom(new TypeError('odd'))).toEqual({ type: 'decoder-failed', message: 'TypeError: odd' });
});

test('a stalled stream is rebuilt once, and given up when it stalls again right away', () => {
  const never = Number.NEGATIVE_INFINITY;
  expect(verdictOn({ now: 1_000 + STALL_MS - 1, lastFrame: 1_000, rebuiltAt: never })).toBe('fine');
  expect(verdictOn({ now: 1_000 + STALL_MS, lastFrame: 1_000, rebuiltAt: never })).toBe('rebuild');
  expect(verdictOn({ now: 5_000, lastFrame: 3_000, rebuiltAt: 2_900 })).toBe('give-up');
  const trusted = 2_900 + TRUST_MS;
  expect(verdictOn({ now: trusted + STALL_MS, lastFrame: trusted, rebuiltAt: 2_900 })).toBe('rebuild');
});

test('a picture is shrunk to the long side, never blown up, and keeps its shape', () => {
  expect(fitted(4032, 3024)).toEqual({ width: LONG_SIDE, height: 1200 });
  expect(fitted(3024, 4032)).toEqual({ width: 1200, height: LONG_SIDE });
  expect(fitted(640, 480)).toEqual({ width: 640, height: 480 });
});

test('a start that fails says why, and a later start works', async () => {
  const scanner = createDouble({ now: () => 0 });
  await scanner.breakWith({ type: 'camera-in-use' });
  expect(await scanner.start()).toEqual({ type: 'failed', failure: { type: 'camera-in-use' } });
  expect(scanner.state.get()).toEqual({ type: 'failed', failure: { type: 'camera-in-use' } });
  expect(await scanner.start()).toEqual({ type: 'started' });
  await scanner.breakWith({ type: 'stalled' });
  expect(scanner.state.get()).toEqual({ type: 'failed', failure: { type: 'stalled' } });
  expect(await scanner.start()).toEqual({ type: 'started' });
  expect(scanner.opened()).toBe(2);
});

test('typed entry offers what the caller suggests and keeps the text as typed', async () => {
  const scanner = createTyped({ now: () => 7, suggest: (text) => ['1003', '1004'].filter((l) => l.startsWith(text)) });
  const readings: unknown[] = [];
  scanner.onReading((reading) => readings.push(reading));
  await scanner.start();
  expect(scanner.suggest('100')).toEqual(['1003', '1004']);
  scanner.enter(' o1003 ');
  scanner.enter('   ');
  expect(readings).toEqual([{ text: 'o1003', show: 'o1003', by: 'typed', at: 7, aimed: true, others: 0 }]);
});
