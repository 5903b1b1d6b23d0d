// The plan in force as racks and rooms, with the units in them and the cables planned at a unit. Reading only.

import { useSignal } from '@preact/signals';
import type { RackId } from '../../core/plan/identity.ts';
import type { PlanOverview } from '../../core/report/plan/planView.ts';
import { useAsked } from '../context.ts';
import { Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { RackDrawing } from '../parts/rack-drawing.tsx';
import { Empty, Row, SectionHead } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { count, list } from '../words.ts';
import { NoAnswer, toHome } from './planParts.tsx';
import { PlanSheets } from './planSheets.tsx';
import '../look/desk.css';

export default function PlanScreen({ rack }: { rack?: RackId }) {
  const asked = useAsked('plan', {});
  const unit = useSignal<string | null>(null);
  if (asked.type !== 'ready' || asked.value === null) {
    return (
      <NoAnswer
        title="Plan"
        asked={asked}
        missing="There is no plan on this phone yet."
        next="Import a cable schedule, or pair this phone with a station that has one."
      />
    );
  }
  const plan = asked.value;
  const shown = rack === undefined ? undefined : plan.racks.find(({ id }) => id === rack);
  const chosen = unit.value === null ? null : (allUnits(plan).find(({ id }) => id === unit.value) ?? null);
  if (chosen) return <UnitPage plan={plan} unit={chosen} onBack={() => (unit.value = null)} />;
  const choose = (id: string) => {
    unit.value = id;
  };
  return (
    <Screen
      plate={shown ? <RackPlate rack={shown} /> : <PlanPlate plan={plan} />}
      foot={
        <TitleBlock
          rows={[
            [
              {
                small: 'In the plan',
                big: 'Search',
                primary: true,
                share: 2,
                onPress: () => go({ screen: 'search', text: '' }),
              },
              { small: 'Print', big: 'Labels', onPress: () => go({ screen: 'labels', audit: null }) },
              { small: 'Newer sheet', big: 'Import', onPress: () => go({ screen: 'bring-in' }) },
            ],
          ]}
        />
      }
    >
      {shown ? <RackPage rack={shown} onUnit={choose} /> : <WholePlan plan={plan} onUnit={choose} />}
    </Screen>
  );
}

function PlanPlate({ plan }: { plan: PlanOverview }) {
  return (
    <Plate
      back={{ label: 'Back to the first screen', onPress: toHome }}
      cells={[
        { small: 'Plan', big: plan.name || 'not named', heading: true },
        { small: 'Cables', big: String(plan.cables) },
        { small: 'Jacks', big: String(plan.jacks) },
      ]}
    />
  );
}

function RackPlate({ rack }: { rack: Rack }) {
  return (
    <Plate
      back={{ label: 'Back to all racks', onPress: () => go({ screen: 'plan' }) }}
      cells={[
        { small: rack.room ?? 'Room not named', big: <>Rack {<Ident text={rack.label} />}</>, heading: true },
        { small: 'Units', big: String(rack.units.length) },
        { small: 'Jacks', big: String(rack.units.reduce((sum, { jacks }) => sum + jacks, 0)) },
      ]}
    />
  );
}

function WholePlan({ plan, onUnit }: { plan: PlanOverview; onUnit: (id: string) => void }) {
  return (
    <>
      <div class="desk-part">
        <Field
          label="Search"
          type="search"
          ident
          value=""
          onInput={(text) => go({ screen: 'search', text })}
          hint="A label, a jack, a unit, a circuit."
        />
      </div>
      <Row
        title="Desk check"
        second="What is wrong on paper, worst first, each with its rows."
        onPress={() => go({ screen: 'desk-check' })}
      />
      <SectionHead title="Racks" right={String(plan.racks.length)} />
      {plan.racks.length === 0 && <p class="desk-note">The plan names no racks.</p>}
      {plan.racks.map((one) => (
        <Row
          key={one.id}
          title={<Ident text={one.label} />}
          right={count(one.units.length, 'unit')}
          second={[one.room, `${one.heightU} U`, units(one.units)].filter(Boolean).join(', ')}
          onPress={() => go({ screen: 'plan', rack: one.id })}
        />
      ))}
      {plan.rooms.map((room) => (
        <section key={room.name} aria-label={room.name}>
          <SectionHead title={room.name} right={count(room.units.length, 'unit')} />
          <Units units={room.units} onUnit={onUnit} />
        </section>
      ))}
      <PlanSheets />
      <p class="desk-note">
        {plan.contradictions > 0 &&
          `The sheet contradicts itself in ${count(plan.contradictions, 'place')}: see Differences. `}
        Revision <span class="ident">{plan.revision.slice(0, 12)}</span>
        {plan.source && `, from ${plan.source}`}.
      </p>
    </>
  );
}

function Units({ units: all, onUnit }: { units: readonly UnitLine[]; onUnit: (id: string) => void }) {
  return (
    <>
      {all.map((one) => (
        <Row
          key={one.id}
          title={<Ident text={one.label} />}
          right={count(one.jacks, 'jack')}
          second={one.line || undefined}
          onPress={() => onUnit(one.id)}
        />
      ))}
    </>
  );
}

type Rack = PlanOverview['racks'][number];
type UnitLine = { id: string; label: string; jacks: number; line: string };

function allUnits(plan: PlanOverview): UnitLine[] {
  return [...plan.racks.flatMap((rack) => rack.units), ...plan.rooms.flatMap((room) => room.units)];
}

function units(all: readonly UnitLine[]): string {
  const names = all.slice(0, 4).map(({ label }) => label);
  return list(all.length > 4 ? [...names, 'others'] : names);
}

function RackPage({ rack, onUnit }: { rack: Rack; onUnit: (id: string) => void }) {
  const placed = rack.units.filter((unit) => unit.u !== null);
  const loose = rack.units.filter((unit) => unit.u === null);
  return (
    <>
      {placed.length > 0 ? (
        <RackDrawing
          label={rack.label}
          heightU={rack.heightU}
          numbering={rack.numbering}
          side="front"
          units={placed.map((unit) => ({
            id: unit.id,
            label: unit.label,
            u: unit.u ?? 1,
            heightU: unit.heightU,
            line: [unit.line, unit.jacks > 0 && count(unit.jacks, 'jack')].filter(Boolean).join(', '),
          }))}
          onPress={onUnit}
        />
      ) : (
        loose.length === 0 && (
          <Empty what="The plan puts no unit in this rack." why="Units seen there during a walk are still recorded." />
        )
      )}
      {loose.length > 0 && (
        <>
          <SectionHead title="In this rack, no U given" right={String(loose.length)} />
          <Units units={loose} onUnit={onUnit} />
        </>
      )}
    </>
  );
}

/** What the plan has at one unit, jack by jack, the empty ones too. */
function UnitPage({ plan, unit, onBack }: { plan: PlanOverview; unit: UnitLine; onBack: () => void }) {
  const asked = useAsked('unit', { id: unit.id });
  const rack = plan.racks.find((one) => one.units.some(({ id }) => id === unit.id));
  const jacks = asked.type === 'ready' ? (asked.value?.jacks ?? []) : [];
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back', onPress: onBack }}
          cells={[
            { small: rack ? `Unit in rack ${rack.label}` : 'Unit', big: <Ident text={unit.label} />, heading: true },
            { small: 'Jacks', big: String(unit.jacks) },
          ]}
        />
      }
    >
      {unit.line && <p class="desk-note">{unit.line}</p>}
      <SectionHead title="Planned here" right={asked.type === 'loading' ? 'looking' : count(jacks.length, 'jack')} />
      {asked.type === 'failed' && <p class="desk-note">The jacks could not be looked up: {asked.why}</p>}
      {asked.type === 'ready' && jacks.length === 0 && <p class="desk-note">The plan lists no jack at this unit.</p>}
      {jacks.flatMap((jack) =>
        jack.cables.length === 0
          ? [<Row key={jack.place} title={<Ident text={jack.label} />} second="planned empty" />]
          : jack.cables.map((cable) => (
              <Row
                key={`${jack.place} ${cable.id}`}
                title={<Ident text={jack.label} />}
                right={<CableLabel text={cable.label || 'no number'} variant="plan" />}
                second={`to ${cable.far}`}
                onPress={() => go({ screen: 'cable', id: cable.id })}
              />
            )),
      )}
    </Screen>
  );
}
