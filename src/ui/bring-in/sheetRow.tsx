// One row of the file as it stands, with what became of it: it is no item, it is the header, or one of its cells is
// corrected.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { LeftRows } from '../../core/schedule/answers/leftRows.ts';
import type { RowFacts } from '../../wire/sheet.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Choice, Field } from '../parts/form.tsx';
import { type CellProps, scrolledByKeys } from '../parts/frame.tsx';
import type { ToSettle } from './sheetSettle.tsx';
import type { Settling } from './sheetSettling.ts';

export interface RowAsked {
  sheet: string;
  row: number;
}

export function SheetRow(props: {
  asked: RowAsked;
  settling: Settling;
  onClose: () => void;
  onCorrect: (about: ToSettle) => void;
}) {
  const { asked, settling, onClose, onCorrect } = props;
  const { sheet, row } = asked;
  const facts = useSignal<RowFacts | null>(null);
  const isLeaving = useSignal(false);
  useEffect(() => {
    void settling.read.session.row(sheet, row).then((found) => {
      if (found) facts.value = found;
      else onClose();
    });
  }, []);
  const close: CellProps = { small: 'Nothing changes', big: 'Cancel', onPress: onClose };
  const now = facts.value;
  if (now && isLeaving.value) {
    return (
      <LeaveRows
        asked={asked}
        facts={now}
        onClose={onClose}
        onLeave={(left) => {
          onClose();
          settling.leave(left);
        }}
      />
    );
  }
  const then = (act: () => void) => () => {
    onClose();
    act();
  };
  const { busy } = settling;
  return (
    <Dialog
      title={`${sheet} row ${row}`}
      onClose={onClose}
      rows={[
        [
          close,
          {
            small: 'One cell of it',
            big: 'Correct it',
            disabled: busy || !now || now.left !== null,
            onPress: then(() =>
              onCorrect({ sheet, row, said: '', words: 'What should this row say?', everywhere: false }),
            ),
          },
        ],
        [
          {
            small: 'Names the columns',
            big: 'Header row',
            disabled: busy || !now || now.like === null || now.left !== null,
            onPress: then(() => settling.header(sheet, row)),
          },
          now?.left
            ? {
                small: 'Read it again',
                big: 'It is an item',
                primary: true,
                disabled: busy,
                onPress: then(() => now.left && settling.takeBackRows(now.left)),
              }
            : {
                small: 'Leave it out',
                big: 'Not an item',
                primary: true,
                disabled: busy || !now || now.like === null,
                onPress: () => {
                  isLeaving.value = true;
                },
              },
        ],
      ]}
    >
      {!now && <p role="status">Looking up the row.</p>}
      {now && (
        <>
          <p>{now.left ? 'Left out by you.' : now.readAs ? `Became ${now.readAs}.` : 'Became nothing.'}</p>
          {now.open.map(({ said, words }, i) => (
            <p key={i}>
              <span class="ident">{said}</span> {words}
            </p>
          ))}
          <dl class="desk-facts desk-facts-flush" ref={scrolledByKeys}>
            {now.cells.map(({ column, title, text }) => (
              <Pair key={column} name={title || `Column ${column}`} value={text} />
            ))}
          </dl>
        </>
      )}
    </Dialog>
  );
}

type Which = 'row' | 'run' | 'like';

function LeaveRows(props: {
  asked: RowAsked;
  facts: RowFacts;
  onClose: () => void;
  onLeave: (left: LeftRows) => void;
}) {
  const { asked, facts, onClose, onLeave } = props;
  const { sheet, row } = asked;
  const which = useSignal<Which>('row');
  const to = useSignal(String(row));
  const last = Number(to.value);
  const isRun = Number.isInteger(last) && last >= row && last <= facts.list.to;
  const n = { row: 1, run: isRun ? last - row + 1 : 0, like: facts.alike }[which.value];
  const toLeft = (): LeftRows => {
    if (which.value === 'like') return { sheet, ...facts.list, like: facts.like };
    return { sheet, from: row, to: which.value === 'run' ? last : row, like: null };
  };
  const second =
    facts.like?.remark !== null
      ? 'The same cells filled, the same sort of remark'
      : facts.like.first === null
        ? 'Only this column filled'
        : 'The same cells filled, the same first text';
  return (
    <Dialog
      title="Not an item"
      onClose={onClose}
      rows={[
        [
          { small: 'Nothing changes', big: 'Cancel', onPress: onClose },
          {
            small: 'The sheet is read again',
            big: n === 1 ? 'Leave 1 row out' : `Leave ${n} rows out`,
            primary: true,
            disabled: n === 0,
            onPress: () => onLeave(toLeft()),
          },
        ],
      ]}
    >
      <Choice
        legend={`Which rows of ${sheet} list nothing?`}
        stacked
        value={which.value}
        options={[
          { value: 'row', text: `Row ${row} only` },
          { value: 'run', text: `Row ${row} and rows below it` },
          { value: 'like', text: `All rows like it: ${facts.alike}`, second, disabled: facts.alike === 0 },
        ]}
        onChoose={(value) => {
          which.value = value;
        }}
      />
      {which.value === 'run' && (
        <Field
          label="Last of these rows"
          inputMode="numeric"
          value={to.value}
          error={isRun ? undefined : `A row from ${row} to ${facts.list.to}.`}
          onInput={(value) => {
            to.value = value;
          }}
        />
      )}
    </Dialog>
  );
}

function Pair({ name, value }: { name: string; value: string }) {
  return (
    <>
      <dt>{name}</dt>
      <dd class="ident">{value || '–'}</dd>
    </>
  );
}
