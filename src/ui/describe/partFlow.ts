// Keeps what is described at a jack as one act: the description and every look that goes with it, taken back by one undo.
import type { EventId } from '../../core/plan/identity.ts';
import type { Payload } from '../../core/record/events.ts';
import { WALK } from '../drafts/walkDrafts.ts';
import type { Services } from '../services.ts';
import { walkDraft } from '../walk/walkDraft.ts';
import type { WalkFlow } from '../walk/walkFlowType.ts';

/** @returns why it was not kept; null when it was. */
export async function keepPart(
  services: Services,
  flow: WalkFlow,
  unit: Payload<'unit-described'>,
  sightings: readonly Payload<'sighting'>[],
): Promise<string | null> {
  const { audit } = flow;
  const described = await services.record('unit-described', unit, { audit });
  if (described.event === '') return described.type === 'not-saved' ? described.why : '';
  const also = [described.event];
  const [here, ...elsewhere] = sightings;
  for (const one of elsewhere) also.push((await services.record('sighting', one, { audit })).event);
  if (here && (await flow.state(here))) {
    tie(services, flow, also);
    return null;
  }
  // What was seen at the jack before may have to be settled first: its answer is an act of its own.
  const place = flow.memory.value.place ?? '';
  const [event = '', ...more] = also;
  await flow.acted({ event, also: more, place, words: unit.label, line: `${unit.label} described.` });
  return null;
}

/** What was recorded beside the walk as one act with one undo. */
export async function keepTogether(
  flow: WalkFlow,
  events: readonly EventId[],
  words: string,
  line: string,
): Promise<string | null> {
  const [event, ...also] = events.filter((one) => one !== '');
  if (event === undefined) return 'The phone is full, or the record is not open.';
  await flow.acted({ event, also, place: flow.memory.value.place ?? '', words, line });
  return null;
}

/** Lets the last act take these events back with it. */
function tie(services: Services, flow: WalkFlow, also: string[]): void {
  const { acts } = flow.memory.value;
  const last = acts.at(-1);
  if (!last) return;
  flow.memory.value = { ...flow.memory.value, acts: [...acts.slice(0, -1), { ...last, also }] };
  void services.saveDraft(walkDraft(flow.audit), flow.memory.value, WALK);
}
