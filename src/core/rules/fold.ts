// The fold: events of one audit over one plan revision. Free of order, and the same whether events come one by one
// or all at once, because every update derives the touched places and cables anew from the looks that stand.

import type { PlaceId } from '../plan/identity.ts';
import { isLooseEnd } from '../plan/identity.ts';
import type { Plan } from '../plan/model.ts';
import { indexPlan, type PlanIndex, placeToWords } from '../plan/planIndex.ts';
import type { AuditEvent, EventOf } from '../record/events.ts';
import { createLooks } from '../record/keptLooks.ts';
import { looksToState, type PlaceState } from '../record/looks.ts';
import { unknownKey } from '../record/readings.ts';
import { scopeOf } from '../record/scope.ts';
import { USUAL_PAIRS } from '../trade/partsPairs.ts';
import { cableToStatus } from './cableDiscrepancies.ts';
import {
  add,
  discrepancies,
  discrepanciesAt,
  type Folding,
  type Held,
  NOTHING,
  readingsOf,
  said,
} from './foldSteps.ts';
import type { Fold, KeptKind, StationRules } from './foldView.ts';
import { createSettings } from './settings.ts';

export type { Fold } from './foldView.ts';

/**
 * @param given A plan, or its index when the caller holds one already.
 * @param revision Hash of that plan; when absent, the one that the audit began with.
 */
export function createFold(given: Plan | PlanIndex, revision?: string | null, own: StationRules = {}): Fold {
  const held = nothingHeld('plan' in given ? given : indexPlan(given));
  const stateOf = (place: PlaceId): PlaceState | null => held.known.get(place)?.state ?? null;
  const fold: Fold = {
    pairOrder: own.pairOrder ?? USUAL_PAIRS,
    airWords: own.airWords ?? [],
    get index() {
      return held.index;
    },
    get revision() {
      return revision === undefined ? (fold.started?.payload.plan ?? null) : revision;
    },
    occasion: null,
    looks: held.looks,
    settings: held.settings,
    started: null,
    closed: null,
    permission: 'look',
    people: held.people,
    lastAt: 0,
    get scope() {
      held.scope ??= scopeOf(held.index, fold.started?.payload ?? null, fold.of('scope-added'));
      return held.scope;
    },
    has: (event) => held.seen.has(event),
    of<K extends KeptKind>(kind: K) {
      const made = held.sortedKinds.get(kind);
      if (made) return made as readonly EventOf<K>[];
      const list = (held.kept.get(kind) ?? [])
        .filter(({ id }) => !held.withdrawnPlain.has(id))
        .sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
      held.sortedKinds.set(kind, list);
      return list as readonly AuditEvent[] as readonly EventOf<K>[];
    },
    stateAt: (place) => stateOf(place) ?? looksToState(place, []),
    isSaid: (place) => stateOf(place) !== null,
    wordsOf: (place) => {
      const words = isLooseEnd(place) ? held.looks.standing(place)[0]?.said.replace(/^loose:\s*/i, '') : '';
      return words || placeToWords(held.index, place);
    },
    readingsAt: (place) => readingsOf(held, place),
    placesOfCable: (cable) => sorted(held.cablePlaces.get(cable)),
    placesOfUnknown: (text) => sorted(held.unknownPlaces.get(unknownKey(text))),
    joined: (place) => {
      const [to, from] = [stateOf(place)?.joinedTo ?? NOTHING, held.joinedFrom.get(place) ?? NOTHING];
      return to.length + from.length === 0 ? NOTHING : [...new Set([...to, ...from])].sort();
    },
    unitSeenAt: (unit) => sorted(held.unitSlots.get(unit)),
    seenPlaces: () => said(held),
    stampOfPlace: (place) => held.known.get(place)?.stamp ?? 0,
    stampOfCable: (cable) => held.cableStamps.get(cable) ?? 0,
    unknownTexts: () =>
      [...held.unknownPlaces].flatMap(([key, places]) => {
        const [first = ''] = [...places].sort();
        return (
          readingsOf(held, first).find(({ cable, text }) => cable === null && unknownKey(text) === key)?.text ?? []
        );
      }),
    add: (events) => add(folding, events),
    discrepancies: () => discrepancies(folding),
    discrepanciesAt: (place) => discrepanciesAt(folding, place),
    ownDiscrepanciesAt: (place) => held.byPlace.get(place) ?? [],
    statusOf: (cable) => cableToStatus(fold, cable, held.byCable.get(cable) ?? []),
  };
  const folding: Folding = Object.assign(held, { fold });
  return fold;
}

function nothingHeld(base: PlanIndex): Held {
  const held: Held = {
    base,
    index: base,
    scope: null,
    seen: new Map(),
    looks: createLooks(),
    known: new Map(),
    cablePlaces: new Map(),
    unknownPlaces: new Map(),
    joinedFrom: new Map(),
    byPlace: new Map(),
    byCable: new Map(),
    unitSlots: new Map(),
    kept: new Map(),
    sortedKinds: new Map(),
    withdrawnPlain: new Set(),
    people: new Set(),
    cableStamps: new Map(),
    stamp: 0,
    settings: createSettings(() => held.index),
    grown: false,
    trunks: [],
  };
  return held;
}

function sorted(list: readonly PlaceId[] | undefined): readonly PlaceId[] {
  return list ? (list.length === 1 ? [list[0]!] : [...list].sort()) : NOTHING;
}

/** Every event at once: the same as adding them one by one, which a property test holds. */
export function foldAll(given: Plan | PlanIndex, events: Iterable<AuditEvent>, own: StationRules = {}): Fold {
  const fold = createFold(given, undefined, own);
  fold.add(events);
  return fold;
}
