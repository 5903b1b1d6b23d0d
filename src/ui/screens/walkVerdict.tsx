// The verdict band of the walk: the last statement's verdict, or a plain line. One live region that never goes away.
import { placeToParts } from '../../core/plan/identity.ts';
import { Verdict, type VerdictProps } from '../parts/verdict.tsx';
import { labelToBox, sentenceToShow, withoutElsewhere } from '../walkState.ts';
import { heldVerdict } from './walkFirst.tsx';
import type { WalkFlow } from './walkFlow.ts';

export function VerdictBand({ flow, open = false }: { flow: WalkFlow; open?: boolean }) {
  return <Verdict verdict={toProps(flow, open)} />;
}

function toProps(flow: WalkFlow, open: boolean): VerdictProps | undefined {
  const line = flow.line.value;
  const verdict = flow.verdict.value;
  if (line !== null && !open) return { kind: 'note', word: line };
  const held = open ? null : heldVerdict(flow);
  if (held) return held;
  if (!verdict) return { kind: 'note', word: 'Read the label, or say what you see.' };
  const view = flow.view.value;
  const blind = view !== null && view !== 'loading' && view.blind;
  const second = withoutHere(verdict.second, verdict.place, verdict.jack);
  const patterned = verdict.word === 'cannot be read';
  return {
    kind: verdict.variant,
    jack: verdict.jack,
    label: verdict.label === null ? undefined : labelToBox(verdict.label),
    labelVariant: patterned ? 'plan' : 'found',
    word: verdict.word.endsWith('?') ? verdict.word : `${verdict.word}.`,
    second: sentenceToShow(blind ? withoutElsewhere(second) : second, verdict.label),
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

/** The band has named the jack already, and jacks of the same unit go by their own name. */
function withoutHere(second: string, place: string, jack: string): string {
  const parts = placeToParts(place);
  if (parts.type !== 'jack' || parts.unit === '') return second;
  const bare = second.split(`${parts.unit} ${jack}: `).join('').split(` in ${parts.unit} `).join(' in ');
  return bare.charAt(0).toUpperCase() + bare.slice(1);
}
