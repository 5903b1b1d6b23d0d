// Everything that happens is an event. This file owns the envelope and the payload of every kind; the text an event
// was made with is kept for ever, so nothing here may rewrite it.
import * as z from 'zod/mini';
import { auditId, cableId, eventId, placeId, unitId } from '../plan/idSchemas.ts';
import { quickReader } from '../plan/quickRead.ts';
import { siteRulesSchema } from '../schedule/desk/siteRules.ts';
import { rackDescribed, unitDescribed } from './describedEvents.ts';
import { EVENT_VERSION, MAX_AT, MAX_EVENT_TEXT, MAX_NAME, MAX_WORDS, MAX_ZONE } from './eventLimits.ts';
import { causeJudged, decided } from './judgedEvents.ts';

export const MAX_LABEL = 512;
/** Highest running length that is taken: more digits than any drum prints. */
export const MAX_MARK = 9_999_999;

export const STATES = [
  'label',
  'unlabelled',
  'illegible',
  'plugged',
  'empty',
  'blanked',
  'not-visible',
  'refused',
] as const;
const state = z.enum(STATES);
export type State = z.infer<typeof state>;
/** Only these are looks: somebody looked and can say what is there. */
export const LOOK_STATES: ReadonlySet<State> = new Set([
  'label',
  'unlabelled',
  'illegible',
  'plugged',
  'empty',
  'blanked',
]);

const basis = z.enum(['seen', 'followed', 'page', 'told', 'inferred']);
export type Basis = z.infer<typeof basis>;

export const OCCASIONS = ['inherit', 'after-move', 'relabel', 'build'] as const;
const occasion = z.enum(OCCASIONS);
export type Occasion = z.infer<typeof occasion>;

export const PERMISSIONS = ['look', 'touch', 'disconnect'] as const;
const permission = z.enum(PERMISSIONS);
export type Permission = z.infer<typeof permission>;

/**
 * A label as read. `means` is set when the reader chose one of several candidates: a cable id. `own` when a person said
 * that it only looks like some other name: it is a cable of this very name. `printed` is what stands on the label, where
 * a person said that it is the cable of `text` all the same.
 */
const readLabel = z.object({
  text: z.string(),
  means: z.optional(cableId),
  own: z.optional(z.literal(true)),
  printed: z.optional(z.string()),
});
export type ReadLabel = z.infer<typeof readLabel>;

/** One plug in a place and what the eye can tell of it beside its labels. */
const plug = z.object({
  labels: z.array(readLabel),
  /** For an illegible label: what can be read, `?` for one character. */
  pattern: z.optional(z.string()),
  connector: z.optional(z.string()),
  cableType: z.optional(z.string()),
  /** Unit id of a described adapter, or its name in words. */
  adapter: z.optional(z.string()),
});
export type Plug = z.infer<typeof plug>;

/** Names an event that no longer stands; with `places`, only at those. */
const withdrawal = z.object({ event: eventId, places: z.optional(z.array(placeId)) });
export type Withdrawal = z.infer<typeof withdrawal>;

const sighting = z.object({
  /** Place ids (identity.ts). One statement about several places is one act. */
  places: z.array(placeId),
  /** The places in the words of the person or printed list, same order, for show. */
  said: z.array(z.string()),
  state,
  plugs: z.array(plug),
  basis,
  /** Place id where the cable was really followed to, whatever its labels say. */
  joinedTo: z.optional(placeId),
  reason: z.optional(z.string()),
  note: z.optional(z.string()),
  /** How the label was taken: camera, wedge, typed, tapped ("Reads 1003"), list. */
  by: z.optional(z.string()),
  /** Looks of the same visit that this one replaces. */
  withdraws: z.optional(z.array(withdrawal)),
  /** Earlier looks that were true then: the place has changed since. */
  changedSince: z.optional(z.array(eventId)),
  /** Name of the helper who told it, for the basis `told`. */
  teller: z.optional(z.string()),
  /** Document of the photo it was read from, perhaps later and by somebody else. */
  photo: z.optional(z.string()),
  /** Wires of one cable landed in the order of their colours: each pair is claimed by order, none was proven. */
  order: z.optional(z.literal('colour')),
  /** Put here on purpose against the plan; `until` for a lash-up, in words or as a date. */
  change: z.optional(z.object({ reason: z.string(), until: z.optional(z.string()) })),
});
export type Sighting = z.infer<typeof sighting>;

const scope = z.object({
  /** Rack ids and room names; empty means the whole plan. */
  racks: z.array(z.string()),
  rooms: z.array(z.string()),
});

const MARK_UNITS = ['m', 'ft'] as const;
const markUnit = z.enum(MARK_UNITS);
export type MarkUnit = z.infer<typeof markUnit>;

