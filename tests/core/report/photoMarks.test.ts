// The geometry of marks on a photo. Numbers are worked out by hand from the figure.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isMark, markToPath, toSpot } from '../../../src/core/report/photoMarks.ts';

const numbers = (path: string) => (path.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);

test('a circle fills the box between its two corners, whichever was touched first', () => {
  const mark = { shape: 'circle' as const, from: { x: 0.25, y: 0.5 }, to: { x: 0.75, y: 0.9 } };
  const path = markToPath(mark, 400, 200);
  expect(path).toBe('M100 140a100 40 0 1 0 200 0a100 40 0 1 0 -200 0');
  expect(markToPath({ ...mark, from: mark.to, to: mark.from }, 400, 200)).toBe(path);
});

test('an arrow runs from tail to tip, with two barbs of equal length behind the tip', () => {
  const path = markToPath({ shape: 'arrow', from: { x: 0.1, y: 0.5 }, to: { x: 0.9, y: 0.5 } }, 1000, 500);
  const [x1, y1, x2, y2, bx, by, tx, ty, cx, cy] = numbers(path);
  expect([x1, y1, x2, y2, tx, ty]).toEqual([100, 250, 900, 250, 900, 250]);
  expect(bx).toBe(cx);
  expect(250 - by!).toBeCloseTo(cy! - 250, 5);
  // 4.5 % of the long side.
  expect(Math.hypot(900 - bx!, 250 - by!)).toBeCloseTo(45, 0);
});

test('the head of a short arrow never outgrows it', () => {
  const [, , tipX, tipY, bx, by] = numbers(
    markToPath({ shape: 'arrow', from: { x: 0.5, y: 0.5 }, to: { x: 0.52, y: 0.5 } }, 1000, 500),
  );
  expect(Math.hypot(tipX! - bx!, tipY! - by!)).toBeLessThanOrEqual(10.1);
});

test('a slip of the finger is no mark', () => {
  expect(isMark({ from: { x: 0.5, y: 0.5 }, to: { x: 0.505, y: 0.503 } })).toBe(false);
  expect(isMark({ from: { x: 0.5, y: 0.5 }, to: { x: 0.52, y: 0.5 } })).toBe(true);
});

test('a spot is always inside the picture', () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, min: -5, max: 5 }), fc.double({ noNaN: true, min: -5, max: 5 }), (x, y) => {
      const spot = toSpot(x, y);
      for (const share of [spot.x, spot.y]) expect(share >= 0 && share <= 1).toBe(true);
    }),
  );
});
