// How long a cable may be, how marks along it count, and which lengths are usual between two places. Facts only.
import type { Signal } from './kinds.ts';

/** The international foot (agreed in 1959; NIST Special Publication 811, appendix B). */
export const METRES_PER_FOOT = 0.3048;

interface LengthLimit {
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
 * @param isPermanent From panel to panel: of the 100 m, 10 m are left to the cords (same standards).
 */
export function lengthLimit(signal: Signal | undefined, type = '', isPermanent = false): LengthLimit | null {
  if (signal === 'fibre-multimode' || signal === 'fibre-single-mode' || (signal === 'network' && isFibre(type)))
    return fibreLimit(signal, type);
  if (signal === 'network' || signal === 'poe') {
    if (/\b10 ?g/i.test(type) && /\bcat ?6(?!a)/i.test(type))
      return { metres: 55, of: '10 Gbit/s on category 6', hard: true };
    if (isPermanent) return { metres: 90, of: 'Ethernet on pairs between panels, cords not included', hard: true };
    return { metres: 100, of: 'Ethernet on pairs, cords included', hard: true };
  }
  if (signal === 'aes3') {
    return /\b75|coax|bnc/i.test(type)
      ? { metres: 1000, of: 'AES3 on coaxial cable', hard: false }
      : { metres: 100, of: 'AES3 on pairs without equalisation', hard: false };
  }
  return null;
}

const isFibre = (type: string) =>
  /\b(om[1-5]|os[12]|sm|mm|smf|mmf|single-?mode|multi-?mode|fib(re|er)|lc|9\/125|50\/125|62\.5\/125|\w*base-?(sx|lx|fx|sr|lr|er))\b/i.test(
    type,
  );

/**
 * Ethernet on fibre (IEEE 802.3): 100BASE-FX 2 km; 1000BASE-SX 275 m on OM1 and 550 m on better; 10GBASE-SR 33, 82, 300
 * and 400 m on OM1 to OM4. Single-mode by its optics: LX 5 km, LR 10 km, ER 40 km; without them no single number.
 */
function fibreLimit(signal: Signal, type: string): LengthLimit | null {
  const single = signal === 'fibre-single-mode' || /\b(os[12]|sm|smf|single-?mode|9\/125)\b/i.test(type);
  const optics = /(?:\b|base-?)(lx|lr|er)\b/i.exec(type)?.[1]?.toLowerCase();
  if (single || optics) {
    const metres = { lx: 5_000, lr: 10_000, er: 40_000 }[optics ?? ''];
    return metres === undefined
      ? null
      : { metres, of: `Ethernet on single-mode fibre with ${optics} optics`, hard: false };
  }
  const grade = Number(/\bom([1-5])\b/i.exec(type)?.[1] ?? (/62\.5/.test(type) ? 1 : 0));
  const at = (byGrade: readonly number[], of: string): LengthLimit | null =>
    grade === 0 ? null : { metres: byGrade[Math.min(grade, 4) - 1]!, of: `${of} on OM${grade}`, hard: true };
  if (/\b10 ?g|-?sr\b/i.test(type)) return at([33, 82, 300, 400], '10 Gbit/s');
  if (/\b1 ?g|\b1000base|-?sx\b|\bgigabit/i.test(type)) return at([275, 550, 550, 550], '1 Gbit/s');
  return { metres: 2_000, of: 'Ethernet on multimode fibre', hard: true };
}

/** Longest run in metres that a signal works on at all; null where no single number is published for it. */
export function longestRun(signal: Signal | undefined): number | null {
  const limit = lengthLimit(signal);
  return limit?.hard ? limit.metres : null;
}

/** Metres in each unit that a length is written in. */
const UNITS: readonly [RegExp, number][] = [
  [/^(f|'|′|’)/i, METRES_PER_FOOT],
  [/^("|″|in)/i, METRES_PER_FOOT / 12],
  [/^km/i, 1000],
  [/^cm/i, 0.01],
  [/^mm/i, 0.001],
];

/**
 * `22`, `31m`, `25 ft`, `25'`, `22' 6"`, `1,5 m`, `~30 m`, `330 cm` in metres; a bare number is metres and says so. Null
 * when it is no length.
 */
export function textToMetres(text: string): { metres: number; unitSaid: boolean } | null {
  const about = text.trim().replace(/^(~|≈|ca\.?|approx\.?|about|c\.)\s*/i, '');
  const inches = /^(\d+)\s*['′’]\s*(\d+(?:[.,]\d+)?)\s*(?:["″]|'')$/.exec(about);
  if (inches) return { metres: (Number(inches[1]) + toNumber(inches[2]!) / 12) * METRES_PER_FOOT, unitSaid: true };
  const match =
    /^(\d+(?:[.,]\d+)?)\s*(km|cm|mm|m|mtrs?|metres?|meters?|ft|feet|foot|in|inch(?:es)?|'|′|’|"|″)?\.?$/i.exec(about);
  if (!match) return null;
  const factor = UNITS.find(([unit]) => unit.test(match[2] ?? ''))?.[1] ?? 1;
  return { metres: toNumber(match[1]!) * factor, unitSaid: match[2] !== undefined };
}

const toNumber = (text: string) => Number(text.replace(',', '.'));

/**
 * How well a length suits two places: 0 on one unit, 1 in one rack, 2 in one room, 3 elsewhere or not known. The
 * numbers are common practice, no source: 47 U are 2.1 m, and slack seldom makes more than a few times that.
 */
export function lengthSuits(metres: number, near: number): 'well' | 'fairly' | 'badly' {
  if (near <= 1) return metres <= 5 ? 'well' : metres <= 12 ? 'fairly' : 'badly';
  if (near === 2) return metres <= 60 ? 'fairly' : 'badly';
  return 'fairly';
}
