// Sentences that screen and file share: numbers that add up, and no claim beyond what was seen. Counts are invented.
import { describe, expect, it } from 'vitest';
import type { Coverage } from '../../src/core/report/coverage.ts';
import {
  cableCounts,
  coverageToWords,
  notLookedByReason,
  planToWords,
  wholeToWords,
} from '../../src/core/report/words/reportSentences.ts';
import { sampleLine, sampleReport } from './reportSample.ts';

const coverage: Coverage = {
  places: 72,
  seen: 60,
  notVerified: 3,
  cables: 36,
  bothEnds: 16,
  oneEnd: 6,
  differ: 13,
  notSeen: 0,
  cablesNotVerified: 1,
};
const report = (over: Partial<Coverage> = {}) => ({ ...sampleReport(), lines: [], coverage: { ...coverage, ...over } });
const said = ({ before, main, after }: ReturnType<typeof wholeToWords>) => `${before} ${main} ${after}`;

describe('the whole in one breath', () => {
  it('counts cables at both ends, and those that differ', () => {
    expect(said(wholeToWords(report()))).toBe('Of 36 cables, 16 are where the plan says, at both ends. 13 differ.');
    expect(said(wholeToWords(report({ cables: 1, bothEnds: 1, differ: 1 })))).toBe(
      'Of 1 cable, 1 is where the plan says, at both ends. 1 differs.',
    );
  });

  it('says how many findings can harm and how many affect the air', () => {
    const lines = [
      sampleLine({ severity: 'people' }),
      sampleLine({ severity: 'equipment' }),
      sampleLine(),
      sampleLine({ severity: 'record' }),
    ];
    expect(wholeToWords({ ...report(), lines }).after).toBe(
      '13 differ. 2 findings can harm people or equipment; 1 finding affects the air.',
    );
  });

  it('speaks of jacks where no planned cable ends', () => {
    expect(said(wholeToWords(report({ cables: 0, bothEnds: 0, differ: 0 })))).toBe(
      'No planned cable ends here. Of 72 jacks, 60 were looked at. 0 differences.',
    );
  });
});

describe('what was looked at', () => {
  it('gives every cable to one count, and leaves out what is nought', () => {
    const counts = cableCounts(coverage);
    expect(counts.reduce((sum, { n }) => sum + n, 0)).toBe(coverage.cables);
    expect(counts.map(({ n }) => n)).toEqual([16, 13, 6, 1]);
  });

  it('says that of the rest nothing can be said, and why of some', () => {
    expect(coverageToWords(coverage)).toBe(
      'Looked at 60 of 72 jacks. Nothing is known about the other 12. 3 of them could not be checked.',
    );
    expect(coverageToWords({ ...coverage, seen: 72, notVerified: 0 })).toBe('Looked at 72 of 72 jacks.');
  });

  it('groups places by reason, longest list first, in the order of the walk', () => {
    const rows = [
      { place: 'B', reason: 'not checked:' },
      { place: 'A', reason: 'not looked at' },
      { place: 'C', reason: 'not looked at' },
    ];
    expect(notLookedByReason(rows)).toEqual([
      { reason: 'not looked at', places: ['A', 'C'] },
      { reason: 'not checked', places: ['B'] },
    ]);
  });

  it('names the plan with the beginning of its hash', () => {
    expect(planToWords({ name: 'rev C', revision: '0123456789abcdef' })).toEqual({
      name: 'rev C',
      hash: '0123456789',
    });
    expect(planToWords({ name: '', revision: null }).hash).toBe('no revision');
  });
});
