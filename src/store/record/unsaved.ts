// Takes entries that another page, or an earlier life of this one, could not write, and gives each a place in this
// phone's log. Never takes an entry twice, and never one of another station.
import { MAX_EVENT_TEXT } from '../../core/record/eventLimits.ts';
import { type Envelope, readEvent } from '../../core/record/events.ts';
import { ID_PATTERN } from '../../wire/sync.ts';
import type { StationStore } from '../database.ts';
import type { StoreResult } from '../failures.ts';
import type { Appender } from './appender.ts';
import type { MadeEntry } from './ownRows.ts';

/** How many of the texts became what; their sum is the number of texts that are not blank. */
export type UnsavedTaken = {
  /** On disk now, at the end of this phone's log. */
  added: number;
  /** Its id was here already, or stands a second time among the texts: nothing was written. */
  known: number;
  /** The disk refused: they wait in memory, in view, and are tried again like any entry of this phone. */
  waiting: number;
  /** Of another station. */
  foreign: number;
  /** Made by a newer build, or of a kind that this one does not know. */
  newer: number;
  /** No entry at all, or none that a reader would take. */
  unreadable: number;
};

const CHUNK = 500;

/**
 * Takes the texts that `Appender.unsaved` gave, or the lines of the file that was made of them.
 *
 * Each entry keeps its id, author, time, zone, audit, kind and payload, and gets a new place in the chain of this
 * phone's log: the place it was made with was a guess. It is written together with its outbox row. An entry whose id is
 * here is known and left as it stands, whatever the text says, so giving the same texts again changes nothing. Order is
 * kept. The texts may come from anybody: what is no entry of this station is counted and left out, and nothing throws.
 *
 * @returns a failure only where the database cannot be read; what it refuses to write is counted as `waiting`.
 */
export async function takeUnsaved(
  store: StationStore,
  appender: Pick<Appender, 'append'>,
  texts: readonly string[],
): Promise<StoreResult<UnsavedTaken>> {
  const taken: UnsavedTaken = { added: 0, known: 0, waiting: 0, foreign: 0, newer: 0, unreadable: 0 };
  const met = new Set<string>();
  for (let at = 0; at < texts.length; at += CHUNK) {
    const made: MadeEntry[] = [];
    for (const text of texts.slice(at, at + CHUNK)) {
      if (text.trim() === '') continue;
      const read = textToEntry(text, store.station);
      if (typeof read === 'string') taken[read]++;
      else if (met.has(read.id)) taken.known++;
      else {
        met.add(read.id);
        made.push(read);
      }
    }
    const here = await store.run((db) =>
      db.events
        .where('id')
        .anyOf(made.map(({ id }) => id))
        .toArray(),
    );
    if (here.type !== 'done') return here;
    const known = new Set(here.value.map(({ id }) => id));
    taken.known += known.size;
    for (const result of await appender.append(made.filter(({ id }) => !known.has(id)))) {
      if (result.type === 'saved') taken.added++;
      else if (result.type === 'not-saved') taken.waiting++;
      else taken.unreadable++;
    }
  }
  return { type: 'done', value: taken };
}

function textToEntry(text: string, station: string): MadeEntry | 'foreign' | 'newer' | 'unreadable' {
  if (text.length > MAX_EVENT_TEXT) return 'unreadable';
  const read = readEvent(text);
  if (read.type === 'unreadable') return 'unreadable';
  const head = read.type === 'event' ? read.event : read.envelope;
  if (head.station !== station) return 'foreign';
  if (read.type === 'kept') return 'newer';
  if (!ID_PATTERN.test(head.id) || (head.audit !== undefined && !ID_PATTERN.test(head.audit))) return 'unreadable';
  // As it was written: the reader leaves out what it does not know.
  const { payload } = JSON.parse(text) as Envelope;
  const { id, kind, audit, author, at, zone } = head;
  return { id, kind, payload: JSON.stringify(payload), audit, author, at, zone };
}
