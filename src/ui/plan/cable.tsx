// What is this cable, where is its other end, when was it last seen and by whom? From the plan and from every audit.
// It tells what is known and its age; it never says that anything may be pulled.

import type { AuditId } from '../../core/plan/identity.ts';
import type { CableView, LastSeen } from '../../core/report/plan/planView.ts';
import { BASIS_WORDS, FATE_WORDS } from '../../core/report/words/recordWords.ts';
import { isHazard } from '../../core/trade/kinds.ts';
import { useAsked, useServices } from '../context.ts';
import { type CellProps, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Caution } from '../parts/hazard.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { DifferenceRow, SectionHead } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { age, dayAndClock } from '../times.ts';
import { list } from '../words.ts';
import { CableDrawing } from './cableDrawing.tsx';
import { CableReach } from './cableReach.tsx';
import { back, NoAnswer } from './planParts.tsx';
import '../look/desk.css';

export default function CableScreen({ id }: { id: string }) {
  const services = useServices();
  const asked = useAsked('cable', { id });
  const home = useAsked('home', {});
  if (asked.type !== 'ready' || asked.value === null)
    return (
      <NoAnswer
        title="Cable"
        asked={asked}
        missing="The plan in force has no such cable."
        next="A newer sheet may have dropped it, or the plan is not on this phone yet."
      />
    );
  const cable = asked.value;
  const now = services.now();
  const open = home.type === 'ready' ? home.value.audits.find((audit) => !audit.closed) : undefined;
  const walkTo = open ? walkCells(cable, open) : [];
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back', onPress: back }}
          cells={[
            { small: 'Cable', big: <CableLabel text={cable.label || 'no number'} variant="plan" />, heading: true },
            { small: 'Carries', big: carries(cable), wide: true },
            {
              small: 'Differs',
              big: <span class={cable.differences.length > 0 ? 'red' : undefined}>{cable.differences.length}</span>,
            },
          ]}
        />
      }
      above={cable.caution ? <Caution>{cable.caution}</Caution> : undefined}
      foot={
        walkTo.length > 0 ? (
          <TitleBlock rows={[walkTo.slice(0, 3).map((cell, i) => ({ ...cell, primary: i === 0, share: 1 }))]} />
        ) : undefined
      }
    >
      <CableDrawing cable={cable} />
      {cable.differences.map((d, i) => (
        <DifferenceRow
          key={i}
          mark={d.level === 'undecided' ? 'undecided' : isHazard({ severity: d.level }) ? 'hazard' : 'differs'}
          title={d.title}
          severity={`${d.severity}.`}
          second={`${d.line}${d.order ? ` ${d.order}` : ''} ${d.audit}.`}
        />
      ))}
      {cable.astray.length > 0 && (
        <>
          <SectionHead title="Its label was read elsewhere too" right={String(cable.astray.length)} />
          <dl class="desk-facts">
            {cable.astray.map((one) => (
              <Fact key={one.words} name="Found at">
                <Ident text={one.words} />, {lastWords(one.last, now)}
              </Fact>
            ))}
          </dl>
        </>
      )}
      <SectionHead strong title="Evidence" />
      <dl class="desk-facts">
        {cable.ends.map((end) => (
          <Fact key={end.end} name={end.name}>
            {end.place === null ? 'The plan does not say where this end goes.' : lastWords(end.last, now)}
          </Fact>
        ))}
        <Fact name="Followed">{followed(cable, now)}</Fact>
      </dl>
      {cable.reach && <CableReach reach={cable.reach} now={now} caution={cable.caution} />}
      <ByThePlan cable={cable} />
      <SectionHead strong title="History" right="newest first" />
      {cable.history.length === 0 ? (
        <p class="desk-note">Nobody has looked at either end yet.</p>
      ) : (
        <dl class="desk-facts">
          {cable.history.map((one, i) => (
            <Fact key={i} name={dayAndClock(one.at)}>
              {one.words}. {one.author}
              {one.fate !== 'stands' && <span class="quiet">, {FATE_WORDS[one.fate]}</span>}
            </Fact>
          ))}
        </dl>
      )}
    </Screen>
  );
}

/** The ways to the jacks of its ends in an audit that is open. */
function walkCells({ ends }: CableView, audit: { id: AuditId; name: string }): CellProps[] {
  return ends.flatMap(({ place, name, words }): CellProps[] =>
    place === null
      ? []
      : [
          {
            small: `${name}, ${audit.name}`,
            big: (
              <>
                Show <Ident text={words} />
              </>
            ),
            onPress: () => go({ screen: 'walk', audit: audit.id, place }),
          },
        ],
  );
}

function ByThePlan({ cable }: { cable: CableView }) {
  return (
    <>
      <SectionHead strong title="By the plan" />
      <dl class="desk-facts">
        {cable.circuit && cable.circuits.length === 0 && <Fact name="Circuit">{cable.circuit}</Fact>}
        {cable.circuits.map(({ name, role, carrier, hops }) => (
          <Fact key={`${name} ${role ?? ''}`} name={role ? `Circuit, ${role}` : 'Circuit'}>
            {name}
            {carrier && `, carrier’s number ${carrier}`}. It runs over {list(hops)}.
          </Fact>
        ))}
        {cable.onAir && <Fact name="On air">By the plan, what runs over it goes on air.</Fact>}
        {cable.type && <Fact name="Type">{cable.type}</Fact>}
        {cable.length && <Fact name="Length">{cable.length}</Fact>}
        <Fact name="Status">{cable.status.replace('-', ' ')}</Fact>
        {cable.notes && <Fact name="Notes">{cable.notes}</Fact>}
        {cable.origin && (
          <Fact name="Read from">
            {cable.origin.sheet}, row {cable.origin.row}
          </Fact>
        )}
      </dl>
    </>
  );
}

function Fact(props: { name: string; children: preact.ComponentChildren }) {
  return (
    <>
      <dt>{props.name}</dt>
      <dd>{props.children}</dd>
    </>
  );
}

function carries(cable: CableView): string {
  return [cable.circuit, cable.signal?.replace(/-/g, ' ')].filter(Boolean).join(', ') || 'not in the plan';
}

function lastWords(last: LastSeen | null, now: number): string {
  if (!last) return 'not seen yet.';
  return `seen ${dayAndClock(last.at)} (${age(last.at, now)}), ${last.photo ?? BASIS_WORDS[last.basis]}, by ${last.author}.`;
}

function followed(cable: CableView, now: number): string {
  const last = cable.ends
    .flatMap(({ last }) => (last?.basis === 'followed' ? [last] : []))
    .sort((a, b) => b.at - a.at)[0];
  return last
    ? `${dayAndClock(last.at)} (${age(last.at, now)}), by ${last.author}.`
    : 'Never. A label is a claim, not proof.';
}
