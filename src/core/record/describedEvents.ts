// What a person describes where no plan has it: racks, units with their jacks, and the small things between a plug
// and a jack. Payloads only; how they join the plan stands in described.ts.
import * as z from 'zod/mini';
import { eventId, placeId, rackId, unitId } from '../plan/idSchemas.ts';
import { tailSchema } from '../plan/model.ts';
import { directionSchema, formSchema, legSchema, signalSchema } from '../trade/kinds.ts';

/** Descriptions that this one corrects; they no longer stand. */
const corrects = z.optional(z.array(eventId));

export const rackDescribed = z.object({
  label: z.string(),
  room: z.optional(z.string()),
  /** Height in rack units; 1 U = 44.45 mm (IEC 60297-3-100). */
  heightU: z.number(),
  numbering: z.enum(['bottom-up', 'top-down']),
  corrects,
});

const describedJack = z.object({
  label: z.string(),
  connector: z.optional(z.string()),
  direction: z.optional(directionSchema),
  signal: z.optional(signalSchema),
  leg: z.optional(legSchema),
  /** Several wires may land here. */
  mult: z.optional(z.boolean()),
});
export type DescribedJack = z.infer<typeof describedJack>;

export const unitDescribed = z.object({
  label: z.string(),
  room: z.optional(z.string()),
  /** Rack id. */
  rack: z.optional(rackId),
  /** Lowest U it covers, counted in the rack's own numbering. */
  u: z.optional(z.number()),
  heightU: z.number(),
  mounted: z.enum(['front', 'rear']),
  description: z.optional(z.string()),
  serial: z.optional(z.string()),
  mac: z.optional(z.string()),
  form: z.optional(formSchema),
  /** Place of the jack it hangs on. */
  at: z.optional(placeId),
  jacks: z.array(describedJack),
  /** Printed faces: rows of jack labels from the top, each from the left as the eye sees it. */
  faces: z.array(
    z.object({ face: z.enum(['front', 'rear']), through: z.boolean(), rows: z.array(z.array(z.string())) }),
  ),
  tails: z.optional(z.array(tailSchema)),
  /** Units that the plan has at this place and that the person says are gone from there: their ids. */
  gone: z.optional(z.array(unitId)),
  /** Label of the unit whose jacks were copied. */
  like: z.optional(z.string()),
  corrects,
});
