// Every guess by kind: agreed to one by one or by kind, or said otherwise. What is settled leaves the list of open ones and
// can be opened again.
import { useSignal } from '@preact/signals';
import { type GuessList, guessKey, isOneByOne } from '../../core/report/plan/guessKinds.ts';
import type { GuessKind } from '../../core/schedule/rows/readTypes.ts';
import type { CellAnswer } from '../../core/schedule/sheetAnswers.ts';
import { Fold } from '../parts/fold.tsx';
import { PlainButton } from '../parts/form.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { count, list } from '../words.ts';
import { GoneActs, GoneAnswered } from './sheetGone.tsx';
import { SheetSettle, type ToSettle } from './sheetSettle.tsx';
import type { Settling } from './sheetSettling.ts';
import { GUESS_TITLES, leftToWords, openToWords } from './sheetWords.ts';

/** Written down once for a text, whatever the number of rows that say it. */
const TOLD_ONCE = new Set<GuessKind>(['signal', 'status', 'taken-apart']);

export function SheetGuesses({ settling }: { settling: Settling }) {
  const about = useSignal<ToSettle | null>(null);
  const { open, agreed, openCount } = settling.guesses;
  const { read } = settling;
  const unread = read.type === 'read' ? read.coverage?.unread : undefined;
  const agreedCount = agreed.reduce((sum, group) => sum + group.n, 0);
  return (
    <>
      <SectionHead strong title="Guesses" right={openToWords(openCount, unread)} />
      {openCount === 0 ? (
        <p class="desk-note">
          {agreedCount === 0 ? 'None. Every cell was read as written.' : 'None open: you agreed to all of them.'}
        </p>
      ) : (
        <p class="desk-note">
          Say which are right. You can use the plan with open guesses; they stay marked as guesses.
        </p>
      )}
      {open.map((group) => (
        <Fold key={group.kind} title={`${GUESS_TITLES[group.kind]}: ${group.n}`}>
          {() => (
            <>
              {isOneByOne(group.kind) ? (
                <>
                  <p class="desk-note">Each may be another name on the label. Check them one by one.</p>
                  {(group.columns ?? []).map(({ sheet, column, n }) => (
                    <div key={`${column} ${sheet}`} class="desk-part">
                      <PlainButton onPress={() => settling.agree({ to: 'agree', ofKind: group.kind, sheet, column })}>
                        All {n} in {column || 'no column'} of {sheet} are right
                      </PlainButton>
                    </div>
                  ))}
                </>
              ) : (
                <div class="desk-part">
                  <PlainButton onPress={() => settling.agree({ to: 'agree', kind: group.kind })}>
                    {group.n === 1 ? 'It is right' : `All ${group.n} are right`}
                  </PlainButton>
                </div>
              )}
              {group.guesses.map((guess) => (
                <div key={guessKey(guess)} class="desk-entry">
                  <Row title={guess.readAs} second={<CellSaid said={guess.said} where={guess} />} />
                  {guess.style !== undefined && (
                    <GoneActs settling={settling} sheet={guess.sheet} style={guess.style} />
                  )}
                  <div class="desk-acts">
                    <PlainButton onPress={() => settling.agree({ to: 'agree', guess })}>Right</PlainButton>
                    <PlainButton
                      disabled={settling.busy}
                      onPress={() => {
                        about.value = {
                          ...guess,
                          words: `It was read as: ${guess.readAs}.`,
                          everywhere: TOLD_ONCE.has(group.kind),
                        };
                      }}
                    >
                      {' '}
                      Correct it{' '}
                    </PlainButton>
                  </div>
                </div>
              ))}
              {group.n > group.guesses.length && <More n={group.n - group.guesses.length} />}
            </>
          )}
        </Fold>
      ))}
      {agreed.length > 0 && <Agreed groups={agreed} n={agreedCount} settling={settling} />}
      <GoneAnswered settling={settling} />
      <Answered settling={settling} />
      <Asked about={about} settling={settling} />
    </>
  );
}

function Agreed({ groups, n, settling }: { groups: GuessList['agreed']; n: number; settling: Settling }) {
  return (
    <details class="desk-fold">
      <summary>Agreed: {count(n, 'guess', 'guesses')}</summary>
      {groups.map(({ kind, n: ofKind }) => (
        <div key={kind} class="desk-entry">
          <Row title={GUESS_TITLES[kind]} right={String(ofKind)} />
          <PlainButton onPress={() => settling.agree({ to: 'reopen', kind })}>Reopen</PlainButton>
        </div>
      ))}
    </details>
  );
}

function Answered({ settling }: { settling: Settling }) {
  const { cells, left = [] } = settling.read.answers;
  if (cells.length + left.length === 0) return null;
  const texts = cells.reduce((sum, { also = [] }) => sum + 1 + also.length, 0);
  return (
    <details class="desk-fold" open>
      <summary>
        Corrected: {list([...some(texts, 'cell'), ...some(left.length, 'set of rows', 'sets of rows')])}
      </summary>
      {cells.map((cell, i) => (
        <div key={`cell ${i}`} class="desk-entry">
          <Row title={cellToTitle(cell)} second={<CellsAnswered cell={cell} />} />
          <PlainButton disabled={settling.busy} onPress={() => settling.takeBack(cell)}>
            {' '}
            Undo{' '}
          </PlainButton>
        </div>
      ))}
      {left.map((rows, i) => (
        <div key={`rows ${i}`} class="desk-entry">
          <Row title="Not an item" second={leftToWords(rows)} />
          <PlainButton disabled={settling.busy} onPress={() => settling.takeBackRows(rows)}>
            {' '}
            Undo{' '}
          </PlainButton>
        </div>
      ))}
    </details>
  );
}

const some = (n: number, one: string, many?: string) => (n === 0 ? [] : [count(n, one, many)]);

function cellToTitle({ as, said, text, also = [] }: CellAnswer): string {
  if (as === 'typed') return text || 'blank';
  return also.length === 0 ? `${said || 'blank'}, as written` : 'as written';
}

function CellsAnswered({ cell }: { cell: CellAnswer }) {
  const { sheet, column, row, said, also = [] } = cell;
  return (
    <>
      <span class="ident">{said || 'blank'}</span> {also.length > 0 && `and ${count(also.length, 'other text')} `}
      {row === null ? `wherever column ${column} of ${sheet} says so` : `${sheet} row ${row}`}
    </>
  );
}

export function Asked({ about, settling }: { about: { value: ToSettle | null }; settling: Settling }) {
  if (about.value === null) return null;
  const close = () => {
    about.value = null;
  };
  return (
    <SheetSettle
      about={about.value}
      session={settling.read.session}
      onClose={close}
      onAnswer={(answer) => {
        close();
        settling.answer(answer);
      }}
    />
  );
}

/** The original cell, and where it stands. */
export function CellSaid({
  said,
  where,
}: {
  said: string;
  where: { sheet: string; row: number; column?: string | undefined };
}) {
  return (
    <>
      <span class="ident">{said.length > 120 ? `${said.slice(0, 120)} …` : said || 'blank'}</span> {where.sheet} row{' '}
      {where.row}
      {where.column && `, ${where.column}`}
    </>
  );
}

export function More({ n }: { n: number }) {
  return <p class="desk-note">And {n} more; they appear as you answer these.</p>;
}
