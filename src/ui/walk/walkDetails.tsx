// What stands behind More on a verdict: plan, found, evidence, the order in words, the caution of the place. The
// camera waits meanwhile; the next jack keeps its place.
import { evidenceToWords } from '../../core/report/words/reportSentences.ts';
import { useAsked, useServices } from '../context.ts';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Caution, HazardFrame } from '../parts/hazard.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { DifferenceRow, OwedLook, Row, SectionHead } from '../parts/rows.tsx';
import { AudioPinsHere } from '../plan/audioPinsHere.tsx';
import { go } from '../router.ts';
import { timeToWords } from '../words.ts';
import type { WalkCamera } from './walkCamera.ts';
import type { WalkFlow } from './walkFlowType.ts';
import { takePhoto } from './walkPhoto.ts';
import { labelToShow, sentenceToShow } from './walkState.ts';
import { VerdictBand } from './walkVerdict.tsx';

export function WalkDetails({ flow, camera }: { flow: WalkFlow; camera: WalkCamera }) {
  const services = useServices();
  const verdict = flow.verdict.value;
  const place = verdict?.place ?? null;
  const asked = useAsked('walk', { audit: flow.audit, place });
  const differences = useAsked('differences', { audit: flow.audit });
  if (!verdict || place === null) return null;
  const view = asked.type === 'ready' ? asked.value : null;
  const lines = differences.type === 'ready' ? (differences.value?.lines ?? []) : [];
  const here = lines.filter(({ placeIds }) => placeIds.includes(place));
  const words = view ? `${view.unit.label} ${verdict.jack}` : verdict.jack;
  const now = flow.view.value;
  const show = (text: string) => sentenceToShow(text, verdict.label);
  const next = now && now !== 'loading' ? now.current.jack : '';
  const back = () => {
    flow.mode.value = 'walk';
  };
  return (
    <div class="walk-over">
      <Screen
        plate={
          <Plate
            back={{ label: 'Back to the walk', onPress: back }}
            cells={[{ small: view?.unit.label ?? '', big: verdict.jack, heading: true, wide: true }]}
          />
        }
        above={<VerdictBand flow={flow} open />}
        foot={
          <TitleBlock
            rows={[
              [
                {
                  small: `${view?.photos ?? 0} taken`,
                  big: 'Photo',
                  onPress: () => void takePhoto(services, flow, camera, { place, words }),
                },
                {
                  small: 'Look, draw, speak',
                  big: 'Photos',
                  onPress: () => {
                    flow.sheet.value = { type: 'photos', place, words };
                  },
                },
              ],
              [
                {
                  small: `${view?.notes ?? 0} written`,
                  big: 'Note',
                  onPress: () => {
                    flow.sheet.value = { type: 'note', place, words };
                  },
                },
                {
                  small: 'The last entry',
                  big: 'Undo',
                  onPress: () => {
                    back();
                    void flow.undo();
                  },
                },
              ],
              [{ small: 'Back to the viewfinder', big: `Go on at ${next}`, primary: true, onPress: back }],
            ]}
          />
        }
      >
        {verdict.order &&
          (verdict.variant === 'hazard' ? (
            <HazardFrame title={verdict.word}>{verdict.order}</HazardFrame>
          ) : (
            <OwedLook word="To settle it:">{verdict.order}</OwedLook>
          ))}
        {view && (
          <div class="walk-facts">
            <p>
              Plan:{' '}
              {view.current.plan ? (
                <>
                  <CableLabel text={labelToShow(view.current.plan)} variant="plan" />
                  {view.current.through && (
                    <>
                      {' '}
                      with its other end at <Ident text={view.current.through} />
                    </>
                  )}
                </>
              ) : (
                'nothing here.'
              )}
            </p>
            {verdict.label && (
              <p>
                Found: <CableLabel text={labelToShow(verdict.label)} variant="found" />
              </p>
            )}
            <p>{show(verdict.second)}</p>
          </div>
        )}
        {here.length > 0 && <SectionHead title="Differs here" right={String(here.length)} />}
        {here.map((line) => (
          <DifferenceRow
            key={line.id}
            mark={
              line.severity === 'people' || line.severity === 'equipment'
                ? 'hazard'
                : line.severity === 'undecided'
                  ? 'undecided'
                  : 'differs'
            }
            severity={`${line.severityWords}.`}
            title={line.title}
            second={show(line.order ? `${line.walkLine} ${line.order}` : line.walkLine)}
            onPress={() => go({ screen: 'differences', audit: flow.audit })}
          />
        ))}
        {view && view.looks.length > 0 && <SectionHead title="Entries here" />}
        {view?.looks.map((look) => (
          <Row
            key={look.event}
            title={<span class="ident">{labelToShow(look.label ?? look.state)}</span>}
            second={`${look.author}, ${timeToWords(look.at, services.now())}, ${evidenceToWords(look)}`}
          />
        ))}
        <AudioPinsHere audit={flow.audit} place={place} />
        {view?.caution && <Caution>{view.caution}</Caution>}
      </Screen>
    </div>
  );
}
