// The state of a preview while a person settles it: answers, what was agreed to, the reading that follows from them.
// Kept as a draft under the file's hash, so that choosing the file again goes on where it was left.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { type Agreement, type GuessList, NO_GUESSES } from '../../core/report/plan/guessKinds.ts';
import {
  type GroupAnswer,
  NO_QUESTIONS,
  type QuestionList,
  type QuestionsOf,
} from '../../core/report/plan/questionGroups.ts';
import { type GoneAnswer, withGone, withoutGone } from '../../core/schedule/answers/goneAnswers.ts';
import type { LeftRows } from '../../core/schedule/answers/leftRows.ts';
import { type RememberedShape, toRemember } from '../../core/schedule/answers/remembered.ts';
import {
  type CellAnswer,
  type SheetAnswers,
  type SheetMapping,
  withCell,
  withMapping,
} from '../../core/schedule/sheetAnswers.ts';
import type { SheetShape } from '../../wire/sheet.ts';
import { useServices } from '../context.ts';
import { BRING_IN, SHAPES } from '../drafts/deskDrafts.ts';
import type { Services, SheetRead } from '../services.ts';

export type Settled = Exclude<SheetRead, { type: 'refused' }>;

/** What is kept of a file that is being settled: answers only, never its rows. */
export interface BringInDraft {
  sha256: string;
  file: string;
  answers: SheetAnswers;
  /** Keys of the guesses that were agreed to, one a line. */
  accepted: string;
  at: number;
}
export const DRAFT = 'bring-in';
const SHAPES_KEY = 'sheet-shapes';
const MAX_SHAPES = 50;

export async function knownShapes(services: Services): Promise<RememberedShape[]> {
  return (await services.draft(SHAPES_KEY, SHAPES)) ?? [];
}

export function isSettled({ answers, accepted }: Pick<BringInDraft, 'answers' | 'accepted'>): boolean {
  const { mappings, cells, left = [], fixed = [], unused = [], encoding, gone = [] } = answers;
  const said = cells.length + mappings.length + left.length + fixed.length + unused.length + gone.length;
  return said + accepted.length > 0 || encoding !== undefined;
}

export interface Settling {
  read: Settled;
  /** By kind: open, and agreed to. The reader keeps all of them. */
  guesses: GuessList;
  /** By column and sort: open, and left as read. */
  questions: QuestionList;
  /** Reading again with the last answer. */
  busy: boolean;
  /** When answers of an earlier time were put in again. */
  resumed: number | null;
  agree(said: Agreement): void;
  map(shape: SheetShape, mapping: SheetMapping): void;
  forget(shape: SheetShape): void;
  /** Reads text files in this encoding. */
  encode(encoding: SheetAnswers['encoding']): void;
  /** The row names the columns of its list. */
  header(sheet: string, row: number): void;
  answer(cell: CellAnswer): void;
  takeBack(cell: CellAnswer): void;
  /** One answer for a group of questions. */
  settleGroup(of: QuestionsOf, how: GroupAnswer): void;
  /** These rows are no items. */
  leave(rows: LeftRows): void;
  takeBackRows(rows: LeftRows): void;
  /** A value of every row of a list; blank: none any more. */
  fix(shape: SheetShape, meaning: string, text: string): void;
  use(sheet: string, isUsed: boolean): void;
  /** For all rows of a style. */
  answerGone(answer: GoneAnswer): void;
  takeBackGone(answer: GoneAnswer): void;
  drop(): Promise<void>;
}

