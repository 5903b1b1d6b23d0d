// The plan as data: what goes where according to the schedule. A revision is one whole document, named by the
// SHA-256 of its bytes; nothing in it may depend on when or by whom it was read.
import * as z from 'zod/mini';
import { directionSchema, formSchema, legSchema, signalSchema } from '../trade/kinds.ts';
import { cableId, placeId, rackId, unitId } from './idSchemas.ts';
import { quickReader } from './quickRead.ts';

/** A plug on a tail that belongs to a unit: of an adapter, a breakout, a plug-in supply, a cord. */
export const tailSchema = z.object({
  end: z.string(),
  connector: z.optional(z.string()),
  signal: z.optional(signalSchema),
  leg: z.optional(legSchema),
  /** Place it is plugged into; absent while it hangs loose or nobody knows. */
  place: z.optional(placeId),
});
export type Tail = z.infer<typeof tailSchema>;

/** Where in the source file an item was read: sheet name and 1-based row as a spreadsheet shows it. */
const origin = z.object({ sheet: z.string(), row: z.number() });
export type Origin = z.infer<typeof origin>;

export const numberingSchema = z.enum(['bottom-up', 'top-down']);
export const sideSchema = z.enum(['front', 'rear']);
export const statusSchema = z.enum(['in-use', 'spare', 'future']);

const rack = z.object({
  id: rackId,
  label: z.string(),
  room: z.optional(z.string()),
  /** Height in rack units; 1 U = 44.45 mm (IEC 60297-3-100). */
  heightU: z.number(),
  numbering: numberingSchema,
  /** True when no rack list named it and a cable or unit row only implies it. */
  implied: z.boolean(),
});
export type Rack = z.infer<typeof rack>;

/** One printed face of a unit: rows of jack ids from the top, each from the left as the eye sees it on that face. */
export const faceLayoutSchema = z.object({
  face: sideSchema,
  rows: z.array(z.array(placeId)),
  /** A through-panel is one set of holes seen from two sides, so its other side is mirrored. */
  through: z.boolean(),
});
export type FaceLayout = z.infer<typeof faceLayoutSchema>;

const unit = z.object({
  id: unitId,
  label: z.string(),
  room: z.optional(z.string()),
  /** Rack id, absent for a unit that stands in a room. */
  rack: z.optional(rackId),
  /** Lowest U it covers, counted in the rack's own numbering. */
  u: z.optional(z.number()),
  heightU: z.number(),
  mounted: sideSchema,
  faces: z.array(faceLayoutSchema),
  description: z.optional(z.string()),
  serial: z.optional(z.string()),
  mac: z.optional(z.string()),
  form: z.optional(formSchema),
  /** Place of the jack it hangs on: an adapter has no shelf of its own. */
  at: z.optional(placeId),
  tails: z.optional(z.array(tailSchema)),
  implied: z.boolean(),
  origin: z.optional(origin),
});
export type Unit = z.infer<typeof unit>;

const jack = z.object({
  /** Place id, `unit/jack`. */
  id: placeId,
  unit: unitId,
  label: z.string(),
  connector: z.optional(z.string()),
  direction: z.optional(directionSchema),
  signal: z.optional(signalSchema),
  leg: z.optional(legSchema),
  /** Several wires may land here. */
  mult: z.boolean(),
  spare: z.boolean(),
  implied: z.boolean(),
  /** Colours of the two wires of a landing, in the words of its list. */
  wires: z.optional(z.object({ tip: z.string(), ring: z.string() })),
  notes: z.optional(z.string()),
  /** Row of the jack list that names it. */
  origin: z.optional(origin),
});
export type Jack = z.infer<typeof jack>;

export const cableEndSchema = z.object({
  /** A is the from end, B the to end, C, D … further tails. */
  end: z.string(),
  /** Jack id, or null when the schedule does not say where this end goes. */
  place: z.nullable(placeId),
  /** The text of the schedule, for show: location, unit and jack. */
  location: z.optional(z.string()),
  unit: z.string(),
  jack: z.string(),
  /** Plug on this end, in the words of the schedule. */
  connector: z.optional(z.string()),
});
export type CableEnd = z.infer<typeof cableEndSchema>;

