// One question to the server and what its answer means for the exchange. It must tell our server from everything
// else that may answer in its place, because only ours may end a pairing or settle anything.
import * as z from 'zod/mini';
import { errorSchema, judgeServer, WIRE_HEADER, WIRE_VERSION, type WireError } from '../wire/sync.ts';
import type { SyncState, Transport, TransportAnswer, TransportRequest, WaitingWhy } from './ports.ts';

export type StopWhy = Extract<SyncState, { type: 'stopped' }>['why'];
export type Problem =
  /** `status` as it was answered, where there was an answer at all. */
  | { type: 'wait'; why: WaitingWhy; notBefore: number; status?: number }
  | { type: 'stop'; why: StopWhy }
  | { type: 'cancelled' };

type Answer = Extract<TransportAnswer, { type: 'answer' }>;
export type Asked =
  /** `sentAt` and `gotAt` by this phone's clock, to measure it against the server's. */
  | { type: 'ok'; answer: Answer; sentAt: number; gotAt: number }
  /** Our server said no to this one question; the asker knows what that means. */
  | { type: 'no'; status: number; error: WireError }
  | Problem;

type Question = Omit<TransportRequest, 'headers'> & {
  token: string | null;
  mime?: string;
  headers?: Record<string, string>;
  now: () => number;
};

const MAX_RETRY_AFTER_MS = 3_600_000;
const SHORT_TIMEOUT_MS = 10_000;
/** A mobile link at the edge of a cellar still does about this much. */
const SLOWEST_BYTES_PER_SECOND = 16_000;

export function timeoutFor(bytes: number): number {
  return SHORT_TIMEOUT_MS + Math.ceil((bytes / SLOWEST_BYTES_PER_SECOND) * 1000);
}

export async function ask(transport: Transport, question: Question): Promise<Asked> {
  const { token, mime, now, headers: more, ...request } = question;
  const headers: Record<string, string> = { ...more, [WIRE_HEADER]: String(WIRE_VERSION) };
  if (token !== null) headers.authorization = `Bearer ${token}`;
  if (request.body !== undefined) headers['content-type'] = mime ?? 'application/json';
  const sentAt = now();
  const answer = await transport.send({ ...request, headers });
  if (answer.type === 'nothing') return nothing(answer.why);
  const gotAt = now();
  const judged = judge(answer, gotAt);
  return judged.type === 'ok' ? { ...judged, sentAt, gotAt } : judged;
}

function nothing(why: Extract<TransportAnswer, { type: 'nothing' }>['why']): Problem {
  if (why === 'cancelled') return { type: 'cancelled' };
  return wait(why === 'timeout' ? 'timeout' : 'no-answer');
}

type Judged = { type: 'ok'; answer: Answer } | Exclude<Asked, { type: 'ok' }>;

function judge(answer: Answer, now: number): Judged {
  const { status } = answer;
  const judged = judgeStatus(answer, status, now);
  return judged.type === 'wait' ? { ...judged, status } : judged;
}

function judgeStatus(answer: Answer, status: number, now: number): Judged {
  // Our server never sends anybody elsewhere; 0 is how a browser tells of a redirect that it did not follow.
  if (status < 200 || (status >= 300 && status < 400)) return wait('not-our-server');
  const said = answer.header(WIRE_HEADER);
  const ours = said !== null && /^[0-9]{1,6}$/.test(said);
  const notBefore = retryAfter(answer.header('retry-after'), now);
  if (ours && judgeServer(Number(said)).type !== 'fits') return { type: 'stop', why: 'server-too-old' };
  // A proxy in front may say these in the server's name.
  if (status === 429 || status === 503) return wait('server-busy', notBefore);
  if (status >= 500) return wait('server-failed', notBefore);
  if (!ours) return wait('not-our-server', notBefore);
  if (status < 300) return { type: 'ok', answer };
  // An answer to HEAD has no body to read the reason from.
  const error = readError(answer.text);
  if (status === 401) return { type: 'stop', why: 'needs-pairing' };
  if (status === 426 && !error)
    return { type: 'stop', why: Number(said) > WIRE_VERSION ? 'phone-too-old' : 'server-too-old' };
  if (error?.type === 'phone-too-old' || error?.type === 'server-too-old') return { type: 'stop', why: error.type };
  if (error) return { type: 'no', status, error };
  return status === 404 ? { type: 'no', status, error: notFound } : wait('answer-unreadable');
}

const notFound: WireError = { type: 'not-found', sentence: 'Nothing there has that name.' };

export function wait(why: WaitingWhy, notBefore = 0): Problem {
  return { type: 'wait', why, notBefore };
}

function readError(text: string): WireError | null {
  const parsed = z.safeParse(errorSchema, readJson(text));
  return parsed.success ? parsed.data : null;
}

export function readJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** Seconds or a date, as RFC 9110 section 10.2.3 allows; 0 when absent or senseless, never more than an hour. */
export function retryAfter(header: string | null, now: number): number {
  if (header === null) return 0;
  const at = /^\s*\d+\s*$/.test(header) ? now + Number(header) * 1000 : Date.parse(header);
  return Number.isFinite(at) ? Math.min(at, now + MAX_RETRY_AFTER_MS) : 0;
}

const FIRST_WAIT_MS = 2000;
const LONGEST_WAIT_MS = 300_000;

/** How long to wait after so many failures in a row: doubling, with up to half of it left to chance. */
export function backoff(tries: number, random: () => number): number {
  const full = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(tries - 1, 20));
  return Math.round(full * (0.5 + random() / 2));
}
