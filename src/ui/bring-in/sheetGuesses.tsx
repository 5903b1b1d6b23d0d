// Every guess by kind: agreed to one by one or by kind, or said otherwise. Questions are answered in the same way. What is
// settled leaves the list of open ones and can be opened again.
import { useSignal } from '@preact/signals';
import { type GuessList, guessKey, isOneByOne } from '../../core/report/plan/guessKinds.ts';
import type { GuessKind } from '../../core/schedule/rows/readTypes.ts';
import type { CellAnswer } from '../../core/schedule/sheetAnswers.ts';
import { Fold } from '../parts/fold.tsx';
import { PlainButton } from '../parts/form.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import type { SheetReading } from '../services.ts';
import { count } from '../words.ts';
import { SheetSettle, type ToSettle } from './sheetSettle.tsx';
import type { Settling } from './sheetSettling.ts';
import { GUESS_TITLES } from './sheetWords.ts';

/** Written down once for a text, whatever the number of rows that say it. */
const TOLD_ONCE = new Set<GuessKind>(['signal', 'status', 'taken-apart']);

export function SheetQuestions({ settling, questions }: { settling: Settling; questions: SheetReading['questions'] }) {
  const about = useSignal<ToSettle | null>(null);
  const { n, first } = questions;
  if (n === 0) return null;
  return (
    <>
      <SectionHead strong title="Could not be read: answer these" right={String(n)} />
      {first.map((one, i) => (
        <div key={i} class="desk-entry">
          <Row title={one.question} second={<Cell said={one.said} where={one} />} />
          <PlainButton
            disabled={settling.busy}
            onPress={() => {
              about.value = { ...one, words: one.question, everywhere: one.kind === 'signal' };
            }}
          >
            Answer
          </PlainButton>
        </div>
      ))}
      {n > first.length && <More n={n - first.length} />}
      <Asked about={about} settling={settling} />
    </>
  );
}

export function SheetGuesses({ settling }: { settling: Settling }) {
  const about = useSignal<ToSettle | null>(null);
  const { open, agreed, openCount } = settling.guesses;
  const { cells } = settling.read.answers;
  const agreedCount = agreed.reduce((sum, group) => sum + group.n, 0);
  return (
    <>
      <SectionHead strong title="Guesses" right={`${openCount} open`} />
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
                <p class="desk-note">Each may be another name on the label. Check them one by one.</p>
              ) : (
                <div class="desk-part">
                  <PlainButton onPress={() => settling.agree({ to: 'agree', kind: group.kind })}>
                    {group.n === 1 ? 'It is right' : `All ${group.n} are right`}
                  </PlainButton>
                </div>
              )}
              {group.guesses.map((guess) => (
                <div key={guessKey(guess)} class="desk-entry">
                  <Row title={guess.readAs} second={<Cell said={guess.said} where={guess} />} />
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
      {cells.length > 0 && <Answered cells={cells} settling={settling} />}
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

function Answered({ cells, settling }: { cells: readonly CellAnswer[]; settling: Settling }) {
  return (
    <details class="desk-fold" open>
      <summary>Corrected: {count(cells.length, 'cell')}</summary>
      {cells.map((cell, i) => (
        <div key={i} class="desk-entry">
          <Row
            title={cell.as === 'literal' ? `${cell.said || 'blank'}, as written` : cell.text || 'blank'}
            second={
              <>
                <span class="ident">{cell.said || 'blank'}</span>{' '}
                {cell.row === null
                  ? `wherever column ${cell.column} of ${cell.sheet} says so`
                  : `${cell.sheet} row ${cell.row}`}
              </>
            }
          />
          <PlainButton disabled={settling.busy} onPress={() => settling.takeBack(cell)}>
            {' '}
            Undo{' '}
          </PlainButton>
        </div>
      ))}
    </details>
  );
}

function Asked({ about, settling }: { about: { value: ToSettle | null }; settling: Settling }) {
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
function Cell({ said, where }: { said: string; where: { sheet: string; row: number; column?: string | undefined } }) {
  return (
    <>
      <span class="ident">{said.length > 120 ? `${said.slice(0, 120)} …` : said || 'blank'}</span> {where.sheet} row{' '}
      {where.row}
      {where.column && `, ${where.column}`}
    </>
  );
}

function More({ n }: { n: number }) {
  return <p class="desk-note">And {n} more; they appear as you answer these.</p>;
}
