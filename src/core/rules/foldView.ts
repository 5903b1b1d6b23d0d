// What the fold tells: to the rules of discrepancies (FoldView) and to everything shown (Fold). Types only.
import type { CableId, EventId, PlaceId, UnitId } from '../plan/identity.ts';
import type { PlanIndex } from '../plan/planIndex.ts';
import type { AuditEvent, EventOf } from '../record/events.ts';
import type { Looks } from '../record/keptLooks.ts';
import type { PlaceState } from '../record/looks.ts';
import type { PlugReading } from '../record/readings.ts';
import type { ScopePlaces } from '../record/scope.ts';
import type { PairColours } from '../trade/partsPairs.ts';
import type { Discrepancy } from './discrepancy.ts';
import type { Settings } from './settings.ts';

export interface CableStatus {
  type: 'confirmed' | 'one-end-seen' | 'not-seen' | 'not-verified' | 'differs';
  ends: { end: string; place: PlaceId | null; seen: 'as-planned' | 'differs' | 'not-verified' | 'not-seen' }[];
  reason?: string | undefined;
}

/** Kinds that are kept as they are; what they mean together is derived by whoever asks. */
export type KeptKind = Exclude<AuditEvent['kind'], 'sighting' | 'withdrawn' | 'changed-since' | 'setting-read'>;
/** What one update touched: the counted work of a sighting. */
export interface Touched {
  places: Set<PlaceId>;
  cables: Set<CableId>;
}

/** One entry for each place: a map for each part would cost a full fold more than the deriving itself. */
export interface Known {
  place: PlaceId;
  /** Null while nothing stands that was said. */
  state: PlaceState | null;
  readings: PlugReading[];
  stamp: number;
}

/** What the discrepancy rules may ask. Read only. */
export interface FoldView {
  index: PlanIndex;
  /** Colours of the pairs of a multi-pair cable, in the order that counts at this station. */
  pairOrder: readonly PairColours[];
  /** The station's own words that mark what is on the air. */
  airWords: readonly string[];
  occasion: EventOf<'audit-started'>['payload']['occasion'] | null;
  stateAt(place: PlaceId): PlaceState;
  /** Has anybody said anything about the place that stands? Cheap: asked for every place of a walk. */
  isSaid(place: PlaceId): boolean;
  /** A place in words; a loose end in the very words in which it was said. */
  wordsOf(place: PlaceId): string;
  readingsAt(place: PlaceId): PlugReading[];
  /** Places where a label that names this cable stands now. */
  placesOfCable(cable: CableId): readonly PlaceId[];
  placesOfUnknown(text: string): readonly PlaceId[];
  /** Places that a followed cable joins with this one, said from either side. */
  joined(place: PlaceId): readonly PlaceId[];
  /** Slots where a label that names this unit stands now. */
  unitSeenAt(unit: UnitId): readonly PlaceId[];
  settings: Settings;
  scope: ScopePlaces;
}

/** What a station set for itself; what is absent is as usual. */
export type StationRules = Partial<Pick<FoldView, 'pairOrder' | 'airWords'>>;

export interface Fold extends FoldView {
  /** Hash of the plan revision it is over; null without a plan. */
  revision: string | null;
  looks: Looks;
  started: EventOf<'audit-started'> | null;
  closed: EventOf<'audit-closed'> | null;
  permission: EventOf<'permission-set'>['payload']['permission'];
  people: ReadonlySet<string>;
  /** Events of a kind that were not taken back, by time and id. Sightings are asked for through `looks`. */
  of<K extends KeptKind>(kind: K): readonly EventOf<K>[];
  has(event: EventId): boolean;
  add(events: Iterable<AuditEvent>): Touched;
  /** All discrepancies, worst first. */
  discrepancies(): Discrepancy[];
  discrepanciesAt(place: PlaceId): Discrepancy[];
  /** Those that the place alone and what was followed to it tell. */
  ownDiscrepanciesAt(place: PlaceId): readonly Discrepancy[];
  statusOf(cable: CableId): CableStatus;
  seenPlaces(): Iterable<PlaceId>;
  /** Labels that name no planned cable, one text for each name. */
  unknownTexts(): Iterable<string>;
  /** Rises whenever what is known of a place, or of a cable, is derived anew; 0 while nothing is. */
  stampOfPlace(place: PlaceId): number;
  stampOfCable(cable: CableId): number;
  lastAt: number;
}
