// The verdict band of the walk: the last statement's verdict, or a plain line. One live region that never goes away.
import { Verdict, type VerdictProps } from '../parts/verdict.tsx';
import { heldVerdict } from './walkFirst.tsx';
import type { WalkFlow } from './walkFlowType.ts';
import { labelToBox, sentenceToShow } from './walkState.ts';

export function VerdictBand({ flow, open = false }: { flow: WalkFlow; open?: boolean }) {
  return <Verdict verdict={toProps(flow, open)} />;
}

function toProps(flow: WalkFlow, open: boolean): VerdictProps | undefined {
  const line = flow.line.value;
  const verdict = flow.verdict.value;
  if (line !== null && !open) return { kind: 'note', word: line };
  const held = open ? null : heldVerdict(flow);
  if (held) return held;
  if (!verdict) return { kind: 'note', word: 'Read the label, or record what you see.' };
  return {
    kind: verdict.variant,
    jack: verdict.jack,
    label: verdict.label === null ? undefined : labelToBox(verdict.label),
    labelVariant: verdict.state === 'illegible' ? 'plan' : 'found',
    word: verdict.word.endsWith('?') ? verdict.word : `${verdict.word}.`,
    // Of a hazard what to do is said at once, not behind More.
    second: sentenceToShow(
      verdict.variant === 'hazard' && verdict.order ? `${verdict.brief} ${verdict.order}` : verdict.brief,
      verdict.label,
    ),
    more:
      open || verdict.variant === 'as-planned' || verdict.variant === 'note' || verdict.place === ''
        ? undefined
        : {
            text: (
              <>
                More<span class="only-spoken"> about {verdict.jack}</span>
              </>
            ),
            onPress: () => {
              flow.mode.value = 'details';
            },
          },
  };
}
