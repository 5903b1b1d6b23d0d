// One pinned jack enlarged on its photo, the question, and the answers of the walk. An answer is one tap; a typed label
// is looked up like in the walk, so that a unit's name never becomes a cable.

import { type Signal, useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { AuditId, EventId, PlaceId } from '../../core/plan/identity.ts';
import type { State } from '../../core/record/events.ts';
import type { Verdict } from '../../core/report/walk/verdict.ts';
import { useServices } from '../context.ts';
import { saveFailureToMessage } from '../messages.ts';
import { type CellProps, Plate, Screen, ThumbZone, TitleBlock } from '../parts/frame.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { Empty } from '../parts/rows.tsx';
import { CouldNotSeeSymbol, EmptySymbol, NoLabelSymbol, UnreadableSymbol } from '../parts/symbols.tsx';
import { dayAndClock } from '../times.ts';
import { labelToShow, sentenceToShow } from '../walk/walkState.ts';
import { ABSENT, ABSENT_WHY, useMediaUrl } from './mediaUrl.ts';
import { type Look, ZOOM_STEP, zoomed } from './photo-geometry.ts';
import { PhotoStage } from './photo-stage.tsx';
import { type ReadStop, stopToSighting } from './photosReadState.ts';
import { ReadType } from './photosReadType.tsx';

/** Close enough for a label of a jack when the whole unit is on the photo (judged by eye). */
const CLOSE = 4;

interface Said {
  event: EventId;
  place: PlaceId;
  document: string;
  words: string;
}

interface ReadingProps {
  audit: AuditId;
  /** Null when nothing is left. */
  stop: ReadStop | null;
  left: number;
  onPass: (place: PlaceId) => void;
  onBack: (place: PlaceId) => void;
  onPhoto: (document: string) => void;
  onClose: () => void;
}

export function PhotoReading(props: ReadingProps) {
  const { stop, onClose } = props;
  const answers = useAnswers(props);
  const typing = useSignal(false);
  const look = useSignal<Look>({ zoom: CLOSE, centre: { x: 0.5, y: 0.5 } });
  const pin = stop?.photo.pins.find(({ place }) => place === stop.pin.place);
  useEffect(() => {
    if (!stop || !pin) return;
    // Enlarged by hand, the photo stays so for the next jack.
    look.value = { zoom: Math.max(look.peek().zoom, 1), centre: pin.at };
    props.onPhoto(stop.photo.document);
  }, [stop?.pin.place, stop?.photo.document]);
  if (!stop || !pin) return <NothingLeft answers={answers} onClose={onClose} />;
  const say = (answer: Answer) => {
    typing.value = false;
    void answers.say(stop, answer);
  };
  return (
    <div class="photo-reading">
      <Screen
        plate={
          <Plate
            back={{ label: 'All photos', onPress: onClose }}
            cells={[
              { small: `${stop.photo.author}, ${dayAndClock(stop.photo.at)}`, big: stop.photo.words, wide: true },
              { small: 'To read', big: String(props.left) },
            ]}
          />
        }
        above={
          <>
            <LastSaid {...answers.last} />
            <section class="photo-question" aria-label="Question">
              <h1>
                Which label is in <Ident text={stop.pin.words} />?
              </h1>
            </section>
          </>
        }
        foot={
          <Answers
            stop={stop}
            say={say}
            skip={() => answers.skip(stop)}
            undo={undoCell(answers)}
            zoomBy={(factor) => {
              look.value = zoomed(look.value, factor);
            }}
            type={() => {
              typing.value = true;
            }}
          />
        }
      >
        <Enlarged stop={stop} pin={pin} look={look} />
      </Screen>
      {typing.value && (
        <ReadType
          audit={props.audit}
          stop={stop}
          onClose={() => {
            typing.value = false;
          }}
          onSay={(label) => say({ state: 'label', label, by: 'typed' })}
        />
      )}
    </div>
  );
}

type Answer = Parameters<typeof stopToSighting>[1];

/** What was answered on this page: recorded jack by jack, and taken back from the last one. */
function useAnswers({ audit, stop, onPass, onBack, onPhoto }: ReadingProps) {
  const services = useServices();
  const line = useSignal<string | null>(null);
  const verdict = useSignal<Verdict | null>(null);
  const said = useSignal<Said[]>([]);
  const answered = useRef<string | null>(null);
  useEffect(() => {
    answered.current = null;
  }, [stop?.pin.place, stop?.photo.document]);
  const say = async (at: ReadStop, answer: Answer) => {
    // A second touch before the next question stands is meant for nobody: it would speak of the jack before.
    if (answered.current === at.pin.place) return;
    answered.current = at.pin.place;
    const result = await services.record('sighting', stopToSighting(at, answer), { audit });
    if (result.event === '') {
      answered.current = null;
      line.value = `Not saved: ${result.type === 'not-saved' ? result.why : ''}`;
      return;
    }
    const { place, words } = at.pin;
    said.value = [...said.value, { event: result.event, place, document: at.photo.document, words }];
    verdict.value = await services.ask('verdict', { audit, place });
    line.value = result.type === 'saved' ? null : saveFailureToMessage(result.why).what;
    onPass(place);
  };
  const skip = ({ pin }: ReadStop) => {
    verdict.value = null;
    line.value = `${pin.words}: nothing recorded.`;
    onPass(pin.place);
  };
  const undo = async () => {
    const last = said.value.at(-1);
    if (!last) return;
    answered.current = null;
    // Off the list first: pressed twice, Undo takes back two answers, never one twice.
    said.value = said.value.slice(0, -1);
    await services.record('withdrawn', { target: { event: last.event }, why: 'undo' }, { audit });
    verdict.value = null;
    line.value = `Undone: ${last.words}.`;
    onPhoto(last.document);
    onBack(last.place);
  };
  return {
    last: { line: line.value, verdict: verdict.value },
    say,
    skip,
    undo: said.value.length === 0 ? null : undo,
  };
}

function undoCell({ undo }: ReturnType<typeof useAnswers>): CellProps {
  return { big: 'Undo', disabled: undo === null, onPress: () => void undo?.() };
}

function NothingLeft({ answers, onClose }: { answers: ReturnType<typeof useAnswers>; onClose: () => void }) {
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'All photos', onPress: onClose }}
          cells={[{ small: 'From photos', big: 'Read labels', heading: true }]}
        />
      }
      above={<LastSaid {...answers.last} />}
      foot={
        <TitleBlock rows={[[undoCell(answers), { big: 'All photos', primary: true, share: 2, onPress: onClose }]]} />
      }
    >
      <Empty what="Nothing is left to read." why="Jacks that you skipped are still listed under All photos." />
    </Screen>
  );
}

