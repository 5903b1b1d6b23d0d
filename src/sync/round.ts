// One round of the exchange: events out, documents out, events in, documents in. Nothing leaves the outbox here
// without the server's own answer for it, and every step may be repeated.
import * as z from 'zod/mini';
import { utf8Bytes } from '../wire/limits.ts';
import {
  MAX_BATCH_BYTES,
  MAX_BATCH_EVENTS,
  MAX_PULL_EVENTS,
  pullAnswerSchema,
  pushAnswerSchema,
} from '../wire/sync.ts';
import { type Asked, ask, type Problem, readJson, timeoutFor, wait } from './ask.ts';
import type { DocumentSettlement, Outbox, PendingDocument, PendingEvent, SendProgress, Transport } from './ports.ts';

export type RoundParts = {
  transport: Transport;
  outbox: Outbox;
  token: string;
  now: () => number;
  /** Something went through: failures before it no longer count. */
  progress: (progress: SendProgress) => void;
  /** New events were recorded meanwhile; they go before further documents. */
  interrupted: () => boolean;
};
export type RoundEnd = { type: 'done' } | Problem;

const DONE = { type: 'done' } as const;
type Step = typeof DONE | Problem;

export async function runRound(parts: RoundParts): Promise<RoundEnd> {
  for (const step of [sendEvents, sendDocuments, pullEvents, fetchDocuments]) {
    const end = await step(parts);
    if (end.type !== 'done') return end;
  }
  return DONE;
}

function question(parts: RoundParts) {
  return { token: parts.token, now: parts.now };
}

async function sendEvents(parts: RoundParts): Promise<Step> {
  const { outbox, transport } = parts;
  let cap = MAX_BATCH_EVENTS;
  let done = 0;
  let before = '';
  for (;;) {
    const pending = await outbox.pendingEvents(cap);
    const [first] = pending;
    if (!first) return DONE;
    // An outbox that hands out what was just settled would have us send it for ever.
    if (first.id === before) return wait('phone-failed');
    const batch = fillBatch(pending);
    const body = JSON.stringify({ texts: batch.map((event) => event.text) });
    parts.progress({ phase: 'events', done, left: (await outbox.count()).events });
    const asked = await ask(transport, {
      ...question(parts),
      method: 'POST',
      path: '/api/events',
      body,
      want: 'text',
      timeoutMs: timeoutFor(body.length),
    });
    if (asked.type === 'no') {
      // One event spoils the batch: find it by halves. The others must not wait for it.
      if (batch.length > 1) {
        cap = Math.max(1, Math.floor(batch.length / 2));
        continue;
      }
      const why = asked.status === 413 ? 'too-long' : 'unreadable';
      const { sentence } = asked.error;
      await outbox.settleEvents([{ id: first.id, answer: { type: 'refused', why, sentence } }]);
    } else if (asked.type === 'ok') {
      const read = z.safeParse(pushAnswerSchema, readJson(asked.answer.text));
      if (!read.success || read.data.answers.length !== batch.length) return wait('answer-unreadable');
      const { answers } = read.data;
      await outbox.settleEvents(batch.flatMap(({ id }, i) => (answers[i] ? [{ id, answer: answers[i] }] : [])));
    } else {
      return asked;
    }
    before = first.id;
    done += batch.length;
    cap = Math.min(MAX_BATCH_EVENTS, cap * 2);
  }
}

function fillBatch(pending: PendingEvent[]): PendingEvent[] {
  let bytes = 0;
  const over = pending.findIndex((event, i) => {
    bytes += utf8Bytes(event.text);
    return i > 0 && bytes > MAX_BATCH_BYTES;
  });
  return over === -1 ? pending : pending.slice(0, over);
}

async function sendDocuments(parts: RoundParts): Promise<Step> {
  const { outbox } = parts;
  let before = '';
  for (let done = 0; ; done += 1) {
    const [document] = await outbox.pendingDocuments(1);
    if (!document) return DONE;
    if (document.sha === before) return wait('phone-failed');
    parts.progress({ phase: 'documents', done, left: (await outbox.count()).documents });
    const settlement = await sendDocument(parts, document);
    if (settlement.type !== 'stored' && settlement.type !== 'refused') return settlement;
    await outbox.settleDocument(document.sha, settlement);
    before = document.sha;
    if (parts.interrupted()) {
      const end = await sendEvents(parts);
      if (end.type !== 'done') return end;
    }
  }
}

