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

export const MAX_BATCH_EVENTS = 200;
/** UTF-8 bytes of the event texts of one batch, as the phone fills it. */
export const MAX_BATCH_BYTES = 512 * 1024;
/** What the server takes as a JSON body: a full batch with every character escaped, and the frame round it. */
export const MAX_JSON_BYTES = 4 * 1024 * 1024;
export const MAX_PULL_EVENTS = 500;
/** The server stops filling an answer here, whatever count was asked for. */
export const MAX_PULL_BYTES = 1024 * 1024;
export const MAX_DOCUMENT_BYTES = 32 * 1024 * 1024;
export const MAX_NAME = 200;
export const CODE_LIFE_MS = 15 * 60 * 1000;

/** Ids become keys in databases and parts of messages: printable, no slash, no blank, no quote. */
export const ID_PATTERN = /^[A-Za-z0-9](?:[A-Za-z0-9_-]{0,126}[A-Za-z0-9])?$/;
export const SHA_PATTERN = /^[0-9a-f]{64}$/;
/** `0` at the start, later `number-hash`: the hash lets the server notice that its history is no longer ours. */
export const CURSOR_PATTERN = /^(?:0|[1-9][0-9]{0,14}-[0-9a-f]{16})$/;
export const CURSOR_START = '0';

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

export const stationSchema = z.object({ id, name });
export type StationName = z.infer<typeof stationSchema>;

export const healthSchema = z.object({
  version: z.string(),
  database: z.enum(['sqlite', 'postgresql']),
  wire: count,
  minClient: count,
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
export type PushRequest = z.infer<typeof pushRequestSchema>;

export const REFUSALS = ['unreadable', 'other-station', 'too-long', 'hostile-id'] as const;
export type Refusal = (typeof REFUSALS)[number];

/** One per text, in the order sent. `already` and `stored` both mean: the server holds this very text. */
export const eventAnswerSchema = z.discriminatedUnion('type', [
  z.object({ type: z.literal('stored'), number: count }),
  z.object({ type: z.literal('already'), number: count }),
  z.object({ type: z.literal('set-aside'), why: z.enum(['same-id-other-text']) }),
  z.object({ type: z.literal('refused'), why: z.enum(REFUSALS), sentence: z.string() }),
]);
export type EventAnswer = z.infer<typeof eventAnswerSchema>;

export const pushAnswerSchema = z.object({ answers: z.array(eventAnswerSchema) });
export type PushAnswer = z.infer<typeof pushAnswerSchema>;

export const pullAnswerSchema = z.object({
  events: z.array(z.object({ number: count, text: z.string() })),
  /** To be sent as `after` next time. */
  next: z.string().check(z.regex(CURSOR_PATTERN)),
  more: z.boolean(),
});
export type PullAnswer = z.infer<typeof pullAnswerSchema>;

export const documentAnswerSchema = z.object({ type: z.enum(['stored', 'already']), sha: z.string(), bytes: count });
export type DocumentAnswer = z.infer<typeof documentAnswerSchema>;

export const phonesAnswerSchema = z.object({
  phones: z.array(
    z.object({
      id,
      name: z.string(),
      pairedAt: count,
      seenAt: z.nullable(count),
      revokedAt: z.nullable(count),
      self: z.boolean(),
    }),
  ),
});
export type PhonesAnswer = z.infer<typeof phonesAnswerSchema>;

export const codeAnswerSchema = z.object({ code: z.string(), expiresAt: count, station: z.nullable(stationSchema) });
export type CodeAnswer = z.infer<typeof codeAnswerSchema>;

export const ERROR_TYPES = [
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
  'failed',
] as const;
export const errorSchema = z.object({ type: z.enum(ERROR_TYPES), sentence: z.string() });
export type WireError = z.infer<typeof errorSchema>;

export type VersionVerdict = { type: 'fits' } | { type: 'phone-too-old' } | { type: 'server-too-old' };

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
