// What all lanes share: what a run is given, and the question whether a failure is of the way or of the one thing that
// was on it. Nothing is kept here.
import * as z from 'zod/mini';
import { pullAnswerSchema } from '../wire/sync.ts';
import { type Asked, ask, type Problem, readJson, timeoutFor } from './ask.ts';
import type { Held, Outbox, SendProgress, Transport } from './ports.ts';

export type CarryParts = {
  transport: Transport;
  outbox: Outbox;
  token: string;
  now: () => number;
  /** Failures in a row before this run. */
  tries: number;
  /** Something went through: failures before it no longer count. */
  progress: (progress: SendProgress) => void;
};

export const DONE = { type: 'done' } as const;
export type Step = typeof DONE | Problem;
type Failure = Exclude<Asked, { type: 'ok' }>;

/** So many in a row that fail while the server is there, and it is not theirs alone any more. */
export const MOST_FAULTS = 3;
/** A connection that breaks once is nothing; at the same thing again and again it may be that thing. */
const TRIES_TO_SUSPECT = 2;

export function question(parts: CarryParts) {
  return { token: parts.token, now: parts.now };
}

/**
 * Null: the way as a whole does not work, so that all wait. Else the server is there and answers, and what was carried
 * is put off by itself, so that the others go on.
 */
export async function blame(parts: CarryParts, failure: Failure): Promise<Held | null> {
  if (failure.type === 'no') return refusal(failure);
  if (failure.type !== 'wait') return null;
  const { why, status } = failure;
  if (why === 'server-busy' || why === 'phone-failed') return null;
  if ((why === 'timeout' || why === 'no-answer') && parts.tries < TRIES_TO_SUSPECT) return null;
  if (!(await isThere(parts))) return null;
  if (why === 'not-our-server') {
    if (status === 413)
      return {
        type: 'refused',
        why: 'way',
        sentence: 'Something on the way to the server refuses anything that large.',
      };
    return { type: 'later', why: 'way', sentence: 'Something between this phone and the server blocks it.' };
  }
  return why === 'timeout' || why === 'no-answer'
    ? { type: 'later', why: 'broken-off', sentence: 'The connection breaks each time this one is sent.' }
    : { type: 'later', why: 'server-failed', sentence: 'The server fails on this one.' };
}

function refusal({ error }: Extract<Asked, { type: 'no' }>): Held {
  const { sentence } = error;
  switch (error.type) {
    case 'too-large':
    case 'mime-refused':
      return { type: 'refused', why: error.type, sentence };
    // The bytes here may well be right, so they are sent again before long.
    case 'hash-differs':
      return { type: 'later', why: 'damaged-on-the-way', sentence };
    case 'bad-request':
    case 'parts-missing':
      return { type: 'later', why: 'broken-off', sentence };
    default:
      return { type: 'later', why: 'server-failed', sentence };
  }
}

/** Whether our server answers at all, by a question that costs next to nothing. */
async function isThere(parts: CarryParts): Promise<boolean> {
  const after = await parts.outbox.cursor();
  const asked = await ask(parts.transport, {
    ...question(parts),
    method: 'GET',
    path: `/api/events?after=${encodeURIComponent(after)}&limit=1`,
    want: 'text',
    timeoutMs: timeoutFor(0),
  });
  if (asked.type === 'no') return asked.error.type === 'cursor-lost';
  return asked.type === 'ok' && z.safeParse(pullAnswerSchema, readJson(asked.answer.text)).success;
}