/** @param file What the person knows the file by. */
export function useSettling(first: Settled, file: string, onLost: (why: string, todo: string) => void): Settling {
  const services = useServices();
  const read = useSignal<Settled>(first);
  const guesses = useSignal<GuessList>(first.type === 'read' ? first.guesses : NO_GUESSES);
  const questions = useSignal<QuestionList>(first.type === 'read' ? first.questions : NO_QUESTIONS);
  const accepted = useSignal('');
  const busy = useSignal(false);
  const resumed = useSignal<number | null>(null);

  useEffect(() => {
    void services.draft(DRAFT, BRING_IN).then(async (kept) => {
      if (kept?.sha256 !== first.sha256 || !isSettled(kept)) return;
      accepted.value = kept.accepted;
      resumed.value = kept.at;
      await again(kept.answers, kept.accepted);
    });
    return () => first.session.close();
  }, []);

  function keep(answers: SheetAnswers): void {
    const { sha256 } = first;
    const draft: BringInDraft = { sha256, file, answers, accepted: accepted.peek(), at: services.now() };
    void services.saveDraft(DRAFT, draft, BRING_IN);
  }

  /** @returns Null when the reading was refused: then there is nothing to settle any more. */
  async function reading(ask: () => Promise<SheetRead>): Promise<Settled | null> {
    busy.value = true;
    const next = await ask();
    busy.value = false;
    if (next.type === 'refused') {
      // What could not be read is not put in again the next time.
      keep(read.peek().answers);
      onLost(next.what, next.nextStep);
      return null;
    }
    read.value = next;
    guesses.value = next.type === 'read' ? next.guesses : NO_GUESSES;
    questions.value = next.type === 'read' ? next.questions : NO_QUESTIONS;
    return next;
  }
  const again = (answers: SheetAnswers, agreed?: string) => reading(() => first.session.again(answers, agreed));

  async function settle(answers: SheetAnswers): Promise<Settled | null> {
    if (busy.peek()) return null;
    keep(answers);
    return again(answers);
  }

  async function settleGroup(of: QuestionsOf, how: GroupAnswer): Promise<void> {
    if (busy.peek()) return;
    const next = await reading(() => first.session.settle(of, how));
    if (next) keep(next.answers);
  }

  /** Reads with these answers; what they say of the sheet's lists is known again by the titles of their headers. */
  async function settleList(sheet: string, answers: SheetAnswers): Promise<void> {
    const listsOf = ({ sheets }: Settled) => sheets.filter((one) => one.sheet === sheet && one.key !== '');
    // A list whose header row moves has other titles: what was remembered by the former ones goes.
    const before = listsOf(read.peek());
    const next = await settle(answers);
    if (!next) return;
    const now = listsOf(next);
    const fresh = now.flatMap((list) => toRemember(list, next.answers, services.now()) ?? []);
    const old = new Set([...before, ...now].map(({ key }) => key));
    const others = (await knownShapes(services)).filter(({ key }) => !old.has(key));
    void services.saveDraft(SHAPES_KEY, [...fresh, ...others].slice(0, MAX_SHAPES), SHAPES);
  }

  async function agree(said: Agreement): Promise<void> {
    const next = await first.session.agree(said);
    if (!next) return;
    guesses.value = next.guesses;
    questions.value = next.questions;
    accepted.value = next.agreed;
    keep(read.peek().answers);
  }

  return {
    read: read.value,
    guesses: guesses.value,
    questions: questions.value,
    busy: busy.value,
    resumed: resumed.value,
    agree: (agreement) => void agree(agreement),
    settleGroup: (of, how) => void settleGroup(of, how),
    ...toAnswers(
      () => read.peek(),
      (answers) => void settle(answers),
      (sheet, answers) => void settleList(sheet, answers),
    ),
    answerGone: (answer) => void settle(withGone(read.peek().answers, answer)),
    takeBackGone: (answer) => void settle(withoutGone(read.peek().answers, answer)),
    drop: () => services.dropDraft(DRAFT),
  };
}

type Answering =
  | 'map'
  | 'forget'
  | 'header'
  | 'encode'
  | 'answer'
  | 'takeBack'
  | 'leave'
  | 'takeBackRows'
  | 'fix'
  | 'use';

/**
 * What a person says, put with what was said before.
 * @param settleList As `settle`, and what it says of the sheet's lists is remembered.
 */
function toAnswers(
  now: () => Settled,
  settle: (answers: SheetAnswers) => void,
  settleList: (sheet: string, answers: SheetAnswers) => void,
): Pick<Settling, Answering> {
  const said = () => now().answers;
  const map = (shape: SheetShape, mapping: SheetMapping | null) =>
    settleList(shape.sheet, withMapping(said(), shape.sheet, mapping, shape));
  return {
    map,
    forget: (shape) => map(shape, null),
    header: (sheet, row) => {
      const shape = now().sheets.find((one) => one.sheet === sheet && row >= one.from && row <= one.to);
      if (shape) map(shape, { sheet, kind: shape.kind ?? 'cables', headerRow: row, columns: null });
    },
    answer: (cell) => settle(withCell(said(), cell)),
    encode: (encoding) => settle({ ...said(), encoding }),
    takeBack: (cell) => settle({ ...said(), cells: said().cells.filter((one) => one !== cell) }),
    leave: (rows) => settleList(rows.sheet, { ...said(), left: [...(said().left ?? []), rows] }),
    takeBackRows: (rows) =>
      settleList(rows.sheet, {
        ...said(),
        left: (said().left ?? []).filter((one) => JSON.stringify(one) !== JSON.stringify(rows)),
      }),
    fix: ({ sheet, from, to, headerRow }, meaning, text) => {
      const others = (said().fixed ?? []).filter(
        (one) => one.sheet !== sheet || one.headerRow < from || one.headerRow > to || one.meaning !== meaning,
      );
      const fixed = text === '' ? others : [...others, { sheet, headerRow, meaning, text }];
      settleList(sheet, { ...said(), fixed });
    },
    use: (sheet, isUsed) => {
      const others = (said().unused ?? []).filter((name) => name !== sheet);
      settle({ ...said(), unused: isUsed ? others : [...others, sheet] });
    },
  };
}
