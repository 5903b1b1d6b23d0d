// Which of several labels is meant.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { aim, boxToPicture, centreOf, inSight, middleCircle, pictureToBox, type Seen } from '../../src/scan/aim.ts';

const circle = { x: 640, y: 360, r: 180 };

function label(text: string, x: number, y: number, half = 40): Seen {
  return {
    text,
    corners: [
      { x: x - half, y: y - half },
      { x: x + half, y: y - half },
      { x: x + half, y: y + half },
      { x: x - half, y: y + half },
    ],
  };
}

const anywhere = fc.record({ x: fc.integer({ min: 0, max: 1280 }), y: fc.integer({ min: 0, max: 720 }) });
const far = ({ text, corners }: Seen) => ({
  text,
  d: Math.hypot(centreOf(corners).x - 640, centreOf(corners).y - 360),
});

describe('one view', () => {
  test('while something lies inside the circle, the nearest of those is taken and nothing else', () => {
    fc.assert(
      fc.property(fc.array(anywhere, { maxLength: 8 }), (places) => {
        const seen = places.map(({ x, y }, i) => label(String(i), x, y));
        const answer = aim(seen, circle);
        const inside = seen.map(far).filter(({ d }) => d <= circle.r);
        const others = seen.length - 1;
        if (inside.length > 0) {
          const nearest = Math.min(...inside.map(({ d }) => d));
          expect(answer).toMatchObject({ type: 'taken', others });
          if (answer.type === 'taken') expect(far(seen[answer.index]).d).toBe(nearest);
        } else expect(answer).toEqual(others < 0 ? { type: 'nothing' } : { type: 'outside', count: seen.length });
      }),
    );
  });

  test('the order in which the decoder lists them makes no difference', () => {
    const near = label('1003', 650, 360);
    const next = label('1004', 760, 360);
    expect(aim([near, next], circle)).toMatchObject({ index: 0 });
    expect(aim([next, near], circle)).toMatchObject({ index: 1 });
  });

  test('a symbol without corners is never inside the circle', () => {
    expect(aim([{ text: '1003', corners: [] }], circle)).toEqual({ type: 'outside', count: 1 });
  });
});

describe('a near miss', () => {
  test('a lone label just outside the circle is not taken, one just inside is', () => {
    const { x, y, r } = circle;
    expect(aim([label('1004', x + r + 1, y)], circle)).toEqual({ type: 'outside', count: 1 });
    expect(aim([label('1004', x + r - 1, y)], circle)).toEqual({ type: 'taken', index: 0, others: 0 });
  });

  test('a neighbour is not taken in the frames in which the aimed label was missed', () => {
    const aimed = label('1003', 640, 360);
    const neighbour = label('1004', 1000, 360);
    expect(aim([neighbour, aimed], circle)).toEqual({ type: 'taken', index: 1, others: 1 });
    expect(aim([neighbour], circle)).toEqual({ type: 'outside', count: 1 });
  });
});

describe('a picture that fills a box and overflows it', () => {
  const picture = { width: 1280, height: 720 };
  const box = { width: 390, height: 500 };

  test('the middle of the one is the middle of the other, and there and back is where it was', () => {
    expect(boxToPicture({ x: 195, y: 250 }, picture, box)).toEqual({ x: 640, y: 360 });
    fc.assert(
      fc.property(anywhere, (point) => {
        const back = boxToPicture(pictureToBox(point, picture, box), picture, box);
        expect(back.x).toBeCloseTo(point.x, 6);
        expect(back.y).toBeCloseTo(point.y, 6);
      }),
    );
  });

  test('a label cut off by the box is not in sight', () => {
    const shown = label('1003', 640, 360);
    const cutOff = label('1004', 1200, 360);
    expect(inSight([shown, cutOff], picture, box)).toEqual([shown]);
  });

  test('the circle is in the middle when the screen names none', () => {
    expect(middleCircle(400, 300)).toEqual({ x: 200, y: 150, r: 75 });
  });
});
