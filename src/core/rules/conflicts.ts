// Looks at one place that cannot all be true: what each of them saw. Nobody decides here which of them is right.
import { LOOK_STATES } from '../record/events.ts';
import type { Look, PlaceState } from '../record/looks.ts';
import type { Discrepancy, Finding, SeenValue } from './discrepancy.ts';

export function conflictOf(state: PlaceState): Finding {
  const looks = contradicting(state);
  const values = new Map<string, SeenValue>();
  for (const look of looks) {
    const value = seenValue(look);
    values.set(`${value.state} ${value.text ?? ''}`, value);
  }
  return { kind: 'sightings-conflict', looks: looks.length, values: [...values.values()] };
}

/** Those that saw something: who could not see, or only inferred, contradicts nobody. */
export function contradicting({ looks }: PlaceState): Look[] {
  return looks.filter(({ state, basis }) => LOOK_STATES.has(state) && basis !== 'inferred');
}

export function seenValue({ state, plugs }: Pick<Look, 'state' | 'plugs'>): SeenValue {
  const labels = plugs.map((plug) => plug.labels.map(({ text }) => text).join(' and ')).filter((text) => text !== '');
  return { state, text: labels.length > 0 ? labels.join(' | ') : (plugs[0]?.pattern ?? null) };
}

/** Until somebody has checked again there is nothing to fix, to amend or to leave. */
export function isConflict({ kind }: Pick<Discrepancy, 'kind'>): boolean {
  return kind === 'sightings-conflict';
}
