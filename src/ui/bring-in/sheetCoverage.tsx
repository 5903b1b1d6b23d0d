// How much of the file came into the plan, said before it is taken: rows by what they became, and the texts that nothing
// in the plan says, to be looked through. Nothing is decided here.
import type { Coverage, UnreadColumn } from '../../core/report/plan/coverage.ts';
import { Fold } from '../parts/fold.tsx';
import { SectionHead } from '../parts/rows.tsx';
import { count } from '../words.ts';
import { coverageToWords, unreadToWords } from './sheetWords.ts';

/** @param onRow Shows a row among its neighbours. */
export function SheetCoverage(props: { coverage: Coverage | null; onRow: (sheet: string, row: number) => void }) {
  const { coverage, onRow } = props;
  if (!coverage) return null;
  const { unread, rows } = coverage;
  return (
    <>
      <SectionHead strong title="What became of the rows" />
      {rows.of > 0 && <p class="desk-note">{coverageToWords(rows)}</p>}
      <p class="desk-note">{unreadToWords(unread)}</p>
      {unread.columns.map((column) => (
        <Unread key={`${column.number} ${column.sheet} ${column.first[0]?.row}`} column={column} onRow={onRow} />
      ))}
      {unread.more > 0 && <p class="desk-note">And {count(unread.more, 'more column')} with texts not read.</p>}
    </>
  );
}

function Unread({ column, onRow }: { column: UnreadColumn; onRow: (sheet: string, row: number) => void }) {
  const { sheet, number, texts, cells, first } = column;
  const name = number === null ? 'above the list' : column.column || `column ${number}, no name`;
  return (
    <Fold title={`Not read: ${name}, ${sheet}: ${count(texts, 'text')} in ${count(cells, 'cell')}`}>
      {() => (
        <ul class="desk-changes">
          {first.map(({ text, n, row }) => (
            <li key={`${row} ${text}`} class="desk-unread">
              <span class="ident">{text}</span>{' '}
              <button type="button" class="desk-row-link" onClick={() => onRow(sheet, row)}>
                row {row}
                {n > 1 && `, ${n} cells`}
              </button>
            </li>
          ))}
          {texts > first.length && <li>And {count(texts - first.length, 'more text')}.</li>}
        </ul>
      )}
    </Fold>
  );
}
