// What differs between plan and racks, worst first: hazards, then causes, then what stands for itself. It shows facts
// with their evidence and never lowers a hazard by grouping or filtering it.
import { type Signal, useSignal } from '@preact/signals';
import type { AuditId } from '../../core/plan/identity.ts';
import type { CausesView } from '../../core/report/causesView.ts';
import type { Coverage } from '../../core/report/coverage.ts';
import { decidedToWords } from '../../core/report/decisionsView.ts';
import type { DifferenceLine, DifferencesView } from '../../core/report/reconciliation.ts';
import { isHazard } from '../../core/trade/kinds.ts';
import { useAsked } from '../context.ts';
import { Choice, PlainButton } from '../parts/form.tsx';
import { type CellProps, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { HazardFrame, HazardRow } from '../parts/hazard.tsx';
import { back, NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { count } from '../words.ts';
import { Causes } from './differencesCauses.tsx';
import { useCheck, WithCheck } from './differencesCheck.tsx';
import { WithSigning } from './differencesDecide.tsx';
import { Filter, NoneToShow, STEP } from './differencesFilter.tsx';
import { BySeverity, Details, type Opening, WithDetails } from './differencesList.tsx';
import { decidedShort, type Only, placesToRacks, SHORT_SEVERITY, shows, useWide } from './differencesShown.ts';
import '../look/desk.css';
import '../look/report.css';

/** Fewer differences than this need no filter. */
const FILTER_FROM = 6;

export default function Differences({ audit }: { audit: AuditId }) {
  return (
    <WithSigning audit={audit}>
      <WithCheck audit={audit} back="Back to differences">
        <Shown audit={audit} />
      </WithCheck>
    </WithSigning>
  );
}

function Shown({ audit }: { audit: AuditId }) {
  const asked = useAsked('differences', { audit });
  if (asked.type !== 'ready' || asked.value === null)
    return (
      <NoAnswer
        title="Differences"
        asked={asked}
        missing="This audit is not on this phone, or its plan has not arrived yet."
        next="Send and receive fetches both."
      />
    );
  return <Listed audit={audit} view={asked.value} />;
}

/** Which difference stands open: beneath its row, or beside the list where there is room. */
function useOpening(audit: AuditId, lines: readonly DifferenceLine[]): Opening {
  const wide = useWide();
  const opened = useSignal<string | null>(null);
  return {
    audit,
    wide,
    open: lines.find(({ id }) => id === opened.value) ?? (wide ? lines[0] : undefined),
    press: (line) => () => {
      opened.value = opened.value === line.id ? null : line.id;
    },
    close: () => {
      opened.value = null;
    },
  };
}

function Listed({ audit, view }: { audit: AuditId; view: DifferencesView }) {
  const report = useAsked('report', { audit });
  const plan = useAsked('plan', {});
  const only = useSignal<Only>('all');
  const wanted = useSignal('');
  const openCause = useSignal<string | null>(null);
  const oneByOne = useSignal(false);
  const check = useCheck();
  const shownCount = useSignal(STEP);
  const of = useOpening(audit, view.lines);
  const { wide, open, press } = of;
  const racksOf = placesToRacks(plan.type === 'ready' ? plan.value : null);
  const hazards = view.lines.filter(isHazard);
  const others = view.lines.filter((line) => !isHazard(line));
  const { explained } = view;
  // What was said no to, and what is open again, is told even where no cause is left.
  const hasCauses = explained.causes.length + explained.refused.length + explained.reopened.length > 0;
  const byCause = hasCauses && !oneByOne.value;
  const listed = byCause ? others.filter(({ id }) => explained.alone.includes(id)) : others;
  const shown = listed.filter((line) => shows(line, only.value, wanted.value, racksOf(line)));
  const severities = view.counts.filter(({ severity }) => !isHazard({ severity }));
  const coverage = report.type === 'ready' ? report.value?.coverage : undefined;
  const filter = { only, wanted, shown, listed };
  return (
    <Screen
      plate={<DifferencesPlate view={view} wide={wide} />}
      asideAt="right"
      aside={wide && open ? <Details key={open.id} line={open} of={of} /> : undefined}
      foot={<TitleBlock rows={footRows(view, audit, coverage, check)} />}
    >
      {view.lines.length > 0 && <p class="desk-note">{decidedToWords(view.lines, view.undecided)}</p>}
      <Hazards hazards={hazards} of={of} />
      <CausesOrEach hasCauses={hasCauses} byCause={byCause} explained={explained} others={others} oneByOne={oneByOne} />
      {byCause && (
        <Causes
          view={explained}
          lines={view.lines}
          audit={audit}
          opened={openCause.value}
          onOpen={(id) => {
            openCause.value = id;
          }}
        />
      )}
      {listed.length >= FILTER_FROM && (
        <Filter {...filter} wide={wide} hazards={hazards} severities={severities} shownCount={shownCount} />
      )}
      <BySeverity
        severities={severities}
        drawn={shown.slice(0, shownCount.value)}
        shown={shown}
        of={of}
        open={open}
        press={press}
      />
      <ShowMore left={shown.length - shownCount.value} shownCount={shownCount} />
      <NoneToShow {...filter} view={view} coverage={coverage} walk={() => go({ screen: 'walk', audit, place: null })} />
    </Screen>
  );
}

function DifferencesPlate({ view, wide }: { view: DifferencesView; wide: boolean }) {
  return (
    <Plate
      back={{ label: 'Back', onPress: back }}
      cells={[
        { small: view.name, big: count(view.lines.length, 'difference'), heading: true, wide: true },
        ...view.counts
          .slice(0, wide ? 6 : 3)
          .map(({ severity, count: n }) => ({ small: SHORT_SEVERITY[severity], big: String(n) })),
      ]}
    />
  );
}

function Hazards({ hazards, of }: { hazards: readonly DifferenceLine[]; of: Opening }) {
  return (
    <>
      {hazards.map((line, i) => {
        const Shape = i === 0 ? HazardFrame : HazardRow;
        return (
          <WithDetails key={line.id} line={line} of={of}>
            <Shape title={line.title} line={hazardLine(line)} onPress={of.press(line)}>
              {line.line} {line.order && <strong>{line.order}</strong>}
            </Shape>
          </WithDetails>
        );
      })}
    </>
  );
}

function ShowMore({ left, shownCount }: { left: number; shownCount: Signal<number> }) {
  if (left <= 0) return null;
  return (
    <div class="desk-part">
      <PlainButton
        onPress={() => {
          shownCount.value += STEP;
        }}
      >
        Show more: {count(left, 'difference')} to go
      </PlainButton>
    </div>
  );
}

function CausesOrEach({
  hasCauses,
  byCause,
  explained,
  others,
  oneByOne,
}: {
  hasCauses: boolean;
  byCause: boolean;
  explained: CausesView;
  others: DifferenceLine[];
  oneByOne: Signal<boolean>;
}) {
  return (
    <>
      {hasCauses && (
        <div class="desk-part no-print">
          <Choice<'causes' | 'each'>
            legend="Shown"
            value={byCause ? 'causes' : 'each'}
            options={[
              { value: 'causes', text: `By cause: ${explained.causes.length + listedAlone(explained.alone, others)}` },
              { value: 'each', text: `One by one: ${others.length}` },
            ]}
            onChoose={(value) => {
              oneByOne.value = value === 'each';
            }}
          />
        </div>
      )}
    </>
  );
}

function listedAlone(alone: readonly string[], others: readonly DifferenceLine[]): number {
  return others.filter(({ id }) => alone.includes(id)).length;
}

function hazardLine(line: DifferenceLine) {
  return (
    <>
      No. {line.number}. <strong>{line.severityWords}.</strong>
      {decidedShort(line.decision)}
    </>
  );
}

function footRows(
  view: DifferencesView,
  audit: AuditId,
  coverage: Coverage | undefined,
  check: ReturnType<typeof useCheck>,
): CellProps[][] {
  const next = view.explained.nextLook;
  return [
    [
      ...(view.lines.length > 0 ? [{ big: 'Work to do', onPress: () => go({ screen: 'fixes', audit }) }] : []),
      { big: 'Report', onPress: () => go({ screen: 'report', audit }) },
    ],
    [
      ...(next
        ? [
            {
              small: 'The check that settles most',
              big: `${next.how}: ${next.place}`,
              primary: true,
              share: 2,
              onPress: () => check(next.placeId),
            },
          ]
        : []),
      {
        small: coverage ? `${count(coverage.places - coverage.seen, 'jack')} not looked at` : 'The audit',
        big: 'Walk on',
        primary: next === null,
        share: next === null ? 2 : 1,
        onPress: () => go({ screen: 'walk', audit, place: null }),
      },
    ],
  ];
}
