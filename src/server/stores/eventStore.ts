// Events in. A text is kept exactly as it came and never changed or removed; its number says in which order this
// server took it in, and nothing else. How they go out stands in eventPull.ts.
import type { Transaction } from 'kysely';
import { MAX_EVENT_TEXT } from '../../core/record/eventLimits.ts';
import { readEvent } from '../../core/record/events.ts';
import { type EventAnswer, ID_PATTERN } from '../../wire/sync.ts';
import type { Database } from '../database/database.ts';
import type { Tables } from '../database/tables.ts';
import { textToHash } from '../hash.ts';
import { pause } from '../turns.ts';
import { heldEvents, lookAtHeld, mendAltered } from './eventMend.ts';
import { lockNumbers, moveNumbers } from './numbers.ts';

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
  if (of !== station) return refuse('other-station', 'The event belongs to a different station from this phone.');
  return { type: 'event', id, log, seq, hash: textToHash(text), text };
}

const UNREADABLE_HERE = refuse(
  'unreadable',
  'The server cannot read what it holds under this name: its database is damaged there. The phone keeps the entry; at the server, restore from a backup.',
);

function refuse(why: Refused['why'], sentence: string): Refused {
  return { type: 'refused', why, sentence };
}

/** Takes a batch in, one answer per text in the order given. Repeating it changes nothing, but mends what is damaged. */
export async function pushEvents(db: Database, station: string, texts: string[], now: number): Promise<EventAnswer[]> {
  const checked = await checkEvents(texts, station);
  const events = checked.filter((one) => one.type === 'event');
  if (events.length === 0) return checked as Refused[];
  // Looked at before the transaction: on PostgreSQL the first page that cannot be read would end it.
  const state = await lookAtHeld(db, station, events);
  await mendAltered(db, station, events, state, now);
  const ids = events.map((one) => one.id).filter((id) => state.get(id) !== 'unreadable');
  return await db.query.transaction().execute(async (tx) => {
    let { next } = await lockNumbers(tx, station);
    const held = new Map((await heldEvents(tx, station, ids)).map((event) => [event.id, event] as const));
    const added: Tables['events'][] = [];
    const answers: EventAnswer[] = [];
    for (const one of checked) {
      if (one.type === 'refused') {
        answers.push(one);
        continue;
      }
      const there = held.get(one.id);
      const stands = state.get(one.id);
      if (stands === 'unreadable') answers.push(UNREADABLE_HERE);
      else if (!there) {
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
      await moveNumbers(tx, station, next);
    }
    return answers;
  });
}

/** So much text is read and hashed before others have their turn. */
const CHECKED_AT_ONCE = 256 * 1024;

async function checkEvents(texts: string[], station: string): Promise<(Checked | Refused)[]> {
  const checked: (Checked | Refused)[] = [];
  let since = 0;
  for (const text of texts) {
    since += text.length;
    if (since > CHECKED_AT_ONCE) {
      await pause();
      since = 0;
    }
    checked.push(checkEvent(text, station));
  }
  return checked;
}

async function setAside(tx: Transaction<Tables>, station: string, one: Checked, now: number): Promise<void> {
  await tx
    .insertInto('set_aside')
    .values({ station, id: one.id, hash: one.hash, text: one.text, why: 'same-id-other-text', received_at: now })
    .onConflict((oc) => oc.columns(['station', 'id', 'hash']).doNothing())
    .execute();
}
