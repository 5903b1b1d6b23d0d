// The lane of entries: events out, events in. Nothing leaves the outbox here without the server's own answer for it,
// every step may be repeated, and one event that spoils its batch stops no other.
import * as z from 'zod/mini';
import { utf8Bytes } from '../wire/limits.ts';
import {
  MAX_BATCH_BYTES,
  MAX_BATCH_EVENTS,
  MAX_PULL_EVENTS,
  pullAnswerSchema,
  pushAnswerSchema,
} from '../wire/sync.ts';
import { type Asked, ask, readJson, timeoutFor, wait } from './ask.ts';
import { blame, DONE, MOST_FAULTS, question, type Step } from './carry.ts';
import { compareAll } from './compare.ts';
import type { EntriesParts } from './entriesParts.ts';
import type { Held, PendingEvent, SettledEvent } from './ports.ts';

export async function runEntries(parts: EntriesParts): Promise<Step> {
  await parts.outbox.tend();
  const sent = await sendEvents(parts);
  // Whatever the server has against what is sent is no reason not to receive.
  const goesOn = sent.type === 'done' || (sent.type === 'wait' && isOfServer(sent.why));
  if (!goesOn) return sent;
  const pulled = await pullEvents(parts);
  if (pulled.type !== 'done' || sent.type !== 'done') return pulled.type === 'done' ? sent : pulled;
  const compared = await compareAll(parts);
  if (compared.type !== 'queued') return compared;
  parts.documentsQueued();
  return await sendEvents(parts);
}

function isOfServer(why: string): boolean {
  return why === 'server-failed' || why === 'answer-unreadable' || why === 'not-our-server';
}

async function sendEvents(parts: EntriesParts): Promise<Step> {
  const { outbox } = parts;
  let cap = MAX_BATCH_EVENTS;
  let done = 0;
  let faults = 0;
  let before = '';
  for (;;) {
    const pending = await outbox.pendingEvents(cap);
    const [first] = pending;
    if (!first) return DONE;
    // An outbox that hands out what was just settled would have us send it for ever.
    if (first.id === before) return wait('phone-failed');
    const batch = fillBatch(pending);
    parts.progress({ phase: 'events', done, left: (await outbox.count()).events });
    const pushed = await push(parts, batch);
    if (pushed.type === 'settled') {
      await outbox.settleEvents(pushed.settled);
      faults = 0;
    } else {
      const held = await blame(parts, pushed);
      if (!held) return pushed.type === 'no' ? wait('answer-unreadable') : pushed;
      // One event spoils the batch: find it by halves. The others must not wait for it.
      if (batch.length > 1) {
        cap = Math.max(1, Math.floor(batch.length / 2));
        continue;
      }
      await outbox.settleEvents([{ id: first.id, answer: pushed.type === 'no' ? refused(pushed) : held }]);
      faults += 1;
      if (faults === MOST_FAULTS && pushed.type === 'wait') return pushed;
    }
    before = first.id;
    done += batch.length;
    cap = Math.min(MAX_BATCH_EVENTS, cap * 2);
  }
}

/** Alone in its batch, so that the server means this very event. */
function refused({ status, error }: Extract<Asked, { type: 'no' }>): Held {
  return { type: 'refused', why: status === 413 ? 'too-long' : 'unreadable', sentence: error.sentence };
}

type Pushed = { type: 'settled'; settled: SettledEvent[] } | Exclude<Asked, { type: 'ok' }>;

async function push(parts: EntriesParts, batch: PendingEvent[]): Promise<Pushed> {
  const body = JSON.stringify({ texts: batch.map((event) => event.text) });
  const asked = await ask(parts.transport, {
    ...question(parts),
    method: 'POST',
    path: '/api/events',
    body,
    want: 'text',
    timeoutMs: timeoutFor(body.length),
  });
  if (asked.type !== 'ok') return asked;
  const read = z.safeParse(pushAnswerSchema, readJson(asked.answer.text));
  if (!read.success || read.data.answers.length !== batch.length) return wait('answer-unreadable');
  await parts.heard(read.data, asked);
  const { answers } = read.data;
  return { type: 'settled', settled: batch.flatMap(({ id }, i) => (answers[i] ? [{ id, answer: answers[i] }] : [])) };
}

function fillBatch(pending: PendingEvent[]): PendingEvent[] {
  let bytes = 0;
  const over = pending.findIndex((event, i) => {
    bytes += utf8Bytes(event.text);
    return i > 0 && bytes > MAX_BATCH_BYTES;
  });
  return over === -1 ? pending : pending.slice(0, over);
}

/** A phone is led to another history once in a run; more often, and two servers answer in turn. */
const MOST_HISTORIES = 2;

async function pullEvents(parts: EntriesParts): Promise<Step> {
  const { outbox } = parts;
  let histories = 0;
  for (let done = 0; ; ) {
    const after = await outbox.cursor();
    const asked = await ask(parts.transport, {
      ...question(parts),
      method: 'GET',
      path: `/api/events?${await pullQuery(parts, after)}`,
      want: 'text',
      timeoutMs: timeoutFor(MAX_BATCH_BYTES),
    });
    if (asked.type === 'no') {
      histories += 1;
      if (asked.error.type !== 'cursor-lost' || histories > MOST_HISTORIES) return wait('answer-unreadable');
      await outbox.newHistory(null);
      continue;
    }
    if (asked.type !== 'ok') return asked;
    const read = z.safeParse(pullAnswerSchema, readJson(asked.answer.text));
    if (!read.success) return wait('answer-unreadable');
    if (await parts.heard(read.data, asked)) {
      histories += 1;
      if (histories > MOST_HISTORIES) return wait('answer-unreadable');
      continue;
    }
    const { events, next, more, damaged } = read.data;
    // A server that moves on without events, or stays with more to come, would keep us here.
    if (more && next === after) return wait('answer-unreadable');
    const texts = events.map((event) => event.text);
    if (next !== after) await outbox.receive(texts, next);
    if (texts.length > 0) parts.received(texts.length);
    // What the server has lost may be here.
    if (damaged && damaged.length > 0 && (await mayCompare(parts))) await outbox.beginCompare();
    if (!more) return DONE;
    done += events.length;
    parts.progress({ phase: 'pull', done, left: 0 });
    // What was recorded meanwhile does not wait for the rest of a long row.
    const sent = await sendEvents(parts);
    if (sent.type !== 'done') return sent;
  }
}

async function pullQuery({ outbox }: EntriesParts, after: string): Promise<string> {
  const { history, mark } = await outbox.numbering();
  const fields = [`after=${encodeURIComponent(after)}`, `limit=${MAX_PULL_EVENTS}`];
  if (mark !== null) fields.push(`proof=${encodeURIComponent(mark)}`);
  if (history !== null) fields.push(`history=${encodeURIComponent(history)}`);
  return fields.join('&');
}

const HOUR_MS = 3_600_000;

/** Damage that nobody can mend must not have every pull followed by a comparison. */
async function mayCompare({ outbox, now }: EntriesParts): Promise<boolean> {
  const last = await outbox.comparing();
  return last.type === 'rests' && (last.lastAt === null || Math.abs(now() - last.lastAt) >= HOUR_MS);
}
