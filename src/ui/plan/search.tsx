// Search as one types: cables, jacks, units and racks of the plan in force, and labels that stand on the floor alone.
// Exact hits come first; it never guesses which of two was meant.
import { useSignal } from '@preact/signals';
import type { PlanOverview } from '../../core/report/plan/planView.ts';
import type { SearchGroup, SearchHit } from '../../core/report/plan/searchPlan.ts';
import type { FloorHit } from '../../core/report/walk/floorSearch.ts';
import { useAsked, useServices } from '../context.ts';
import { Field } from '../parts/form.tsx';
import { Plate, Screen } from '../parts/frame.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { Empty, Row, SectionHead } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { list, timeToWords } from '../words.ts';
import { toHome } from './planParts.tsx';
import '../look/desk.css';

const WORDS = { cable: 'Cables', jack: 'Jacks', unit: 'Units', rack: 'Racks' } as const;

export default function Search({ text }: { text: string }) {
  const services = useServices();
  const typed = useSignal(text);
  const asked = useAsked('search', { text: typed.value });
  const onFloor = useAsked('searchFloor', { text: typed.value });
  const plan = useAsked('plan', {});
  const floor = onFloor.type === 'ready' && typed.value.trim() !== '' ? onFloor.value : [];
  const groups = asked.type === 'ready' && typed.value.trim() !== '' ? asked.value : [];

  function type(next: string): void {
    typed.value = next;
    // The address follows, so that going back from a hit finds the words again.
    go({ screen: 'search', text: next }, 'replace');
  }

  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the first screen', onPress: toHome }}
          cells={[{ small: services.stationName.value || 'Station', big: 'Search', heading: true }]}
        />
      }
    >
      <div class="desk-part">
        <Field
          label="Cable, jack, unit, rack, circuit, note"
          hint="Capitals, spaces and dashes do not matter."
          type="search"
          ident
          autoFocus
          value={typed.value}
          onInput={type}
        />
      </div>
      <div aria-live="polite">
        {plan.type === 'ready' && plan.value === null ? (
          <Empty
            what="There is no plan on this phone yet."
            why="Search looks in the plan in force."
            next={{ text: 'Import a schedule', onPress: () => go({ screen: 'bring-in' }) }}
          />
        ) : typed.value.trim() === '' ? (
          <p class="desk-note">Type what is printed on a label, or a word from a circuit or note.</p>
        ) : groups.length > 0 ? (
          groups.map((group) => (
            <Group key={group.type} group={group} plan={plan.type === 'ready' ? plan.value : null} />
          ))
        ) : asked.type === 'loading' ? (
          <p class="desk-note">Looking.</p>
        ) : (
          <Empty
            what={`The plan has nothing with “${typed.value.trim().slice(0, 80)}”.`}
            why={
              floor.length > 0
                ? 'Labels read on a walk have it.'
                : 'No label read on a walk has it either. Try part of it, or a likely misreading.'
            }
          />
        )}
        <Floor hits={floor} now={services.now()} />
      </div>
    </Screen>
  );
}

function Group({ group, plan }: { group: SearchGroup; plan: PlanOverview | null }) {
  const { type, n, hits } = group;
  return (
    <section aria-label={WORDS[type]}>
      <SectionHead title={WORDS[type]} right={String(n)} />
      {hits.map((hit) => (
        <Row
          key={hit.id}
          title={type === 'cable' ? <CableLabel text={hit.label} variant="plan" /> : <Ident text={hit.label} />}
          second={hit.line}
          onPress={type === 'jack' && hit.cable === undefined ? undefined : () => open(hit, plan)}
        />
      ))}
      {n > hits.length && <p class="desk-note">And {n - hits.length} more. Type more to narrow it down.</p>}
    </section>
  );
}

function open({ type, id, cable }: SearchHit, plan: PlanOverview | null): void {
  if (type === 'cable') go({ screen: 'cable', id });
  else if (type === 'rack') go({ screen: 'plan', rack: id });
  else if (type === 'unit') {
    const rack = plan?.racks.find(({ units }) => units.some((unit) => unit.id === id));
    go(rack ? { screen: 'plan', rack: rack.id } : { screen: 'plan' });
  } else if (cable !== undefined) go({ screen: 'cable', id: cable });
}

/** Labels of walks that no plan has: each cable is a row, also where one number stands on two. */
function Floor({ hits, now }: { hits: readonly FloorHit[]; now: number }) {
  if (hits.length === 0) return null;
  return (
    <>
      <SectionHead title="Seen, not in the plan" right={hits.length === 40 ? 'the first 40' : String(hits.length)} />
      {hits.map(({ audit, auditName, label, place, places, given }) => (
        <Row
          key={`${audit} ${label} ${place}`}
          title={<CableLabel text={label} />}
          second={[
            places.length > 1 ? list(places) : `${places[0]}, other end not seen yet`,
            given && `duplicate number, here given by ${given.author}, ${timeToWords(given.at, now)}`,
            auditName,
          ]
            .filter(Boolean)
            .join('; ')}
          onPress={() => go({ screen: 'walk', audit, place })}
        />
      ))}
    </>
  );
}
