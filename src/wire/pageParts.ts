// Questions about what is described at a jack: places in words, known outlets, the pairs of a cable.

import type { FarPlace } from '../core/plan/farPlace.ts';
import type { AuditId, CableId, PlaceId, UnitId } from '../core/plan/identity.ts';
import type { PowerHere } from '../core/report/powerView.ts';
import type { PairFate, wiresOf } from '../core/rules/pairs.ts';

export interface PairsHere {
  cable: CableId;
  label: string;
  wires: ReturnType<typeof wiresOf>;
  unit: UnitId;
  /** Landings here, in their order: place and what is printed there. */
  landings: string[];
  labels: string[];
  /** The other end in words; null while nobody knows it. */
  far: PlaceId | null;
  /** Its unit, and its landings as place ids and as printed, in their order. */
  farUnit: string | null;
  farLandings: string[];
  farLabels: string[];
  /** What was said of the pair itself, in the order of the landings. */
  fates: (PairFate | null)[];
  /** What is known of the pairs, in words. */
  words: string;
}

export interface PartQuestions {
  /** A place as a person types it. */
  place: { ask: { audit: AuditId; text: string }; answer: FarPlace | null };
  /** So many landings from a first one on, as one place; `lacking` of them are not known there. Null without a number. */
  landings: {
    ask: { audit: AuditId; place: PlaceId; count: number };
    answer: { place: PlaceId; words: string; lacking: number } | null;
  };
  power: { ask: { audit: AuditId; place: PlaceId }; answer: PowerHere | null };
  /** Null where no cable with pairs lands. */
  pairs: { ask: { audit: AuditId; place: PlaceId }; answer: PairsHere | null };
}
