// The renaming at the jack in hand: what it becomes, the one label act that is due, and the line of what is half done.
// Offers nothing that needs a hand where hands are not allowed, and never an old label off before its time.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { WalkView } from '../../core/report/walkView.ts';
import { useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { go } from '../router.ts';
import { labelToShow, toSighting, visitAt } from '../walkState.ts';
import { halfToWords, stepToWords } from './renamingWords.ts';
import type { WalkFlow } from './walkFlow.ts';
import '../look/renaming.css';

export function WalkRenaming({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const here = flow.renaming.here.value;
  const half = flow.renaming.half.value;
  const toList = () => go({ screen: 'renaming', audit: flow.audit, place: view.current.place });
  if (!half || (half.listed === 0 && view.occasion !== 'relabel')) return null;
  const inHand = here && here.place === view.current.place ? here : null;
  const words = inHand && stepToWords(inHand);
  return (
    <section class="renaming" aria-label="Renaming">
      {inHand && words && (
        <>
          <p class="renaming-head">
            <strong>{words.head}</strong>
          </p>
          {words.mind.map((sentence) => (
            <p key={sentence} class="renaming-mind">
              {sentence}
            </p>
          ))}
          <Buttons flow={flow} view={view} />
        </>
      )}
      {inHand?.tired && <Tired audit={flow.audit} />}
      {half.listed === 0 ? (
        <button type="button" class="renaming-half" onClick={toList}>
          No renaming list yet. Bring one in.
        </button>
      ) : (
        half.half.length > 0 && (
          <button type="button" class="renaming-half" onClick={toList}>
            <span class="red">{halfToWords(half.half)}</span>
          </button>
        )
      )}
    </section>
  );
}

function Buttons({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const here = flow.renaming.here.value!;
  const notNow = view.next && (
    <PlainButton
      onPress={() => {
        void flow.moveTo(view.next);
      }}
    >
      Not now
    </PlainButton>
  );
  switch (here.step) {
    case 'put':
      return (
        <div class="renaming-buttons">
          <PlainButton primary onPress={() => void flow.labelAct()}>
            New label is on
          </PlainButton>
          {!here.followed && here.far && (
            <PlainButton onPress={() => void followed(flow, view)}>Followed to {here.far.words}</PlainButton>
          )}
          {notNow}
        </div>
      );
    case 'off':
      return (
        <div class="renaming-buttons">
          <PlainButton primary onPress={() => void flow.labelAct()}>
            Old one is off
          </PlainButton>
          {notNow}
        </div>
      );
    case 'wait':
      return here.far ? (
        <div class="renaming-buttons">
          <PlainButton onPress={() => void flow.moveTo(here.far!.place)}>Go to {here.far.words}</PlainButton>
        </div>
      ) : null;
    case 'unclear':
      return here.unclear ? (
        <div class="renaming-buttons">
          <PlainButton onPress={() => void meant(flow, view, here.cable)}>
            New label of {labelToShow(here.old)}
          </PlainButton>
          <PlainButton onPress={() => void meant(flow, view, here.unclear!.other)}>
            Cable {labelToShow(here.new)}
          </PlainButton>
        </div>
      ) : null;
    case 'settings':
    case 'clash':
      return (
        <div class="renaming-buttons">
          <PlainButton onPress={() => go({ screen: 'renaming', audit: flow.audit, place: here.place })}>
            {here.step === 'clash' ? 'To the lists' : 'What is left'}
          </PlainButton>
        </div>
      );
    default:
      return null;
  }
}

function placesOf(view: WalkView) {
  return [{ place: view.current.place, words: `${view.unit.label} ${view.current.jack}` }];
}

/** The same plug, followed by hand or tone to its far end: evidence where a label is only a claim. */
async function followed(flow: WalkFlow, view: WalkView): Promise<void> {
  const here = flow.renaming.here.value;
  if (!here?.far) return;
  const labels = here.bears.map((text) => ({ text }));
  const said = {
    places: placesOf(view),
    state: labels.length > 0 ? ('label' as const) : ('unlabelled' as const),
    plugs: [{ labels }],
    by: 'tapped' as const,
    basis: 'followed' as const,
  };
  await flow.keep({ ...toSighting(said, visitAt(flow.memory.value, view.unit.id)), joinedTo: here.far.place });
}

/** One text, two cables that bear it for a while: the person says which, and the looks that could not are replaced. */
async function meant(flow: WalkFlow, view: WalkView, cable: string): Promise<void> {
  const here = flow.renaming.here.value;
  if (!here?.unclear) return;
  const said = {
    places: placesOf(view),
    state: 'label' as const,
    plugs: [{ labels: [{ text: here.unclear.text, means: cable }] }],
    by: 'tapped' as const,
  };
  const withdraws = here.upon.map((event) => ({ event, places: [here.place] }));
  await flow.keep({ ...toSighting(said, visitAt(flow.memory.value, view.unit.id)), withdraws });
}

/** Said once in an audit; it is a rule of thumb of the trade and the person's own decision. */
function Tired({ audit }: { audit: string }) {
  const services = useServices();
  const shown = useSignal(false);
  const key = `tired:${audit}`;
  useEffect(() => {
    void services.draft<boolean>(key).then((told) => {
      shown.value = told !== true;
    });
  }, []);
  if (!shown.value) return null;
  return (
    <div class="renaming-buttons">
      <p class="renaming-mind">Six hours of labels, and it is night. The trade’s rule is to stop here and hand over.</p>
      <PlainButton
        onPress={() => {
          shown.value = false;
          services.saveDraft(key, true);
        }}
      >
        Read
      </PlainButton>
    </div>
  );
}
