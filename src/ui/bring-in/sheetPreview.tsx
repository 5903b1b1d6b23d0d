// How a schedule was read: counts in and out, questions, the desk check, columns, original cells, every guess. What a
// person says of it is settled in the parts; nothing is recorded here.

import { TEXT_ENCODINGS } from '../../core/schedule/answers/encodings.ts';
import { PlainButton } from '../parts/form.tsx';
import { scrolledByKeys } from '../parts/frame.tsx';
import { SectionHead } from '../parts/rows.tsx';
import { Select } from '../parts/select.tsx';
import type { SheetReading } from '../services.ts';
import { count, list } from '../words.ts';
import { DeskCaution, DeskFindings, deskToWords } from './deskFindings.tsx';
import { SheetColumns } from './sheetColumns.tsx';
import { SheetCoverage } from './sheetCoverage.tsx';
import { SheetGuesses } from './sheetGuesses.tsx';
import { SheetQuestions } from './sheetQuestions.tsx';
import type { Settling } from './sheetSettling.ts';
import { SheetsUsed } from './sheetWhole.tsx';
import { cablesToWords, encodingToWords, ignoredToWords, listToWords, rowsToWords } from './sheetWords.ts';

/** `columns`: false where they stand above already. */
export function SheetPreview(props: {
  read: SheetReading;
  settling: Settling;
  columns: boolean;
  /** Shows a row among all of its sheet. */
  onRow: (sheet: string, row: number) => void;
}) {
  const { read, settling, columns, onRow } = props;
  const { plan, counts, samples, encoding } = read;
  return (
    <>
      <SectionHead strong title="What was read" />
      <dl class="desk-facts">
        <dt>Rows</dt>
        <dd>{rowsToWords(counts)}</dd>
        <dt>Cables</dt>
        <dd>{cablesToWords(counts, plan.cables)}</dd>
        <dt>Equipment</dt>
        <dd>{list([count(plan.units, 'unit'), count(plan.jacks, 'jack'), count(plan.racks, 'rack')])}</dd>
        {counts.lists.map((one, i) => (
          <Pair key={i} name={one.sheet} value={listToWords(one)} />
        ))}
        {counts.ignored.length > 0 && <Pair name="Not read" value={list(counts.ignored.map(ignoredToWords))} />}
        {encoding && <Pair name="Encoding" value={encoding} />}
      </dl>
      {encoding && (
        <div class="desk-columns">
          <Select
            label="Letters look wrong? Read the file as"
            value={encoding}
            options={TEXT_ENCODINGS.map((value) => ({ value, text: encodingToWords(value) }))}
            disabled={settling.busy}
            onChoose={(value) => settling.encode(value)}
          />
        </div>
      )}
      <SheetCoverage coverage={read.coverage} onRow={onRow} />
      <div class="desk-part">
        <PlainButton
          onPress={() => onRow(counts.lists[0]?.sheet ?? read.sheets[0]?.sheet ?? '', counts.lists[0]?.headerRow ?? 1)}
        >
          Look at all rows
        </PlainButton>
      </div>
      <SheetsUsed settling={settling} />
      <SheetQuestions settling={settling} />
      <SectionHead strong title="Desk check" right={String(read.desk.count)} />
      <p class="desk-note">
        {read.desk.count === 0
          ? 'The desk check finds nothing: the schedule does not contradict itself. The racks may still differ.'
          : `Faults on paper. ${deskToWords(read.desk)}.`}
      </p>
      <DeskCaution view={read.desk} />
      <DeskFindings view={read.desk} folded />
      {columns && <SheetColumns settling={settling} open={false} />}
      {samples.map((sample, i) => (
        <Sample key={i} sample={sample} />
      ))}
      <SheetGuesses settling={settling} />
    </>
  );
}

/** Original cells of the first rows, each beside what became of it. */
function Sample({ sample }: { sample: SheetReading['samples'][number] }) {
  const [head, ...rows] = sample.rows;
  const title = `First rows of ${sample.sheet}${sample.whole ? '' : `, header in row ${head?.row}`}`;
  return (
    <>
      <SectionHead strong title={title} />
      <Table
        head={['Row', 'Read as', ...(head?.cells ?? [])]}
        rows={rows.map(({ row, cells, readAs }) => [String(row), readAs || 'not in the plan', ...cells])}
      />
    </>
  );
}

function Pair({ name, value }: { name: string; value: string }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </>
  );
}

function Table({ head, rows }: { head: string[]; rows: string[][] }) {
  return (
    <div class="desk-scroll" ref={scrolledByKeys}>
      <table class="desk-table">
        <thead>
          <tr>
            {head.map((cell, i) => (
              <th key={i}>{cell}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, i) => (
            <tr key={i}>
              {row.map((cell, j) => (
                <td key={j}>{cell.length > 120 ? `${cell.slice(0, 120)} …` : cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
