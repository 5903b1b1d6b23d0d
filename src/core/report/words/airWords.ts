// How much goes off the air and how much depends on what is opened, in one sentence for every screen. That nothing is
// marked is no word about what goes off, so it never stands alone; and nothing is ever said to be safe.
import { counted } from './plain.ts';

export interface GoesOff {
  /** Circuits that are marked on-air. */
  onAir: number;
  /** All services that depend on it, those on the air too. */
  services: number;
}

/** "Nothing marked on-air; 10 services depend on it." */
export function goesOffToWords({ onAir, services }: GoesOff): string {
  if (services === 0) return 'Nothing in the plan depends on it. What the plan does not list is not known.';
  const rest = counted(services, 'service depends on it', 'services depend on it');
  if (onAir === 0) return `Nothing marked on-air; ${rest}.`;
  const air = counted(onAir, 'on-air circuit goes off', 'on-air circuits go off');
  return services > onAir ? `${air}, each counted once; ${rest} in all.` : `${air}, each counted once.`;
}
