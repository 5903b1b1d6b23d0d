// The symbol of a label against ISO/IEC 18004: quiet zone, size, finder patterns.
import { expect, test } from 'vitest';
import { qrPath } from '../../../src/ui/renaming/labelsQr.tsx';

/** Dark modules of a path made of `Mx yhNv1h-Nz`. */
function darkOf(path: string): Set<string> {
  const dark = new Set<string>();
  for (const [, x, y, n] of path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g)) {
    for (let i = 0; i < Number(n); i += 1) dark.add(`${Number(x) + i} ${y}`);
  }
  return dark;
}

test('A symbol keeps a quiet zone of four modules on every side (ISO/IEC 18004, 6.3.8)', () => {
  const { size, path } = qrPath('1003');
  const outside = [...darkOf(path)].filter((at) => {
    const [x = 0, y = 0] = at.split(' ').map(Number);
    return x < 4 || y < 4 || x >= size - 4 || y >= size - 4;
  });
  expect(outside).toEqual([]);
});

test('A short identifier is a version 1 symbol: 21 modules (ISO/IEC 18004, table 1) and the quiet zone', () => {
  expect(qrPath('1003').size).toBe(21 + 8);
});

test('The three finder patterns stand where the standard has them', () => {
  const dark = darkOf(qrPath('SW1-P03').path);
  for (const [x, y] of [
    [4, 4],
    [18, 4],
    [4, 18],
  ] as const) {
    for (let i = 0; i < 7; i += 1) {
      expect(dark.has(`${x + i} ${y}`)).toBe(true);
      expect(dark.has(`${x} ${y + i}`)).toBe(true);
    }
    expect(dark.has(`${x + 3} ${y + 3}`)).toBe(true);
    expect(dark.has(`${x + 1} ${y + 1}`)).toBe(false);
  }
});
