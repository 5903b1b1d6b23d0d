// Questions in groups, one for each column and sort, so that one answer settles all of its cells; and what such an answer
// is for the cells and rows concerned. Nothing is read here.
import type { LeftRows } from '../../schedule/answers/leftRows.ts';
import type { Question, QuestionKind, Table } from '../../schedule/rows/readTypes.ts';
import { holdsRow, type SheetAnswers, withCell } from '../../schedule/sheetAnswers.ts';

/** What the questions of a group have in common. */
export interface QuestionsOf {
  kind: QuestionKind;
  sheet: string;
  /** Title of the column; null where the whole row is asked about. */
  column: string | null;
}

export interface QuestionGroup extends QuestionsOf {
  n: number;
  /** One question for each text, the most frequent first; cut off. `n`: cells that say the same. */
  texts: { question: Question; n: number }[];
  /** Texts beyond them. */
  more: number;
}

export interface QuestionList {
  open: QuestionGroup[];
  openCount: number;
  /** Questions that a person leaves as they were read. */
  passed: { of: QuestionsOf; n: number }[];
}
export const NO_QUESTIONS: QuestionList = { open: [], openCount: 0, passed: [] };

/** Texts of a group that are handed over. */
export const TEXTS_SHOWN = 50;

/** The same question has the same key when the file is read again. */
export function questionKey({ kind, sheet, row, column, said }: Question): string {
  return JSON.stringify(['?', kind, sheet, row, column ?? '', said]);
}

export function isOf(question: Question, { kind, sheet, column }: QuestionsOf): boolean {
  return question.kind === kind && question.sheet === sheet && (question.column ?? null) === column;
}

/** @param passed Keys of what a person leaves as it was read. */
export function listQuestions(questions: readonly Question[], passed: ReadonlySet<string>): QuestionList {
  const isPassed = (one: Question) => passed.size > 0 && passed.has(questionKey(one));
  const open = inGroups(questions.filter((one) => !isPassed(one)));
  return {
    open: open.map(({ of, all }) => ({ ...of, n: all.length, ...textsOf(all) })),
    openCount: open.reduce((sum, { all }) => sum + all.length, 0),
    passed: inGroups(questions.filter(isPassed)).map(({ of, all }) => ({ of, n: all.length })),
  };
}

/** In the order of the sheet, by the first question of each. */
function inGroups(questions: readonly Question[]): { of: QuestionsOf; all: Question[] }[] {
  const groups = new Map<string, { of: QuestionsOf; all: Question[] }>();
  for (const question of questions) {
    const { kind, sheet, column = null } = question;
    const key = JSON.stringify([kind, sheet, column]);
    const group = groups.get(key);
    if (group) group.all.push(question);
    else groups.set(key, { of: { kind, sheet, column }, all: [question] });
  }
  return [...groups.values()];
}

function textsOf(questions: readonly Question[]): Pick<QuestionGroup, 'texts' | 'more'> {
  const byText = new Map<string, { question: Question; n: number }>();
  for (const question of questions) {
    const known = byText.get(question.said);
    if (known) known.n += 1;
    else byText.set(question.said, { question, n: 1 });
  }
  const texts = [...byText.values()].sort((a, b) => b.n - a.n);
  return { texts: texts.slice(0, TEXTS_SHOWN), more: Math.max(0, texts.length - TEXTS_SHOWN) };
}

/** One answer for a group: its cells as they are written, its cells blank, or its rows are no items. */
export type GroupAnswer = 'literal' | 'blank' | 'no-item';

/**
 * The answers with that of one group in them.
 * @param lists As the file has them.
 * @param titlesOf The titles of a list's columns.
 */
export function withGroup(
  answers: SheetAnswers,
  questions: readonly Question[],
  how: GroupAnswer,
  lists: readonly Table[],
  titlesOf: (table: Table) => readonly string[],
): SheetAnswers {
  if (how === 'no-item') return { ...answers, left: [...(answers.left ?? []), ...rowsOf(questions)] };
  /** By sheet and column: the texts of its cells, in full. */
  const columns = new Map<string, { sheet: string; column: number; texts: Set<string> }>();
  for (const question of questions) {
    const cell = cellOf(question, lists, titlesOf);
    if (!cell) continue;
    const key = `${cell.column} ${question.sheet}`;
    const mine = columns.get(key) ?? { sheet: question.sheet, column: cell.column, texts: new Set<string>() };
    columns.set(key, mine);
    mine.texts.add(cell.text);
  }
  let next = answers;
  for (const { sheet, column, texts } of columns.values()) {
    const [said = '', ...also] = texts;
    const answer = { sheet, column, row: null, said, ...(also.length > 0 ? { also } : {}) };
    next = withCell(
      next,
      how === 'blank' ? { ...answer, as: 'typed', text: '' } : { ...answer, as: 'literal', text: said },
    );
  }
  return next;
}

/** The cell a question speaks of: of several columns of one title, the one that says the words. */
function cellOf(
  { sheet, row, column, said }: Question,
  lists: readonly Table[],
  titlesOf: (table: Table) => readonly string[],
): { column: number; text: string } | null {
  const table = lists.find((one) => holdsRow(one, sheet, row));
  if (!table || column === undefined) return null;
  const cells = table.rows[row - (table.firstRow ?? 1)] ?? [];
  const titled = titlesOf(table).flatMap((title, i) =>
    title === column ? [{ column: i + 1, text: (cells[i] ?? '').trim() }] : [],
  );
  return (
    titled.find(({ text }) => text === said) ?? titled.find(({ text }) => text.includes(said)) ?? titled[0] ?? null
  );
}

/** Rows as runs, so that a hundred rows one below the other are one answer. */
function rowsOf(questions: readonly Question[]): LeftRows[] {
  const runs: LeftRows[] = [];
  const sorted = [...questions].sort((a, b) => (a.sheet < b.sheet ? -1 : a.sheet > b.sheet ? 1 : a.row - b.row));
  for (const { sheet, row } of sorted) {
    const last = runs.at(-1);
    if (last?.sheet === sheet && row <= last.to + 1) last.to = Math.max(last.to, row);
    else runs.push({ sheet, from: row, to: row, like: null });
  }
  return runs;
}
