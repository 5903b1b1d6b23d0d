// One pinned jack enlarged on its photo, the question, and the answers of the walk. An answer is one tap; a typed label
// is looked up like in the walk, so that a unit's name never becomes a cable.

import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { AuditId, EventId, PlaceId } from '../../core/plan/identity.ts';
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

export function PhotoReading(props: {
  audit: AuditId;
  /** Null when nothing is left. */
  stop: ReadStop | null;
  left: number;
  onPass: (place: PlaceId) => void;
  onBack: (place: PlaceId) => void;
  onPhoto: (document: string) => void;
  onClose: () => void;
}) {
  const { audit, stop, onClose } = props;
  const services = useServices();
  const media = useMediaUrl(stop?.photo.document ?? null, 'full');
  const look = useSignal<Look>({ zoom: CLOSE, centre: { x: 0.5, y: 0.5 } });
  const typing = useSignal(false);
  const line = useSignal<string | null>(null);
  const verdict = useSignal<Verdict | null>(null);
  const said = useSignal<Said[]>([]);
  const answered = useRef<string | null>(null);
  const pin = stop?.photo.pins.find(({ place }) => place === stop.pin.place);
  useEffect(() => {
    answered.current = null;
    if (!stop || !pin) return;
    // Enlarged by hand, the photo stays so for the next jack.
    look.value = { zoom: Math.max(look.peek().zoom, 1), centre: pin.at };
    props.onPhoto(stop.photo.document);
  }, [stop?.pin.place, stop?.photo.document]);

  const say = async (at: ReadStop, answer: Parameters<typeof stopToSighting>[1]) => {
    typing.value = false;
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
    props.onPass(place);
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
    props.onPhoto(last.document);
    props.onBack(last.place);
  };
  const undoCell: CellProps = { big: 'Undo', disabled: said.value.length === 0, onPress: () => void undo() };
  const zoomBy = (factor: number) => () => {
    look.value = zoomed(look.value, factor);
  };
  const last = <LastSaid line={line.value} verdict={verdict.value} />;
  if (!stop || !pin) {
    return (
      <Screen
        plate={
          <Plate
            back={{ label: 'All photos', onPress: onClose }}
            cells={[{ small: 'From photos', big: 'Read labels', heading: true }]}
          />
        }
        above={last}
        foot={<TitleBlock rows={[[undoCell, { big: 'All photos', primary: true, share: 2, onPress: onClose }]]} />}
      >
        <Empty what="Nothing is left to read." why="Jacks that you skipped are still listed under All photos." />
      </Screen>
    );
  }
  const { plan, hasPlan, blind, jack, words } = stop.pin;
  return (
    <div class="photo-reading">
      <Screen
        plate={
          <Plate
            back={{ label: 'All photos', onPress: onClose }}
            cells={[
              {
                small: `${stop.photo.author}, ${dayAndClock(stop.photo.at)}`,
                big: stop.photo.words,
                wide: true,
              },
              { small: 'To read', big: String(props.left) },
            ]}
          />
        }
        above={
          <>
            {last}
            <section class="photo-question" aria-label="Question">
              <h1>
                Which label is in <Ident text={words} />?
              </h1>
            </section>
          </>
        }
        foot={
          <ThumbZone
            hand={services.settings.value.hand}
            states={[
              {
                big: 'Empty',
                symbol: <EmptySymbol size={1.5} />,
                onPress: () => void say(stop, { state: 'empty', by: 'tapped' }),
              },
              {
                big: 'No label',
                symbol: <NoLabelSymbol size={1.5} />,
                onPress: () => void say(stop, { state: 'unlabelled', by: 'tapped' }),
              },
              {
                big: 'Can’t read it',
                symbol: <UnreadableSymbol size={1.5} />,
                onPress: () => void say(stop, { state: 'illegible', by: 'tapped' }),
              },
              {
                big: 'Skip',
                name: 'Skip: nothing is recorded',
                symbol: <CouldNotSeeSymbol size={1.5} />,
                onPress: () => {
                  verdict.value = null;
                  line.value = `${words}: nothing recorded.`;
                  props.onPass(stop.pin.place);
                },
              },
            ]}
            reads={
              blind || !hasPlan
                ? []
                : [
                    plan === null
                      ? {
                          small: <Ident text={jack} />,
                          big: 'Empty',
                          after: 'as planned',
                          primary: true,
                          name: `${jack} empty, as planned`,
                          onPress: () => void say(stop, { state: 'empty', by: 'tapped' }),
                        }
                      : {
                          small: <Ident text={jack} />,
                          big: (
                            <>
                              Reads <CableLabel text={labelToShow(plan)} />
                            </>
                          ),
                          after: 'as planned',
                          primary: true,
                          name: `${jack} reads ${plan}, as planned`,
                          onPress: () => void say(stop, { state: 'label', label: { text: plan }, by: 'tapped' }),
                        },
                  ]
            }
            tools={[
              { big: '−', name: 'Zoom out', onPress: zoomBy(1 / ZOOM_STEP) },
              { big: '+', name: 'Zoom in', onPress: zoomBy(ZOOM_STEP) },
              {
                big: 'Type',
                name: `Type the label of ${words}`,
                onPress: () => {
                  typing.value = true;
                },
              },
              undoCell,
            ]}
          />
        }
      >
        {media.type === 'absent' && <Empty what={`${ABSENT}.`} why={ABSENT_WHY} />}
        {media.type === 'here' && (
          <PhotoStage
            url={media.url}
            photo={stop.photo}
            name={`${words} enlarged on the photo ${stop.photo.words}. Arrow keys move, plus and minus zoom.`}
            marks={stop.photo.marks}
            pins={[{ ...pin, current: true }]}
            look={look.value}
            onLook={(want) => {
              look.value = want;
            }}
            tool="look"
          />
        )}
      </Screen>
      {typing.value && (
        <ReadType
          audit={audit}
          stop={stop}
          onClose={() => {
            typing.value = false;
          }}
          onSay={(label) => void say(stop, { state: 'label', label, by: 'typed' })}
        />
      )}
    </div>
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
