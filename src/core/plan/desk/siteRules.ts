// What a station sets for itself: the rule of its channel numbers with its exceptions, and its subnets. Data that a
// station edits; the usual values are common practice, no source.
import * as z from 'zod/mini';

export const siteRulesSchema = z.object({
  /** Channel number = last octet of the unit's address × factor + number of the input; null where there is no rule. */
  channel: z.nullable(z.object({ factor: z.number().check(z.int(), z.minimum(1), z.maximum(10_000)) })),
  /** Channel numbers that follow another rule, both included. */
  channelExceptions: z.array(z.object({ first: z.number(), last: z.number(), why: z.string() })),
  /** Subnets in which units may stand, as `192.0.2.0/24`; empty where nobody said. */
  subnets: z.array(z.object({ name: z.string(), subnet: z.string() })),
});
export type SiteRules = z.infer<typeof siteRulesSchema>;

/** The rules in a file's data, or what is wrong with it and where. */
export function readSiteRules(
  data: unknown,
): { type: 'rules'; rules: SiteRules } | { type: 'bad'; where: string; why: string } {
  const read = z.safeParse(siteRulesSchema, data);
  if (read.success) return { type: 'rules', rules: read.data };
  const [issue] = read.error.issues;
  return { type: 'bad', where: issue?.path.join(' ') || 'the whole', why: issue?.message ?? 'not understood' };
}

export const USUAL_RULES: SiteRules = { channel: { factor: 100 }, channelExceptions: [], subnets: [] };