const cable = z.object({
  id: cableId,
  /** Exactly as written; identifiers are text always. */
  label: z.string(),
  ends: z.array(cableEndSchema),
  signal: z.optional(signalSchema),
  signalText: z.optional(z.string()),
  circuit: z.optional(z.string()),
  type: z.optional(z.string()),
  length: z.optional(z.string()),
  leg: z.optional(legSchema),
  /** `spare`: pulled, no service; `future`: not expected to be there yet; `in-use`: all others. */
  status: statusSchema,
  onAir: z.boolean(),
  notes: z.optional(z.string()),
  origin: z.optional(origin),
});
export type Cable = z.infer<typeof cable>;

/** A value that the plan expects on a unit's page or knobs. */
const planSetting = z.object({
  unit: unitId,
  /** Jack id where the setting belongs to one input or output. */
  place: z.optional(placeId),
  name: z.string(),
  value: z.string(),
  origin: z.optional(origin),
});
export type PlanSetting = z.infer<typeof planSetting>;

/** A way through a unit, from one jack to another, where the plan knows it. */
const route = z.object({ unit: unitId, from: placeId, to: placeId });
export type Route = z.infer<typeof route>;

export const roleSchema = z.enum(['main', 'standby']);

/** A named service and what it runs over, in order: numbers of cables, and in words what is none. */
const circuit = z.object({
  name: z.string(),
  role: z.optional(roleSchema),
  /** The number that the carrier knows it by. */
  carrier: z.optional(z.string()),
  hops: z.array(z.string()),
  notes: z.optional(z.string()),
  origin: z.optional(origin),
});
export type Circuit = z.infer<typeof circuit>;

const guess = z.object({
  sheet: z.string(),
  row: z.number(),
  column: z.optional(z.string()),
  said: z.string(),
  readAs: z.string(),
});
export type Guess = z.infer<typeof guess>;

const CONTRADICTIONS = ['number-repeated', 'jack-claimed-twice', 'both-ends-one-jack', 'end-missing'] as const;
const contradiction = z.object({
  type: z.enum(CONTRADICTIONS),
  cables: z.array(cableId),
  places: z.array(placeId),
  rows: z.array(origin),
});
export type Contradiction = z.infer<typeof contradiction>;

export const planSchema = z.object({
  format: z.literal('asfound-plan'),
  version: z.literal(1),
  name: z.string(),
  parent: z.nullable(z.string()),
  origin: z.enum(['sheet', 'amendments', 'walk']),
  /** Name and SHA-256 (hex) of the file it was read from. */
  source: z.nullable(
    z.object({
      name: z.string(),
      sha256: z.string(),
      /** Each of the files, kept as a document under its own hash; absent where they were not kept. */
      files: z.optional(z.array(z.object({ name: z.string(), sha256: z.string() }))),
    }),
  ),
  racks: z.array(rack),
  units: z.array(unit),
  jacks: z.array(jack),
  cables: z.array(cable),
  settings: z.array(planSetting),
  routes: z.optional(z.array(route)),
  circuits: z.optional(z.array(circuit)),
  guesses: z.array(guess),
  contradictions: z.array(contradiction),
});
export type Plan = z.infer<typeof planSchema>;
/** `z.safeParse(planSchema, …)` for JSON data. */
export const readPlanData = quickReader(planSchema);

/** A plan with nothing in it: what an audit without any schedule starts from. */
export const emptyPlan: Plan = {
  format: 'asfound-plan',
  version: 1,
  name: '',
  parent: null,
  origin: 'walk',
  source: null,
  racks: [],
  units: [],
  jacks: [],
  cables: [],
  settings: [],
  guesses: [],
  contradictions: [],
};
