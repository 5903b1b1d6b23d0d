// What a station sets for itself: channel numbers, subnets, signals that may meet, where left is, how racks are counted,
// the words of its sheets, the colours of its pairs, audio on its RJ45. Data that a station edits; what is usual stands
// beside its source in trade/, else it is common practice, no source.
//
// Limits: Rules are one set: of two phones that change different rules without a network the clocks choose one, and
// both are shown until somebody sets them again. Words for signals and the counting of racks count from the next sheet
// on. The command-line reconcile takes the usual rules alone.
import * as z from 'zod/mini';
import { audioPinsFault, audioPinsSchema, USUAL_AUDIO_PINS } from '../../trade/audioPins.ts';
import { SIGNALS, type Signal, signalSchema } from '../../trade/kinds.ts';
import { nameToKey } from '../../trade/names.ts';
import { type PairColours, USUAL_PAIRS } from '../../trade/partsPairs.ts';
import { ALWAYS_TOLD, signalWordsFault } from '../../trade/signals.ts';
import type { ReadOptions } from '../readOptions.ts';

/** So many entries of a list are taken, and words so long: a rule set is one event, at its longest too. */
export const MAX_RULES = 80;
export const MAX_RULE_WORDS = 120;

const words = z.string().check(z.maxLength(MAX_RULE_WORDS));
const number = z.number().check(z.int(), z.minimum(0), z.maximum(9_999_999));
const listOf = <T extends z.ZodMiniType>(item: T) => z.array(item).check(z.maxLength(MAX_RULES));

export const MAX_PAIRS = 100;
export const MAX_COLOUR = 24;
export const MAX_SIGNAL_WORD = 40;
export const MAX_AIR_WORD = 32;
export const MAX_AIR_WORDS = 40;
const colour = z.string().check(z.minLength(1), z.maxLength(MAX_COLOUR));

export const LEFT_IS = ['lower', 'higher', 'any'] as const;

export const siteRulesSchema = z.object({
  /** Channel number = last octet of the unit's address × factor + number of the input; null where there is no rule. */
  channel: z.nullable(z.object({ factor: z.number().check(z.int(), z.minimum(1), z.maximum(10_000)) })),
  /** Channel numbers that follow another rule, both included. */
  channelExceptions: listOf(z.object({ first: number, last: number, why: words })),
  /**
   * Subnets in which units may stand, as `192.0.2.0/24`; empty where nobody said. Two subnets with the same last octets
   * would give the same channel numbers: `add` is put on top of those of this subnet.
   */
  subnets: listOf(z.object({ name: words, subnet: words, add: z.optional(number) })),
  /** Signals that this station lets meet on one jack; never those of ALWAYS_TOLD. */
  mayMeet: z._default(listOf(z.object({ a: signalSchema, b: signalSchema, why: words })), []),
  /** Which jack of two that belong together is the left one, by its number. */
  left: z._default(z.enum(LEFT_IS), 'lower'),
  /** How a rack is counted of which no list says it. */
  numbering: z._default(z.enum(['bottom-up', 'top-down']), 'bottom-up'),
  /** Words of this station's sheets that stand for a signal; they come before the usual ones. */
  signalWords: z._default(
    listOf(z.object({ words: z.string().check(z.maxLength(MAX_SIGNAL_WORD)), signal: signalSchema })),
    [],
  ),
  /** Colours of the pairs of a multi-pair cable in their order; empty for the published order of 25. */
  pairs: z._default(z.array(z.object({ tip: colour, ring: colour })).check(z.maxLength(MAX_PAIRS)), []),
  /** Contacts of an RJ45 that carries audio. */
  audioPins: z._default(audioPinsSchema, USUAL_AUDIO_PINS),
  /**
   * Words of this station's plans that mark what is on the air, beside the usual ones. Absent in what a build set that did
   * not know them: then those set before it go on counting.
   */
  airWords: z.optional(z.array(z.string().check(z.maxLength(MAX_AIR_WORD))).check(z.maxLength(MAX_AIR_WORDS))),
});
export type SiteRules = z.infer<typeof siteRulesSchema>;

/** What a rule of meeting may name. */
export const MEETING: readonly Signal[] = SIGNALS.filter((signal) => !ALWAYS_TOLD.has(signal));

export function mayMeet(rules: SiteRules, a: Signal, b: Signal): boolean {
  if (ALWAYS_TOLD.has(a) || ALWAYS_TOLD.has(b)) return false;
  return rules.mayMeet.some((one) => (one.a === a && one.b === b) || (one.a === b && one.b === a));
}

/** What of the rules the reading of a sheet goes by. */
export function toReading({ numbering, signalWords }: SiteRules): Pick<ReadOptions, 'numbering' | 'signalWords'> {
  return { numbering, signalWords };
}

/** Colours of the pairs in the order that counts at this station. */
export function pairOrder({ pairs }: SiteRules): readonly PairColours[] {
  return pairs.length === 0 ? USUAL_PAIRS : pairs;
}

/** Why an order of pairs tells two pairs alike; null when it tells each from every other. */
export function pairsFault(pairs: readonly PairColours[]): string | null {
  const seen = new Set<string>();
  for (const { tip, ring } of pairs) {
    const key = `${nameToKey(tip)}/${nameToKey(ring)}`;
    if (seen.has(key)) return `${tip}/${ring} is listed twice`;
    seen.add(key);
  }
  return null;
}

type RulesRead = { type: 'rules'; rules: SiteRules } | { type: 'bad'; where: string; why: string };

/** The rules in a file's data, or what is wrong with it and where. */
export function readSiteRules(data: unknown): RulesRead {
  const read = z.safeParse(siteRulesSchema, data);
  const bad = (path: readonly (string | number)[], why: string): RulesRead => ({
    type: 'bad',
    where: path.map((step) => (typeof step === 'number' ? `entry ${step + 1}` : step)).join(' ') || 'the whole',
    why,
  });
  if (!read.success) {
    const [issue] = read.error.issues;
    return issue ? bad(issue.path as (string | number)[], issueToWords(issue)) : bad([], 'it is not understood');
  }
  const { signalWords, pairs, audioPins } = read.data;
  for (const [i, one] of signalWords.entries()) {
    const why = signalWordsFault(one);
    if (why) return bad(['signalWords', i], why);
  }
  const twice = pairsFault(pairs);
  if (twice) return bad(['pairs'], twice);
  const pins = audioPinsFault(audioPins);
  return pins ? bad(['audioPins'], pins) : { type: 'rules', rules: read.data };
}

function issueToWords(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `expected ${KINDS_OF[issue.expected] ?? 'something else'}`;
    case 'invalid_value':
      return `expected one of ${issue.values.join(', ')}`;
    case 'too_big':
      return `it is more than ${issue.maximum}`;
    case 'too_small':
      return issue.origin === 'string' ? 'it is blank' : `it is less than ${issue.minimum}`;
    default:
      return 'it is not understood';
  }
}

const KINDS_OF: Record<string, string> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  object: 'an object of named values',
  array: 'a list',
};

export const USUAL_RULES: SiteRules = {
  channel: { factor: 100 },
  channelExceptions: [],
  subnets: [],
  mayMeet: [],
  left: 'lower',
  numbering: 'bottom-up',
  signalWords: [],
  pairs: [],
  audioPins: USUAL_AUDIO_PINS,
};
