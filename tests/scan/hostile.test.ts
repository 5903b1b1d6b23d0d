// Readings come from strangers. The cap of 512 is invented.
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CAP, sanitize } from '../../src/scan/hostile.ts';

test('an ordinary label is heard as it is', () => {
  expect(sanitize('R03-U12-J07')).toEqual({ text: 'R03-U12-J07', show: 'R03-U12-J07' });
});

test('what cannot be seen is not shown, and stays in the exact text', () => {
  expect(sanitize('10\u200b03\u202e\u0000\ufeff')).toEqual({ text: '10\u200b03\u202e\u0000\ufeff', show: '1003' });
  expect(sanitize('10\u00ad03\ufe0f')?.show).toBe('1003');
  expect(sanitize(' IN\tL\r\nR ')?.show).toBe('IN L R');
});

test('a text with nothing to see is no reading', () => {
  for (const blank of ['', '   ', '\u200b\u200d', '\u0000\u001d', '\u3164']) expect(sanitize(blank)).toBeNull();
});

test('a text over the cap is cut, says so, and keeps the exact text up to it', () => {
  const long = 'A'.repeat(CAP + 88);
  expect(sanitize(long)).toEqual({ text: 'A'.repeat(CAP), show: 'A'.repeat(CAP), cut: { length: CAP + 88 } });
  expect(sanitize('A'.repeat(CAP))).not.toHaveProperty('cut');
});

test('the cut never goes through a character', () => {
  const heard = sanitize(`${'A'.repeat(CAP - 1)}\u{1f50c}tail`);
  expect(heard?.text).toBe('A'.repeat(CAP - 1));
  expect(heard?.cut).toEqual({ length: CAP + 5 });
});

// Making the strings takes the time, not reading them; hence the longer limit.
test('whatever is read, the shown form is short, visible and free of controls', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 600 }), (raw) => {
      const heard = sanitize(raw);
      if (heard === null) return;
      expect(raw.startsWith(heard.text)).toBe(true);
      expect(heard.text.length).toBeLessThanOrEqual(CAP);
      expect(heard.show).not.toBe('');
      expect(/[\p{Cc}\p{Cf}\p{Cs}]/u.test(heard.show)).toBe(false);
    }),
    { numRuns: 40 },
  );
});

test('nothing in the scan part can open, follow or fetch what was read', () => {
  const folder = new URL('../../src/scan/', import.meta.url);
  const names = readdirSync(folder);
  expect(names).toContain('hostile.ts');
  for (const name of names) {
    const code = readFileSync(new URL(name, folder), 'utf8');
    expect(code, name).not.toMatch(/\bfetch\(|window\.open|\blocation\b|\.href\b|innerHTML|XMLHttpRequest/);
  }
});
