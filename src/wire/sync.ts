// Every message between phone and server, its limits and its version. Used by both sides, so neither may hold a
// second opinion about a form. It must never read or write anything.
import * as z from 'zod/mini';

/** Goes up when an older side could misread a message; an added optional field is no reason. */
export const WIRE_VERSION = 1;
/** The oldest phone this server still understands. */
export const MIN_CLIENT_WIRE = 1;
/**
 * The version travels in this header on every request and every answer, because documents have no JSON to put it
 * in. An answer without it did not come from our server (a hotel's log-in page, a proxy's error).
 */
export const WIRE_HEADER = 'asfound-wire';

/** On every answer about a document that the server holds: its hash, a blank, its bytes. Nothing else proves it. */
export const DOCUMENT_HEADER = 'asfound-document';
/** Hash of the part that follows, on its way up. */
export const PART_HEADER = 'asfound-part';

export const MAX_BATCH_EVENTS = 200;
/** UTF-8 bytes of the event texts of one batch, as the phone fills it. */
export const MAX_BATCH_BYTES = 512 * 1024;
/** What the server takes as a JSON body: a full batch with every character escaped, and the frame round it. */
export const MAX_JSON_BYTES = 4 * 1024 * 1024;
export const MAX_PULL_EVENTS = 500;
/** The server stops filling an answer here, whatever count was asked for. */
export const MAX_PULL_BYTES = 1024 * 1024;
/** Ids and hashes that one question about what the server holds may name, of each kind. */
export const MAX_COMPARED = 2000;
/** Longest silence on the stream of news; after twice of it the way is taken for dead. */
export const LIVE_PING_MS = 15_000;
/** Where a person is, is forgotten after that. */
export const PRESENCE_LIFE_MS = 90_000;
export const MAX_DOCUMENT_BYTES = 32 * 1024 * 1024;
export const MAX_NAME = 200;
export const CODE_LIFE_MS = 15 * 60 * 1000;

/** Ids become keys in databases and parts of messages: printable, no slash, no blank, no quote. */
export const ID_PATTERN = /^[A-Za-z0-9](?:[A-Za-z0-9_-]{0,126}[A-Za-z0-9])?$/;
export const SHA_PATTERN = /^[0-9a-f]{64}$/;
/** `0` at the start, later `number-hash`: the hash lets the server notice that its history is no longer ours. */
export const CURSOR_PATTERN = /^(?:0|[1-9][0-9]{0,14}-[0-9a-f]{16})$/;
export const CURSOR_START = '0';
/** Number and beginning of the hash of what the server has acknowledged last, event or document. */
export const MARK_PATTERN = /^[1-9][0-9]{0,14}-[0-9a-f]{16}$/;

/** @param hash Of an event's text or a document's bytes, hex. */
export function toMark(number: number, hash: string): string {
  return `${number}-${hash.slice(0, 16)}`;
}

/** What a document may be. SVG and HTML are missing because a browser would run what is written in them. */
export const DOCUMENT_MIMES = [
  'image/jpeg',
  'image/png',
  'image/webp',
  'audio/webm',
  'audio/mp4',
  'application/json',
  'application/octet-stream',
] as const;
export type DocumentMime = (typeof DOCUMENT_MIMES)[number];

const id = z.string().check(z.regex(ID_PATTERN));
/** For people; control characters and halves of characters have no place in it. */
const name = z.string().check(z.minLength(1), z.maxLength(MAX_NAME), z.regex(/^[^\p{Cc}\p{Surrogate}]+$/u));
const count = z.number().check(z.int(), z.minimum(0));

const stationSchema = z.object({ id, name });
export type StationName = z.infer<typeof stationSchema>;

