// The one question that a phone without a token may ask: a code for a token. What is done with the answer is decided
// by whoever asked.
import * as z from 'zod/mini';
import { type PairAnswer, type PairRequest, pairAnswerSchema, textToCode } from '../wire/sync.ts';
import { ask, readJson, timeoutFor } from './ask.ts';
import type { PairFailure, Pairing, PairResult, Transport } from './ports.ts';

type Asking = { transport: Transport; pairing: Pairing; now: () => number };
type NotPaired = Extract<PairResult, { type: 'not-paired' }>;

export async function askToPair(
  { transport, pairing, now }: Asking,
  text: string,
  phone: string,
): Promise<{ type: 'answer'; answer: PairAnswer } | NotPaired> {
  const code = textToCode(text);
  if (!code) return failed('not-a-code', 'That is not a pairing code. It has ten letters and digits.');
  const request: PairRequest = { code, phone, station: await pairing.station() };
  const asked = await ask(transport, {
    token: null,
    now,
    method: 'POST',
    path: '/api/pair',
    body: JSON.stringify(request),
    want: 'text',
    timeoutMs: timeoutFor(0),
  });
  if (asked.type === 'no') return failed(toFailure(asked.error.type), asked.error.sentence);
  if (asked.type === 'stop') {
    return failed(
      asked.why === 'needs-pairing' ? 'answer-unreadable' : asked.why,
      'Server and app are different versions.',
    );
  }
  if (asked.type === 'wait') return failed(asked.why, 'The server could not be asked. The code still works.');
  if (asked.type === 'cancelled') return failed('no-answer', 'The request was cancelled.');
  const read = z.safeParse(pairAnswerSchema, readJson(asked.answer.text));
  return read.success
    ? { type: 'answer', answer: read.data }
    : failed('answer-unreadable', 'The server’s answer cannot be read by this app.');
}

function failed(why: PairFailure, sentence: string): NotPaired {
  return { type: 'not-paired', why, sentence };
}

function toFailure(type: string): PairFailure {
  switch (type) {
    case 'code-unknown':
    case 'code-used':
    case 'code-expired':
    case 'station-needed':
    case 'station-differs':
      return type;
    default:
      return 'answer-unreadable';
  }
}