async function sendDocument(parts: RoundParts, document: PendingDocument): Promise<DocumentSettlement | Problem> {
  const { transport, outbox } = parts;
  const path = `/api/documents/${document.sha}`;
  const there = await ask(transport, {
    ...question(parts),
    method: 'HEAD',
    path,
    want: 'text',
    timeoutMs: timeoutFor(0),
  });
  if (there.type === 'ok') return { type: 'stored' };
  if (there.type !== 'no') return there;
  const body = await outbox.documentBytes(document.sha);
  if (!body) return { type: 'refused', why: 'missing', sentence: 'The document is no longer on this phone.' };
  const put = await ask(transport, {
    ...question(parts),
    method: 'PUT',
    path,
    body,
    mime: document.mime,
    want: 'text',
    timeoutMs: timeoutFor(body.byteLength),
  });
  return put.type === 'no' ? readRefusal(put) : put.type === 'ok' ? { type: 'stored' } : put;
}

function readRefusal({ error }: Extract<Asked, { type: 'no' }>): DocumentSettlement | Problem {
  const { type, sentence } = error;
  switch (type) {
    case 'too-large':
    case 'mime-refused':
      return { type: 'refused', why: type, sentence };
    // Damaged or broken off on the way: the bytes here may well be right, so they are sent again later.
    case 'hash-differs':
    case 'bad-request':
      return wait('server-failed');
    default:
      return wait('answer-unreadable');
  }
}

async function pullEvents(parts: RoundParts): Promise<Step> {
  const { transport, outbox } = parts;
  let startedOver = false;
  for (let done = 0; ; ) {
    const after = await outbox.cursor();
    const asked = await ask(transport, {
      ...question(parts),
      method: 'GET',
      path: `/api/events?after=${encodeURIComponent(after)}&limit=${MAX_PULL_EVENTS}`,
      want: 'text',
      timeoutMs: timeoutFor(MAX_BATCH_BYTES),
    });
    if (asked.type === 'no') {
      if (asked.error.type !== 'cursor-lost' || startedOver) return wait('answer-unreadable');
      startedOver = true;
      await outbox.startOver();
      const sent = await sendEvents(parts);
      const all = sent.type === 'done' ? await sendDocuments(parts) : sent;
      if (all.type !== 'done') return all;
      continue;
    }
    if (asked.type !== 'ok') return asked;
    const read = z.safeParse(pullAnswerSchema, readJson(asked.answer.text));
    if (!read.success) return wait('answer-unreadable');
    const { events, next, more } = read.data;
    // A server that moves on without events, or stays with more to come, would keep us here.
    if (more && next === after) return wait('answer-unreadable');
    const texts = events.map((event) => event.text);
    if (texts.length > 0) await outbox.receive(texts, next);
    if (!more) return DONE;
    done += events.length;
    parts.progress({ phase: 'pull', done, left: 0 });
  }
}

async function fetchDocuments(parts: RoundParts): Promise<Step> {
  const { transport, outbox } = parts;
  const wanted = await outbox.wantedDocuments();
  for (const [done, sha] of wanted.entries()) {
    parts.progress({ phase: 'fetch', done, left: wanted.length - done });
    const asked = await ask(transport, {
      ...question(parts),
      method: 'GET',
      path: `/api/documents/${sha}`,
      want: 'bytes',
      timeoutMs: timeoutFor(8 * 1024 * 1024),
    });
    // Another phone has named it but not sent it yet: it stays wanted and is asked for in the next round.
    if (asked.type === 'no') continue;
    if (asked.type !== 'ok') return asked;
    const { bytes } = asked.answer;
    const mime = asked.answer.header('content-type') ?? 'application/octet-stream';
    if (!bytes || !(await outbox.storeDocument(sha, bytes, mime))) return wait('answer-unreadable');
  }
  return DONE;
}
