// The lane of documents in: the plan in force and what somebody opened. One that is not there, or is not what its name
// says, stops no other and is asked for again by itself.
import { ask, timeoutFor, wait } from './ask.ts';
import { blame, type CarryParts, MOST_FAULTS, question } from './carry.ts';
import type { LaneEnd } from './lane.ts';
import type { MissedWhy } from './ports.ts';

/** The size is not known beforehand; a long plan has about this many. */
const LIKELY_BYTES = 8 * 1024 * 1024;

export async function runDown(parts: CarryParts): Promise<LaneEnd> {
  const { outbox } = parts;
  const wanted = await outbox.wantedDocuments();
  let faults = 0;
  for (const [done, sha] of wanted.entries()) {
    parts.progress({ phase: 'fetch', done, left: wanted.length - done });
    const fetched = await fetchDocument(parts, sha);
    if (fetched.type === 'failed') return fetched.end;
    if (fetched.type === 'missed') await outbox.missDocument(sha, fetched.why);
    faults = fetched.type === 'missed' && fetched.why === 'failed' ? faults + 1 : 0;
    if (faults === MOST_FAULTS) return wait('server-failed');
  }
  const due = await outbox.nextWanted();
  return { type: 'done', next: due === null ? null : Math.max(0, due - parts.now()) };
}

type Fetched = { type: 'here' } | { type: 'missed'; why: MissedWhy } | { type: 'failed'; end: LaneEnd };

async function fetchDocument(parts: CarryParts, sha: string): Promise<Fetched> {
  const asked = await ask(parts.transport, {
    ...question(parts),
    method: 'GET',
    path: `/api/documents/${sha}`,
    want: 'bytes',
    timeoutMs: timeoutFor(LIKELY_BYTES),
  });
  if (asked.type === 'ok') {
    const { bytes } = asked.answer;
    const mime = asked.answer.header('content-type') ?? 'application/octet-stream';
    // The name is the proof: whoever answered, other bytes are not taken.
    if (bytes && (await parts.outbox.storeDocument(sha, bytes, mime))) return { type: 'here' };
    return { type: 'missed', why: 'differs' };
  }
  // Another phone has named it but not sent it yet.
  if (asked.type === 'no' && asked.status === 404) return { type: 'missed', why: 'not-there' };
  if (await blame(parts, asked)) return { type: 'missed', why: 'failed' };
  return { type: 'failed', end: asked.type === 'no' ? wait('answer-unreadable') : asked };
}