/** The walk's thumb zone for the jack in hand. */
function Answers(props: {
  stop: ReadStop;
  say: (answer: Answer) => void;
  skip: () => void;
  undo: CellProps;
  zoomBy: (factor: number) => void;
  type: () => void;
}) {
  const { say } = props;
  const { hand } = useServices().settings.value;
  const { plan, hasPlan, blind, jack, words } = props.stop.pin;
  const state = (big: string, Drawn: typeof EmptySymbol, said: State): CellProps => ({
    big,
    symbol: <Drawn size={1.5} />,
    onPress: () => say({ state: said, by: 'tapped' }),
  });
  const asPlanned = { small: <Ident text={jack} />, after: 'as planned', primary: true };
  const read: CellProps =
    plan === null
      ? {
          ...asPlanned,
          big: 'Empty',
          name: `${jack} empty, as planned`,
          onPress: () => say({ state: 'empty', by: 'tapped' }),
        }
      : {
          ...asPlanned,
          big: (
            <>
              Reads <CableLabel text={labelToShow(plan)} />
            </>
          ),
          name: `${jack} reads ${plan}, as planned`,
          onPress: () => say({ state: 'label', label: { text: plan }, by: 'tapped' }),
        };
  return (
    <ThumbZone
      hand={hand}
      states={[
        state('Empty', EmptySymbol, 'empty'),
        state('No label', NoLabelSymbol, 'unlabelled'),
        state('Can’t read it', UnreadableSymbol, 'illegible'),
        {
          big: 'Skip',
          name: 'Skip: nothing is recorded',
          symbol: <CouldNotSeeSymbol size={1.5} />,
          onPress: props.skip,
        },
      ]}
      reads={blind || !hasPlan ? [] : [read]}
      tools={[
        { big: '−', name: 'Zoom out', onPress: () => props.zoomBy(1 / ZOOM_STEP) },
        { big: '+', name: 'Zoom in', onPress: () => props.zoomBy(ZOOM_STEP) },
        { big: 'Type', name: `Type the label of ${words}`, onPress: props.type },
        props.undo,
      ]}
    />
  );
}

function Enlarged(props: { stop: ReadStop; pin: ReadStop['photo']['pins'][number]; look: Signal<Look> }) {
  const { photo, pin: asked } = props.stop;
  const media = useMediaUrl(photo.document, 'full');
  if (media.type === 'absent') return <Empty what={`${ABSENT}.`} why={ABSENT_WHY} />;
  if (media.type !== 'here') return null;
  return (
    <PhotoStage
      url={media.url}
      photo={photo}
      name={`${asked.words} enlarged on the photo ${photo.words}. Arrow keys move, plus and minus zoom.`}
      marks={photo.marks}
      pins={[{ ...props.pin, current: true }]}
      look={props.look.value}
      onLook={(want) => {
        props.look.value = want;
      }}
      tool="look"
    />
  );
}

/** What became of the answer before, in one line; the next question stands beneath it already. */
function LastSaid({ line, verdict }: { line: string | null; verdict: Verdict | null }) {
  return (
    <p class="photo-line" role="status">
      {line}
      {verdict && !line && (
        <>
          <strong>
            <Ident text={verdict.jack} />: {verdict.label ? `${labelToShow(verdict.label)}, ` : ''}
            <span class={verdict.variant === 'differs' || verdict.variant === 'hazard' ? 'red' : undefined}>
              {verdict.word}
            </span>
            .
          </strong>{' '}
          {sentenceToShow(verdict.brief, verdict.label)}
        </>
      )}
    </p>
  );
}
