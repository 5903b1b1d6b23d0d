// Guesses by kind: none is lost, an agreed one leaves the open ones, and what a person put in by hand is neither. The
// Quillmere list is invented.
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import {
  GUESSES_SHOWN,
  guessKey,
  keyGuesses,
  listGuesses,
  withAgreement,
} from '../../../../src/core/report/plan/guessKinds.ts';
import { readTables } from '../../../../src/core/schedule/readTables.ts';
import { NO_ANSWERS, withCell } from '../../../../src/core/schedule/sheetAnswers.ts';
import { readSheetFile } from '../../../../src/files/sheet.ts';

const file = readFileSync(new URL('../../../fixtures/quillmere-run-list.csv', import.meta.url));

async function guesses(answers = NO_ANSWERS) {
  const sheet = await readSheetFile(file, 'quillmere.csv');
  if (sheet.type !== 'tables') throw new Error(sheet.error.what);
  const read = readTables(sheet.tables, { name: 'Quillmere', answers });
  if (read.type !== 'plan') throw new Error(read.why);
  return read.guesses;
}

const NONE: ReadonlySet<string> = new Set();
const DITTOS = 'ditto' as const;

test('No guess is lost by grouping, and the longest group comes first', async () => {
  const all = await guesses();
  const { open, agreed, openCount } = listGuesses(keyGuesses(all), NONE);
  expect(openCount).toBe(all.length);
  expect(new Set(open.flatMap((group) => group.guesses))).toEqual(new Set(all));
  expect(agreed).toEqual([]);
  const sizes = open.map((group) => group.n);
  expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
  expect(open.map((group) => group.guesses.length)).toEqual(sizes);
});

test('Every guess has a key of its own, the same when the file is read again', async () => {
  const keys = (await guesses()).map(guessKey);
  expect(new Set(keys).size).toBe(keys.length);
  expect((await guesses()).map(guessKey)).toEqual(keys);
});

test('Agreeing to a kind takes all of it out of the open ones and nothing else, and opens it again', async () => {
  const keyed = keyGuesses(await guesses());
  const dittos = keyed.filter(({ kind }) => kind === DITTOS);
  expect(dittos.length).toBeGreaterThan(3);
  const keys = withAgreement(keyed, NONE, { to: 'agree', kind: DITTOS });
  const { open, agreed, openCount } = listGuesses(keyed, keys);
  expect(openCount).toBe(keyed.length - dittos.length);
  expect(agreed).toEqual([{ kind: DITTOS, n: dittos.length }]);
  expect(open.map(({ kind }) => kind)).not.toContain(DITTOS);
  expect(withAgreement(keyed, keys, { to: 'reopen', kind: DITTOS })).toEqual(NONE);
});

test('Agreeing to one guess leaves those of its kind open', async () => {
  const keyed = keyGuesses(await guesses());
  const dittos = keyed.filter(({ kind }) => kind === DITTOS);
  const keys = withAgreement(keyed, NONE, { to: 'agree', guess: dittos[1]!.guess });
  const group = listGuesses(keyed, keys).open.find(({ kind }) => kind === DITTOS);
  expect(group?.guesses).toEqual(dittos.filter((_, i) => i !== 1).map(({ guess }) => guess));
});

test('A long kind is cut off and counted, and agreeing to it means all of it', () => {
  const many = Array.from({ length: GUESSES_SHOWN + 7 }, (_, i) => ({
    kind: DITTOS,
    sheet: 'List',
    row: i + 2,
    said: '"',
    readAs: `Run ${i}`,
  }));
  const keyed = keyGuesses(many);
  const [group] = listGuesses(keyed, NONE).open;
  expect([group?.n, group?.guesses.length]).toEqual([GUESSES_SHOWN + 7, GUESSES_SHOWN]);
  expect(listGuesses(keyed, withAgreement(keyed, NONE, { to: 'agree', kind: DITTOS })).openCount).toBe(0);
});

test('What a person put in by hand is no guess of the reader', async () => {
  const cell = { sheet: 'quillmere', column: 8, row: 30, said: '?', as: 'typed' as const, text: '12 m' };
  const all = await guesses(withCell(NO_ANSWERS, cell));
  expect(all.map(({ readAs }) => readAs)).toContain('12 m, put in by hand');
  const { open } = listGuesses(keyGuesses(all), NONE);
  expect(open.flatMap((group) => group.guesses).map(({ readAs }) => readAs)).not.toContain('12 m, put in by hand');
});

test('Dates, lost zeros and letters that look alike are agreed to one by one, never as a kind', () => {
  for (const kind of ['date', 'number-changed', 'trailing-zero', 'look-alike'] as const) {
    const two = keyGuesses([1, 2].map((row) => ({ kind, sheet: 'List', row, said: '1.1', readAs: '1.1' })));
    expect(withAgreement(two, NONE, { to: 'agree', kind })).toEqual(NONE);
    const one = withAgreement(two, NONE, { to: 'agree', guess: two[0]!.guess });
    expect(listGuesses(two, one)).toMatchObject({ openCount: 1, agreed: [{ kind, n: 1 }] });
    expect(withAgreement(two, one, { to: 'reopen', kind })).toEqual(NONE);
  }
});
