// The verdict band of the walk: the last statement's verdict, or a plain line. One live region that never goes away.
import { Verdict, type VerdictProps } from '../parts/verdict.tsx';
import { labelToShow } from '../walkState.ts';
import type { WalkFlow } from './walkFlow.ts';

export function VerdictBand({ flow, open = false }: { flow: WalkFlow; open?: boolean }) {
  return <Verdict verdict={toProps(flow, open)} />;
}

function toProps(flow: WalkFlow, open: boolean): VerdictProps | undefined {
  const line = flow.line.value;
  const verdict = flow.verdict.value;
  if (line !== null && !open) return { kind: 'note', word: line };
  if (!verdict) return { kind: 'note', word: 'Read the label, or say what you see.' };
  const patterned = verdict.word === 'cannot be read';
  return {
    kind: verdict.variant,
    jack: verdict.jack,
    label: verdict.label === null ? undefined : labelToShow(verdict.label),
    labelVariant: patterned ? 'plan' : 'found',
    word: `${verdict.word}.`,
    second: verdict.second,
    more: open
      ? undefined
      : {
          text: 'More',
          onPress: () => {
            flow.mode.value = 'details';
          },
        },
  };
}
