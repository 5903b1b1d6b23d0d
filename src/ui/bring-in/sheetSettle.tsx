// One cell that was guessed, or could not be read: a person says what it is to say, takes it as it stands, or leaves it
// blank. The file itself is not changed.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { CellAnswer } from '../../core/schedule/sheetAnswers.ts';
import type { RowCell } from '../../wire/sheet.ts';
import { Dialog } from '../parts/dialog.tsx';
import { CheckRow, Field } from '../parts/form.tsx';
import { Select } from '../parts/select.tsx';
import type { SheetSession } from '../services.ts';

export interface ToSettle {
  sheet: string;
  row: number;
  column?: string | undefined;
  said: string;
  /** What the reader made of it, or what it asks. */
  words: string;
  /** A word that means the same in every row was written down once: all cells that say it are meant. */
  everywhere: boolean;
}

export function SheetSettle(props: {
  about: ToSettle;
  session: SheetSession;
  onAnswer: (answer: CellAnswer) => void;
  onClose: () => void;
}) {
  const { about, session, onAnswer, onClose } = props;
  const cells = useSignal<RowCell[] | null>(null);
  const column = useSignal<number | null>(null);
  const typed = useSignal<string | null>(null);
  const all = useSignal(about.everywhere);
  useEffect(() => {
    void session.row(about.sheet, about.row).then((facts) => {
      const found = facts?.cells ?? [];
      cells.value = found;
      column.value = chooseColumn(found, about);
    });
  }, []);
  const cell = cells.value?.find((one) => one.column === column.value) ?? null;
  const many = cell !== null && cell.text !== '' && cell.same > 1;
  const say = (as: CellAnswer['as'], text: string) => {
    if (!cell) return;
    const row = many && all.value ? null : about.row;
    onAnswer({ sheet: about.sheet, column: cell.column, row, said: cell.text, as, text });
  };
  const text = typed.value ?? cell?.text ?? '';
  return (
    <Dialog
      title={`${about.sheet} row ${about.row}`}
      onClose={onClose}
      rows={[
        [
          { small: 'Nothing changes', big: 'Cancel', onPress: onClose },
          { small: 'No text', big: 'Leave it blank', disabled: !cell, onPress: () => say('typed', '') },
        ],
        [
          {
            small: 'One name, not split',
            big: 'As written',
            disabled: !cell,
            onPress: () => say('literal', cell?.text ?? ''),
          },
          {
            small: 'The sheet is read again',
            big: 'Apply',
            primary: true,
            disabled: !cell || text.trim() === '' || text === cell.text,
            onPress: () => say('typed', text.trim()),
          },
        ],
      ]}
    >
      <p>{about.words}</p>
      {cells.value === null && <p role="status">Looking up the row.</p>}
      {cells.value?.length === 0 && <p>The file has no such row: this guess is about the whole sheet.</p>}
      {cells.value !== null && cells.value.length > 0 && (
        <div class="desk-settle">
          <Select
            label="Cell"
            value={String(column.value ?? '')}
            options={cells.value.map((one) => ({
              value: String(one.column),
              text: `${one.title || `Column ${one.column}`}: ${one.text || 'blank'}`,
            }))}
            onChoose={(value) => {
              column.value = Number(value);
              typed.value = null;
              all.value = false;
            }}
          />
          <Field
            label="What it should say"
            ident
            value={text}
            hint={`The file says: ${cell?.text || 'nothing'}`}
            onInput={(value) => {
              typed.value = value;
            }}
          />
          {many && (
            <CheckRow
              text={`All ${cell.same} cells with this text in this column`}
              checked={all.value}
              onChange={(checked) => {
                all.value = checked;
              }}
            />
          )}
        </div>
      )}
    </Dialog>
  );
}

/** The cell the reader speaks of: of several columns of one name, the one that says the words. */
function chooseColumn(cells: readonly RowCell[], { column, said }: ToSettle): number | null {
  const titled = column === undefined ? [] : cells.filter(({ title }) => title === column);
  const found =
    titled.find(({ text }) => text === said) ??
    titled[0] ??
    cells.find(({ text }) => text !== '' && text === said) ??
    cells.find(({ text }) => text !== '' && text.includes(said)) ??
    cells[0];
  return found?.column ?? null;
}
