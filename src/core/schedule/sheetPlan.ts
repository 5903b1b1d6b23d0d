// The document that a reading of sheets makes: head, lists, contradictions. Nothing is read or guessed here, and it has
// no source yet: whoever has the bytes sets it.

import type { Plan } from '../plan/model.ts';
import { findContradictions } from './build/contradictions.ts';

/** @param lists A list that may be absent is left out when nothing is in it, so that the same plan is the same bytes. */
export function listsToPlan(
  name: string,
  {
    routes = [],
    circuits = [],
    guesses,
    ...lists
  }: Pick<Plan, 'racks' | 'units' | 'jacks' | 'cables' | 'settings' | 'routes' | 'circuits' | 'guesses'>,
): Plan {
  return {
    format: 'asfound-plan',
    version: 1,
    name,
    parent: null,
    origin: 'sheet',
    source: null,
    racks: lists.racks,
    units: lists.units,
    jacks: lists.jacks,
    cables: lists.cables,
    settings: lists.settings,
    ...(routes.length === 0 ? {} : { routes }),
    ...(circuits.length === 0 ? {} : { circuits }),
    guesses,
    contradictions: findContradictions(lists.cables, new Map(lists.jacks.map((jack) => [jack.id, jack])), lists.units),
  };
}
