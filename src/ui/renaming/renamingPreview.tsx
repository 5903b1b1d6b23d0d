// Every pair of a list before it is taken: what has to be answered, what cannot be taken and why, what was not read,
// and the rest with its warnings.

import type { ComponentChildren } from 'preact';
import type { CableId } from '../../core/plan/identity.ts';
import type { CheckedPair } from '../../core/renaming/renamingCheck.ts';
import type { RenamesRead } from '../../core/renaming/renamingRead.ts';
import { PlainButton } from '../parts/form.tsx';
import { Row, SectionHead, useShown } from '../parts/rows.tsx';
import { labelToShow } from '../walk/walkState.ts';
import { Pair } from './renamingPair.tsx';
import { columnsToWords, goodRowToWords, problemToWords, type sortRows } from './renamingWords.ts';

const STEP = 60;

export function Preview(props: {
  read: RenamesRead;
  sorted: ReturnType<typeof sortRows>;
  onAnswer: (row: string, cable: CableId) => void;
}) {
  const { read, sorted } = props;
  return (
    <>
      {read.columns.map((one) => (
        <p class="desk-note" key={one.sheet}>
          {columnsToWords(one)}
        </p>
      ))}
      <Rows title="Questions to answer" rows={sorted.ask}>
        {(row) => (
          <Row
            title={<Pair old={row.old} fresh={row.new} />}
            right={row.row}
            second={row.problems.flatMap((problem) =>
              problem.type === 'ask-old'
                ? problem.candidates.map((one) => (
                    <PlainButton key={one.cable} onPress={() => props.onAnswer(row.row, one.cable)}>
                      It is {labelToShow(one.label)}, {one.line}
                    </PlainButton>
                  ))
                : [],
            )}
          />
        )}
      </Rows>
      <Rows title="Cannot be used" rows={sorted.wrong}>
        {(row) => (
          <Row
            title={<Pair old={row.old} fresh={row.new || '?'} />}
            right={row.row}
            second={<strong>{row.problems.map(problemToWords).join(' ')}</strong>}
          />
        )}
      </Rows>
      {read.unread.length > 0 && (
        <section aria-label="Not read">
          <SectionHead title="Not read" right={String(read.unread.length)} />
          {read.unread.slice(0, 200).map((one) => (
            <Row key={one.row} title={one.said} right={one.row} second={`Not read: ${one.why}.`} />
          ))}
          {read.unread.length > 200 && <p class="desk-note">And {read.unread.length - 200} more rows.</p>}
        </section>
      )}
      <Rows title="To be renamed" rows={sorted.good}>
        {(row) => (
          <Row
            title={<Pair old={row.label ?? row.old} fresh={row.new} />}
            right={row.row}
            second={goodRowToWords(row)}
          />
        )}
      </Rows>
      {read.guesses.length > 0 && (
        <section aria-label="Guessed">
          <SectionHead title="Guessed" right={String(read.guesses.length)} />
          {read.guesses.slice(0, 200).map((one, i) => (
            <Row key={i} title={one.said} right={one.row} second={`Read as ${one.readAs}.`} />
          ))}
          {read.guesses.length > 200 && <p class="desk-note">And {read.guesses.length - 200} more cells.</p>}
        </section>
      )}
      {sorted.good.length === 0 && <p class="desk-note">No row can be used as it is.</p>}
    </>
  );
}

function Rows(props: {
  title: string;
  rows: readonly CheckedPair[];
  children: (row: CheckedPair) => ComponentChildren;
}) {
  const { shown, more } = useShown(props.rows, STEP);
  if (props.rows.length === 0) return null;
  return (
    <section aria-label={props.title}>
      <SectionHead title={props.title} right={String(props.rows.length)} />
      {shown.map((row) => (
        <div key={row.row}>{props.children(row)}</div>
      ))}
      {more}
    </section>
  );
}
