// How long a cable may be, how marks along it count, and which lengths are usual between two places. Facts only.
import type { Signal } from '../plan/model.ts';

/** The international foot (agreed in 1959; NIST Special Publication 811, appendix B). */
export const METRES_PER_FOOT = 0.3048;

/** Longest channel of balanced pairs for Ethernet, cords included (ISO/IEC 11801-1, ANSI/TIA-568.2-D). */
const ETHERNET_CHANNEL = 100;

/** Longest run in metres that a signal allows; null where no single number is published for it. */
export function longestRun(signal: Signal | undefined): number | null {
  return signal === 'network' || signal === 'poe' ? ETHERNET_CHANNEL : null;
}

/**
 * How well a length suits two places: 0 on one unit, 1 in one rack, 2 in one room, 3 elsewhere or not known. The
 * numbers are common practice, no source: 47 U are 2.1 m, and slack seldom makes more than a few times that.
 */
export function lengthSuits(metres: number, near: number): 'well' | 'fairly' | 'badly' {
  if (near <= 1) return metres <= 5 ? 'well' : metres <= 12 ? 'fairly' : 'badly';
  if (near === 2) return metres <= 60 ? 'fairly' : 'badly';
  return 'fairly';
}
