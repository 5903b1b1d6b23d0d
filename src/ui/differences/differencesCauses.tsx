// Causes as rows, each opened to what it rests on: the drawing, what it covers and leaves over, what it predicts, and
// the check that settles it, and what people say of it. It decides nothing itself and hides no hazard; those stand above.
import type { AuditId } from '../../core/plan/identity.ts';
import type { CauseLine, CausesView } from '../../core/report/causesView.ts';
import type { DifferenceLine } from '../../core/report/reconciliation.ts';
import { CauseDrawing, type Story } from '../parts/cause-drawing.tsx';
import { PlainButton } from '../parts/form.tsx';
import { DifferenceRow, SectionHead } from '../parts/rows.tsx';
import { TriedLines, useCheck } from './differencesCheck.tsx';
import { Decide, Judge, SaidList } from './differencesDecide.tsx';
import { decidedShort } from './differencesShown.ts';

export function Causes(props: {
  view: CausesView;
  lines: readonly DifferenceLine[];
  audit: AuditId;
  opened: string | null;
  onOpen: (id: string | null) => void;
}) {
  const { causes, exact, refused } = props.view;
  const told = new Set(causes.flatMap(({ reopened }) => reopened.map(({ event }) => event)));
  const untold = props.view.reopened.filter(({ event }) => !told.has(event));
  return (
    <section aria-label="Causes">
      <SectionHead title={causes.length > 0 ? 'Causes, worst first' : 'No causes left'} right={String(causes.length)} />
      {causes.map((cause) => (
        <div key={cause.id}>
          <DifferenceRow
            mark={cause.severity === 'undecided' ? 'undecided' : 'differs'}
            title={cause.title}
            right={cause.explainsWords}
            severity={`${cause.certainty}. ${cause.severityWords}.${saidShort(cause)}${decidedShort(cause.decision)}`}
            second={cause.line}
            current={props.opened === cause.id}
            onPress={() => props.onOpen(props.opened === cause.id ? null : cause.id)}
          />
          {props.opened === cause.id && (
            <CauseDetails cause={cause} lines={props.lines} audit={props.audit} onClose={() => props.onOpen(null)} />
          )}
        </div>
      ))}
      {untold.length > 0 && (
        <section class="difference-details" aria-label="Open again after newer checks">
          <SaidList audit={props.audit} said={untold} />
        </section>
      )}
      {refused.length > 0 && (
        <section class="difference-details" aria-label="Rejected">
          <SaidList audit={props.audit} said={refused} />
        </section>
      )}
      {!exact && (
        <p class="home-line">
          So much differs here that not every combination of causes was compared. Others may fit as well.
        </p>
      )}
    </section>
  );
}

/** " Accepted by M. Okafor." What was seen is said before it and stays. */
function saidShort({ judging, reopened }: CauseLine): string {
  if (judging.disputed) return ' Two people do not agree.';
  const names = [...new Set(judging.said.map(({ by }) => by))].join(', ');
  if (names !== '') return judging.takes.length > 0 ? ` Accepted by ${names}.` : ` In the words of ${names}.`;
  return reopened[0] ? ` ${reopened[0].why}.` : '';
}

function storiesOf(cause: CauseLine): Story[] {
  if (cause.kind === 'crossed-or-labels-exchanged') {
    return [
      { words: 'If the cables are crossed', straight: false },
      { words: 'Or if the labels are swapped', straight: true },
    ];
  }
  return [{ words: '', straight: cause.kind === 'labels-exchanged' }];
}

function CauseDetails(props: {
  cause: CauseLine;
  lines: readonly DifferenceLine[];
  audit: AuditId;
  onClose: () => void;
}) {
  const { cause } = props;
  const byId = new Map(props.lines.map((line) => [line.id, line]));
  const listed = (ids: readonly string[]) => ids.flatMap((id) => byId.get(id) ?? []);
  const left = listed(cause.leftover);
  const { look } = cause;
  const check = useCheck();
  return (
    <section class="difference-details" aria-label={cause.title}>
      {cause.drawing && <CauseDrawing drawing={cause.drawing} stories={storiesOf(cause)} label={cause.line} />}
      <dl class="desk-facts desk-facts-flush">
        {cause.rivals.length > 0 && (
          <>
            <dt>Fits as well</dt>
            <dd>{cause.rivals.join(', ')}</dd>
          </>
        )}
        {look && (
          <>
            <dt>Settled by</dt>
            <dd>{look.line}</dd>
          </>
        )}
        {cause.tried.length > 0 && (
          <>
            <dt>Tried</dt>
            <dd>
              <TriedLines tried={cause.tried} />
            </dd>
          </>
        )}
        {cause.predicts.length > 0 && (
          <>
            <dt>It predicts</dt>
            <dd>{cause.predicts.slice(0, 6).join('; ')}</dd>
          </>
        )}
        {cause.against.length > 0 && (
          <>
            <dt>Against it</dt>
            <dd>{cause.against.join(', ')}</dd>
          </>
        )}
        <dt>It covers</dt>
        <dd>
          {listed(cause.explains).map((line) => (
            <div key={line.id}>
              No. {line.number}: {line.line}
            </div>
          ))}
        </dd>
        {left.length > 0 && (
          <>
            <dt>Left over</dt>
            <dd>
              {left.map((line) => (
                <div key={line.id}>
                  No. {line.number}: {line.line}
                </div>
              ))}
            </dd>
          </>
        )}
      </dl>
      <Judge audit={props.audit} judging={cause.judging} reopened={cause.reopened} />
      <Decide audit={props.audit} line={cause.decision} />
      <div class="details-foot no-print">
        {look && (
          <PlainButton primary onPress={() => check(look.placeId)}>
            {look.how}: {look.place}
          </PlainButton>
        )}
        <PlainButton onPress={props.onClose}>Close</PlainButton>
      </div>
    </section>
  );
}
