// On the walk: both ends of a cable off the plan were read, and it may be added to the plan at once, signed with the
// name of whoever walks. Anything else about it is decided among the differences.
import type { ComponentChildren } from 'preact';
import type { PlaceId } from '../../core/plan/identity.ts';
import { useAsked, useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { go } from '../router.ts';
import type { WalkFlow } from '../walk/walkFlowType.ts';

/** @param children What is asked instead where no such cable was read. */
export function NewCableOffer({ flow, children }: { flow: WalkFlow; children: ComponentChildren }) {
  const place = flow.verdict.value?.place ?? '';
  if (place === '' || flow.line.value !== null) return <>{children}</>;
  return (
    <Offer flow={flow} place={place}>
      {children}
    </Offer>
  );
}

function Offer({ flow, place, children }: { flow: WalkFlow; place: PlaceId; children: ComponentChildren }) {
  const services = useServices();
  const { audit } = flow;
  const asked = useAsked('newCable', { audit, place });
  const cable = asked.type === 'ready' ? asked.value : null;
  const by = services.settings.value.author.trim();
  if (asked.type === 'loading') return null;
  if (!cable || by === '') return <>{children}</>;
  async function add(): Promise<void> {
    if (!cable) return;
    const { target, about, facts, usual } = cable.decision;
    const reason = `Both ends were read on the walk: ${cable.ends.join(' and ')}.`;
    const said = { target, about, facts, choice: 'amend-record' as const, usual, reason, by };
    const result = await services.record('decided', said, { audit });
    if (result.event === '') {
      flow.line.value = `This was not kept: ${result.type === 'not-saved' ? result.why : ''}`;
      return;
    }
    await flow.acted({
      event: result.event,
      place,
      words: `${cable.label} added to the plan`,
      line: `${cable.label} goes into the plan with both ends once the changes are adopted in the report.`,
    });
  }
  return (
    <section class="walk-ask" aria-label="A cable off the plan">
      <p>{cable.line}</p>
      <PlainButton onPress={() => void add()}>Add it to the plan</PlainButton>
      <PlainButton onPress={() => go({ screen: 'differences', audit })}>Go to Differences</PlainButton>
    </section>
  );
}