const rename = z.object({ cable: cableId, old: z.string(), new: z.string() });
export type Rename = z.infer<typeof rename>;

/** Part of a picture: shares of its width and height, from its upper left corner. */
const spot = z.object({ x: z.number(), y: z.number() });
export type Spot = z.infer<typeof spot>;
const photoMark = z.object({ shape: z.enum(['arrow', 'circle']), from: spot, to: spot });
export type PhotoMark = z.infer<typeof photoMark>;

export const WORK_STAGES = ['pulled', 'landed', 'tested', 'labelled'] as const;
const workStage = z.enum(WORK_STAGES);
export type WorkStage = z.infer<typeof workStage>;

/** Ids of the ones of its kind that stood for its author then; absent where an earlier build made it. */
const after = z.optional(z.array(eventId));

export const payloads = {
  'station-named': z.object({ name: z.string(), after }),
  'plan-adopted': z.object({ revision: z.string(), name: z.string(), bytes: z.number(), after }),
  'audit-started': z.object({
    name: z.string(),
    occasion,
    scope,
    exclusions: z.array(z.object({ what: z.string(), label: z.string(), reason: z.string() })),
    permission,
    people: z.array(z.string()),
    /** Hash of the plan revision the audit is bound to; null when it begins with no plan. */
    plan: z.nullable(z.string()),
    blind: z.boolean(),
  }),
  'audit-bound': z.object({
    /** Hash of the plan revision over which the audit counts from now on. */
    plan: z.string(),
    name: z.string(),
    /** Earlier moves that whoever moved it knew of. */
    after: z.array(eventId),
  }),
  /** Places that were added while the audit ran; an empty list adds nothing, and what was added is not taken away. */
  'scope-added': z.object({ racks: z.array(z.string()), rooms: z.array(z.string()), units: z.array(unitId) }),
  'permission-set': z.object({ permission }),
  /** Agreed for a later time: more may be done in it, at these places alone. */
  'window-agreed': z.object({
    name: z.string().check(z.minLength(1), z.maxLength(MAX_WORDS)),
    permission,
    scope,
    by: z.string().check(z.minLength(1), z.maxLength(MAX_NAME)),
  }),
  'audit-closed': z.object({ remark: z.string() }),
  sighting,
  withdrawn: z.object({ target: withdrawal, why: z.enum(['undo', 'misread']) }),
  'changed-since': z.object({ earlier: eventId, later: eventId, place: placeId }),
  note: z.object({ place: z.optional(placeId), text: z.string() }),
  photo: z.object({
    place: z.optional(placeId),
    document: z.string(),
    mime: z.string(),
    bytes: z.number(),
    width: z.number(),
    height: z.number(),
  }),
  'setting-read': z.object({
    unit: unitId,
    place: z.optional(placeId),
    name: z.string(),
    value: z.string(),
    basis,
    /** Said to be this jack's own, where such a value usually is its unit's. */
    of: z.optional(z.literal('jack')),
  }),
  'hazard-seen': z.object({ place: z.optional(placeId), hazard: z.string(), note: z.string() }),
  'rack-described': rackDescribed,
  'unit-described': unitDescribed,
  'label-put': z.object({
    place: placeId,
    text: z.string(),
    /** Looks that said what was there before; only these are read together with the new label. */
    upon: z.array(eventId),
    /** Which plug of a mult, counted from 0. */
    plug: z.optional(z.number()),
    why: z.enum(['twin', 'new', 'rename']),
    /** Place of the plug that was known to bear the same number: this one is the other end of that cable. */
    other: z.optional(placeId),
  }),
  'label-off': z.object({
    place: placeId,
    text: z.string(),
    upon: z.array(eventId),
    plug: z.optional(z.number()),
  }),
  /** Numbers that only this log gives out. */
  'numbers-taken': z.object({ prefix: z.string(), first: z.number(), last: z.number(), digits: z.number() }),
  /** A long list comes as several events of one list. */
  'renaming-listed': z.object({ list: z.string(), name: z.string(), renames: z.array(rename) }),
  'handed-over': z.object({ what: z.enum(['renaming', 'twin']), items: z.array(z.string()), words: z.string() }),
  worked: z.object({
    /** Label of the cable as the person says it. */
    cable: z.string(),
    place: placeId,
    stage: workStage,
    result: z.optional(z.enum(['pass', 'fail'])),
    words: z.optional(z.string()),
  }),
  'jacket-read': z.object({
    place: placeId,
    /** Looks that saw the plug whose jacket it is; none where nothing was said of the jack before. */
    upon: z.optional(z.array(eventId)),
    /** Text printed along the jacket, without the running length. */
    print: z.string().check(z.minLength(1), z.maxLength(MAX_LABEL)),
    /** Running length printed nearest to this end, in `unit`; absent where it cannot be read. */
    mark: z.optional(z.number().check(z.minimum(0), z.maximum(MAX_MARK))),
    unit: markUnit,
    note: z.optional(z.string()),
    /** Readings that this one takes the place of. */
    corrects: z.optional(z.array(eventId)),
  }),
  'photo-marked': z.object({ document: z.string(), marks: z.array(photoMark) }),
  'photo-pinned': z.object({ document: z.string(), place: placeId, said: z.string(), at: spot }),
  'voice-note': z.object({
    place: z.optional(placeId),
    document: z.string(),
    mime: z.string(),
    bytes: z.number(),
    /** Length in milliseconds. */
    lasts: z.number(),
  }),
  'cause-judged': causeJudged,
  decided,
  /** The whole set, as the plan is: what was set last holds. */
  'rules-set': z.object({ rules: siteRulesSchema, after }),
} as const;

