// What a story rests on at one moment, as short keys for an event: the facts it covers, those open beside it, and the
// looks at all places where a look could change it. Names facts; judges none.

import { MAX_KEYS, MAX_PLACES } from '../record/eventLimits.ts';
import type { JudgedEvidence } from '../record/judgedEvents.ts';
import { fingerprint } from '../rules/fingerprints.ts';
import type { Candidate } from './cause.ts';
import { type Floor, farPlaces } from './floor.ts';

/** Every difference that some story explains together with one of these. */
export class Beside {
  readonly #byFact = new Map<string, Candidate[]>();

  constructor(stories: readonly Candidate[]) {
    for (const one of stories)
      for (const id of one.covers) {
        const list = this.#byFact.get(id);
        if (list) list.push(one);
        else this.#byFact.set(id, [one]);
      }
  }

  of({ covers }: Candidate): string[] {
    const stories = new Set([...covers].flatMap((id) => this.#byFact.get(id) ?? []));
    return [...stories].flatMap((one) => [...one.covers].filter((id) => !covers.has(id)));
  }
}

/** @param beside Ids of differences that were open at the same places or explained by other stories. */
export function evidenceOf({ view }: Floor, one: Candidate, beside: readonly string[]): JudgedEvidence {
  const places = new Set([
    ...one.places,
    ...one.against,
    ...one.predicts.map(({ place }) => place),
    ...(one.nextLook ? [one.nextLook.place] : []),
  ]);
  for (const place of [...places])
    for (const { cable } of view.index.endsAt.get(place) ?? [])
      for (const far of farPlaces(cable, place)) places.add(far);
  const sorted = [...places].sort().slice(0, MAX_PLACES);
  return {
    facts: keysOf(one.covers),
    known: keysOf([...beside, ...one.against]),
    places: sorted,
    looks: keysOf(sorted.flatMap((place) => view.stateAt(place).looks.map(({ event }) => event))),
    certainty: one.certainty,
  };
}

function keysOf(ids: Iterable<string>): string[] {
  return [...new Set([...ids].map(fingerprint))].sort().slice(0, MAX_KEYS);
}
