// Which texts continue the logs that are here: one is taken when it is the first of its log, or when the one before it
// is here and has the hash that it names. Free of order, since what does not fit waits and is looked at again when
// something is taken. Called inside a transaction that holds `events`, `forks` and `aside`; opens none.
//
// Limits: An entry that never reaches a phone keeps all later ones of its log aside there; the file of a phone that
// holds it brings it in. Of two texts under one id the first to arrive stands on each phone.
import { readLink } from '../../core/record/events.ts';
import { type AsideRow, getMeta, putMeta, type StationDb } from '../schema.ts';

/** `linked` is false for a text that names no place in a log: it is kept among the events as it came. */
export type Incoming = AsideRow & { linked: boolean };

type Sorted = {
  /** In the order of their logs, those that waited included. */
  fits: Incoming[];
  /** Of `fresh`, what does not follow from anything here. */
  waits: Incoming[];
  /** Hashes of those among `fits` that were kept aside until now. */
  released: string[];
};

/** How many are read ahead of one that is released: few at first, for what waits is mostly one run. */
const AHEAD = { first: 32, most: 2000 } as const;
const LOGS_READ_AHEAD = 8;

const placeOf = (log: string, seq: number, hash: string): string => `${seq} ${hash} ${log}`;
const own = ({ log, seq, hash }: Incoming): string => placeOf(log, seq, hash);
const before = ({ log, seq, prev }: Incoming): string => placeOf(log, seq - 1, prev ?? '');

/** @param fresh Each text once, none of them here in any table. */
export async function sortByChain(db: StationDb, fresh: readonly Incoming[]): Promise<Sorted> {
  const anyAside = (await db.aside.count()) > 0;
  const ofOwnLog = anyAside ? await continuesOwn(db) : [];
  const pool = createPool([...fresh, ...ofOwnLog]);
  const held = await heldBefore(db, pool.roots());
  const fits = pool.take(pool.all().filter((one) => isFirst(one) || held.has(before(one))));
  if (anyAside) await release(db, pool, fits);
  const given = new Set(fresh.map(({ hash }) => hash));
  return {
    fits,
    waits: pool.left().filter(({ hash }) => given.has(hash)),
    released: fits.flatMap(({ hash }) => (given.has(hash) ? [] : [hash])),
  };
}

function isFirst({ linked, seq, prev }: Incoming): boolean {
  return !linked || (seq === 0 && prev === null);
}

/** Takes what waits behind what was taken, as long as there is any, and adds it to `fits`. */
async function release(db: StationDb, pool: Pool, fits: Incoming[]): Promise<void> {
  let limit: number = AHEAD.first;
  for (let frontier = fits.filter(({ linked }) => linked); frontier.length > 0; ) {
    const places = new Set(frontier.map(own));
    const hashes = frontier.map(({ hash }) => hash);
    const behind = (await db.aside.where('prev').anyOf(hashes).toArray()).map(toIncoming);
    const next = behind.filter((row) => places.has(before(row)) && !pool.hasTaken(row.hash));
    const ahead = await readAhead(db, next, limit);
    pool.add([...next, ...ahead.rows]);
    const taken = pool.take(next);
    for (const row of taken) fits.push(row);
    limit = taken.length > ahead.rows.length / 2 ? Math.min(AHEAD.most, limit * 2) : AHEAD.first;
    frontier = taken.filter((row) => !ahead.covers(row));
  }
}

/** What waits right behind the given ones: mostly one run, which can be taken in the same step. */
async function readAhead(
  db: StationDb,
  rows: readonly Incoming[],
  limit: number,
): Promise<{ rows: Incoming[]; covers: (row: Incoming) => boolean }> {
  const lowest = new Map<string, number>();
  for (const { log, seq } of rows) lowest.set(log, Math.min(seq, lowest.get(log) ?? seq));
  const covered = new Map<string, { from: number; to: number }>();
  if (lowest.size > LOGS_READ_AHEAD) return { rows: [], covers: () => false };
  const read: Incoming[] = [];
  for (const [log, seq] of lowest) {
    const range = db.aside.where('[log+seq]').between([log, seq + 1], [log, Number.POSITIVE_INFINITY]);
    const found = await range.limit(limit).toArray();
    // The last number may have been cut off among several rows of it.
    const to = found.length < limit ? Number.POSITIVE_INFINITY : (found.at(-1)?.seq ?? 0) - 1;
    covered.set(log, { from: seq + 1, to });
    for (const row of found) read.push(toIncoming(row));
  }
  const covers = ({ log, seq }: Incoming): boolean => {
    const range = covered.get(log);
    return range !== undefined && seq + 1 >= range.from && seq + 1 <= range.to;
  };
  return { rows: read, covers };
}

