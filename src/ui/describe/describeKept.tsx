// One line after something was described: what was kept, and its undo. The walk keeps the same act, so that either
// screen takes back what the other said; this file owns no rule of what a withdrawal means.

import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId, EventId } from '../../core/plan/identity.ts';
import type { DescribedView } from '../../core/report/describedView.ts';
import { type Act, lastAct, undoLast } from '../../core/walk/memory.ts';
import { useServices } from '../context.ts';
import { WALK } from '../drafts/walkDrafts.ts';
import { PlainButton } from '../parts/form.tsx';
import type { Services } from '../services.ts';
import { noteAct, readMemory, walkDraft } from '../walk/walkDraft.ts';
import { count } from '../words.ts';

const SUFFIX = ', as described';
/** The act that can be taken back, or what became of it. */
const shown = signal<{ audit: AuditId; act: Act | null; told: string | null }>({ audit: '', act: null, told: null });

/** @param words The thing and where it is: "AIO21 at U30". */
export async function noteKept(services: Services, audit: AuditId, event: EventId, words: string): Promise<void> {
  await noteAct(services, audit, event, words + SUFFIX);
  const act: Act = { event, kind: 'described', places: [], back: '', words: words + SUFFIX };
  shown.value = { audit, act, told: null };
}

export function KeptLine({ view }: { view: DescribedView }) {
  const services = useServices();
  const { audit } = view;
  useEffect(() => {
    // The walk may have taken it back since, and after a reload only the walk's memory knows of it.
    void lastDescribed(services, audit).then((act) => {
      if (shown.value.audit === audit && shown.value.act?.event === act?.event) return;
      shown.value = { audit, act, told: null };
    });
  }, [audit]);
  const { act, told } = shown.value.audit === audit ? shown.value : { act: null, told: null };
  if (!act && told === null) return null;
  const undo = async () => {
    if (!act) return;
    const last = undoLast(await readMemory(services, audit));
    if (last?.act.event !== act.event) {
      shown.value = { audit, act: null, told: 'The walk has recorded something since. Undo that first, in the walk.' };
      return;
    }
    const thing = thingOf(view, ({ events }) => events.includes(act.event));
    const result = await services.record('withdrawn', last.payload, { audit });
    if (result.event === '') {
      shown.value = { audit, act, told: 'Not undone. Try again.' };
      return;
    }
    void services.saveDraft(walkDraft(audit), last.memory, WALK);
    const after = await services.ask('described', { audit }).catch(() => null);
    const isBack = after !== null && thingOf(after, ({ id, type }) => id === thing?.id && type === thing.type) !== null;
    shown.value = { audit, act: null, told: undoneToWords(act.words.replace(SUFFIX, ''), isBack, thing?.said ?? 0) };
  };
  return (
    <div class="describe-kept">
      <p role="status">{told ?? `${act?.words.replace(SUFFIX, '')} saved.`}</p>
      {act && <PlainButton onPress={() => void undo()}>Undo</PlainButton>}
    </div>
  );
}

interface Thing {
  type: 'rack' | 'unit';
  id: string;
  events: readonly EventId[];
  said: number;
}

function thingOf(view: DescribedView, isIt: (thing: Thing) => boolean): Thing | null {
  const racks = view.racks.map(({ id, events }): Thing => ({ type: 'rack', id, events, said: 0 }));
  const units = [...view.racks, ...view.elsewhere].flatMap((group) => group.units);
  return [...racks, ...units.map((unit): Thing => ({ type: 'unit', ...unit }))].find(isIt) ?? null;
}

/** What a withdrawal left: the description before it, and every statement made at the jacks. */
export function undoneToWords(words: string, isBack: boolean, said: number): string {
  const left = said === 0 ? '' : ` Entries at ${count(said, 'jack')} of it stay in the record.`;
  return `Undone: ${words}.${isBack ? ' The earlier description stands again.' : ''}${left}`;
}

/** The last act of this audit where it described something and nothing else. */
async function lastDescribed(services: Services, audit: AuditId): Promise<Act | null> {
  const act = lastAct(await readMemory(services, audit));
  return act?.kind === 'described' && !act.also && !act.again ? act : null;
}
