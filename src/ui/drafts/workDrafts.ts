// The forms of what is kept while an audit is set up, work is done and signed, and the station's rules are changed.
import * as z from 'zod/mini';
import { ACTIONS } from '../../core/fixes/step.ts';
import { OCCASIONS, PERMISSIONS } from '../../core/record/events.ts';
import { siteRulesSchema } from '../../core/schedule/desk/siteRules.ts';
import { type Signal, signalSchema } from '../../core/trade/kinds.ts';
import { draftKind } from './draftKind.ts';

const texts = z.array(z.string());
const permission = z.enum(PERMISSIONS);

export const NAME_LATER = draftKind(z.object({ audit: z.string(), at: z.number() }));
export const NAME_TYPED = draftKind(z.object({ name: z.string() }));

export const START = draftKind(
  z.object({
    name: z.string(),
    occasion: z.enum(OCCASIONS),
    racks: texts,
    rooms: texts,
    exclusions: z.array(z.object({ what: z.string(), label: z.string(), reason: z.string() })),
    permission,
    blind: z.boolean(),
  }),
  { name: '', racks: [], rooms: [], exclusions: [], permission: 'look', blind: false },
);

export const WINDOW = draftKind(z.object({ name: z.string(), permission, racks: texts, rooms: texts, by: z.string() }));

export const SIGN = draftKind(z.object({ by: z.string(), reason: z.string(), words: z.string() }));

const step = z.object({
  n: z.number(),
  action: z.enum(ACTIONS),
  placeId: z.nullable(z.string()),
  from: z.nullable(z.string()),
  to: z.nullable(z.string()),
  label: z.nullable(z.string()),
  words: z.string(),
  why: z.string(),
  interrupts: texts,
  onAir: z.boolean(),
  beyond: texts,
  caution: z.nullable(z.string()),
  needs: permission,
  tests: z.optional(z.boolean()),
  back: texts,
});
export const UNDER_WAY = draftKind(
  z.object({
    block: z.object({
      id: z.string(),
      type: z.enum(['hazard', 'look', 'work']),
      steps: z.array(step),
      waits: z.nullable(z.string()),
      window: z.nullable(z.string()),
      onlyInWindow: z.boolean(),
      lookAgain: z.array(z.object({ placeId: z.string(), words: z.string() })),
    }),
    done: z.number(),
    back: z.nullable(z.number()),
  }),
);

const text = z._default(z.string(), '');
const begun = z._default(z.nullable(z.string()), null);
const signal = (usual: Signal) => z._default(signalSchema, usual);
/** Of a rule that an earlier build did not know yet, nothing is typed. */
export const SITE_RULES = draftKind(
  z.object({
    edited: z.nullable(siteRulesSchema),
    typed: z.object({
      ...{ first: text, last: text, why: text, subnetName: text, subnet: text, add: text },
      ...{ a: signal('line-audio'), b: signal('aes3'), meetWhy: text, word: text, stands: signal('line-audio') },
      air: text,
      ...{ factor: begun, pairs: begun, left: begun, right: begun, aes3: begun },
    }),
  }),
);