export const healthSchema = z.object({
  version: z.string(),
  database: z.enum(['sqlite', 'postgresql']),
  wire: count,
  minClient: count,
  /**
   * Absent from servers before they told it. `failing`: a read or a write does not work, and the answer is a 503;
   * `damaged`: it works, and something it holds is not what was stored.
   */
  status: z.optional(z.enum(['ok', 'damaged', 'failing'])),
  reads: z.optional(z.boolean()),
  writes: z.optional(z.boolean()),
  /** The server's time in ms. */
  now: z.optional(count),
  /** Bytes left where the data is; null when it is on another machine. */
  diskFree: z.optional(z.nullable(count)),
  /** Requests that wait for the database, and all that are under way. */
  waiting: z.optional(count),
  requests: z.optional(count),
  /** When everything held was last checked against its hash, and how much of it differed. */
  scrub: z.optional(z.nullable(z.object({ at: count, damaged: count }))),
  backup: z.optional(z.nullable(z.object({ at: count, ok: z.boolean() }))),
  /** How much of what is held is damaged, and the first of it by name. */
  damaged: z.optional(z.object({ count, names: z.array(z.string()) })),
});
export type Health = z.infer<typeof healthSchema>;

export const pairRequestSchema = z.object({
  code: z.string().check(z.minLength(1), z.maxLength(64)),
  phone: name,
  /** The station this phone already works in, or one it has just made; null when it has none. */
  station: z.nullable(stationSchema),
});
export type PairRequest = z.infer<typeof pairRequestSchema>;

export const pairAnswerSchema = z.object({
  token: z.string().check(z.regex(/^[A-Za-z0-9_-]{43}$/)),
  phoneId: id,
  station: stationSchema,
  /** Names this server's numbering of the station; another one means another server or a lost database. */
  history: id,
});
export type PairAnswer = z.infer<typeof pairAnswerSchema>;

export const pushRequestSchema = z.object({ texts: z.array(z.string()).check(z.maxLength(MAX_BATCH_EVENTS)) });

const REFUSALS = ['unreadable', 'other-station', 'too-long', 'hostile-id'] as const;

/** One per text, in the order sent. `already` and `stored` both mean: the server holds this very text. */
const eventAnswerSchema = z.discriminatedUnion('type', [
  z.object({ type: z.literal('stored'), number: count }),
  z.object({ type: z.literal('already'), number: count }),
  z.object({ type: z.literal('set-aside'), why: z.enum(['same-id-other-text']) }),
  z.object({ type: z.literal('refused'), why: z.enum(REFUSALS), sentence: z.string() }),
]);
export type EventAnswer = z.infer<typeof eventAnswerSchema>;

/** Absent from servers before they told it: the server's time in ms, and the name of its numbering. */
const told = { now: z.optional(count), history: z.optional(id) };

export const pushAnswerSchema = z.object({ answers: z.array(eventAnswerSchema), ...told });
export type PushAnswer = z.infer<typeof pushAnswerSchema>;

export const pullAnswerSchema = z.object({
  events: z.array(z.object({ number: count, text: z.string() })),
  /** To be sent as `after` next time. */
  next: z.string().check(z.regex(CURSOR_PATTERN)),
  more: z.boolean(),
  /** Numbers that the server holds damaged and has left out; another phone may still have the texts. */
  damaged: z.optional(z.array(count)),
  ...told,
});
export type PullAnswer = z.infer<typeof pullAnswerSchema>;

export const documentAnswerSchema = z.object({
  type: z.enum(['stored', 'already']),
  sha: z.string(),
  bytes: count,
  /** Of the same row of numbers as events; absent for what was stored before documents had one. */
  number: z.optional(count),
});

/** A document that is on its way in parts of `DOCUMENT_CHUNK_BYTES`: those that have arrived. */
export const partsAnswerSchema = z.object({ parts: z.array(count) });
export const partAnswerSchema = z.object({ type: z.literal('kept'), part: count });
/** Asks for the parts to be joined. */
export const joinRequestSchema = z.object({ mime: z.enum(DOCUMENT_MIMES), bytes: count });

const sha = z.string().check(z.regex(SHA_PATTERN));
/** What a phone holds, so that the server can say what of it is missing there. */
export const compareRequestSchema = z.object({
  events: z.array(z.object({ id, hash: sha })).check(z.maxLength(MAX_COMPARED)),
  documents: z.array(sha).check(z.maxLength(MAX_COMPARED)),
});
/** Ids and hashes that the server does not hold, or holds damaged; an id it holds with another text is not missing. */
export const compareAnswerSchema = z.object({ events: z.array(id), documents: z.array(sha), ...told });

