// The walk: one jack after another, the verdict in words, the next jack at the thumb. A reload, a lock or a live
// studio in mid-jack comes back to the same jack with the same scope.

import { type Signal, untracked, useSignal, useSignalEffect } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { AuditId, PlaceId } from '../../core/plan/identity.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { busy, useAsked, useServices } from '../context.ts';
import { PartOver } from '../describe/partOver.tsx';
import { NewCableOffer } from '../differences/newCableOffer.tsx';
import { PHOTO_AT } from '../drafts/walkDrafts.ts';
import { hasSound } from '../feel/settings.ts';
import { SoundToggle } from '../feel/soundBar.tsx';
import { type Feel, useFeel } from '../feel/useFeel.ts';
import { PlainButton } from '../parts/form.tsx';
import { Permission, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Caution } from '../parts/hazard.tsx';
import { Empty, ErrorBox } from '../parts/rows.tsx';
import { WalkRenaming } from '../renaming/renamingWalk.tsx';
import { go } from '../router.ts';
import { createFlow } from './flow/walkFlow.ts';
import { WalkEnd } from './sheets/walkEnd.tsx';
import { MarksOrTwin } from './sheets/walkMarks.tsx';
import { useRangeResumed, WalkRange } from './sheets/walkRange.tsx';
import { OutsideLine } from './sheets/walkScope.tsx';
import type { PhotoAt } from './sheets/walkSheet.ts';
import { Sheets } from './sheets/walkSheets.tsx';
import { VoiceCut } from './sheets/walkVoiceSheet.tsx';
import { AfterWork } from './walkAfterWork.tsx';
import { ChangeOffer } from './walkBuild.tsx';
import { useWalkCamera, type WalkCamera } from './walkCamera.ts';
import { CompanyAtJack, CompanyLine, useCompany } from './walkCompany.tsx';
import { WalkDetails } from './walkDetails.tsx';
import { permitted, WalkFace } from './walkFace.tsx';
import { Finder } from './walkFinder.tsx';
import { LabelFirst } from './walkFirst.tsx';
import type { WalkFlow } from './walkFlowType.ts';
import { SaidHere } from './walkSaidHere.tsx';
import { WalkThumb } from './walkThumb.tsx';
import { VerdictBand } from './walkVerdict.tsx';
import { slipToQuestion } from './walkWords.ts';
import '../look/walk.css';

export default function Walk(props: { audit: AuditId; place: PlaceId | null }) {
  const services = useServices();
  const flow = useMemo(
    () => createFlow(services, props.audit, (place) => go({ screen: 'walk', audit: props.audit, place }, 'replace')),
    [props.audit],
  );
  const begun = useSignal(false);
  useEffect(() => {
    busy.value += 1;
    void flow.begin(props.place).then(() => {
      begun.value = true;
    });
    return () => {
      busy.value -= 1;
    };
  }, [flow]);
  useSignalEffect(() => {
    // What it reads for its answer must not call this effect again: a walk at rest asks nothing.
    if (services.changed.value > 0 && begun.value) untracked(flow.recordChanged);
  });
  useEffect(() => {
    if (begun.value && props.place !== null && props.place !== flow.memory.peek().place) void flow.moveTo(props.place);
  }, [props.place]);
  const view = flow.view.value;
  if (flow.failed.value !== null && view === 'loading') {
    return (
      <Missing>
        <ErrorBox
          what="The walk could not be opened."
          where={flow.failed.value}
          todo="Nothing is lost. Load the page again."
          action={{ text: 'Load again', onPress: () => location.reload() }}
        />
      </Missing>
    );
  }
  if (view === 'loading') {
    return (
      <Missing>
        <p class="walk-line">Opening the walk.</p>
      </Missing>
    );
  }
  if (view === null) return <NoJacks audit={props.audit} />;
  return <Walking flow={flow} view={view} />;
}

