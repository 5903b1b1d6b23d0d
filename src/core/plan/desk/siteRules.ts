// What a station sets for itself: the rule of its channel numbers with its exceptions, its subnets, signals that may
// meet, where left is and how racks are counted. Data that a station edits; usual values are common practice, no source.
import * as z from 'zod/mini';
import { SIGNALS, type Signal, signalSchema } from '../model.ts';

/** So many entries of a list are taken, and words so long: a rule set is one event. */
export const MAX_RULES = 100;
export const MAX_RULE_WORDS = 120;

const words = z.string().check(z.maxLength(MAX_RULE_WORDS));
const number = z.number().check(z.int(), z.minimum(0), z.maximum(9_999_999));
const listOf = <T extends z.ZodMiniType>(item: T) => z.array(item).check(z.maxLength(MAX_RULES));

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
});
export type SiteRules = z.infer<typeof siteRulesSchema>;

/** Signals that carry power, ringing or radio frequency, or drive loudspeakers: no rule of a station hides them. */
export const ALWAYS_TOLD: ReadonlySet<Signal> = new Set([
  'mains',
  'dc',
  'poe',
  'dc-powered-audio',
  'telephone',
  'rf',
  'loudspeaker',
]);
/** What a rule of meeting may name. */
export const MEETING: readonly Signal[] = SIGNALS.filter((signal) => !ALWAYS_TOLD.has(signal));

export function mayMeet(rules: SiteRules, a: Signal, b: Signal): boolean {
  if (ALWAYS_TOLD.has(a) || ALWAYS_TOLD.has(b)) return false;
  return rules.mayMeet.some((one) => (one.a === a && one.b === b) || (one.a === b && one.b === a));
}

/** The rules in a file's data, or what is wrong with it and where. */
export function readSiteRules(
  data: unknown,
): { type: 'rules'; rules: SiteRules } | { type: 'bad'; where: string; why: string } {
  const read = z.safeParse(siteRulesSchema, data);
  if (read.success) return { type: 'rules', rules: read.data };
  const [issue] = read.error.issues;
  return { type: 'bad', where: issue?.path.join(' ') || 'the whole', why: issue?.message ?? 'not understood' };
}

export const USUAL_RULES: SiteRules = {
  channel: { factor: 100 },
  channelExceptions: [],
  subnets: [],
  mayMeet: [],
  left: 'lower',
  numbering: 'bottom-up',
};
