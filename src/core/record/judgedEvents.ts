// What a person says about causes and differences, by name and with a reason. Payloads and their limits only; what
// follows from them stands in causes/judgements.ts and fixes/decisions.ts.
import * as z from 'zod/mini';
import { placeId } from '../plan/idSchemas.ts';
import { MAX_KEYS, MAX_NAME, MAX_PLACES, MAX_REASON, MAX_WORDS } from './eventLimits.ts';

/** Fix the floor, amend the record, or leave it as it is. */
export const CHOICES = ['fix-floor', 'amend-record', 'leave'] as const;
export type Choice = (typeof CHOICES)[number];

/** Leaving is always explained, and so is whatever the occasion did not offer. */
export function needsReason(choice: Choice, usual: Choice | null): boolean {
  return choice === 'leave' || choice !== usual;
}

const said = (most: number) =>
  z.string().check(
    z.maxLength(most),
    z.refine((text) => text.trim() !== '', 'nothing said'),
  );
const key = z.string().check(z.minLength(1), z.maxLength(500));
const keys = z.array(z.string().check(z.maxLength(16))).check(z.maxLength(MAX_KEYS));

/** What the person had before them: keys (factKeys.ts) of facts and looks, so that what came later can be told. */
const evidence = z.object({
  /** Differences that the story covered. */
  facts: keys,
  /** Other differences that were open beside them, and places that spoke against the story. */
  known: keys,
  /** Places that a look can change it at, and the looks there that were known. */
  places: z.array(placeId).check(z.maxLength(MAX_PLACES)),
  looks: keys,
  certainty: z.enum(['confirmed', 'probable', 'possible', 'unknown']),
});
export type JudgedEvidence = z.infer<typeof evidence>;

const JUDGEMENTS = ['accepted', 'rejected', 'other'] as const;
export type JudgementWord = (typeof JUDGEMENTS)[number];

export const causeJudged = z
  .object({
    /** Key of the cause: kind, places and labels, whatever order they came in. */
    cause: key,
    /** The cause in words as it was shown, for when its facts are gone. */
    about: z.string().check(z.maxLength(MAX_REASON)),
    judgement: z.enum(JUDGEMENTS),
    /** Which story was taken where one cause tells two: a kind of cause. */
    as: z.optional(z.string().check(z.maxLength(60))),
    /** What it is instead, in the person's own words. */
    words: z.optional(said(MAX_WORDS)),
    reason: z.optional(said(MAX_REASON)),
    by: said(MAX_NAME),
    evidence,
  })
  .check(
    z.refine(({ judgement, reason }) => judgement === 'accepted' || reason !== undefined, 'a reason is missing'),
    z.refine(({ judgement, words }) => judgement !== 'other' || words !== undefined, 'own words are missing'),
  );

const choice = z.enum(CHOICES);

export const decided = z
  .object({
    /** Key of the difference or cause; some kinds have one name for both. */
    target: z.object({ type: z.enum(['discrepancy', 'cause']), id: key }),
    about: z.string().check(z.maxLength(MAX_REASON)),
    /** Keys of the differences that it covers: those that a cause covered then, or the one. */
    facts: keys,
    choice,
    /** What the occasion offered; null where it offered nothing. Anything else has its reason. */
    usual: z.nullable(choice),
    reason: z.optional(said(MAX_REASON)),
    by: said(MAX_NAME),
  })
  .check(z.refine((one) => !needsReason(one.choice, one.usual) || one.reason !== undefined, 'a reason is missing'));
