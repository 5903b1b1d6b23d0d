// How a schedule was read: counts in and out, original cells, every guess, every question. Reading only.
import type { Guess } from '../../core/plan/model.ts';
import { SectionHead } from '../parts/rows.tsx';
import type { SheetRead } from '../services.ts';

const SHOWN = 200;

export function SheetPreview({ read }: { read: Extract<SheetRead, { type: 'read' }> }) {
  const { plan, counts, guesses, questions, sample, encoding } = read;
  const lists = [...new Set(sample.map((row) => row.sheet))];
  return (
    <>
      <SectionHead title="What was read" />
      <dl class="desk-facts">
        <dt>Rows</dt>
        <dd>
          {counts.rowsIn} rows in lists: {counts.rowsIn - counts.blank - counts.skipped} read, {counts.blank} blank,{' '}
          {counts.skipped} left out (listed below).
        </dd>
        <dt>Cables</dt>
        <dd>{plan.cables.length}</dd>
        <dt>Units, jacks</dt>
        <dd>
          {plan.units.length} units, {plan.jacks.length} jacks, {plan.racks.length} racks
        </dd>
        {encoding && (
          <>
            <dt>Text</dt>
            <dd>{encoding}</dd>
          </>
        )}
        {counts.lists.map((list) => (
          <>
            <dt>{list.sheet}</dt>
            <dd>
              list of {list.kind}, header in row {list.headerRow}, {list.rows} rows
            </dd>
          </>
        ))}
        {counts.ignored.length > 0 && (
          <>
            <dt>Not lists</dt>
            <dd>{counts.ignored.join(', ')}</dd>
          </>
        )}
      </dl>
      {questions.length > 0 && (
        <>
          <SectionHead title="Could not be read: yours to settle" right={String(questions.length)} />
          <Table
            head={['Where', 'Says', 'Question']}
            rows={questions
              .slice(0, SHOWN)
              .map((one) => [
                `${one.sheet} row ${one.row}${one.column ? `, ${one.column}` : ''}`,
                one.said,
                one.question,
              ])}
          />
        </>
      )}
      {plan.contradictions.length > 0 && (
        <p class="desk-note">
          The sheet contradicts itself in {plan.contradictions.length}{' '}
          {plan.contradictions.length === 1 ? 'place' : 'places'}: see Differences once it is taken.
        </p>
      )}
      <SectionHead title="Guesses" right={String(guesses.length)} />
      {guesses.length === 0 ? (
        <p class="desk-note">None. Every cell was taken as it stands.</p>
      ) : (
        groups(guesses).map(([column, list]) => (
          <details key={column} class="desk-part">
            <summary>
              {column}: {list.length}
            </summary>
            <Table
              head={['Where', 'Says', 'Read as']}
              rows={list.slice(0, SHOWN).map((guess) => [`${guess.sheet} row ${guess.row}`, guess.said, guess.readAs])}
            />
          </details>
        ))
      )}
      {lists.map((sheet) => (
        <>
          <SectionHead title={`First rows of ${sheet}`} />
          <Table
            head={['Row', ...(sample.find((row) => row.sheet === sheet)?.cells ?? [])]}
            rows={sample
              .filter((row) => row.sheet === sheet)
              .slice(1)
              .map((row) => [String(row.row), ...row.cells])}
          />
        </>
      ))}
    </>
  );
}

function groups(guesses: readonly Guess[]): [string, Guess[]][] {
  const map = new Map<string, Guess[]>();
  for (const guess of guesses) {
    const key = guess.column ?? 'Whole row';
    map.set(key, [...(map.get(key) ?? []), guess]);
  }
  return [...map].sort((a, b) => b[1].length - a[1].length);
}

function Table({ head, rows }: { head: string[]; rows: string[][] }) {
  return (
    <div class="desk-scroll">
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