/** An audit that began without a plan has no jack until somebody describes a unit. */
function NoJacks({ audit }: { audit: AuditId }) {
  const asked = useAsked('described', { audit });
  const here = asked.type === 'ready' && asked.value !== null;
  return (
    <Missing>
      {here ? (
        <Empty
          what="There is no jack to walk yet."
          why="Name a rack and add its units. If there is a plan, none of it is in the scope of this audit."
          next={{
            text: 'Describe what is here',
            onPress: () => go({ screen: 'describe', audit, what: null, label: null }),
          }}
        />
      ) : (
        <Empty
          what="There is no jack to walk here."
          why="This audit is not on this phone, its plan has not arrived, or everything was left out of its scope."
          next={{ text: 'Back to the station', onPress: () => go({ screen: 'home' }) }}
        />
      )}
    </Missing>
  );
}

function Missing(props: { children: preact.ComponentChildren }) {
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the station', onPress: () => go({ screen: 'home' }) }}
          cells={[{ small: 'Audit', big: 'Walk', heading: true }]}
        />
      }
    >
      {props.children}
    </Screen>
  );
}

function Walking({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const camera = useWalkCamera(flow);
  const feel = useFeel(flow, camera.wake);
  const company = useCompany(view);
  useEscape(flow);
  useRangeResumed(flow, view);
  const { paused } = flow.memory.value;
  const shutCaution = useSignal<string | null>(null);
  const goLive = () => {
    flow.pause(true);
    void camera.stop();
  };
  return (
    <>
      <div inert={paused || flow.mode.value !== 'walk'}>
        <Screen
          plate={
            <Plate
              back={{ label: 'Back to the station', onPress: () => go({ screen: 'home' }) }}
              cells={[
                { small: view.rack ? `Rack ${view.rack}` : (view.room ?? 'Room'), big: view.side },
                {
                  small: view.unit.u === null ? view.unit.label : `${view.unit.label}, U${view.unit.u}`,
                  big: <span class="ident">{view.current.jack}</span>,
                  heading: true,
                  wide: true,
                },
                { small: 'To go', big: String(view.leftHere) },
                { small: 'Pause', big: 'Going live', onPress: goLive, apart: true },
              ]}
            />
          }
          above={
            <>
              <SlipQuestion flow={flow} />
              <VerdictBand flow={flow} />
              <WalkRenaming flow={flow} view={view} />
            </>
          }
          foot={<WalkThumb flow={flow} camera={camera} view={view} />}
          aside={<Finder flow={flow} camera={camera} view={view} />}
          asideAt="right"
        >
          <CompanyLine words={company} />
          <OutsideLine flow={flow} view={view} />
          <Bar flow={flow} view={view} shut={shutCaution} feel={feel} />
          <WalkFace flow={flow} view={view} />
          <CompanyAtJack words={company} />
          <SaidHere flow={flow} view={view} />
          <LabelFirst flow={flow} view={view} />
          <MarksOrTwin flow={flow} view={view} />
          <NewCableOffer flow={flow}>
            <ChangeOffer flow={flow} view={view} />
          </NewCableOffer>
          <Waiting flow={flow} view={view} />
        </Screen>
      </div>
      {flow.mode.value === 'range' && <WalkRange flow={flow} view={view} />}
      {flow.mode.value === 'details' && <WalkDetails flow={flow} camera={camera} />}
      <PartOver flow={flow} view={view} />
      {paused && <Paused flow={flow} view={view} camera={camera} />}
      <Sheets flow={flow} camera={camera} />
    </>
  );
}

/** Escape backs out of what lies over the walk, as it does of a sheet: nothing is said. */
function useEscape(flow: WalkFlow): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      if (event.key === 'Escape' && flow.sheet.peek() === null) flow.mode.value = 'walk';
    };
    document.addEventListener('keydown', pressed);
    return () => document.removeEventListener('keydown', pressed);
  }, [flow]);
}

