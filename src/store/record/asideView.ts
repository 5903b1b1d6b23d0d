// What arrived and does not follow, or contradicts what is here, by log, for people: whose it is, how much, and why.
// Reads alone; of what waits it reads the keys, since there may be many.
import { Dexie } from 'dexie';
import { readEvent } from '../../core/record/events.ts';
import { type ForkRow, getMeta, type StationDb } from '../schema.ts';

/** What waits right behind a hole, or beside what is here. Numbers count from 0, as in the log. */
export type AsideRun =
  /** These numbers have not arrived. */
  | { type: 'gap'; from: number; to: number; entries: number }
  /** The entry before it is here, and is another one than the one that it names. */
  | { type: 'fork'; at: number; entries: number };

export type LogTrouble = {
  log: string;
  /** It bears the log of this phone. */
  own: boolean;
  /** Who made its last entry that is here; else the name that the first one kept aside bears. */
  author: string;
  aside: number;
  /** The first few, by number. */
  runs: AsideRun[];
  /** Entries that stand among the others and contradict one, by what they do; same-id ones are only kept beside. */
  named: Partial<Record<ForkRow['why'], number>>;
};

const RUNS_SHOWN = 3;
const LOGS_SHOWN = 50;

/** For `observe` too. Logs by id, this phone's own first. */
export async function logTroubles(db: StationDb): Promise<LogTrouble[]> {
  const ownLog = await getMeta(db, 'log');
  const numbers = new Map<string, number[]>();
  for (const key of await db.aside.orderBy('[log+seq]').keys()) {
    const [log, seq] = key as unknown as [string, number];
    const list = numbers.get(log);
    if (list) list.push(seq);
    else numbers.set(log, [seq]);
  }
  const named = new Map<string, LogTrouble['named']>();
  await db.forks.each(({ log, why }) => {
    const counts = named.get(log) ?? {};
    counts[why] = (counts[why] ?? 0) + 1;
    named.set(log, counts);
  });
  const logs = [...new Set([...numbers.keys(), ...named.keys()])].sort((a, b) =>
    a === ownLog ? -1 : b === ownLog ? 1 : a < b ? -1 : 1,
  );
  const told: LogTrouble[] = [];
  for (const log of logs.slice(0, LOGS_SHOWN)) {
    const aside = numbers.get(log) ?? [];
    told.push({
      log,
      own: log === ownLog,
      author: await authorOf(db, log),
      aside: aside.length,
      runs: await runsOf(db, log, aside),
      named: named.get(log) ?? {},
    });
  }
  return told;
}

/** @param now By this phone's clock; milliseconds by which it is known to be ahead of the server's are taken off. */
export async function presentTime(db: StationDb, now: number): Promise<number> {
  const ahead = (await db.meta.get('clockAhead'))?.value;
  return typeof ahead === 'number' && Number.isFinite(ahead) ? now - ahead : now;
}

/** Every text that is kept and does not stand among the events. */
export async function textsAside(db: StationDb): Promise<string[]> {
  const aside = await db.aside.orderBy('[log+seq]').toArray();
  const namesakes = await db.forks.filter(({ why }) => why === 'same-id-other-text').toArray();
  return [...namesakes, ...aside].map(({ text }) => text);
}

/** @param numbers Ascending; one number may stand several times. */
async function runsOf(db: StationDb, log: string, numbers: readonly number[]): Promise<AsideRun[]> {
  const runs: AsideRun[] = [];
  let last = -1;
  for (const seq of numbers) {
    const run = runs.at(-1);
    const follows = run && (seq === last || seq === last + 1);
    if (follows) run.entries++;
    else if (runs.length === RUNS_SHOWN) break;
    else runs.push(await runAt(db, log, seq, runs.length === 0 ? -1 : last));
    last = seq;
  }
  return runs;
}

/** @param last Number of the one kept aside before it; -1 when none is. */
async function runAt(db: StationDb, log: string, seq: number, last: number): Promise<AsideRun> {
  const below = await db.events.where('[log+seq]').between([log, Dexie.minKey], [log, seq], true, false).last();
  const from = Math.max(below?.seq ?? -1, last) + 1;
  return from >= seq ? { type: 'fork', at: seq, entries: 1 } : { type: 'gap', from, to: seq - 1, entries: 1 };
}

async function authorOf(db: StationDb, log: string): Promise<string> {
  const range: [[string, unknown], [string, unknown]] = [
    [log, Dexie.minKey],
    [log, Dexie.maxKey],
  ];
  const last = await db.events
    .where('[log+seq]')
    .between(...range)
    .last();
  const row =
    last ??
    (await db.aside
      .where('[log+seq]')
      .between(...range)
      .first());
  const read = row && readEvent(row.text);
  if (!read || read.type === 'unreadable') return '';
  return read.type === 'event' ? read.event.author : read.envelope.author;
}