export type EventKind = keyof typeof payloads;
export const EVENT_KINDS = Object.keys(payloads) as EventKind[];
export type Payload<K extends EventKind> = z.infer<(typeof payloads)[K]>;

/** No number beyond it tells its neighbours apart. */
const wholeNumber = z.number().check(z.minimum(0), z.maximum(Number.MAX_SAFE_INTEGER), z.multipleOf(1));

const envelope = z.object({
  v: z.number(),
  id: eventId,
  station: z.string(),
  audit: z.optional(auditId),
  /** One database of one phone in one station. */
  log: z.string(),
  seq: wholeNumber,
  /** SHA-256 (hex) of the text of the event before in the same log; null for the first. */
  prev: z.nullable(z.string()),
  /** Typed name; not proven. */
  author: z.string(),
  /** Phone clock, milliseconds since 1970; never later than the year 9999, so that every reader can write it. */
  at: z.number().check(z.minimum(0), z.maximum(MAX_AT), z.multipleOf(1)),
  /** Minutes east of UTC. */
  zone: z.number().check(z.minimum(-MAX_ZONE), z.maximum(MAX_ZONE)),
  kind: z.string(),
  payload: z.unknown(),
});
export type Envelope = z.infer<typeof envelope>;

export type AuditEvent = {
  [K in EventKind]: Omit<Envelope, 'kind' | 'payload'> & { kind: K; payload: Payload<K> };
}[EventKind];
export type EventOf<K extends EventKind> = Extract<AuditEvent, { kind: K }>;

/** Where a text stands in a chain; all that is needed to tell whether it continues what is here. */
const link = z.object({ log: z.string(), seq: wholeNumber, prev: z.nullable(z.string()) });
type Link = z.infer<typeof link>;

type ReadEvent =
  | { type: 'event'; event: AuditEvent }
  /** Newer than this build, or of a kind it does not know: kept, counted, shown, never dropped. */
  | { type: 'kept'; envelope: Envelope; why: 'newer-version' | 'unknown-kind' }
  | { type: 'unreadable'; why: string };

const readEnvelope = quickReader(envelope);
const readPayload = Object.fromEntries(
  Object.entries(payloads).map(([kind, schema]) => [kind, quickReader(schema as z.ZodMiniType)]),
);

/** Reads the exact text of an event. Never throws. */
export function readEvent(text: string): ReadEvent {
  if (text.length > MAX_EVENT_TEXT) return { type: 'unreadable', why: `longer than ${MAX_EVENT_TEXT} characters` };
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return { type: 'unreadable', why: 'not JSON' };
  }
  const head = readEnvelope(json);
  if (!head.success) return { type: 'unreadable', why: issueText(head.error.issues) };
  if (head.data.v > EVENT_VERSION) return { type: 'kept', envelope: head.data, why: 'newer-version' };
  const read = Object.hasOwn(readPayload, head.data.kind) ? readPayload[head.data.kind] : undefined;
  if (!read) return { type: 'kept', envelope: head.data, why: 'unknown-kind' };
  const payload = read(head.data.payload);
  if (!payload.success) return { type: 'unreadable', why: `payload: ${issueText(payload.error.issues)}` };
  const event = payload.data === head.data.payload ? head.data : { ...head.data, payload: payload.data };
  // Its payload was read by the schema of its kind, which the types cannot follow.
  return { type: 'event', event: event as AuditEvent };
}

/** The place in a chain of a text, be it an event or one that cannot be read otherwise; null where it names none. */
export function readLink(text: string): Link | null {
  try {
    const read = z.safeParse(link, JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

function issueText(issues: readonly { path: PropertyKey[]; message: string }[]): string {
  const [first] = issues;
  return first ? `${first.path.join('.') || 'value'}: ${first.message}` : 'not of the expected form';
}
