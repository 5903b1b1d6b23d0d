// Questions about what is described at a jack: places in words, known outlets, the pairs of a cable.
import type { PowerHere } from '../core/report/powerView.ts';

export interface PairsHere {
  cable: string;
  label: string;
  /** Landings here and at the far end, in words, in their order. */
  unit: string;
  landings: string[];
  far: string;
  /** What is known of the pairs, in words. */
  words: string;
}

export interface PartQuestions {
  /** A place as a person types it; null when it cannot be read. */
  place: { ask: { audit: string; text: string }; answer: { place: string; words: string } | null };
  power: { ask: { audit: string; place: string }; answer: PowerHere | null };
  /** Null where no cable with pairs lands. */
  pairs: { ask: { audit: string; place: string }; answer: PairsHere | null };
}
