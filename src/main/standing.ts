// Whoever adopts a plan, names the station or sets its rules says which ones stood for them: order follows that, and a
// phone whose clock is wrong owns nothing for ever.
import type { EventKind, Payload } from '../core/record/events.ts';
import type { Questions } from '../wire/page.ts';

const WHOLE: Partial<Record<EventKind, keyof Questions['standing']['answer']>> = {
  'plan-adopted': 'plan',
  'station-named': 'name',
  'rules-set': 'rules',
};
/** So many are named; a text has an end. */
const MAX_NAMED = 500;

/** The payload with what stands, where it is of a kind that takes the place of others; else as it is. */
export async function withStanding<K extends EventKind>(
  kind: K,
  payload: Payload<K>,
  ask: () => Promise<Questions['standing']['answer']>,
): Promise<Payload<K>> {
  const whole = WHOLE[kind];
  if (whole === undefined) return payload;
  // An entry is kept all the same where the record cannot be asked: it stands beside the others then.
  const standing = await ask().catch(() => null);
  const after = standing?.[whole].heads.slice(0, MAX_NAMED).map(({ id }) => id) ?? [];
  return after.length > 0 ? { ...payload, after } : payload;
}
