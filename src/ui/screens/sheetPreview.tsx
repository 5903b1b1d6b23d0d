// How a schedule was read: counts in and out, original cells, every guess, every question. Reading only.
import { scrolledByKeys } from '../parts/frame.tsx';
import { SectionHead } from '../parts/rows.tsx';
import type { SheetRead } from '../services.ts';
import { DeskCaution, DeskFindings, deskToWords } from './deskFindings.tsx';
import { cablesToWords, groupGuesses, listToWords, rowsToWords, rowToReading } from './sheetWords.ts';

/** A sheet of thousands of guesses must not draw thousands of rows at once; how many more there are is said. */
const SHOWN = 200;

type Read = Extract<SheetRead, { type: 'read' }>;

export function SheetPreview({ read }: { read: Read }) {
  const { plan, counts, guesses, questions, sample, encoding } = read;
  const lists = [...new Set(sample.map((row) => row.sheet))];
  return (
    <>
      <SectionHead strong title="What was read" />
      <dl class="desk-facts">
        <dt>Rows</dt>
        <dd>{rowsToWords(counts)}</dd>
        <dt>Cables</dt>
        <dd>{cablesToWords(counts, plan.cables.length)}</dd>
        <dt>Equipment</dt>
        <dd>
          {plan.units.length} units, {plan.jacks.length} jacks, {plan.racks.length} racks
        </dd>
        {counts.lists.map((list, i) => (
          <Pair key={i} name={list.sheet} value={listToWords(list)} />
        ))}
        {counts.ignored.length > 0 && <Pair name="Not lists" value={counts.ignored.join(', ')} />}
        {encoding && <Pair name="Text" value={encoding} />}
      </dl>
      {questions.length > 0 && (
        <>
          <SectionHead strong title="Could not be read: yours to settle" right={String(questions.length)} />
          <Table
            head={['Where', 'Says', 'Question']}
            rows={questions.map((one) => [
              `${one.sheet} row ${one.row}${one.column ? `, ${one.column}` : ''}`,
              one.said,
              one.question,
            ])}
          />
        </>
      )}
      <SectionHead strong title="Desk check" right={String(read.desk.count)} />
      <p class="desk-note">
        {read.desk.count === 0
          ? 'The desk check finds nothing: the schedule does not contradict itself. The floor may still differ.'
          : `What the schedule gets wrong by itself: ${deskToWords(read.desk)}.`}
      </p>
      <DeskCaution view={read.desk} />
      <DeskFindings view={read.desk} folded />
      {lists.map((sheet) => (
        <Sample key={sheet} read={read} sheet={sheet} />
      ))}
      <SectionHead strong title="Guesses" right={String(guesses.length)} />
      {guesses.length === 0 ? (
        <p class="desk-note">None. Every cell was taken as it stands.</p>
      ) : (
        groupGuesses(guesses).map(({ column, guesses: list }) => (
          <details key={column} class="desk-fold">
            <summary>
              {column}: {list.length}
            </summary>
            <Table
              head={['Where', 'Says', 'Read as']}
              rows={list.slice(0, SHOWN).map((guess) => [`${guess.sheet} row ${guess.row}`, guess.said, guess.readAs])}
              of={list.length}
            />
          </details>
        ))
      )}
    </>
  );
}

/** Original cells of the first rows, each beside what became of it. */
function Sample({ read, sheet }: { read: Read; sheet: string }) {
  const [head, ...rows] = read.sample.filter((row) => row.sheet === sheet);
  return (
    <>
      <SectionHead strong title={`First rows of ${sheet}`} />
      <Table
        head={['Row', 'Read as', ...(head?.cells ?? [])]}
        rows={rows.map(({ row, cells }) => [
          String(row),
          rowToReading(read.plan, sheet, row) || 'nothing: see guesses',
          ...cells,
        ])}
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

function Table(props: { head: string[]; rows: string[][]; of?: number }) {
  const { head } = props;
  const rows = props.rows.slice(0, SHOWN);
  const more = (props.of ?? props.rows.length) - rows.length;
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
      {more > 0 && <p class="quiet">And {more} more of this kind.</p>}
    </div>
  );
}
