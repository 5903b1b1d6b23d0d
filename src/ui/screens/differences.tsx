// What differs between plan and floor, worst first: hazards, then rows by severity. It shows facts with their
// evidence; it decides no cause and never lowers a hazard by grouping it.
import { useSignal } from '@preact/signals';
import type { DifferenceLine } from '../../core/report/reconciliation.ts';
import { useAsked } from '../context.ts';
import { Choice } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { HazardFrame, HazardRow } from '../parts/hazard.tsx';
import { DifferenceRow, Empty, SectionHead } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { DifferenceDetails } from './differencesDetails.tsx';
import { count } from './homeWords.ts';
import { back, NoAnswer } from './planParts.tsx';
import { isHazard } from './reportWords.ts';
import '../look/desk.css';

const ALL = 'all';
/** More rows than this are shown in steps, so that a phone never draws thousands at once. */
const STEP = 150;

export default function Differences({ audit }: { audit: string }) {
  const asked = useAsked('differences', { audit });
  const report = useAsked('report', { audit });
  const plan = useAsked('plan', {});
  const rack = useSignal(ALL);
  const opened = useSignal<string | null>(null);
  const shownCount = useSignal(STEP);
  if (asked.type !== 'ready' || asked.value === null)
    return (
      <NoAnswer
        title="Differences"
        asked={asked}
        missing="This audit is not on this phone, or its plan has not arrived yet."
        next="Send and receive fetches both."
      />
    );
  const view = asked.value;
  const rackOf = new Map(
    plan.type === 'ready' && plan.value
      ? plan.value.racks.flatMap((one) => [
          [one.id, one.id] as const,
          ...one.units.map(({ id }) => [id, one.id] as const),
        ])
      : [],
  );
  const racksOf = (line: DifferenceLine) =>
    line.placeIds.flatMap((place) => rackOf.get(place.split('/')[0] ?? '') ?? []);
  const present = new Set(view.lines.flatMap(racksOf));
  const names = plan.type === 'ready' ? (plan.value?.racks ?? []).filter(({ id }) => present.has(id)) : [];
  const lines = view.lines.filter((line) => rack.value === ALL || racksOf(line).includes(rack.value));
  const hazards = lines.filter(isHazard);
  const others = lines.filter((line) => !isHazard(line));
  const open = view.lines.find(({ id }) => id === opened.value);
  const press = (line: DifferenceLine) => () => {
    opened.value = line.id;
  };
  const [worst, ...further] = hazards;
  const walk = () => go({ screen: 'walk', audit, place: null });
  const owed = report.type === 'ready' ? report.value : null;
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back', onPress: back }}
          cells={[
            { small: view.name, big: count(view.lines.length, 'difference'), heading: true },
            { small: 'Order', big: 'worst first' },
          ]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              {
                small: owed ? `${owed.coverage.places - owed.coverage.seen} jacks not looked at` : 'The audit',
                big: 'Walk on',
                primary: true,
                share: 2,
                onPress: walk,
              },
              { small: 'All of it', big: 'Report', onPress: () => go({ screen: 'report', audit }) },
            ],
          ]}
        />
      }
    >
      {view.counts.length > 0 && (
        <p class="desk-note" role="status">
          {view.counts.map(({ severity, words, count: n }, i) => (
            <span key={severity}>
              {i > 0 && ' · '}
              {words}: <strong>{n}</strong>
            </span>
          ))}
        </p>
      )}
      {names.length > 1 && (
        <div class="desk-part">
          <Choice
            legend="Where"
            value={rack.value}
            options={[
              { value: ALL, text: 'Everywhere' },
              ...names.map(({ id, label }) => ({ value: id, text: <span class="ident">{label}</span> })),
            ]}
            onChoose={(value) => {
              rack.value = value;
              shownCount.value = STEP;
            }}
          />
        </div>
      )}
      {worst && (
        <HazardFrame title={worst.title} line={hazardLine(worst)} onPress={press(worst)}>
          {worst.line} {worst.order && <strong>{worst.order}</strong>}
        </HazardFrame>
      )}
      {further.map((line) => (
        <HazardRow key={line.id} title={line.title} line={hazardLine(line)} onPress={press(line)}>
          {line.line} {line.order && <strong>{line.order}</strong>}
        </HazardRow>
      ))}
      {view.counts
        .filter(({ severity }) => severity !== 'people' && severity !== 'equipment')
        .map(({ severity, words }) => {
          const list = others.slice(0, shownCount.value).filter((line) => line.severity === severity);
          return (
            list.length > 0 && (
              <section key={severity} aria-label={words}>
                <SectionHead title={words} right={String(others.filter((line) => line.severity === severity).length)} />
                {list.map((line) => (
                  <DifferenceRow
                    key={line.id}
                    mark={line.severity === 'undecided' ? 'undecided' : 'differs'}
                    title={line.title}
                    severity={`No. ${line.number}.`}
                    second={line.line}
                    onPress={press(line)}
                  />
                ))}
              </section>
            )
          );
        })}
      {others.length > shownCount.value && (
        <div class="desk-part">
          <button
            type="button"
            class="plain-button"
            onClick={() => {
              shownCount.value += STEP;
            }}
          >
            {others.length - shownCount.value} more
          </button>
        </div>
      )}
      {lines.length === 0 && (
        <Empty
          what={rack.value === ALL ? 'Nothing differs so far.' : 'Nothing differs in this rack so far.'}
          why={
            owed
              ? `Looked at: ${owed.coverage.seen} of ${count(owed.coverage.places, 'jack')}. Of the other ${owed.coverage.places - owed.coverage.seen} nothing can be said.`
              : undefined
          }
          next={{ text: 'Walk on', onPress: walk }}
        />
      )}
      {open && (
        <DifferenceDetails
          line={open}
          audit={audit}
          onClose={() => {
            opened.value = null;
          }}
        />
      )}
    </Screen>
  );
}

function hazardLine(line: DifferenceLine) {
  return (
    <>
      No. {line.number}. <strong>{line.severityWords}.</strong>
    </>
  );
}