/**
 * What was kept aside of the own log and may continue what this phone has written since it was last looked at: nothing
 * arrives then that would release it.
 */
async function continuesOwn(db: StationDb): Promise<Incoming[]> {
  const log = await getMeta(db, 'log');
  const head = await getMeta(db, 'head');
  const followed = (await getMeta(db, 'followed')) ?? -1;
  if (log === undefined || !head || head.seq <= followed) return [];
  await putMeta(db, 'followed', head.seq);
  const rows = await db.aside
    .where('[log+seq]')
    .between([log, followed + 1], [log, head.seq + 1], true, true)
    .toArray();
  return rows.map(toIncoming);
}

/** Places right before the given ones that are here, be it as an event, as its namesake or as a text nobody can read. */
async function heldBefore(db: StationDb, rows: readonly Incoming[]): Promise<Set<string>> {
  const wanted = rows.filter(({ linked, seq, prev }) => linked && seq > 0 && prev !== null);
  const held = new Set<string>();
  const numbers = [...new Map(wanted.map(({ log, seq }) => [`${seq} ${log}`, [log, seq - 1]])).values()];
  if (numbers.length === 0) return held;
  for (const row of await db.events.where('[log+seq]').anyOf(numbers).toArray())
    held.add(placeOf(row.log, row.seq, row.hash));
  for (const row of await db.forks.where('[log+seq]').anyOf(numbers).toArray())
    if (row.why === 'same-id-other-text') held.add(placeOf(row.log, row.seq, row.hash));
  // An earlier build kept texts that it could not read without their place.
  const left = wanted.filter((row) => !held.has(before(row))).map(({ prev }) => `unreadable-${prev}`);
  if (left.length === 0) return held;
  for (const { hash, text } of await db.events.where('id').anyOf(left).toArray()) {
    const link = readLink(text);
    if (link) held.add(placeOf(link.log, link.seq, hash));
  }
  return held;
}

function toIncoming(row: AsideRow): Incoming {
  return { ...row, linked: true };
}

type Pool = ReturnType<typeof createPool>;

/** Texts by the place that they follow, so that taking one takes all that hang on it in one pass. */
function createPool(first: readonly Incoming[]) {
  const byHash = new Map<string, Incoming>();
  const after = new Map<string, Incoming[]>();
  const taken = new Set<Incoming>();
  const add = (rows: readonly Incoming[]): void => {
    for (const row of rows) {
      if (byHash.has(row.hash)) continue;
      byHash.set(row.hash, row);
      if (!row.linked) continue;
      const list = after.get(before(row));
      if (list) list.push(row);
      else after.set(before(row), [row]);
    }
  };
  add(first);
  return {
    add,
    all: () => [...byHash.values()],
    /** Those that follow none of the others. */
    roots(): Incoming[] {
      const places = new Set([...byHash.values()].filter(({ linked }) => linked).map(own));
      return [...byHash.values()].filter((row) => !places.has(before(row)));
    },
    /** The given ones and what hangs on them, those left out that were taken before. */
    take(from: readonly Incoming[]): Incoming[] {
      const queue = from.flatMap(({ hash }) => byHash.get(hash) ?? []);
      const now: Incoming[] = [];
      for (let at = 0; at < queue.length; at++) {
        const row = queue[at]!;
        if (taken.has(row)) continue;
        taken.add(row);
        now.push(row);
        // One by one: a forger may hang more on one entry than a call takes arguments.
        if (row.linked) for (const next of after.get(own(row)) ?? []) queue.push(next);
      }
      return now;
    },
    hasTaken(hash: string): boolean {
      const row = byHash.get(hash);
      return row !== undefined && taken.has(row);
    },
    left: () => [...byHash.values()].filter((row) => !taken.has(row)),
  };
}
