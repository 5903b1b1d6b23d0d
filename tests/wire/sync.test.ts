// The forms of the messages, where both sides must agree to the letter. All values are invented.
import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import * as z from 'zod/mini';
import { utf8Bytes } from '../../src/wire/limits.ts';
import {
  CODE_ALPHABET,
  CODE_LENGTH,
  CURSOR_PATTERN,
  codeToPayload,
  ID_PATTERN,
  judgePhone,
  judgeServer,
  pairRequestSchema,
  textToCode,
  WIRE_VERSION,
} from '../../src/wire/sync.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

describe('a pairing code', () => {
  const codes = fc.array(fc.constantFrom(...CODE_ALPHABET), { minLength: CODE_LENGTH, maxLength: CODE_LENGTH });

  test('is read from the picture, from typing in groups, and in small letters', () => {
    fc.assert(
      fc.property(codes, (chars) => {
        const code = chars.join('');
        const typed = ` ${code.slice(0, 5).toLowerCase()} ${code.slice(5)} `;
        expect([textToCode(codeToPayload(code)), textToCode(typed), textToCode(code)]).toEqual([code, code, code]);
      }),
    );
  });

  test('is not read from a label, a link or an address', () => {
    for (const text of [
      '',
      '1003',
      'P05',
      'https://radio.example/pair',
      'ASFOUND-PAIR:',
      'O0O0O0O0O0',
      '23456789ABC',
    ]) {
      expect(textToCode(text)).toBeNull();
    }
  });
});

test('each side can tell which of the two is older', () => {
  expect(judgePhone(WIRE_VERSION)).toEqual({ type: 'fits' });
  expect(judgePhone(WIRE_VERSION + 1)).toEqual({ type: 'server-too-old' });
  expect(judgePhone(0)).toEqual({ type: 'phone-too-old' });
  expect(judgeServer(WIRE_VERSION - 1)).toEqual({ type: 'server-too-old' });
  expect(judgeServer(WIRE_VERSION + 1)).toEqual({ type: 'fits' });
});

test('an id cannot be a path, a query or a blank', () => {
  for (const id of ['a', '0190-a_b', 'x'.repeat(128)]) expect(ID_PATTERN.test(id)).toBe(true);
  for (const id of ['', '..', 'a/b', 'a b', '-a', 'a\n', 'é', "a'", 'x'.repeat(129)])
    expect(ID_PATTERN.test(id)).toBe(false);
});

test('a cursor is nothing but a start or a number with its mark', () => {
  for (const cursor of ['0', `12-${'a'.repeat(16)}`]) expect(CURSOR_PATTERN.test(cursor)).toBe(true);
  for (const cursor of ['', '1', '-1', '00', `0-${'a'.repeat(16)}`, `1-${'A'.repeat(16)}`, '0\n']) {
    expect(CURSOR_PATTERN.test(cursor)).toBe(false);
  }
});

test('names with control characters or half characters are refused before they reach a database', () => {
  const request = (phone: string) => z.safeParse(pairRequestSchema, { code: 'x', phone, station: null }).success;
  expect(request('Ines’ phone 📻')).toBe(true);
  for (const name of ['', 'a\u0000', 'a\nb', '\ud800', 'x'.repeat(201)]) expect(request(name)).toBe(false);
});

test('the length in UTF-8 is the one the platform encodes', () => {
  fc.assert(
    // Units, not characters: halves of pairs, alone and in the wrong order, are among them.
    fc.property(fc.array(fc.integer({ min: 0, max: 0xffff })), (units) => {
      const text = String.fromCharCode(...units);
      expect(utf8Bytes(text)).toBe(new TextEncoder().encode(text).byteLength);
    }),
  );
  expect(utf8Bytes('\ud800a')).toBe(new TextEncoder().encode('\ud800a').byteLength);
});
