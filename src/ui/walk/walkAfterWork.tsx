// After the work: which of its places nobody has looked at again, and the way back to the work once all were. The walk's
// memory tells it; nothing is recorded here.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId, PlaceId } from '../../core/plan/identity.ts';
import { useServices } from '../context.ts';
import { UNDER_WAY } from '../drafts/workDrafts.ts';
import { draftKey, isFinished, type UnderWay } from '../fixes/fixesFlow.ts';
import { PlainButton } from '../parts/form.tsx';
import { go } from '../router.ts';
import { count } from '../words.ts';
import { readMemory } from './walkDraft.ts';
import type { WalkFlow } from './walkFlowType.ts';

/** Places of the work that nobody looked at since; null while they are asked for. */
export function useLeftToCheck(audit: AuditId, under: UnderWay | null): PlaceId[] | null {
  const services = useServices();
  const left = useSignal<PlaceId[] | null>(null);
  useEffect(() => {
    void readMemory(services, audit).then(({ worked = [] }) => {
      left.value = worked;
    });
  }, [audit, under]);
  return left.value;
}

export function AfterWork({ flow }: { flow: WalkFlow }) {
  const services = useServices();
  const under = useSignal<UnderWay | null>(null);
  useEffect(() => {
    void services.draft(draftKey(flow.audit), UNDER_WAY).then((kept) => {
      under.value = kept;
    });
  }, [flow.audit]);
  const one = under.value;
  if (!one || !isFinished(one) || one.block.lookAgain.length === 0) return null;
  const { place, worked = [] } = flow.memory.value;
  const left = one.block.lookAgain.filter(({ placeId }) => worked.includes(placeId));
  const next = left.find(({ placeId }) => placeId !== place);
  return (
    <section class="walk-ask" aria-label="After the work">
      <p>
        {left.length > 0
          ? `${count(left.length, 'place')} of this work still to check.`
          : 'Every place of this work has been checked again.'}
      </p>
      {next && <PlainButton onPress={() => void flow.moveTo(next.placeId)}>Check {next.words}</PlainButton>}
      {left.length === 0 && (
        <PlainButton primary onPress={() => go({ screen: 'fixes', audit: flow.audit })}>
          Finish the work
        </PlainButton>
      )}
    </section>
  );
}
