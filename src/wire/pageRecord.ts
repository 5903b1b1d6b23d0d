// What the page asks about the record as a whole: what stands for the station, and whose clock is wrong.
import type { Ahead } from '../core/record/clocks.ts';
import type { Stand, Whole } from '../core/rules/station.ts';

export interface RecordQuestions {
  standing: { ask: Record<never, never>; answer: Record<Whole, Stand> };
  /** @param now Present time, corrected where the server's is known. */
  ahead: { ask: { now: number }; answer: Ahead[] };
}
