// How often the picture is looked at.
import { expect, test } from 'vitest';
import { BUSY_MS, CALM_AFTER_MS, CALM_MS, createPace } from '../../src/scan/pace.ts';

test('eight to twelve looks a second at most, and fewer once nothing changed for a while', () => {
  expect(1000 / BUSY_MS).toBeGreaterThanOrEqual(8);
  expect(1000 / BUSY_MS).toBeLessThanOrEqual(12);
  const pace = createPace();
  expect(pace.gap(0)).toBe(BUSY_MS);
  pace.saw([], 0);
  pace.saw([], 100);
  expect(pace.gap(CALM_AFTER_MS - 1)).toBe(BUSY_MS);
  expect(pace.gap(CALM_AFTER_MS)).toBe(CALM_MS);
});

test('a label that comes, goes or changes brings the haste back; the order of the same labels does not', () => {
  const pace = createPace();
  pace.saw(['1003', '1004'], 0);
  pace.saw(['1004', '1003'], CALM_AFTER_MS);
  expect(pace.gap(CALM_AFTER_MS)).toBe(CALM_MS);
  pace.saw(['1004'], CALM_AFTER_MS + 10);
  expect(pace.gap(CALM_AFTER_MS + 20)).toBe(BUSY_MS);
});
