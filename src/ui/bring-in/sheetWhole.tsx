// What is said of whole sheets and lists: which sheets are used, and values that every row of a list has. The sheet is
// read again with each answer.
import { useSignal } from '@preact/signals';
import { MEANINGS, meaningToWords } from '../../core/schedule/meanings.ts';
import type { SheetShape } from '../../wire/sheet.ts';
import { CheckRow, Field, PlainButton } from '../parts/form.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { Select } from '../parts/select.tsx';
import { count, list } from '../words.ts';
import type { Settling } from './sheetSettling.ts';

/** Only where there are several: a file of one sheet is used or put away. */
export function SheetsUsed({ settling }: { settling: Settling }) {
  const { sheets, answers } = settling.read;
  const names = [...new Set(sheets.map(({ sheet }) => sheet))];
  if (names.length < 2) return null;
  const used = names.filter((name) => !answers.unused?.includes(name));
  return (
    <>
      <SectionHead strong title="Sheets to use" right={`${used.length} of ${names.length}`} />
      <div class="desk-part">
        {names.map((name) => (
          <CheckRow
            key={name}
            text={name}
            second={sheetToWords(
              sheets.filter(({ sheet }) => sheet === name),
              used.includes(name),
            )}
            checked={used.includes(name)}
            // The last one stays: nothing would be left to read.
            disabled={settling.busy || (used.length === 1 && used[0] === name)}
            onChange={(checked) => settling.use(name, checked)}
          />
        ))}
      </div>
    </>
  );
}

function sheetToWords(lists: readonly SheetShape[], isUsed: boolean): string {
  if (!isUsed) return 'not used';
  const read = lists.flatMap(({ kind, rows }) => (kind === null ? [] : [`${kind}, ${count(rows, 'row')}`]));
  return read.length === 0 ? 'no list found' : list(read);
}

/** Values of all rows of a list. */
export function FixedValues({ shape, settling }: { shape: SheetShape; settling: Settling }) {
  const { kind, sheet, headerRow, fixed } = shape;
  const meaning = useSignal('');
  const text = useSignal('');
  if (kind === null) return null;
  const options = MEANINGS[kind].map(([value, words]) => ({ value: value as string, text: words as string }));
  return (
    <section class="desk-part" aria-label="The same in every row">
      <p>
        <strong>The same in every row.</strong>{' '}
        <span class="quiet">
          For what the sheet does not say: its rack, its signal. Rows that say something else keep it.
        </span>
      </p>
      {fixed.map((one) => (
        <div key={one.meaning} class="desk-entry">
          <Row
            title={<span class="ident">{one.text}</span>}
            second={`${meaningToWords(kind, one.meaning)}, in every row`}
          />
          <PlainButton disabled={settling.busy} onPress={() => settling.fix(shape, one.meaning, '')}>
            Undo
          </PlainButton>
        </div>
      ))}
      <div class="desk-columns desk-settle">
        <Select
          label="Every row has the same"
          value={meaning.value}
          options={[{ value: '', text: 'Choose' }, ...options]}
          disabled={settling.busy}
          onChoose={(value) => {
            meaning.value = value;
          }}
        />
        <Field
          label="Value"
          ident
          value={text.value}
          disabled={settling.busy}
          onInput={(value) => {
            text.value = value;
          }}
        />
      </div>
      <PlainButton
        disabled={settling.busy || meaning.value === '' || text.value.trim() === ''}
        onPress={() => {
          settling.fix({ ...shape, sheet, headerRow }, meaning.value, text.value.trim());
          text.value = '';
          meaning.value = '';
        }}
      >
        Set it in every row
      </PlainButton>
    </section>
  );
}
