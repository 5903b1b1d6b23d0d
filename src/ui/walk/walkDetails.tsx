// What stands behind More on a verdict: plan, found, evidence, the order in words, the caution of the place. The
// camera waits meanwhile; the next jack keeps its place.
import type { AuditId } from '../../core/plan/identity.ts';
import type { DifferenceLine } from '../../core/report/reconciliation.ts';
import type { Verdict } from '../../core/report/walk/verdict.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { STATE_WORDS } from '../../core/report/words/recordWords.ts';
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

const DETAILS_WORDS = {
  photosTaken: (n: number) => `${n} taken`,
  notesWritten: (n: number) => `${n} written`,
  goOn: (jack: string) => `Go on at ${jack}`,
};

export function WalkDetails({ flow, camera }: { flow: WalkFlow; camera: WalkCamera }) {
  const verdict = flow.verdict.value;
  const place = verdict?.place ?? null;
  const asked = useAsked('walk', { audit: flow.audit, place });
  const differences = useAsked('differences', { audit: flow.audit });
  if (!verdict || place === null) return null;
  const view = asked.type === 'ready' ? asked.value : null;
  const lines = differences.type === 'ready' ? (differences.value?.lines ?? []) : [];
  return (
    <div class="walk-over">
      <Screen
        plate={
          <Plate
            back={{ label: 'Back to the walk', onPress: () => backToWalk(flow) }}
            cells={[{ small: view?.unit.label ?? '', big: verdict.jack, heading: true, wide: true }]}
          />
        }
        above={<VerdictBand flow={flow} open />}
        foot={<DetailsFoot flow={flow} camera={camera} verdict={verdict} view={view} />}
      >
        {verdict.order &&
          (verdict.variant === 'hazard' ? (
            <HazardFrame title={verdict.word}>{verdict.order}</HazardFrame>
          ) : (
            <OwedLook word="To settle it:">{verdict.order}</OwedLook>
          ))}
        {view && <Facts verdict={verdict} view={view} />}
        <DiffersHere
          audit={flow.audit}
          label={verdict.label}
          lines={lines.filter(({ placeIds }) => placeIds.includes(place))}
        />
        {view && <Entries looks={view.looks} />}
        <AudioPinsHere audit={flow.audit} place={place} />
        {view?.caution && <Caution>{view.caution}</Caution>}
      </Screen>
    </div>
  );
}

function backToWalk(flow: WalkFlow): void {
  flow.mode.value = 'walk';
}

function DetailsFoot(props: { flow: WalkFlow; camera: WalkCamera; verdict: Verdict; view: WalkView | null }) {
  const { flow, camera, verdict, view } = props;
  const services = useServices();
  const at = { place: verdict.place, words: view ? `${view.unit.label} ${verdict.jack}` : verdict.jack };
  const now = flow.view.value;
  const next = now && now !== 'loading' ? now.current.jack : '';
  const back = () => backToWalk(flow);
  const open = (type: 'photos' | 'note') => () => {
    flow.sheet.value = { type, ...at };
  };
  return (
    <TitleBlock
      rows={[
        [
          {
            small: DETAILS_WORDS.photosTaken(view?.photos ?? 0),
            big: 'Photo',
            onPress: () => void takePhoto(services, flow, camera, at),
          },
          { small: 'Look, draw, speak', big: 'Photos', onPress: open('photos') },
        ],
        [
          { small: DETAILS_WORDS.notesWritten(view?.notes ?? 0), big: 'Note', onPress: open('note') },
          {
            small: 'The last entry',
            big: 'Undo',
            onPress: () => {
              back();
              void flow.undo();
            },
          },
        ],
        [{ small: 'Back to the viewfinder', big: DETAILS_WORDS.goOn(next), primary: true, onPress: back }],
      ]}
    />
  );
}

function Facts({ verdict, view }: { verdict: Verdict; view: WalkView }) {
  const { plan, through } = view.current;
  return (
    <div class="walk-facts">
      {view.hasPlan && plan === null && <p>Plan: nothing here.</p>}
      {plan !== null && (
        <p>
          Plan: <CableLabel text={labelToShow(plan)} variant="plan" />
          {through && (
            <>
              {' '}
              with its other end at <Ident text={through} />
            </>
          )}
        </p>
      )}
      {verdict.label && (
        <p>
          Found: <CableLabel text={labelToShow(verdict.label)} variant="found" />
        </p>
      )}
      <p>{sentenceToShow(verdict.second, verdict.label)}</p>
    </div>
  );
}

const MARKS: Partial<Record<DifferenceLine['severity'], 'hazard' | 'undecided'>> = {
  people: 'hazard',
  equipment: 'hazard',
  undecided: 'undecided',
};

function DiffersHere(props: { audit: AuditId; label: string | null; lines: readonly DifferenceLine[] }) {
  const { audit, label, lines } = props;
  if (lines.length === 0) return null;
  return (
    <>
      <SectionHead title="Differs here" right={String(lines.length)} />
      {lines.map((line) => (
        <DifferenceRow
          key={line.id}
          mark={MARKS[line.severity] ?? 'differs'}
          severity={`${line.severityWords}.`}
          title={line.title}
          second={sentenceToShow(line.order ? `${line.walkLine} ${line.order}` : line.walkLine, label)}
          onPress={() => go({ screen: 'differences', audit })}
        />
      ))}
    </>
  );
}

function Entries({ looks }: Pick<WalkView, 'looks'>) {
  const { now } = useServices();
  if (looks.length === 0) return null;
  return (
    <>
      <SectionHead title="Entries here" />
      {looks.map((look) => (
        <Row
          key={look.event}
          title={<span class="ident">{labelToShow(look.label ?? STATE_WORDS[look.state].brief)}</span>}
          second={`${look.author}, ${timeToWords(look.at, now())}, ${evidenceToWords(look)}`}
        />
      ))}
    </>
  );
}
