// The zoom's arithmetic.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { zoomAt, zoomPressed } from '../../../src/ui/feel/zoom.ts';

const ranges = fc
  .record({ min: fc.integer({ min: 1, max: 4 }), more: fc.integer({ min: 1, max: 20 }), step: fc.constant(0.1) })
  .map(({ min, more, step }) => ({ min, max: min + more, step }));

test('a camera begins at twice its size where it can, and where it was left the last time', () => {
  expect(zoomAt({ min: 1, max: 8, step: 0.1 }, null)).toBe(2);
  expect(zoomAt({ min: 1, max: 1.5, step: 0.1 }, null)).toBe(1.5);
  expect(zoomAt({ min: 1, max: 8, step: 0.1 }, 3.4)).toBe(3.4);
  expect(zoomAt({ min: 1, max: 3, step: 0.1 }, 9)).toBe(3);
});

test('presses stay in the range and reach both its ends', () => {
  fc.assert(
    fc.property(ranges, fc.array(fc.constantFrom<(1 | -1)[]>(1, -1)), (range, presses) => {
      let now = zoomAt(range, null);
      for (const way of presses) {
        now = zoomPressed(range, now, way);
        expect(now).toBeGreaterThanOrEqual(range.min);
        expect(now).toBeLessThanOrEqual(range.max);
      }
      for (let i = 0; i < 40; i++) now = zoomPressed(range, now, 1);
      expect(now).toBe(range.max);
      for (let i = 0; i < 40; i++) now = zoomPressed(range, now, -1);
      expect(now).toBe(range.min);
    }),
  );
});
