// A strip printed twice is noticed before it is printed. Data invented.
import { describe, expect, it } from 'vitest';
import { printedBefore, withPrinted } from '../../../../src/ui/walk/sheets/twinStrips.ts';

describe('strips printed before', () => {
  const printed = withPrinted([{ first: 1, count: 50, at: 10 }], { first: 101, count: 20, at: 20 });
  it('share a number with the strip, or nothing is said', () => {
    expect(printedBefore(printed, 50, 1)).toEqual({ strip: printed[0], next: 121 });
    expect(printedBefore(printed, 51, 50)).toBeNull();
    expect(printedBefore(printed, 100, 2)?.strip).toBe(printed[1]);
    expect(printedBefore(printed, 121, 1)).toBeNull();
    expect(printedBefore([], 1, 200)).toBeNull();
  });
  it('are told by the last one where several have the number', () => {
    const again = withPrinted(printed, { first: 1, count: 50, at: 30 });
    expect(printedBefore(again, 1, 1)?.strip.at).toBe(30);
  });
});
