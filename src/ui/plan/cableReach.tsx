// What would be interrupted if this cable were opened: by the plan and by what was seen, side by side, with the age of
// what was seen. It ends with the caution; it never says that the cable may be pulled.
import type { AuditId } from '../../core/plan/identity.ts';
import type { ReachView, ReachWords } from '../../core/report/reachView.ts';
import { goesOffToWords } from '../../core/report/words/airWords.ts';
import { FirstOf } from '../parts/fold.tsx';
import { CableLabel } from '../parts/label.tsx';
import { SectionHead } from '../parts/rows.tsx';
import { age } from '../times.ts';
import { count } from '../words.ts';

/** So many lines stand at once; the others are one touch away. */
const FIRST = 8;

export function CableReach(props: {
  reach: ReachView & { audit: AuditId | null };
  now: number;
  caution: string | null;
}) {
  const { plan, seen, audit } = props.reach;
  return (
    <>
      <SectionHead strong title="What would be interrupted" />
      <div class="desk-part">
        <h3>By the plan</h3>
        <Lines words={plan} now={props.now} none="The plan does not say what depends on it." />
        <h3>By what was seen{audit ? `, ${audit}` : ''}</h3>
        {seen ? (
          <Lines words={seen} now={props.now} none="Nothing more was seen beyond it." />
        ) : (
          <p>Nobody has seen both its ends, so nobody knows what really depends on it.</p>
        )}
        <p>
          <strong>This is what is written and what was seen, not a permission.</strong> Ask whoever is responsible for
          the air, and be ready to roll back. {props.caution}
        </p>
      </div>
    </>
  );
}

function Lines({ words, now, none }: { words: ReachWords; now: number; none: string }) {
  return (
    <>
      <p>{words.lines.length === 0 ? none : goesOffToWords(words.goesOff)}</p>
      <FirstOf of={words.lines} first={FIRST} rest={(n) => `and ${count(n, 'more cable')}`} class="reach-lines">
        {(line) => (
          <>
            <CableLabel text={line.label || 'no number'} variant={line.at === null ? 'plan' : 'found'} />{' '}
            {line.onAir && <strong class="red">On air.</strong>} {line.words}
            {line.at !== null && <span class="quiet">, seen {age(line.at, now)}</span>}
          </>
        )}
      </FirstOf>
      {words.cutOff.length > 0 && (
        <>
          <p>{count(words.cutOff.length, 'unit loses the network:', 'units lose the network:')}</p>
          <FirstOf of={words.cutOff} first={FIRST} rest={(n) => `and ${count(n, 'more unit')}`} class="reach-lines">
            {(unit) => unit}
          </FirstOf>
        </>
      )}
      {words.remarks.map((remark) => (
        <p key={remark}>{remark}</p>
      ))}
    </>
  );
}
