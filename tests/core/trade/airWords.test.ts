// Words that mark what is on the air, and words that look like them. Common practice, no source; the texts are invented.
import { describe, expect, it } from 'vitest';
import { saysAir, saysOwnAir } from '../../../src/core/trade/airWords.ts';
import { MARKED, NOT_MARKED } from './airTexts.ts';

describe('a text of the plan', () => {
  it.each(MARKED)('marks what it names: %s', (text) => {
    expect(saysAir(text)).toBe(true);
  });

  it.each(NOT_MARKED)('marks nothing: %s', (text) => {
    expect(saysAir(text)).toBe(false);
  });

  it('counts wherever the word stands, in whatever case', () => {
    for (const text of MARKED) {
      expect(saysAir(`R4 to R7; ${text.toUpperCase()}`)).toBe(true);
      expect(saysAir(`${text.toLowerCase()}; tie 4`)).toBe(true);
    }
  });
});

describe('the station’s own words', () => {
  it('count as whole words, whatever case and signs stand between', () => {
    const own = ['Morning Show', 'PGM', 'K1'];
    for (const text of ['morning-show left', 'AES pgm', 'feed K1', 'MORNING  SHOW'])
      expect(saysOwnAir(text, own)).toBe(true);
    for (const text of ['mornings', 'PGMS', 'K12', '', 'show, morning']) expect(saysOwnAir(text, own)).toBe(false);
  });

  it('mark nothing while there are none, or where one is blank', () => {
    expect(saysOwnAir('PGM', [])).toBe(false);
    expect(saysOwnAir('PGM', ['', ' - '])).toBe(false);
  });
});
