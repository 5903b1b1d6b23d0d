// Label first: a cable is read anywhere in the bundle, then the jack where it goes is touched on the drawing. In a blind
// audit the drawing tells nothing of the plan.
import type { PlaceId, UnitId } from '../../core/plan/identity.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { useAsked } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import type { VerdictProps } from '../parts/verdict.tsx';
import { list } from '../words.ts';
import type { WalkFlow } from './walkFlowType.ts';
import { labelToBox } from './walkState.ts';

/** Places that the plan has for the label in hand; none in a blind audit. */
export function useHomes(flow: WalkFlow): { place: PlaceId; unit: UnitId; words: string }[] {
  const text = flow.memory.value.first?.text ?? '';
  const asked = useAsked('homes', { audit: flow.audit, text });
  return text !== '' && asked.type === 'ready' ? asked.value : [];
}

export function heldVerdict(flow: WalkFlow): VerdictProps | null {
  const { first } = flow.memory.value;
  if (!first || (first.text === null && flow.verdict.value !== null)) return null;
  if (first.text === null) return { kind: 'note', word: 'Read any cable in the bundle.' };
  return {
    kind: 'question',
    label: labelToBox(first.text),
    word: 'where does it go?',
    second: 'Follow it by eye, then touch its jack in the drawing.',
  };
}

export function LabelFirst({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const { first } = flow.memory.value;
  return first ? <Asking flow={flow} view={view} first={first} /> : null;
}

function Asking({ flow, view, first }: { flow: WalkFlow; view: WalkView; first: { text: string | null } }) {
  const homes = useHomes(flow);
  const onFace = new Set(view.face.rows.flat().map(({ place }) => place));
  const away = homes.filter(({ place }) => !onFace.has(place));
  return (
    <div class="walk-ask">
      <p>
        {first.text === null
          ? 'Label first: read a cable, then touch the jack it goes to.'
          : away.length < homes.length
            ? 'In the plan it is where the ring is dashed.'
            : homes.length > 0
              ? `In the plan it is at ${list(homes.map(({ words }) => words))}.`
              : view.blind
                ? 'The plan is hidden.'
                : 'It is not in the plan.'}
      </p>
      {away.map(({ place, words }) => (
        <PlainButton key={place} onPress={() => void flow.moveTo(place)}>
          Show {words}
        </PlainButton>
      ))}
      {first.text !== null && <PlainButton onPress={() => flow.labelFirst(true)}>Drop this label</PlainButton>}
      <PlainButton onPress={() => flow.labelFirst(false)}>Back to jack first</PlainButton>
    </div>
  );
}
