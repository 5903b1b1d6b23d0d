// What the walk says about the others: who is near, who is at this very jack, and nothing that is not so.
import { expect, test } from 'vitest';
import { type CompanyHere, companyToWords } from '../../../src/ui/walk/companyWords.ts';
import type { Presence } from '../../../src/wire/sync.ts';

const HERE: CompanyHere = {
  audit: 'a-1',
  unit: { id: 'FR-2', label: 'FR 2' },
  place: 'FR-2/P05',
  jack: 'P05',
  done: false,
};
const labels: Record<string, string> = { 'CON-32': 'CON 32', 'SW-1': 'SW 1' };
const at = (name: string, unit: string | null, jack: string | null = null, audit: string | null = 'a-1'): Presence => ({
  phone: `p-${name}`,
  name,
  since: 1,
  audit,
  unit,
  place: jack === null ? null : `${unit}/${jack}`,
});
const words = (others: Presence[], here: Partial<CompanyHere> = {}) =>
  companyToWords(others, { ...HERE, ...here }, (unit) => labels[unit] ?? unit);

test.each([
  [[], null],
  [[at('Ilse', 'FR-2', 'P01')], 'Ilse is at FR 2 too.'],
  [[at('Ilse', 'FR-2')], 'Ilse is at FR 2 too.'],
  [[at('Ilse', 'FR-2', 'P01'), at('Tom', 'FR-2')], 'Ilse and Tom are at FR 2 too.'],
  [['Ilse', 'Tom', 'Ana'].map((name) => at(name, 'FR-2')), 'Ilse and 2 others are at FR 2 too.'],
  [[at('Tom', 'SW-1'), at('Ilse', 'FR-2')], 'Ilse is at FR 2 too. 1 other elsewhere.'],
  [[at('Tom', 'SW-1')], 'Tom is at SW 1.'],
  [[at('Tom', 'SW-1'), at('Ilse', 'CON-32'), at('Ana', 'CON-32')], 'Tom is at SW 1. 2 others elsewhere.'],
  [[at('Tom', 'NEW-7')], 'Tom is at NEW-7.'],
  [[at('Tom', null)], 'Tom is in this audit.'],
  [[at('Tom', 'FR-2', 'P05', 'a-2'), at('Ana', null, null, null)], null],
])('the head of the walk says %#', (others, line) => {
  expect(words(others)).toEqual({ line, atJack: null });
});

test('whoever is at this very jack is told there, before anything is said of it, and not twice', () => {
  const both = [at('Ilse', 'FR-2', 'P05'), at('Tom', 'SW-1')];
  expect(words(both)).toEqual({ line: 'Tom is at SW 1.', atJack: 'Ilse is at P05 now.' });
  expect(words([at('Ilse', 'FR-2', 'P05')])).toEqual({ line: null, atJack: 'Ilse is at P05 now.' });
  expect(words([at('Ilse', 'FR-2', 'P05')], { done: true })).toEqual({ line: 'Ilse is at FR 2 too.', atJack: null });
});

test('long names are shortened between signs, so that the line stays one', () => {
  const accented = 'a\u0301'.repeat(30);
  const long = words([at(accented, 'FR-2', 'P05'), at('Konstantinopolitanski', 'FR-2')]);
  expect(long.atJack).toBe(`${'a\u0301'.repeat(17)}… is at P05 now.`);
  expect(long.line).toBe('Konstantinopolita… is at FR 2 too.');
  const unit = words([at('Ilse', 'FR-2')], { unit: { id: 'FR-2', label: 'CONTROLROOMDISTRIBUTIONFRAME17' } });
  expect(unit.line?.length).toBeLessThan(40);
});
