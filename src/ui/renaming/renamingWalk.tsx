// The renaming at the jack in hand: what it becomes, the one label act that is due, and the line of what is half done.
// Offers nothing that needs a hand where hands are not allowed, and never an old label off before its time.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId, CableId } from '../../core/plan/identity.ts';
import type { JackRename } from '../../core/report/walk/walkRenaming.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { halfToWords } from '../../core/report/words/renamingWords.ts';
import { saidToSighting } from '../../core/walk/memory.ts';
import { useServices } from '../context.ts';
import { FLAG } from '../drafts/draftKind.ts';
import { PlainButton } from '../parts/form.tsx';
import type { CellProps } from '../parts/frame.tsx';
import { CableLabel } from '../parts/label.tsx';
import { go } from '../router.ts';
import type { WalkFlow } from '../walk/walkFlowType.ts';
import { labelToShow } from '../walk/walkState.ts';
import { stepToWords } from './renamingWords.ts';
import '../look/renaming.css';

export function WalkRenaming({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const { renaming } = view;
  if (!renaming) return null;
  const { here, half } = renaming;
  const toList = () => go({ screen: 'renaming', audit: flow.audit, place: view.current.place });
  const words = here && stepToWords(here);
  // The verdict has said the same of this very jack.
  const told = flow.verdict.value?.place === here?.place && here?.step !== 'off';
  return (
    <section class="renaming" aria-label="Renaming">
      {here && words && (
        <>
          {!told && (
            <p class="renaming-head">
              <strong>{words.head}</strong>
            </p>
          )}
          {words.mind.map((sentence) => (
            <p key={sentence} class="renaming-mind">
              {sentence}
            </p>
          ))}
          {here.tired && <Tired audit={flow.audit} />}
        </>
      )}
      <div class="renaming-buttons">
        {half.length > 0 && (
          <button type="button" class="renaming-half" onClick={toList}>
            <span class="red">{halfToWords(half)}</span>
          </button>
        )}
        {here && <Buttons flow={flow} view={view} here={here} />}
      </div>
      {!renaming.listed && (
        <button type="button" class="renaming-half" onClick={toList}>
          No renaming list yet. Import one.
        </button>
      )}
    </section>
  );
}

/** The label act that is due stands at the thumb, in place of what the plan says stands here: that was read already. */
export function renamingCells(flow: WalkFlow, view: WalkView): CellProps[] | null {
  const here = view.renaming?.here;
  if (here?.step === 'unclear' && here.unclear) {
    // Neither leads: the label alone cannot tell.
    const { other } = here.unclear;
    const choose = (small: string, label: string, cable: CableId): CellProps => ({
      small,
      big: <CableLabel text={labelToShow(label)} />,
      dashed: true,
      name: `${small} ${label}`,
      onPress: () => void meant(flow, view, here, cable),
    });
    return [choose('New label for', here.old, here.cable), choose('It is cable', here.new, other)];
  }
  if (here?.step !== 'put' && here?.step !== 'off') return null;
  const put = here.step === 'put';
  const label = <CableLabel text={labelToShow(put ? here.new : here.old)} />;
  return [
    {
      small: put ? 'Beside the old one' : 'Every end has the new one',
      big: put ? <>New {label} is on</> : <>Old {label} is off</>,
      primary: true,
      name: put ? `New label ${here.new} is on` : `Old label ${here.old} is off`,
      onPress: () => void flow.labelAct(),
    },
  ];
}

function Buttons({ flow, view, here }: { flow: WalkFlow; view: WalkView; here: JackRename }) {
  const { far } = here;
  const toList = () => go({ screen: 'renaming', audit: flow.audit, place: here.place });
  const buttons: [words: string, press: () => void][] = [];
  if (here.step === 'put' && !here.followed && far) {
    buttons.push(['Record it as followed', () => void followed(flow, view, here)]);
  }
  if ((here.step === 'put' || here.step === 'off') && view.next) {
    buttons.push(['Not now', () => void flow.moveTo(view.next)]);
  }
  if (here.step === 'wait' && far) buttons.push([`Go to ${far.words}`, () => void flow.moveTo(far.place)]);
  if (here.step === 'settings') buttons.push(['What is left', toList]);
  if (here.step === 'clash') buttons.push(['To the lists', toList]);
  return (
    <>
      {buttons.map(([words, press]) => (
        <PlainButton key={words} onPress={press}>
          {words}
        </PlainButton>
      ))}
    </>
  );
}

function placesOf(view: WalkView) {
  return [{ place: view.current.place, words: `${view.unit.label} ${view.current.jack}` }];
}

/** The same plug, followed by hand or tone to its far end: evidence where a label is only a claim. */
async function followed(flow: WalkFlow, view: WalkView, here: JackRename): Promise<void> {
  if (!here.far) return;
  const labels = here.bears.map((text) => ({ text }));
  const said = {
    places: placesOf(view),
    state: labels.length > 0 ? ('label' as const) : ('unlabelled' as const),
    plugs: [{ labels }],
    by: 'tapped' as const,
    basis: 'followed' as const,
  };
  await flow.say({ ...said, joinedTo: here.far.place });
}

/** One text, two cables that bear it for a while: the person says which, and the looks that could not are replaced. */
async function meant(flow: WalkFlow, view: WalkView, here: JackRename, cable: CableId): Promise<void> {
  if (!here.unclear) return;
  const said = {
    places: placesOf(view),
    state: 'label' as const,
    plugs: [{ labels: [{ text: here.unclear.text, means: cable }] }],
    by: 'tapped' as const,
  };
  const withdraws = here.upon.map((event) => ({ event, places: [here.place] }));
  await flow.state({ ...saidToSighting(said), withdraws });
}

/** Said once in an audit; it is a rule of thumb of the trade and the person's own decision. */
function Tired({ audit }: { audit: AuditId }) {
  const services = useServices();
  const shown = useSignal(false);
  const key = `tired:${audit}` as const;
  useEffect(() => {
    void services.draft(key, FLAG).then((told) => {
      shown.value = told !== true;
    });
  }, []);
  if (!shown.value) return null;
  return (
    <div class="renaming-buttons">
      <p class="renaming-mind">
        You have labelled for six hours, and it is night. The rule of the trade: stop here and hand over.
      </p>
      <PlainButton
        onPress={() => {
          shown.value = false;
          void services.saveDraft(key, true, FLAG);
        }}
      >
        Got it
      </PlainButton>
    </div>
  );
}
