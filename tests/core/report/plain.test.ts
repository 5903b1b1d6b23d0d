// The form of a noun beside its number and how a list is joined, as it is spoken in British English (common practice).
import { describe, expect, test } from 'vitest';
import { anyOf, counted, listed, listedUpTo, plural } from '../../../src/core/report/words/plain.ts';

describe('counts and lists in words', () => {
  test('a number has its noun', () => {
    expect(counted(1, 'jack')).toBe('1 jack');
    expect(counted(0, 'jack')).toBe('0 jacks');
    expect(counted(2, 'entry', 'entries')).toBe('2 entries');
    expect(plural(1, 'It differs.', 'They differ.')).toBe('It differs.');
    expect(plural(21, 'It differs.', 'They differ.')).toBe('They differ.');
  });

  test('a list is joined as it is spoken', () => {
    expect(listed([])).toBe('');
    expect(listed(['1004'])).toBe('1004');
    expect(listed(['1004', '1005'])).toBe('1004 and 1005');
    expect(listed(['1004', '1005', '1006'])).toBe('1004, 1005 and 1006');
    expect(anyOf(['1004', '1005', '1006'])).toBe('1004, 1005 or 1006');
  });

  test('a long list names some and counts the rest, never one alone', () => {
    const five = ['1', '2', '3', '4', '5'];
    expect(listedUpTo(five, 3)).toBe('1, 2, 3 and 2 more');
    expect(listedUpTo(five, 4)).toBe('1, 2, 3, 4 and 5');
  });
});
