// How the API reads bodies and answers: JSON both ways, errors as a type and a sentence with the next step, caps
// before parsing. No route is defined here.
import type { HttpBindings } from '@hono/node-server';
import type { Context } from 'hono';
import type { ContentfulStatusCode } from 'hono/utils/http-status';
import type * as z from 'zod/mini';
import { safeParse } from 'zod/mini';
import type { WireError } from '../wire/sync.ts';
import type { Hold } from './holds.ts';
import type { KnownPhone } from './phones/pairing.ts';
import { pause } from './turns.ts';

export type Env = {
  // Absent when the app is asked without a socket.
  Bindings: Partial<HttpBindings>;
  /** `hold` is there when the phone is known. */
  Variables: { phone: Extract<KnownPhone, { type: 'phone' }>; hold?: Hold };
};

type ErrorType = WireError['type'];

const ERRORS: Record<ErrorType, { status: ContentfulStatusCode; sentence: string }> = {
  'bad-request': { status: 400, sentence: 'The server could not understand the request.' },
  unauthorised: { status: 401, sentence: 'This phone is not paired with the server. Pair it with a new code.' },
  revoked: { status: 401, sentence: 'This phone was removed from the station. Pair it again with a new code.' },
  'phone-too-old': {
    status: 426,
    sentence: 'The app on the phone is older than the server understands. Open the app online and update it.',
  },
  'server-too-old': {
    status: 426,
    sentence: 'The server is older than the app on the phone. Update the server; the phone keeps everything.',
  },
  'not-found': { status: 404, sentence: 'Nothing here has that name.' },
  'too-large': { status: 413, sentence: 'The request is larger than the server takes.' },
  'too-many': { status: 429, sentence: 'Too many requests at once. Try again in a moment.' },
  'code-unknown': {
    status: 403,
    sentence: 'The server does not know this code. Check it, or make a new one: npm run pair.',
  },
  'code-used': { status: 403, sentence: 'This code was used already; each works once. Make a new one: npm run pair.' },
  'code-expired': { status: 403, sentence: 'This code is older than 15 minutes. Make a new one: npm run pair.' },
  'station-needed': {
    status: 409,
    sentence: 'The server has no station for this code yet. Name one on the phone, then use the same code again.',
  },
  'station-differs': { status: 409, sentence: 'The code is for a different station from the one on the phone.' },
  'cursor-lost': {
    status: 409,
    sentence: 'The server has lost or changed its history. The phone will send everything it has again.',
  },
  'hash-differs': { status: 422, sentence: 'What arrived does not match its checksum. Send it again.' },
  'mime-refused': {
    status: 415,
    sentence: 'The server keeps only JPEG, PNG and WebP pictures, WebM and MP4 sound, and plan documents.',
  },
  'parts-missing': {
    status: 409,
    sentence: 'Parts of the document have not arrived yet. Send those that are missing.',
  },
  'not-allowed': {
    status: 403,
    sentence:
      'Only the phone that began the station, or the one that made its code, may remove it. Or remove it at the server: npm run phones.',
  },
  'database-away': {
    status: 503,
    sentence: 'The server cannot reach its database. The phone keeps everything and tries again.',
  },
  failed: { status: 500, sentence: 'The server failed. The phone keeps everything and tries again.' },
};

export function errorAnswer(c: Context, type: ErrorType, sentence = ERRORS[type].sentence, retrySeconds?: number) {
  if (retrySeconds !== undefined) c.header('Retry-After', String(retrySeconds));
  return c.json({ type, sentence } satisfies WireError, ERRORS[type].status);
}

/** The forms are given here so that an answer which drifts from the wire does not compile. */
export function answer<S extends z.ZodMiniType>(
  c: Context,
  _schema: S,
  value: z.output<S>,
  status: 200 | 201 | 503 = 200,
) {
  return c.json(value as object, status);
}

type ReadBody<T> =
  | { type: 'body'; value: T }
  | { type: 'too-large' | 'too-many' }
  | { type: 'bad-request'; sentence: string };

/** A JSON body of the form given, never more than `cap` bytes of it in memory, nor more than all may hold together. */
export async function readJson<S extends z.ZodMiniType>(
  c: Context<Env>,
  schema: S,
  cap: number,
): Promise<ReadBody<z.output<S>>> {
  const encoding = c.req.header('content-encoding');
  if (encoding !== undefined && encoding !== 'identity') {
    return { type: 'bad-request', sentence: 'The server takes request bodies only without compression.' };
  }
  const text = await readText(c.req.raw.body, cap, c.get('hold'));
  if (text === 'too-many') c.header('Retry-After', '2');
  if (typeof text === 'string') return { type: text };
  await pause();
  let json: unknown;
  try {
    json = JSON.parse(text?.text ?? '');
  } catch {
    return { type: 'bad-request', sentence: 'The body is not JSON.' };
  }
  const parsed = safeParse(schema, json);
  if (parsed.success) return { type: 'body', value: parsed.data };
  const [issue] = parsed.error.issues;
  const where = issue?.path.join('.') || 'body';
  return { type: 'bad-request', sentence: `The body is not of the expected form at ${where}.`.slice(0, 300) };
}

async function readText(
  body: ReadableStream<Uint8Array> | null,
  cap: number,
  hold: Hold | undefined,
): Promise<{ text: string } | 'too-large' | 'too-many' | null> {
  const parts: Uint8Array[] = [];
  let bytes = 0;
  const reader = body?.getReader();
  try {
    for (;;) {
      const part = await reader?.read();
      if (!part || part.done) break;
      bytes += part.value.byteLength;
      if (bytes > cap) {
        await reader?.cancel();
        return 'too-large';
      }
      if (hold && !hold.grow(part.value.byteLength)) {
        await reader?.cancel();
        return 'too-many';
      }
      parts.push(part.value);
    }
    return { text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(Buffer.concat(parts)) };
  } catch {
    return null;
  }
}

const PAGE_POLICY = [
  "default-src 'self'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "worker-src 'self'",
  "img-src 'self' blob: data:",
  "media-src 'self' blob:",
  "connect-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ');

/** On everything, app and API alike. */
export const COMMON_HEADERS: Record<string, string> = {
  'Content-Security-Policy': PAGE_POLICY,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Permissions-Policy': 'camera=(self), microphone=(self), geolocation=()',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
};

/** Whatever a document holds, a browser that opens it may run and show nothing of it. */
export const DOCUMENT_HEADERS: Record<string, string> = {
  'Content-Security-Policy': "sandbox; default-src 'none'",
  'Content-Disposition': 'attachment',
  // Named by its hash, it never changes; but only phones of the station may have it.
  'Cache-Control': 'private, max-age=31536000, immutable',
};
