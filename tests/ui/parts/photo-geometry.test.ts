// Where a photo lies while it is looked at closely, and which part of it a finger meets.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layPhoto, MAX_ZOOM, pointToSpot, pushed, WHOLE, zoomed } from '../../../src/ui/photos/photo-geometry.ts';

const PHOTO = { width: 1600, height: 1200 };
const FRAME = { width: 390, height: 600 };

describe('layPhoto', () => {
  it('shows the whole photo in the middle of the frame', () => {
    expect(layPhoto(PHOTO, FRAME, WHOLE)).toEqual({ width: 390, height: 292.5, left: 0, top: 153.75 });
  });

  it('brings the wanted part to the middle, but leaves no gap at an edge', () => {
    const laid = layPhoto(PHOTO, FRAME, { zoom: 4, centre: { x: 0.5, y: 0.5 } });
    expect(laid.left + laid.width / 2).toBeCloseTo(195);
    const corner = layPhoto(PHOTO, FRAME, { zoom: 4, centre: { x: 0, y: 1 } });
    expect(corner.left).toBe(0);
    expect(corner.top + corner.height).toBeCloseTo(600);
  });

  it('never leaves the frame when there is enough photo to fill it', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, fc.double({ min: 1, max: MAX_ZOOM, noNaN: true }), (x, y, zoom) => {
        const laid = layPhoto(PHOTO, FRAME, { zoom, centre: { x, y } });
        for (const [at, size, room] of [
          [laid.left, laid.width, FRAME.width],
          [laid.top, laid.height, FRAME.height],
        ] as const) {
          if (size >= room) expect(at <= 1e-9 && at + size >= room - 1e-9).toBe(true);
          else expect(at).toBeCloseTo((room - size) / 2);
        }
      }),
    );
  });
});

describe('a finger', () => {
  it('meets the part of the photo that lies under it, enlarged or not, and nothing beside it', () => {
    const laid = layPhoto(PHOTO, FRAME, { zoom: 3, centre: { x: 0.7, y: 0.2 } });
    expect(pointToSpot(laid, laid.left + laid.width * 0.7, laid.top + laid.height * 0.2)).toEqual({ x: 0.7, y: 0.2 });
    expect(pointToSpot(layPhoto(PHOTO, FRAME, WHOLE), 100, 20)).toBe(null);
  });

  it('pushes the photo along with it', () => {
    const look = { zoom: 4, centre: { x: 0.5, y: 0.5 } };
    const before = layPhoto(PHOTO, FRAME, look);
    const after = layPhoto(PHOTO, FRAME, pushed(look, before, FRAME, -60, 40));
    expect(after.left - before.left).toBeCloseTo(-60, 0);
    expect(after.top - before.top).toBeCloseTo(40, 0);
  });
});

it('zoom stays between the whole photo and eightfold', () => {
  expect(zoomed(WHOLE, 0.1).zoom).toBe(1);
  expect(zoomed({ ...WHOLE, zoom: 7 }, 2).zoom).toBe(8);
});
