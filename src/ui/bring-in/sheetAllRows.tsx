// All rows of the file as the sheet has them, in a list of which only what is in view is drawn; a way to the next row of
// which something is open. A row is opened, left out or made the header from here.
import { useSignal } from '@preact/signals';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import type { RowLine } from '../../wire/sheet.ts';
import { useServices } from '../context.ts';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Select } from '../parts/select.tsx';
import { count } from '../words.ts';
import { Asked } from './sheetGuesses.tsx';
import { type RowAsked, SheetRow } from './sheetRow.tsx';
import type { ToSettle } from './sheetSettle.tsx';
import type { Settling } from './sheetSettling.ts';
import { lineToWords } from './sheetWords.ts';

/** Height of a row, as in sheets.css. */
const ROW_REM = 4;
/** Rows that are asked for at once, and drawn beyond the edges of the view. */
const CHUNK = 50;
const BEYOND = 4;

export function SheetAllRows(props: { settling: Settling; at: RowAsked; onBack: () => void }) {
  const { settling, onBack } = props;
  const services = useServices();
  const { read, busy } = settling;
  const sheet = useSignal(props.at.sheet);
  const current = useSignal(props.at.row);
  const row = useSignal<RowAsked | null>(null);
  const about = useSignal<ToSettle | null>(null);
  const names = [...new Set(read.sheets.map((one) => one.sheet))];
  const last = read.sheets.reduce((most, one) => (one.sheet === sheet.value ? Math.max(most, one.to) : most), 0);
  const open = settling.guesses.openCount + settling.questions.openCount;

  async function toNext(): Promise<void> {
    const next = await read.session.next(sheet.peek(), current.peek());
    if (next !== null) current.value = next;
    else {
      // Nothing of this sheet is open: the next one that has something.
      for (const name of names) {
        const first = await read.session.next(name, 0);
        if (first === null) continue;
        sheet.value = name;
        current.value = first;
        return;
      }
    }
  }

  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the preview', onPress: onBack }}
          cells={[{ small: services.stationName.value || 'Station', big: 'All rows', heading: true }]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'What was read', big: 'Preview', onPress: onBack },
              {
                small: `${open} open`,
                big: busy ? 'Reading again' : 'Next open row',
                primary: true,
                share: 2,
                disabled: busy || open === 0,
                onPress: () => void toNext(),
              },
            ],
          ]}
        />
      }
    >
      <div class="sheet-all">
        <div class="sheet-all-head">
          {names.length > 1 ? (
            <Select
              label={`Sheet: ${count(last, 'row')}`}
              value={sheet.value}
              options={names.map((name) => ({ value: name, text: name }))}
              onChoose={(name) => {
                sheet.value = name;
                current.value = 1;
              }}
            />
          ) : (
            <p>
              {sheet.value}: {count(last, 'row')}
            </p>
          )}
        </div>
        <Lines
          key={sheet.value}
          settling={settling}
          sheet={sheet.value}
          last={last}
          current={current.value}
          onRow={(number) => {
            current.value = number;
            row.value = { sheet: sheet.peek(), row: number };
          }}
        />
      </div>
      {row.value && (
        <SheetRow
          asked={row.value}
          settling={settling}
          onClose={() => {
            row.value = null;
          }}
          onCorrect={(ask) => {
            about.value = ask;
          }}
        />
      )}
      <Asked about={about} settling={settling} />
    </Screen>
  );
}

function remOf(): number {
  return Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
}

function Lines(props: {
  settling: Settling;
  sheet: string;
  last: number;
  current: number;
  onRow: (row: number) => void;
}) {
  const { settling, sheet, last, current, onRow } = props;
  const { read } = settling;
  const box = useRef<HTMLDivElement>(null);
  /** First row in view and how many there are, from 1. */
  const view = useSignal({ from: 1, n: 0 });
  const lines = useSignal<ReadonlyMap<number, RowLine>>(new Map());
  const asked = useRef({ of: read, chunks: new Set<number>() });

  function look(): void {
    const el = box.current;
    if (!el) return;
    const height = ROW_REM * remOf();
    const from = Math.floor(el.scrollTop / height) + 1;
    const n = Math.ceil(el.clientHeight / height) + 1;
    const now = view.peek();
    if (now.from !== from || now.n !== n) view.value = { from, n };
  }

  useLayoutEffect(() => {
    const el = box.current;
    if (!el) return;
    look();
    const observer = new ResizeObserver(look);
    observer.observe(el);
    return () => observer.disconnect();
  }, []);

  // The row that is spoken of is brought into view, a little below the edge.
  useLayoutEffect(() => {
    const el = box.current;
    if (!el) return;
    const height = ROW_REM * remOf();
    const top = (current - 1) * height;
    if (top < el.scrollTop || top + height > el.scrollTop + el.clientHeight) el.scrollTop = top - height;
    look();
  }, [current, sheet]);

  const { from, n } = view.value;
  const first = Math.max(1, from - BEYOND);
  const end = Math.min(last, from + n + BEYOND);
  useEffect(() => {
    if (asked.current.of !== read) {
      asked.current = { of: read, chunks: new Set() };
      lines.value = new Map();
    }
    const { chunks } = asked.current;
    for (let chunk = Math.floor((first - 1) / CHUNK); chunk * CHUNK < end; chunk += 1) {
      if (chunks.has(chunk)) continue;
      chunks.add(chunk);
      void read.session.rows(sheet, chunk * CHUNK + 1, CHUNK).then((found) => {
        if (asked.current.of !== read) return;
        lines.value = new Map([...lines.peek(), ...found.map((line): [number, RowLine] => [line.row, line])]);
      });
    }
  }, [first, end, read]);

  const drawn = Array.from({ length: Math.max(0, end - first + 1) }, (_, i) => first + i);
  return (
    <div ref={box} class="sheet-lines" onScroll={look}>
      <div class="sheet-lines-all" style={{ height: `${last * ROW_REM}rem` }}>
        {drawn.map((number) => (
          <Line
            key={number}
            number={number}
            line={lines.value.get(number)}
            isCurrent={number === current}
            onPress={() => onRow(number)}
          />
        ))}
      </div>
    </div>
  );
}

function Line(props: { number: number; line: RowLine | undefined; isCurrent: boolean; onPress: () => void }) {
  const { number, line, isCurrent, onPress } = props;
  const cells = line?.cells ?? [];
  return (
    <button
      type="button"
      class={`sheet-line${line?.is === 'left' ? ' sheet-line-left' : ''}${isCurrent ? ' sheet-line-current' : ''}`}
      style={{ top: `${(number - 1) * ROW_REM}rem` }}
      aria-current={isCurrent ? 'true' : undefined}
      disabled={!line || line.is === 'blank'}
      onClick={onPress}
    >
      <span class="sheet-line-number">{number}</span>
      <span class="sheet-line-cells ident">
        {cells.map((cell, i) => (
          <span key={i} class="sheet-line-cell">
            {cell}
          </span>
        ))}
      </span>
      <span class="sheet-line-became">{line ? lineToWords(line) : '…'}</span>
    </button>
  );
}