const placeText = z.nullable(z.string().check(z.minLength(1), z.maxLength(400)));
/** Where a person is now; told to the other phones of the station and forgotten soon. Place ids as in the events. */
const presenceSchema = z.object({ name, audit: z.nullable(id), unit: placeText, place: placeText });
export type PresenceSaid = z.infer<typeof presenceSchema>;
/** Null: this phone is nowhere. */
export const presenceRequestSchema = z.object({ at: z.nullable(presenceSchema) });
const presence = z.extend(presenceSchema, { phone: id, since: count });
export type Presence = z.infer<typeof presence>;
/** The other phones, not the asker. */
export const presenceAnswerSchema = z.object({ present: z.array(presence) });

/** What comes over `GET /api/live`, one JSON object to each `data:` line. Kinds unknown to a phone are passed over. */
export const liveMessageSchema = z.discriminatedUnion('type', [
  /** First, and again after each silence: the stream is alive. */
  z.object({ type: z.literal('ping'), now: count, history: id }),
  /** There is something to pull: the highest number given out. */
  z.object({ type: z.literal('events'), top: count }),
  z.object({ type: z.literal('present'), present: z.array(presence) }),
]);
export type LiveMessage = z.infer<typeof liveMessageSchema>;

export const phonesAnswerSchema = z.object({
  phones: z.array(
    z.object({
      id,
      name: z.string(),
      pairedAt: count,
      seenAt: z.nullable(count),
      revokedAt: z.nullable(count),
      self: z.boolean(),
      /** Whether the asking phone may remove it; a server that does not say lets everybody. */
      mayRemove: z.optional(z.boolean()),
    }),
  ),
});

export const codeAnswerSchema = z.object({ code: z.string(), expiresAt: count, station: z.nullable(stationSchema) });

const ERROR_TYPES = [
  'bad-request',
  'unauthorised',
  'revoked',
  'phone-too-old',
  'server-too-old',
  'not-found',
  'too-large',
  'too-many',
  'code-unknown',
  'code-used',
  'code-expired',
  'station-needed',
  'station-differs',
  'cursor-lost',
  'hash-differs',
  'mime-refused',
  'parts-missing',
  'not-allowed',
  'database-away',
  'failed',
] as const;
export const errorSchema = z.object({ type: z.enum(ERROR_TYPES), sentence: z.string() });
export type WireError = z.infer<typeof errorSchema>;

type VersionVerdict = { type: 'fits' } | { type: 'phone-too-old' } | { type: 'server-too-old' };

/** The server's reading of a phone's version. */
export function judgePhone(phone: number): VersionVerdict {
  if (phone < MIN_CLIENT_WIRE) return { type: 'phone-too-old' };
  return phone > WIRE_VERSION ? { type: 'server-too-old' } : { type: 'fits' };
}

/** The phone's reading of a server's version. A newer server decides itself whether it still understands us. */
export function judgeServer(server: number): VersionVerdict {
  return server < WIRE_VERSION ? { type: 'server-too-old' } : { type: 'fits' };
}

const PAIR_PREFIX = 'ASFOUND-PAIR:';
/** No I, L, O, U, 0, 1: a code is read off a screen and typed with one hand. */
export const CODE_ALPHABET = '23456789ABCDEFGHJKMNPQRSTVWXYZ';
export const CODE_LENGTH = 10;

export function codeToPayload(code: string): string {
  return PAIR_PREFIX + code;
}

/** A scanned or typed code in its one form, or null when it cannot be one. */
export function textToCode(text: string): string | null {
  const upper = text.normalize('NFKC').trim().toUpperCase();
  const bare = (upper.startsWith(PAIR_PREFIX) ? upper.slice(PAIR_PREFIX.length) : upper).replace(/[\s-]/g, '');
  if (bare.length !== CODE_LENGTH) return null;
  return [...bare].every((char) => CODE_ALPHABET.includes(char)) ? bare : null;
}
