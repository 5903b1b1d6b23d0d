// What this phone holds against what the server proves that it holds, in batches that can be broken off anywhere. It
// queues what is missing there and sends nothing itself.
import * as z from 'zod/mini';
import { compareAnswerSchema, MAX_COMPARED } from '../wire/sync.ts';
import { ask, type Problem, readJson, timeoutFor, wait } from './ask.ts';
import { DONE, question } from './carry.ts';
import type { EntriesParts } from './entriesParts.ts';

/** Once a day, so that a loss nobody told of is found. */
const EVERY_MS = 86_400_000;
/** Bytes of an id with its hash in the question. */
const BYTES_EACH = 150;

type Compared = typeof DONE | { type: 'queued' } | Problem;

export async function compareAll(parts: EntriesParts): Promise<Compared> {
  const { outbox } = parts;
  const state = await outbox.comparing();
  if (state.type === 'rests') {
    const since = state.lastAt === null ? EVERY_MS : parts.now() - state.lastAt;
    // A clock that was put back must not put it off for ever.
    if (since >= 0 && since < EVERY_MS) return DONE;
    await outbox.beginCompare();
  }
  let queued = 0;
  for (let done = 0; ; ) {
    const batch = await outbox.compareBatch(MAX_COMPARED);
    const { events, documents, next } = batch;
    const size = events.length + documents.length;
    const missing = size === 0 ? { events: [], documents: [] } : await askFor(parts, { events, documents });
    if ('type' in missing) {
      if (missing.type !== 'cannot') return missing;
      // Such a server can only be given everything; but not day after day.
      if (state.type === 'under-way' && state.forAll) {
        await outbox.startOver();
        return { type: 'queued' };
      }
      await outbox.compared({ events: [], documents: [] }, { ...next, done: true });
      return DONE;
    }
    await outbox.compared(missing, next);
    queued += missing.events.length + missing.documents.length;
    if (next.done) return queued > 0 ? { type: 'queued' } : DONE;
    done += size;
    parts.progress({ phase: 'compare', done, left: 0 });
  }
}

type Missing = { events: string[]; documents: string[] };

async function askFor(
  parts: EntriesParts,
  held: { events: { id: string; hash: string }[]; documents: string[] },
): Promise<Missing | { type: 'cannot' } | Problem> {
  const body = JSON.stringify(held);
  const asked = await ask(parts.transport, {
    ...question(parts),
    method: 'POST',
    path: '/api/compare',
    body,
    want: 'text',
    timeoutMs: timeoutFor(body.length + MAX_COMPARED * BYTES_EACH),
  });
  if (asked.type === 'no') return asked.status === 404 ? { type: 'cannot' } : wait('answer-unreadable');
  if (asked.type !== 'ok') return asked;
  const read = z.safeParse(compareAnswerSchema, readJson(asked.answer.text));
  if (!read.success) return wait('answer-unreadable');
  // The next run compares anew, from the beginning.
  if (await parts.heard(read.data, asked)) return wait('answer-unreadable');
  return { events: read.data.events, documents: read.data.documents };
}
