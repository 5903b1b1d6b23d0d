// How long a cable may be, how marks along it count, and which lengths are usual between two places. Facts only.
import type { Signal } from '../plan/model.ts';

/** The international foot (agreed in 1959; NIST Special Publication 811, appendix B). */
export const METRES_PER_FOOT = 0.3048;

export interface LengthLimit {
  metres: number;
  /** What the limit is of, for a sentence. */
  of: string;
  /** A longer one does not work by its standard; else it may, and wants a look. */
  hard: boolean;
}

/**
 * Longest run that a signal allows on this type of cable; null where no single number is published for it. Ethernet:
 * ISO/IEC 11801-1 and ANSI/TIA-568.2-D, channel with cords. AES3 on pairs: AES3-2009, 100 m without equalisation;
 * on 75-ohm coax: AES-3id, 1000 m. 10GBASE-T on category 6: IEEE 802.3an, 55 m.
 */
export function lengthLimit(signal: Signal | undefined, type = ''): LengthLimit | null {
  if (signal === 'network' || signal === 'poe') {
    if (/\b10 ?g/i.test(type) && /\bcat ?6(?!a)/i.test(type))
      return { metres: 55, of: '10 Gbit/s on category 6', hard: true };
    return { metres: 100, of: 'Ethernet on pairs, cords included', hard: true };
  }
  if (signal === 'aes3') {
    return /\b75|coax|bnc/i.test(type)
      ? { metres: 1000, of: 'AES3 on coaxial cable', hard: false }
      : { metres: 100, of: 'AES3 on pairs without equalisation', hard: false };
  }
  return null;
}

/** Longest run in metres that a signal works on at all; null where no single number is published for it. */
export function longestRun(signal: Signal | undefined): number | null {
  const limit = lengthLimit(signal);
  return limit?.hard ? limit.metres : null;
}

/** `22`, `31m`, `25 ft`, `25'`, `1,5 m` in metres; a bare number is metres and says so. Null when it is no length. */
export function textToMetres(text: string): { metres: number; unitSaid: boolean } | null {
  const match = /^(\d+(?:[.,]\d+)?)\s*(m|metres?|meters?|ft|feet|foot|'|′)?\.?$/i.exec(text.trim());
  if (!match) return null;
  const value = Number(match[1]!.replace(',', '.'));
  const feet = /^(f|'|′)/i.test(match[2] ?? '');
  return { metres: feet ? value * METRES_PER_FOOT : value, unitSaid: match[2] !== undefined };
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