/** Lines that wait under the drawing: a photo that a restart cut short, the end of the walk. */
function Waiting({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const services = useServices();
  const photo = useSignal<PhotoAt | null>(null);
  useEffect(() => {
    void services.draft(`photo:${flow.audit}`, PHOTO_AT).then((kept) => {
      photo.value = kept;
    });
  }, []);
  const done = () => {
    photo.value = null;
    void services.dropDraft(`photo:${flow.audit}`);
  };
  const cut = photo.value;
  return (
    <>
      {cut && (
        <div class="walk-ask">
          <p>A photo at {cut.words} was started and did not arrive.</p>
          <PlainButton
            onPress={() => {
              photo.value = null;
              flow.sheet.value = { type: 'photo', ...cut };
            }}
          >
            Take it now
          </PlainButton>
          <PlainButton onPress={done}>Not needed</PlainButton>
        </div>
      )}
      <VoiceCut flow={flow} />
      {view.closed && <p class="walk-line">This audit is closed. What you record now is still added to it.</p>}
      <AfterWork flow={flow} />
      <WalkEnd flow={flow} view={view} />
    </>
  );
}

/**
 * What may be done and what to beware of. A caution stands in full until something was said under it on this unit;
 * then its word stays in the bar and opens it again, so that the picture has room.
 */
function Bar(props: { flow: WalkFlow; view: WalkView; shut: Signal<string | null>; feel: Feel }) {
  const { flow, view, shut, feel } = props;
  const key = `${view.unit.id} ${view.caution}`;
  const said = flow.memory.value.acts.length;
  const saidBefore = useRef(said);
  useEffect(() => {
    if (said > saidBefore.current) shut.value = key;
    saidBefore.current = said;
  }, [said]);
  const { allowed, remark } = permitted(view);
  const folded = view.caution !== null && shut.value === key;
  return (
    <>
      <Permission
        allowed={allowed}
        onPress={() => {
          flow.sheet.value = { type: 'permission' };
        }}
        remark={
          remark || folded || hasSound(feel.settings.value) ? (
            <>
              {remark}{' '}
              {folded && (
                <button
                  type="button"
                  class="walk-caution"
                  onClick={() => {
                    shut.value = null;
                  }}
                >
                  Caution
                </button>
              )}{' '}
              <SoundToggle feel={feel} />
            </>
          ) : undefined
        }
      />
      {view.caution && !folded && <Caution>{view.caution}</Caution>}
    </>
  );
}

function SlipQuestion({ flow }: { flow: WalkFlow }) {
  const slip = flow.slip.value;
  if (!slip) return null;
  return (
    <section class="walk-ask" aria-label="You or the cables?">
      <p>{slipToQuestion(slip)}</p>
      <PlainButton onPress={() => void flow.answerSlip('me')}>Me: move my entries</PlainButton>
      <PlainButton onPress={() => void flow.answerSlip('cables')}>The cables: leave my entries</PlainButton>
    </section>
  );
}

function Paused({ flow, view, camera }: { flow: WalkFlow; view: WalkView; camera: WalkCamera }) {
  return (
    <div class="walk-over">
      <Screen
        plate={<Plate cells={[{ small: 'Going live', big: 'Paused', wide: true }]} />}
        foot={
          <TitleBlock
            rows={[
              [
                {
                  small: 'When you may walk again',
                  big: `Go on at ${view.unit.label} ${view.current.jack}`,
                  primary: true,
                  onPress: () => {
                    flow.pause(false);
                    void camera.start();
                  },
                },
              ],
            ]}
          />
        }
      >
        <div class="walk-paused">
          <h1>Paused.</h1>
          <p>
            You are at {view.unit.label} {view.current.jack}
            {view.rack ? `, rack ${view.rack}, ${view.side}` : ''}.
          </p>
          <p>Camera and sound are off. Nothing is read until you go on.</p>
        </div>
      </Screen>
    </div>
  );
}
