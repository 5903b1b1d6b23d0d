// Questions of a column in one group, and one answer for all of them. The sheets are invented.
import { describe, expect, it } from 'vitest';
import { withAgreement } from '../../../../src/core/report/plan/guessKinds.ts';
import { listQuestions, questionKey, TEXTS_SHOWN, withGroup } from '../../../../src/core/report/plan/questionGroups.ts';
import { readTables } from '../../../../src/core/schedule/readTables.ts';
import type { Question, Table } from '../../../../src/core/schedule/rows/readTypes.ts';
import { columnsOf, NO_ANSWERS, type SheetAnswers } from '../../../../src/core/schedule/sheetAnswers.ts';

const HEADER = ['Cable', 'From Unit', 'From Jack', 'To Unit', 'To Jack', 'Signal'];
/** Every other row has a jack that the list itself doubts, each with other words. */
const doubted = (n: number): Table => ({
  name: 'Wing',
  rows: [
    HEADER,
    ...Array.from({ length: n }, (_, i) => [`${1001 + i}`, 'SW1', `P${i}`, 'PB1', i % 2 ? `J${i}?` : `J${i}`, 'AES']),
  ],
});

function read(table: Table, answers: SheetAnswers = NO_ANSWERS) {
  const result = readTables([table], { name: 'a', answers });
  if (result.type !== 'plan') throw new Error(result.why);
  return result;
}
const titlesOf = (table: Table) => columnsOf(table, NO_ANSWERS)?.titles ?? [];

describe('a column of questions', () => {
  it('is one group, however many rows ask', () => {
    for (const n of [20, 600]) {
      const { open, openCount } = listQuestions(read(doubted(n)).questions, new Set());
      expect(open.map(({ kind, column, n: asked }) => [kind, column, asked])).toEqual([['jack', 'To Jack', n / 2]]);
      expect(openCount).toBe(n / 2);
      expect(open[0]?.texts.length).toBe(Math.min(n / 2, TEXTS_SHOWN));
      expect(open[0]?.more).toBe(Math.max(0, n / 2 - TEXTS_SHOWN));
    }
  });

  it('is settled by one answer: as written, blank, or no items', () => {
    const table = doubted(60);
    const { questions } = read(table);
    const settle = (how: 'literal' | 'blank' | 'no-item') => withGroup(NO_ANSWERS, questions, how, [table], titlesOf);
    const written = read(table, settle('literal'));
    expect(settle('literal').cells).toHaveLength(1);
    expect(written.questions).toEqual([]);
    expect(written.plan.cables[1]?.ends[1]).toMatchObject({ jack: 'J1?', place: 'PB1/J1?' });
    const blank = settle('blank');
    expect(blank.cells).toMatchObject([{ column: 5, row: null, said: 'J1?', as: 'typed', text: '' }]);
    const gone = read(table, settle('no-item'));
    expect(gone.plan.cables).toHaveLength(30);
    expect(gone.counts.skipped).toBe(30);
    expect(gone.questions).toEqual([]);
  });

  it('is left as read, and asked again', () => {
    const { questions } = read(doubted(20));
    const of = { kind: 'jack' as const, sheet: 'Wing', column: 'To Jack' };
    const passed = withAgreement([], new Set(), { to: 'agree', questions: of }, questions);
    expect(listQuestions(questions, passed)).toEqual({ open: [], openCount: 0, passed: [{ of, n: 10 }] });
    const again = withAgreement([], passed, { to: 'reopen', questions: of }, questions);
    expect(again.size).toBe(0);
  });
});

it('rows one below the other that list nothing are one answer', () => {
  const ask = (row: number, sheet = 'A'): Question => ({ kind: 'end', sheet, row, said: '', question: '?' });
  const { left } = withGroup(NO_ANSWERS, [ask(4), ask(5), ask(9), ask(5), ask(6, 'B')], 'no-item', [], () => []);
  expect(left).toEqual([
    { sheet: 'A', from: 4, to: 5, like: null },
    { sheet: 'A', from: 9, to: 9, like: null },
    { sheet: 'B', from: 6, to: 6, like: null },
  ]);
  expect(new Set([ask(4), ask(5), ask(4, 'B')].map(questionKey)).size).toBe(3);
});
