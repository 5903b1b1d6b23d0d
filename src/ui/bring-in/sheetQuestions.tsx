// What the reader could not decide, one group for each column and sort: one answer for all of its cells, or text by text.
// What a person leaves as it was read is counted and can be asked again.
import { useSignal } from '@preact/signals';
import type { GroupAnswer, QuestionGroup } from '../../core/report/plan/questionGroups.ts';
import { Fold } from '../parts/fold.tsx';
import { PlainButton } from '../parts/form.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { count } from '../words.ts';
import { GoneActs } from './sheetGone.tsx';
import { Asked, CellSaid, More } from './sheetGuesses.tsx';
import type { ToSettle } from './sheetSettle.tsx';
import type { Settling } from './sheetSettling.ts';
import { groupToWords, QUESTION_TITLES } from './sheetWords.ts';

export function SheetQuestions({ settling }: { settling: Settling }) {
  const about = useSignal<ToSettle | null>(null);
  const { open, openCount, passed } = settling.questions;
  if (openCount === 0 && passed.length === 0) return null;
  return (
    <>
      <SectionHead strong title="Could not be read: answer these" right={`${openCount} open`} />
      {openCount > 0 && (
        <p class="desk-note">One answer settles all cells of a group. Open a group to answer its texts one by one.</p>
      )}
      {open.map((group) => (
        <Group
          key={`${group.kind} ${group.column} ${group.sheet}`}
          group={group}
          settling={settling}
          onAsk={(ask) => {
            about.value = ask;
          }}
        />
      ))}
      {passed.map(({ of, n }) => (
        <div key={`${of.kind} ${of.column} ${of.sheet}`} class="desk-entry">
          <Row title={`Left as read: ${groupToWords(of)}`} right={String(n)} />
          <PlainButton onPress={() => settling.agree({ to: 'reopen', questions: of })}>Ask again</PlainButton>
        </div>
      ))}
      <Asked about={about} settling={settling} />
    </>
  );
}

function Group(props: { group: QuestionGroup; settling: Settling; onAsk: (ask: ToSettle) => void }) {
  const { group, settling, onAsk } = props;
  const { kind, sheet, column, n, texts, more } = group;
  const of = { kind, sheet, column };
  const [first] = texts;
  const settle = (how: GroupAnswer) => settling.settleGroup(of, how);
  const answer = (text: (typeof texts)[number]) =>
    onAsk({ ...text.question, words: text.question.question, everywhere: text.n > 1 || kind === 'signal' });
  // What a column or each row means is said under the titles, or left; no cell of it is the answer.
  const isOfColumn = kind === 'column' || kind === 'row-shape';
  if (kind === 'gone') {
    return (
      <section class="desk-group" aria-label={groupToWords(of)}>
        {texts.map(({ question }, i) => (
          <div key={i} class="desk-entry">
            <Row title={question.question} second={question.sheet} />
            <GoneActs settling={settling} sheet={question.sheet} style={question.style ?? ''} />
          </div>
        ))}
        <p class="desk-note">Until you answer they count as in use; each keeps a note that says why it is in doubt.</p>
      </section>
    );
  }
  const rows = n === 1 ? 'this row' : `these ${n} rows`;
  return (
    <section class="desk-group" aria-label={groupToWords(of)}>
      <Row
        title={first?.question.question ?? QUESTION_TITLES[kind]}
        right={String(n)}
        second={
          <>
            {groupToWords(of)}:{' '}
            {texts.slice(0, 3).map(({ question }, i) => (
              <span key={i}>
                {i > 0 && ', '}
                <span class="ident">{question.said.slice(0, 60) || 'blank'}</span>
              </span>
            ))}
            {texts.length + more > 3 && ` and ${texts.length + more - 3} more`}
          </>
        }
      />
      <div class="desk-acts">
        {texts.length === 1 && more === 0 && first && !isOfColumn && (
          <PlainButton disabled={settling.busy} onPress={() => answer(first)}>
            Answer
          </PlainButton>
        )}
        {column !== null && !isOfColumn && (
          <>
            <PlainButton disabled={settling.busy} onPress={() => settle('literal')}>
              {n === 1 ? 'As written' : `All ${n} as written`}
            </PlainButton>
            <PlainButton disabled={settling.busy} onPress={() => settle('blank')}>
              {n === 1 ? 'Leave it blank' : `All ${n} blank`}
            </PlainButton>
          </>
        )}
        {!isOfColumn && (
          <PlainButton disabled={settling.busy} onPress={() => settle('no-item')}>
            Leave {rows} out
          </PlainButton>
        )}
        <PlainButton disabled={settling.busy} onPress={() => settling.agree({ to: 'agree', questions: of })}>
          Leave as read
        </PlainButton>
      </div>
      {texts.length > 1 && (
        <Fold title={`One by one: ${count(texts.length + more, 'text')}`}>
          {() => (
            <>
              {texts.map((text, i) => (
                <div key={i} class="desk-entry">
                  <Row
                    title={text.question.question}
                    right={text.n > 1 ? `${text.n} cells` : undefined}
                    second={<CellSaid said={text.question.said} where={text.question} />}
                  />
                  <PlainButton disabled={settling.busy} onPress={() => answer(text)}>
                    Answer
                  </PlainButton>
                </div>
              ))}
              {more > 0 && <More n={more} />}
            </>
          )}
        </Fold>
      )}
    </section>
  );
}
