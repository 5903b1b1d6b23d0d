// Connectors in the words of schedules: family, and whether it has pins or sockets. Facts and words only.

interface Connector {
  /** `xlr-3`, `rj45`, `bnc`, `d-sub-25`: what fits into what. */
  family: string;
  gender: 'male' | 'female' | null;
}

/** Common practice of schedules, no single source; XLR: IEC 61076-2-103, RJ45: IEC 60603-7, BNC: IEC 61169-8. */
const FAMILIES: readonly [family: string, words: RegExp][] = [
  ['xlr-5', /\bxlr ?-?5\b/],
  ['xlr-3', /\bxlr(?: ?-?3)?(?=[mf]\b|\b)|\bx[mf]\b/],
  ['rj45', /\brj ?-?45\b|\b8p8c\b|^rj$/],
  ['rj11', /\brj ?-?(?:11|12|14)\b|\b6p[246]c\b/],
  ['bnc', /\bbnc\b/],
  ['mini-jack', /\bmini ?-?jack\b|\b3\.5 ?mm\b/],
  ['tt', /\btt\b|\bbantam\b/],
  ['trs-6.35', /\btrs\b|\b6\.3\d? ?mm\b|\b1\/4"?/],
  ['lc', /\blc\b/],
  ['sc', /\bsc\b/],
  ['st', /\bst\b/],
];

/** All that a text names: a combined socket takes two kinds (`XLR/TRS combo`), a tail has one at each end. */
export function textToConnectors(text: string): Connector[] {
  const words = text.toLowerCase().replace(/_/g, ' ').trim();
  const sub = /\b(?:d-?sub|db|de|da)[- ]?(9|15|25|37)\b|\bd(9|15|25|37)\b/.exec(words);
  const named = FAMILIES.filter(([, family]) => family.test(words)).map(([family]) => family);
  const families = sub ? [`d-sub-${sub[1] ?? sub[2]}`, ...named] : named;
  if (families.length === 1 && /\bcombo?\b/.test(words)) families.push('trs-6.35');
  return families.map((family) => ({ family, gender: families.length > 1 ? null : genderOf(words) }));
}

function genderOf(words: string): Connector['gender'] {
  if (/\b(female|socket)\b|[- ]f\b|\b(xlr|x)[-\d]*f\b/.test(words)) return 'female';
  if (/\b(male|pins?)\b|[- ]m\b|\b(xlr|x)[-\d]*m\b/.test(words)) return 'male';
  return null;
}

/** Families whose pins point the way the signal goes: a source has pins, an input has sockets (AES14, from memory). */
const POINTS_ALONG: ReadonlySet<string> = new Set(['xlr-3', 'xlr-5']);

/** Why this plug does not go into that jack; null when it may. Two of a kind with pins, or with sockets, do not mate. */
export function matingFault(plug: Connector, jack: Connector): string | null {
  if (plug.family !== jack.family) return `a plug ${plug.family} and a jack ${jack.family}`;
  if (plug.gender && jack.gender && plug.gender === jack.gender)
    return `plug and jack are both ${plug.gender === 'male' ? 'with pins' : 'with sockets'}`;
  return null;
}

/** Why a plug does not suit a jack of this direction; null when it does or nothing is agreed for its family. */
export function directionFault(plug: Connector, direction: 'in' | 'out'): string | null {
  if (!POINTS_ALONG.has(plug.family) || plug.gender === null) return null;
  const wanted = direction === 'out' ? 'female' : 'male';
  if (plug.gender === wanted) return null;
  return direction === 'out'
    ? 'a plug with pins on an output, which has pins itself'
    : 'a plug with sockets on an input, which has sockets itself';
}
