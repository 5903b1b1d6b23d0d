// The end of a walk: what comes next, in the order in which it is done. Nothing is called complete that nobody looked at.
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import { PlainButton } from '../../parts/form.tsx';
import { go } from '../../router.ts';
import { count } from '../../words.ts';
import type { WalkFlow } from '../walkFlowType.ts';
import { Seen } from './walkSeen.tsx';

/** Here the floor is the truth: what was found can become the plan. */
const MAKES_PLANS: ReadonlySet<string> = new Set(['inherit', 'build']);

/** Where every jack has an entry: an entry that says why nobody looked is no look. */
export function endToWords(notLooked: number): string {
  return notLooked > 0
    ? `Every jack has an entry. ${count(notLooked, 'jack was', 'jacks were')} not looked at.`
    : 'Every jack was looked at.';
}

export function WalkEnd({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  if (view.leftAll > 0) return null;
  const { audit } = flow;
  const { notLooked } = view;
  return (
    <Seen label="Next">
      <p>{endToWords(notLooked)}</p>
      {view.unseenNext !== null && (
        <PlainButton onPress={() => void flow.moveTo(view.unseenNext)}>
          Next: {count(notLooked, 'jack')} not looked at
        </PlainButton>
      )}
      <PlainButton onPress={() => go({ screen: 'differences', audit })}>Differences</PlainButton>
      <PlainButton onPress={() => go({ screen: 'fixes', audit })}>Work</PlainButton>
      <PlainButton onPress={() => go({ screen: 'report', audit })}>Report</PlainButton>
      {MAKES_PLANS.has(view.occasion) && (
        <>
          <PlainButton onPress={() => go({ screen: 'describe', audit, what: null, label: null })}>
            Describe more
          </PlainButton>
          <PlainButton onPress={() => go({ screen: 'make-plan', audit })}>Make it the plan</PlainButton>
        </>
      )}
    </Seen>
  );
}
