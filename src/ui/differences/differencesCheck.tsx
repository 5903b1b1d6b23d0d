// The check that settles a cause, on the screen that asks for it: one question, its likely answers as buttons, another
// one typed, or cannot tell. The answer is recorded as evidence, and what it did is said before the sheet closes.
import { type Signal, useSignal } from '@preact/signals';
import { type ComponentChildren, createContext } from 'preact';
import { useContext, useRef } from 'preact/hooks';
import type { PlaceId } from '../../core/plan/identity.ts';
import type { TriedLine } from '../../core/report/causesView.ts';
import type { CheckDone, Checked, CheckView } from '../../core/report/checkView.ts';
import { useAsked, useServices } from '../context.ts';
import { useDraftText } from '../drafts/useDraft.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Field, PlainButton } from '../parts/form.tsx';
import { Caution } from '../parts/hazard.tsx';
import { ErrorBox, Row } from '../parts/rows.tsx';
import { go } from '../router.ts';
import type { Recorded } from '../services.ts';
import { timeToWords } from '../words.ts';

const Checking = createContext<Signal<PlaceId | null> | null>(null);

/** Holds the form over the whole screen. */
export function WithCheck(props: { audit: string; back: string; children: ComponentChildren }) {
  const { audit, back, children } = props;
  const place = useSignal<PlaceId | null>(null);
  /** The next check may be at the same jack, made another way. */
  const round = useSignal(0);
  return (
    <Checking.Provider value={place}>
      {children}
      {place.value !== null && (
        <CheckSheet
          key={`${round.value} ${place.value}`}
          audit={audit}
          place={place.value}
          back={back}
          onNext={(next) => {
            round.value += 1;
            place.value = next;
          }}
          onClose={() => {
            place.value = null;
          }}
        />
      )}
    </Checking.Provider>
  );
}

/** Opens the form of the check at a jack. */
export function useCheck(): (place: PlaceId) => void {
  const checking = useContext(Checking);
  if (!checking) throw new Error('Nothing to check with: render inside WithCheck.');
  return (place) => {
    checking.value = place;
  };
}

interface Done extends CheckDone {
  event: string;
}

interface CheckProps {
  audit: string;
  place: PlaceId;
  back: string;
  onNext: (place: PlaceId) => void;
  onClose: () => void;
}

/** The question at a jack, and what records an answer to it. */
function useAnswer({ audit, place, onClose }: CheckProps) {
  const services = useServices();
  const asked = useAsked('check', { audit, place });
  const typed = useDraftText(`check:${audit}:${place}`);
  const failed = useSignal<string | null>(null);
  const unknown = useSignal(false);
  const done = useSignal<Done | null>(null);
  /** While an answer is being recorded the question stays as it was. */
  const answering = useSignal(false);
  const shown = useRef<CheckView | null>(null);
  if (asked.type === 'ready' && !answering.value) shown.current = asked.value;
  async function put(said: Checked): Promise<void> {
    const about = { audit };
    answering.value = true;
    const result: Recorded =
      said.kind === 'sighting'
        ? await services.record('sighting', said.payload, about)
        : await services.record('setting-read', said.payload, about);
    if (result.event === '') {
      failed.value = result.type === 'not-saved' ? result.why : '';
      answering.value = false;
      return;
    }
    typed.drop();
    const told = await services.ask('checkDone', { audit, place });
    done.value = { ...(told ?? { lines: [], settled: false, next: null }), event: result.event };
  }
  return {
    view: shown.current,
    isAsking: asked.type !== 'ready',
    typed,
    failed: failed.value,
    unknown: unknown.value,
    done: done.value,
    put,
    putTyped: async () => {
      const said = await services.ask('checkTyped', { audit, place, text: typed.text.trim() });
      unknown.value = said === null;
      if (said) await put(said);
    },
    undo: async (event: string) => {
      await services.record('withdrawn', { target: { event }, why: 'undo' }, { audit });
      onClose();
    },
  };
}

