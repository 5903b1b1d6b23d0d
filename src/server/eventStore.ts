// The events of the stations. A text is kept exactly as it came and never changed or removed; its number says in
// which order this server took it in, and nothing else.
import type { Transaction } from 'kysely';
import { MAX_EVENT_TEXT } from '../core/audit/eventLimits.ts';
import { readEvent } from '../core/audit/events.ts';
import { CURSOR_START, type EventAnswer, ID_PATTERN, MAX_PULL_BYTES, type PullAnswer } from '../wire/sync.ts';
import type { Database, Tables } from './database.ts';
import { textToHash } from './hash.ts';

type Checked = { type: 'event'; id: string; log: string; seq: number; hash: string; text: string };
type Refused = Extract<EventAnswer, { type: 'refused' }>;

/** Judges one text without the database. */
function checkEvent(text: string, station: string): Checked | Refused {
  if (text.length > MAX_EVENT_TEXT) {
    return refuse('too-long', `The event is longer than ${MAX_EVENT_TEXT} characters.`);
  }
  // A lone surrogate has no UTF-8 form: what is stored would not be what was sent.
  if (/\p{Surrogate}/u.test(text)) return refuse('unreadable', 'The event holds half a character.');
  const read = readEvent(text);
  if (read.type === 'unreadable') return refuse('unreadable', `The event cannot be read: ${read.why}.`.slice(0, 500));
  const { id, log, seq, station: of } = read.type === 'event' ? read.event : read.envelope;
  if (!ID_PATTERN.test(id) || !ID_PATTERN.test(log)) {
    return refuse('hostile-id', 'The id of the event or of its log is not made of letters, digits, - and _.');
  }
  if (!Number.isSafeInteger(seq) || seq < 0) return refuse('unreadable', 'The sequence is not a whole number.');
  if (of !== station) return refuse('other-station', 'The event belongs to another station than this phone.');
  return { type: 'event', id, log, seq, hash: textToHash(text), text };
}

function refuse(why: Refused['why'], sentence: string): Refused {
  return { type: 'refused', why, sentence };
}

/** Takes a batch in, one answer per text in the order given. Repeating it changes nothing. */
export async function pushEvents(db: Database, station: string, texts: string[], now: number): Promise<EventAnswer[]> {
  const checked = texts.map((text) => checkEvent(text, station));
  const ids = checked.flatMap((one) => (one.type === 'event' ? [one.id] : []));
  if (ids.length === 0) return checked as Refused[];
  return await db.query.transaction().execute(async (tx) => {
    // Writing the row first locks it until the end, on both databases: the next batch of this station gets its
    // numbers after these are in view, so no reader can pass a number that appears later.
    const row = await tx
      .updateTable('stations')
      .set((eb) => ({ next_number: eb.ref('next_number') }))
      .where('id', '=', station)
      .returning('next_number')
      .executeTakeFirstOrThrow();
    const held = new Map(
      (
        await tx
          .selectFrom('events')
          .select(['id', 'hash', 'number'])
          .where('station', '=', station)
          .where('id', 'in', ids)
          .execute()
      ).map((event) => [event.id, event] as const),
    );
    let next = row.next_number;
    const added: Tables['events'][] = [];
    const answers: EventAnswer[] = [];
    for (const one of checked) {
      if (one.type === 'refused') {
        answers.push(one);
        continue;
      }
      const there = held.get(one.id);
      if (!there) {
        const { id, hash, log, seq, text } = one;
        const event = { station, id, number: next, hash, log, seq, text, received_at: now };
        added.push(event);
        held.set(id, event);
        answers.push({ type: 'stored', number: next });
        next += 1;
      } else if (there.hash === one.hash) {
        answers.push({ type: 'already', number: there.number });
      } else {
        await setAside(tx, station, one, now);
        answers.push({ type: 'set-aside', why: 'same-id-other-text' });
      }
    }
    if (added.length > 0) {
      await tx.insertInto('events').values(added).execute();
      await tx.updateTable('stations').set({ next_number: next }).where('id', '=', station).execute();
    }
    return answers;
  });
}

async function setAside(tx: Transaction<Tables>, station: string, one: Checked, now: number): Promise<void> {
  await tx
    .insertInto('set_aside')
    .values({ station, id: one.id, hash: one.hash, text: one.text, why: 'same-id-other-text', received_at: now })
    .onConflict((oc) => oc.columns(['station', 'id', 'hash']).doNothing())
    .execute();
}

export type Pulled = PullAnswer | { type: 'cursor-lost' };

/** Events after the cursor, lowest number first. A cursor this history never gave out is lost. */
export async function pullEvents(db: Database, station: string, after: string, limit: number): Promise<Pulled> {
  const [digits = '0', mark = ''] = after.split('-');
  const number = Number(digits);
  if (after !== CURSOR_START) {
    const row = await db.query
      .selectFrom('events')
      .select('hash')
      .where('station', '=', station)
      .where('number', '=', number)
      .executeTakeFirst();
    if (!row?.hash.startsWith(mark)) return { type: 'cursor-lost' };
  }
  const rows = await db.query
    .selectFrom('events')
    .select(['number', 'text', 'hash'])
    .where('station', '=', station)
    .where('number', '>', number)
    .orderBy('number')
    .limit(limit + 1)
    .execute();
  let bytes = 0;
  let taken = 0;
  while (taken < Math.min(rows.length, limit)) {
    bytes += Buffer.byteLength(rows[taken]?.text ?? '', 'utf8');
    // The first one always goes, or a long event would stop the cursor for ever.
    if (taken > 0 && bytes > MAX_PULL_BYTES) break;
    taken += 1;
  }
  const events = rows.slice(0, taken);
  const last = events.at(-1);
  return {
    events: events.map((event) => ({ number: event.number, text: event.text })),
    next: last ? `${last.number}-${last.hash.slice(0, 16)}` : after,
    more: taken < rows.length,
  };
}
