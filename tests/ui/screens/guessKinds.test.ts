// Guesses by kind: none is lost, an agreed one leaves the open ones, and what a person put in by hand is neither. The
// Quillmere list is invented.
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readTables } from '../../../src/core/plan/readTables.ts';
import { NO_ANSWERS, withCell } from '../../../src/core/plan/sheetAnswers.ts';
import { readSheetFile } from '../../../src/files/sheet.ts';
import { groupGuesses, guessKey, guessToKind } from '../../../src/ui/screens/guessKinds.ts';

const file = readFileSync(new URL('../../fixtures/quillmere-run-list.csv', import.meta.url));

async function guesses(answers = NO_ANSWERS) {
  const sheet = await readSheetFile(file, 'quillmere.csv');
  if (sheet.type !== 'tables') throw new Error(sheet.error.what);
  const read = readTables(sheet.tables, { name: 'Quillmere', answers });
  if (read.type !== 'plan') throw new Error(read.why);
  return read.guesses;
}

test('No guess is lost by grouping, and the longest group comes first', async () => {
  const all = await guesses();
  const { open, agreed, openCount } = groupGuesses(all, new Set());
  expect(openCount).toBe(all.length);
  expect(new Set(open.flatMap((group) => group.guesses))).toEqual(new Set(all));
  expect(agreed).toEqual([]);
  const sizes = open.map((group) => group.guesses.length);
  expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
});

test('Every guess has a key of its own, the same when the file is read again', async () => {
  const keys = (await guesses()).map(guessKey);
  expect(new Set(keys).size).toBe(keys.length);
  expect((await guesses()).map(guessKey)).toEqual(keys);
});

test('Agreeing to a kind takes all of it out of the open ones and nothing else', async () => {
  const all = await guesses();
  const dittos = all.filter((guess) => guessToKind(guess) === 'Signs that repeat the cell above');
  expect(dittos.length).toBeGreaterThan(3);
  const { open, agreed, openCount } = groupGuesses(all, new Set(dittos.map(guessKey)));
  expect(openCount).toBe(all.length - dittos.length);
  expect(agreed.map(({ kind }) => kind)).toEqual(['Signs that repeat the cell above']);
  expect(open.map(({ kind }) => kind)).not.toContain('Signs that repeat the cell above');
});

test('What a person put in by hand is no guess of the reader', async () => {
  const cell = { sheet: 'quillmere', column: 8, row: 30, said: '?', as: 'typed' as const, text: '12 m' };
  const all = await guesses(withCell(NO_ANSWERS, cell));
  expect(all.map(({ readAs }) => readAs)).toContain('12 m, put in by hand');
  const { open } = groupGuesses(all, new Set());
  expect(open.flatMap((group) => group.guesses).map(({ readAs }) => readAs)).not.toContain('12 m, put in by hand');
});