function CheckSheet(props: CheckProps) {
  const { audit, place, back, onNext, onClose } = props;
  const { view, isAsking, typed, failed, unknown, done, put, putTyped, undo } = useAnswer(props);
  if (done) return <DoneSheet done={done} back={back} onNext={onNext} onUndo={undo} onClose={onClose} />;
  if (view === null) return isAsking ? null : <NotNeeded onClose={onClose} />;
  const answers = view.answers.map((answer) => ({
    small: answer.means,
    big: answer.words,
    onPress: () => void put(answer.record),
  }));
  return (
    <Dialog
      title={view.question}
      onClose={onClose}
      rows={[
        ...(answers.length > 0 ? [answers] : []),
        [
          { small: 'Record nothing', big: 'Cancel', onPress: onClose },
          { small: 'Stays open', big: 'Cannot tell', onPress: () => void put(view.cannotTell) },
        ],
      ]}
    >
      <p>{view.task}</p>
      {view.caution && <Caution>{view.caution}</Caution>}
      <Row
        title={`Go to ${view.placeWords}`}
        second="Opens the walk there. This question stays open."
        onPress={() => go({ screen: 'walk', audit, place })}
      />
      <SomethingElse view={view} unknown={unknown} text={typed.text} set={typed.set} onPut={putTyped} />
      {failed !== null && (
        <ErrorBox what="That is not saved on this phone." where={failed} todo="Try again, or see the bar above." />
      )}
    </Dialog>
  );
}

function NotNeeded({ onClose }: { onClose: () => void }) {
  return (
    <Dialog title="This check is not needed any more." onClose={onClose} rows={[[{ big: 'Close', onPress: onClose }]]}>
      <p>It is already settled, or somebody withdrew it.</p>
    </Dialog>
  );
}

function SomethingElse(props: {
  view: CheckView;
  unknown: boolean;
  text: string;
  set: (text: string) => void;
  onPut: () => Promise<void>;
}) {
  const { how } = props.view;
  const hint = {
    'read-page': 'A MAC address, a unit or a jack.',
    listen: 'The unit and the jack at the other end.',
    follow: 'The unit and the jack at the other end.',
    look: 'The label, as printed.',
  }[how];
  return (
    <>
      <Field
        label="Something else"
        hint={hint}
        ident
        value={props.text}
        error={
          props.unknown
            ? 'The plan has no such unit or jack. Type the unit and the jack, or the MAC address.'
            : undefined
        }
        onInput={props.set}
        onEnter={() => void props.onPut()}
      />
      <PlainButton disabled={props.text.trim() === ''} onPress={() => void props.onPut()}>
        Record it
      </PlainButton>
    </>
  );
}

function DoneSheet(props: {
  done: Done;
  back: string;
  onNext: (place: PlaceId) => void;
  onUndo: (event: string) => Promise<void>;
  onClose: () => void;
}) {
  const { done } = props;
  const { next } = done;
  return (
    <Dialog
      title={done.settled ? 'Recorded. That settles it.' : 'Recorded.'}
      onClose={props.onClose}
      rows={[
        [
          { big: 'Undo', onPress: () => void props.onUndo(done.event) },
          { big: props.back, primary: true, share: 2, onPress: props.onClose },
        ],
      ]}
    >
      {done.lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {next && <Row title="Next check" second={next.words} onPress={() => props.onNext(next.place)} />}
    </Dialog>
  );
}

/** Checks that told nothing: who made them, where and when. */
export function TriedLines({ tried }: { tried: readonly TriedLine[] }) {
  const { now } = useServices();
  return (
    <>
      {tried.map(({ place, by, at }) => (
        <div key={`${place} ${by} ${at}`}>
          {place}: {by} could not tell, {timeToWords(at, now())}.
        </div>
      ))}
    </>
  );
}
