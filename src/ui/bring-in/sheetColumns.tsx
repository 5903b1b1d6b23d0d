// What each sheet of the file was taken for, and which column means what: a person can change all of it, and the sheet is
// read again. Original titles and cells stand beside the meaning.

import type { ListKind } from '../../core/schedule/meanings.ts';
import { MEANINGS, meaningToWords } from '../../core/schedule/meanings.ts';
import type { SheetMapping } from '../../core/schedule/sheetAnswers.ts';
import type { SheetShape } from '../../wire/sheet.ts';
import { useServices } from '../context.ts';
import { Fold } from '../parts/fold.tsx';
import { PlainButton } from '../parts/form.tsx';
import { SectionHead } from '../parts/rows.tsx';
import { Select } from '../parts/select.tsx';
import { count, timeToWords } from '../words.ts';
import type { Settling } from './sheetSettling.ts';
import { FixedValues } from './sheetWhole.tsx';

const NO_LIST = 'none';
const UNREAD = '';
const KINDS: readonly { value: ListKind | typeof NO_LIST; text: string }[] = [
  { value: 'cables', text: 'Cables' },
  { value: 'units', text: 'Units' },
  { value: 'jacks', text: 'Jacks' },
  { value: 'racks', text: 'Racks' },
  { value: NO_LIST, text: 'Not a list' },
];

/** @param open Unfolded at once: where no list was recognised there is nothing else to do. */
export function SheetColumns({ settling, open }: { settling: Settling; open: boolean }) {
  const { answers } = settling.read;
  const sheets = settling.read.sheets.filter(({ sheet }) => !answers.unused?.includes(sheet));
  return (
    <>
      <SectionHead
        strong
        title="What each column means"
        right={count(sheets.length, sheets.every(({ whole }) => whole) ? 'sheet' : 'list')}
      />
      {sheets.map((shape) => (
        <Sheet key={`${shape.from} ${shape.sheet}`} shape={shape} settling={settling} open={open} />
      ))}
    </>
  );
}

function Sheet({ shape, settling, open }: { shape: SheetShape; settling: Settling; open: boolean }) {
  const services = useServices();
  const { sheet, kind, chosen, rememberedAt, whole } = shape;
  const name = whole ? sheet : `${sheet} rows ${shape.from} to ${shape.to}`;
  const map = (part: Partial<SheetMapping>) =>
    settling.map(shape, { sheet, kind, headerRow: shape.headerRow, columns: null, ...part });
  const setMeaning = (column: number, meaning: string) => {
    // A meaning belongs to one column: where it was before is not read any more.
    const others = shape.columns.flatMap((one) =>
      one.meaning === null || one.column === column || one.meaning === meaning
        ? []
        : [{ column: one.column, meaning: one.meaning }],
    );
    map({ columns: meaning === UNREAD ? others : [...others, { column, meaning }] });
  };
  const used = shape.columns.filter(({ meaning }) => meaning !== null).length;
  return (
    <Fold
      open={open}
      title={`${name}: ${kind === null ? 'not a list' : `${kind}, ${used} of ${count(shape.columns.length, 'column')} read`}`}
    >
      {() => (
        <>
          {chosen && (
            <div class="desk-part">
              <p role="status">
                {rememberedAt !== null
                  ? `Read with the columns chosen on ${timeToWords(rememberedAt, services.now())}.`
                  : 'Read your way. The next sheet with this header is read the same way.'}
              </p>
              <PlainButton disabled={settling.busy} onPress={() => settling.forget(shape)}>
                Forget these columns
              </PlainButton>
            </div>
          )}
          <div class="desk-columns">
            <Select
              label={`${name} is a list of`}
              value={kind ?? NO_LIST}
              options={KINDS}
              disabled={settling.busy}
              onChoose={(value) => map({ kind: value === NO_LIST ? null : value })}
            />
            <Select
              label="Header row"
              value={String(shape.headerRow)}
              options={[
                ...(shape.from === 1 ? [{ value: '0', text: 'None: row 1 is not a header' }] : []),
                ...shape.first.map(({ row, text }) => ({ value: String(row), text: `Row ${row}: ${text}` })),
              ]}
              disabled={settling.busy || shape.first.length === 0}
              onChoose={(row) => map({ kind: kind ?? 'cables', headerRow: Number(row) })}
            />
          </div>
          <FixedValues shape={shape} settling={settling} />
          {kind !== null && (
            <div class="desk-columns">
              {shape.columns.map(({ column, title, meaning, samples }) => (
                <div key={column} class="desk-column">
                  <p>
                    <strong>{title || `Column ${column}, no name`}</strong>
                    <span class="quiet ident">{samples.join(' · ') || 'all cells blank'}</span>
                  </p>
                  <Select
                    bare
                    label={`${title || `Column ${column}`} means`}
                    value={meaning ?? UNREAD}
                    options={optionsFor(kind, meaning)}
                    disabled={settling.busy}
                    onChoose={(value) => setMeaning(column, value)}
                  />
                </div>
              ))}
            </div>
          )}
        </>
      )}
    </Fold>
  );
}

function optionsFor(kind: ListKind, now: string | null): { value: string; text: string }[] {
  const known = MEANINGS[kind].map(([value, text]) => ({ value, text }));
  const also = now !== null && !known.some(({ value }) => value === now) ? [now] : [];
  return [
    { value: UNREAD, text: 'Not read' },
    ...known,
    ...also.map((value) => ({ value, text: meaningToWords(kind, value) })),
  ];
}
