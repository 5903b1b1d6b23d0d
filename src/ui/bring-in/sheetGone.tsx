// Rows that may not be there any more, asked about by style: one press settles all of them, and can be undone.
import type { GoneAnswer } from '../../core/schedule/answers/goneAnswers.ts';
import { PlainButton } from '../parts/form.tsx';
import { Row } from '../parts/rows.tsx';
import { count } from '../words.ts';
import type { Settling } from './sheetSettling.ts';
import { GONE_ANSWERS, goneStyleToWords } from './sheetWords.ts';

/** What the rows of a style may be. */
export function GoneActs({ settling, sheet, style }: { settling: Settling; sheet: string; style: string }) {
  return (
    <div class="desk-acts">
      {GONE_ANSWERS.map(({ as, big }) => (
        <PlainButton key={as} disabled={settling.busy} onPress={() => settling.answerGone({ sheet, style, as })}>
          {big}
        </PlainButton>
      ))}
    </div>
  );
}

export function GoneAnswered({ settling }: { settling: Settling }) {
  const gone = settling.read.answers.gone ?? [];
  if (gone.length === 0) return null;
  return (
    <details class="desk-fold" open>
      <summary>Rows that may be removed: {count(gone.length, 'answer')}</summary>
      {gone.map((one) => (
        <div key={`${one.sheet} ${one.style}`} class="desk-entry">
          <Row title={answerToWords(one)} second={`${one.sheet}: ${goneStyleToWords(one.style)}`} />
          <PlainButton disabled={settling.busy} onPress={() => settling.takeBackGone(one)}>
            Undo
          </PlainButton>
        </div>
      ))}
    </details>
  );
}

const answerToWords = ({ as }: GoneAnswer) => GONE_ANSWERS.find((one) => one.as === as)?.big ?? as;
