// The state of a preview while a person settles it: answers, what was agreed to, the reading that follows from them.
// Kept as a draft under the file's hash, so that choosing the file again goes on where it was left.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { type Agreement, type GuessList, NO_GUESSES } from '../../core/report/plan/guessKinds.ts';
import type { RememberedShape } from '../../core/schedule/answers/remembered.ts';
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
  return answers.cells.length + answers.mappings.length + accepted.length > 0 || answers.encoding !== undefined;
}

export interface Settling {
  read: Settled;
  /** By kind: open, and agreed to. The reader keeps all of them. */
  guesses: GuessList;
  /** Reading again with the last answer. */
  busy: boolean;
  /** When answers of an earlier time were put in again. */
  resumed: number | null;
  agree(said: Agreement): void;
  map(shape: SheetShape, mapping: SheetMapping): void;
  forget(shape: SheetShape): void;
  /** Reads text files in this encoding. */
  encode(encoding: SheetAnswers['encoding']): void;
  answer(cell: CellAnswer): void;
  takeBack(cell: CellAnswer): void;
  drop(): Promise<void>;
}

/** @param file What the person knows the file by. */
export function useSettling(first: Settled, file: string, onLost: (why: string, todo: string) => void): Settling {
  const services = useServices();
  const read = useSignal<Settled>(first);
  const guesses = useSignal<GuessList>(first.type === 'read' ? first.guesses : NO_GUESSES);
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

  async function again(answers: SheetAnswers, agreed?: string): Promise<Settled | null> {
    busy.value = true;
    const next = await first.session.again(answers, agreed);
    busy.value = false;
    if (next.type === 'refused') {
      // What could not be read is not put in again the next time.
      keep(read.peek().answers);
      onLost(next.what, next.nextStep);
      return null;
    }
    read.value = next;
    guesses.value = next.type === 'read' ? next.guesses : NO_GUESSES;
    return next;
  }

  async function settle(answers: SheetAnswers): Promise<Settled | null> {
    if (busy.peek()) return null;
    keep(answers);
    return again(answers);
  }

  /** The columns of a sheet are known again by the titles of its header row, whatever its name. */
  async function remember({ sheet, from }: SheetShape, next: Settled): Promise<void> {
    const shape = next.sheets.find((one) => one.sheet === sheet && one.from === from);
    if (!shape?.chosen || shape.key === '') return;
    const { kind, columns } = shape.chosen;
    const others = (await knownShapes(services)).filter(({ key }) => key !== shape.key);
    const shapes = [{ key: shape.key, kind, columns, at: services.now() }, ...others].slice(0, MAX_SHAPES);
    void services.saveDraft(SHAPES_KEY, shapes, SHAPES);
  }

  async function agree(said: Agreement): Promise<void> {
    const next = await first.session.agree(said);
    if (!next) return;
    guesses.value = next.guesses;
    accepted.value = next.agreed;
    keep(read.peek().answers);
  }

  return {
    read: read.value,
    guesses: guesses.value,
    busy: busy.value,
    resumed: resumed.value,
    agree: (said) => void agree(said),
    map: (shape, mapping) =>
      void settle(withMapping(read.peek().answers, shape.sheet, mapping, shape)).then(
        (next) => next && remember(shape, next),
      ),
    forget: (shape) =>
      void knownShapes(services).then((shapes) => {
        const others = shapes.filter((one) => one.key !== shape.key);
        void services.saveDraft(SHAPES_KEY, others, SHAPES);
        return settle(withMapping(read.peek().answers, shape.sheet, null, shape));
      }),
    encode: (encoding) => void settle({ ...read.peek().answers, encoding }),
    answer: (cell) => void settle(withCell(read.peek().answers, cell)),
    takeBack: (cell) => {
      const { answers } = read.peek();
      void settle({ ...answers, cells: answers.cells.filter((one) => one !== cell) });
    },
    drop: () => services.dropDraft(DRAFT),
  };
}
