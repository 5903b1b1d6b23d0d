// A picture that comes and is black: one new stream, then words.
import { expect, test } from 'vitest';
import { BLACK_MS, createDark } from '../../src/scan/dark.ts';

test('a black picture gets one new stream, and words when it stays black', () => {
  const dark = createDark();
  expect(dark.saw(true, 0)).toBe('lit');
  expect(dark.saw(true, BLACK_MS - 1)).toBe('lit');
  expect(dark.saw(true, BLACK_MS)).toBe('rebuild');
  expect(dark.saw(true, BLACK_MS + 1000)).toBe('lit');
  expect(dark.saw(true, 2 * BLACK_MS + 1000)).toBe('dark');
  expect(dark.saw(false, 2 * BLACK_MS + 2000)).toBe('lit');
  expect(dark.saw(true, 2 * BLACK_MS + 3000)).toBe('lit');
});

test('a hand that passes over the lens is nothing, and a picture that was lit for a while earns another try', () => {
  const dark = createDark();
  expect(dark.saw(true, 0)).toBe('lit');
  expect(dark.saw(false, 1000)).toBe('lit');
  expect(dark.saw(true, 2000)).toBe('lit');
  expect(dark.saw(true, 2000 + BLACK_MS)).toBe('rebuild');
  expect(dark.saw(false, 20_000)).toBe('lit');
  expect(dark.saw(true, 21_000)).toBe('lit');
  expect(dark.saw(true, 21_000 + BLACK_MS)).toBe('rebuild');
});
