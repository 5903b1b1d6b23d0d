// Describing a place that no plan knows: racks with their units, one after the other. It lists what is there and leads
// to the forms; the forms record.
import type { AuditId } from '../../core/plan/identity.ts';
import type { DescribedRack, DescribedUnit } from '../../core/report/describedView.ts';
import { useAsked } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Empty, Row, SectionHead } from '../parts/rows.tsx';
import { NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { NameFirst } from '../settings/nameFirst.tsx';
import { count } from '../words.ts';
import { KeptLine } from './describeKept.tsx';
import { RackPhotos } from './describePhotos.tsx';
import { DescribeRack } from './describeRack.tsx';
import { DescribeUnit } from './describeUnit.tsx';
import '../look/desk.css';
import '../look/describe.css';

export default function Describe(props: { audit: AuditId; what: 'rack' | 'unit' | null; label: string | null }) {
  return (
    <>
      <NameFirst audit={props.audit} />
      <Here {...props} />
    </>
  );
}

function Here(props: { audit: AuditId; what: 'rack' | 'unit' | null; label: string | null }) {
  const { audit, what, label } = props;
  const asked = useAsked('described', { audit });
  if (asked.type !== 'ready' || asked.value === null) {
    return (
      <NoAnswer
        title="Describe"
        asked={asked}
        missing="This audit is not on this phone, or its plan has not arrived yet."
        next="Press Send and receive to fetch both."
      />
    );
  }
  const view = asked.value;
  if (what === 'rack') return <DescribeRack key={label ?? ''} view={view} label={label} />;
  if (what === 'unit') return <DescribeUnit key={label ?? ''} view={view} label={label} />;
  const open = (next: 'rack' | 'unit', of: string | null) => () =>
    go({ screen: 'describe', audit, what: next, label: of });
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the walk', onPress: () => go({ screen: 'walk', audit, place: null }) }}
          cells={[{ small: view.name, big: 'What is here', heading: true }]}
        />
      }
      above={<KeptLine view={view} />}
      foot={
        <TitleBlock
          rows={[
            [
              {
                small: 'By its label',
                big: 'Name a rack',
                primary: view.racks.length === 0,
                onPress: open('rack', null),
              },
              {
                small: view.racks.length > 0 ? 'Below the last one' : 'In a room, without a rack',
                big: 'Describe a unit',
                primary: view.racks.length > 0,
                share: 2,
                onPress: open('unit', null),
              },
            ],
          ]}
        />
      }
    >
      {view.racks.length === 0 && view.elsewhere.length === 0 && view.byPlan === 0 && (
        <Empty
          what="Nothing is described yet."
          why="Name the rack in front of you, then add its units from the top down. You walk their jacks next. It is normal here that nothing is in a plan."
        />
      )}
      {view.racks.map((rack) => (
        <RackSection key={rack.id} audit={audit} rack={rack} open={open} />
      ))}
      {view.elsewhere.map(({ title, units }) => (
        <section key={title} aria-label={title}>
          <SectionHead strong title={title} right={count(units.length, 'unit')} />
          {units.map((unit) => (
            <UnitRow key={unit.id} unit={unit} onPress={open('unit', unit.label)} />
          ))}
        </section>
      ))}
      {view.byPlan > 0 && <p class="desk-note">The plan has {count(view.byPlan, 'more unit')} in rooms: see Plan.</p>}
    </Screen>
  );
}

function RackSection(props: {
  audit: AuditId;
  rack: DescribedRack;
  open: (what: 'rack' | 'unit', label: string) => () => void;
}) {
  const { audit, rack, open } = props;
  const numbering = rack.numbering === 'bottom-up' ? 'U1 at the bottom' : 'U1 at the top';
  return (
    <section aria-label={`Rack ${rack.label}`}>
      <SectionHead strong title={`Rack ${rack.label}`} right={`${rack.heightU} U, ${numbering}`} />
      {rack.units.map((unit) => (
        <UnitRow key={unit.id} unit={unit} onPress={open('unit', unit.label)} />
      ))}
      <RackPhotos audit={audit} rack={rack} />
      {rack.events.length > 0 && (
        <div class="desk-part">
          <PlainButton onPress={open('rack', rack.label)}>Correct rack {rack.label}</PlainButton>
        </div>
      )}
    </section>
  );
}

function UnitRow({ unit, onPress }: { unit: DescribedUnit; onPress: () => void }) {
  const isDescribed = unit.events.length > 0;
  const where = unit.at === null ? [count(unit.heightU, 'U', 'U'), unit.face] : [`at ${unit.at}`];
  return (
    <Row
      title={<span class="ident">{unit.label}</span>}
      right={unit.u === null ? undefined : `U${unit.u}`}
      second={`${[...where, count(unit.jacks, 'jack')].join(', ')}; ${isDescribed ? 'press to correct' : 'from the plan'}`}
      {...(isDescribed ? { onPress } : {})}
    />
  );
}
