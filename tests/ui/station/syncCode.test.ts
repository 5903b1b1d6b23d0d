// The pairing code on its way into a symbol and out again.
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { codeToText, textToCode } from '../../../src/ui/station/syncCode.ts';

test('A pairing code survives the way into its symbol and out again', () => {
  fc.assert(
    fc.property(fc.stringMatching(/^[A-Z2-9]{1,20}$/), (code) => {
      expect(textToCode(codeToText(code))).toBe(code);
    }),
  );
});

test('A code may be typed with spaces around it, in small letters, or with its mark', () => {
  expect(textToCode(' ABCDE-23456 ')).toBe('ABCDE-23456');
  expect(textToCode(' asfound-pair: ABCDE-23456 ')).toBe('ABCDE-23456');
});

test('The text of a pairing code begins with its mark and is no address that a phone would open', () => {
  expect(codeToText('ABCDE-23456')).toBe('ASFOUND-PAIR:ABCDE-23456');
  expect(codeToText('ABCDE-23456')).not.toMatch(/:\/\//);
});
