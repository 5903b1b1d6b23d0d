// Connections to the PostgreSQL server that takes writes, whichever of the hosts that is now. In an outage whoever
// asks is refused at once; nothing may wait without an end, and no lost connection may end the process.
//
// Limits: A commit whose wait for the standby somebody cancels is answered as away, and yet may be seen there. A server
// started while a replaced primary is the only one up takes it for the primary; only a synchronous standby keeps it
// from acknowledging then.
import type { PostgresCursor, PostgresPool, PostgresPoolClient, PostgresQueryResult } from 'kysely';
import pg from 'pg';
import { DatabaseAway, failureText, judgeFailure } from './databaseErrors.ts';
import { type Found, findPrimary, type Host, urlToHosts } from './postgresHosts.ts';

export type PoolTimes = {
  connections: number;
  /** Requests that may wait for a connection; the next one is refused. */
  waiting: number;
  connectMs: number;
  /** One statement, locks included; the server itself ends it. */
  statementMs: number;
  /** When nothing came back by then, the server did not even get to ending it. */
  queryMs: number;
  /** A transaction whose process went away holds its locks no longer than this. */
  idleInTransactionMs: number;
};

export const SERVING: PoolTimes = {
  connections: 10,
  waiting: 200,
  connectMs: 3000,
  statementMs: 4000,
  queryMs: 5000,
  idleInTransactionMs: 20_000,
};

export type PoolNews = { type: 'away'; why: string } | { type: 'back'; host: string; awayMs: number | null };
type HostedPool = PostgresPool & {
  /** Requests that wait for a connection now. */
  waiting: () => number;
};

const INT8 = 20;
const RETRY_FIRST_MS = 250;
const RETRY_MOST_MS = 2000;
const GOODBYE_MS = 2000;

type Held = { host: Host; timeline: number; pool: pg.Pool };

type Hosted = {
  times: PoolTimes;
  now: () => number;
  onNews: (news: PoolNews) => void;
  hosts: Host[];
  lent: Set<Lent>;
  held: Held | null;
  searching: Promise<void> | null;
  away: { why: DatabaseAway; since: number; retryMs: number; timer: NodeJS.Timeout } | null;
  /** Timelines only grow: a primary of an earlier one was replaced while it was out of reach. */
  timeline: number;
  waiting: number;
  ended: boolean;
};

/** Connects only when first asked. `now` in ms, for the news alone. */
export function createHostedPool(
  url: string,
  times: PoolTimes,
  now: () => number,
  onNews: (news: PoolNews) => void = () => undefined,
): HostedPool {
  const hosted: Hosted = {
    times,
    now,
    onNews,
    hosts: urlToHosts(url),
    lent: new Set<Lent>(),
    held: null,
    searching: null,
    away: null,
    timeline: 0,
    waiting: 0,
    ended: false,
  };

  return {
    waiting: () => hosted.waiting,
    connect: () => connect(hosted),
    end: () => end(hosted),
  };
}

function drop(hosted: Hosted): void {
  const pool = hosted.held?.pool;
  hosted.held = null;
  for (const one of hosted.lent) if (one.pool === pool) one.cut();
  void pool?.end().catch(() => undefined);
}

function take(hosted: Hosted, found: Extract<Found, { type: 'primary' }>): void {
  const same = hosted.held?.host === found.host && hosted.held.timeline === found.timeline;
  if (!same) {
    const before = hosted.held;
    drop(hosted);
    hosted.held = { host: found.host, timeline: found.timeline, pool: openPool(found.host, hosted.times) };
    if (before || hosted.away)
      hosted.onNews({
        type: 'back',
        host: found.host.name,
        awayMs: hosted.away ? hosted.now() - hosted.away.since : null,
      });
  }
  hosted.timeline = Math.max(hosted.timeline, found.timeline);
  if (hosted.away) clearTimeout(hosted.away.timer);
  hosted.away = null;
}

function lose(hosted: Hosted, { why, causes }: Extract<Found, { type: 'none' }>): void {
  drop(hosted);
  if (!hosted.away) hosted.onNews({ type: 'away', why });
  // The one that is no mere absence says most: a wrong password, a database that is not there.
  const cause = causes.find((one) => one instanceof Error && judgeFailure(one) === 'unexpected') ?? causes[0];
  const retryMs = hosted.away ? Math.min(hosted.away.retryMs * 2, RETRY_MOST_MS) : RETRY_FIRST_MS;
  const timer = setTimeout(() => void search(hosted), retryMs).unref();
  hosted.away = { why: new DatabaseAway(why, 5, cause), since: hosted.away?.since ?? hosted.now(), retryMs, timer };
}

/** One at a time, whoever asks for it. */
function search(hosted: Hosted): Promise<void> {
  hosted.searching ??= (async () => {
    const found = await findPrimary(hosted.hosts, hosted.timeline, hosted.times.connectMs);
    hosted.searching = null;
    if (hosted.ended) return;
    if (found.type === 'primary') take(hosted, found);
    else lose(hosted, found);
  })();
  return hosted.searching;
}

async function connectOnce(hosted: Hosted): Promise<Lent> {
  if (hosted.searching || !hosted.held) await search(hosted);
  if (!hosted.held) throw hosted.away?.why ?? new DatabaseAway('The database is being closed.', 5);
  const { pool } = hosted.held;
  try {
    const one = new Lent(await pool.connect(), pool, {
      lost: () => void search(hosted),
      back: () => hosted.lent.delete(one),
    });
    hosted.lent.add(one);
    if (hosted.held?.pool === pool) return one;
    one.release(true);
    throw new DatabaseAway('The primary has changed meanwhile.', 1);
  } catch (error) {
    if (error instanceof DatabaseAway && hosted.held?.pool !== pool) throw error;
    const judged = judgeFailure(error);
    if (judged === 'gone') void search(hosted);
    if (judged === 'unexpected') throw error;
    throw new DatabaseAway(failureText(error), 2, error);
  }
}

async function connect(hosted: Hosted): Promise<Lent> {
  if (hosted.away) throw new DatabaseAway(hosted.away.why.message, hosted.away.why.retrySeconds, hosted.away.why.cause);
  if (hosted.waiting >= hosted.times.waiting)
    throw new DatabaseAway(`${hosted.waiting} requests wait for the database already.`, 2);
  hosted.waiting += 1;
  try {
    return await connectOnce(hosted);
  } finally {
    hosted.waiting -= 1;
  }
}

async function end(hosted: Hosted): Promise<void> {
  hosted.ended = true;
  if (hosted.away) clearTimeout(hosted.away.timer);
  // Statements under way get their answer, but a server that says nothing does not hold the end up.
  const cut = setTimeout(() => {
    for (const one of hosted.lent) one.cut();
  }, GOODBYE_MS);
  await hosted.held?.pool.end();
  clearTimeout(cut);
}

function openPool(host: Host, times: PoolTimes): pg.Pool {
  const pool = new pg.Pool({
    connectionString: host.url,
    max: times.connections,
    connectionTimeoutMillis: times.connectMs,
    statement_timeout: times.statementMs,
    query_timeout: times.queryMs,
    idle_in_transaction_session_timeout: times.idleInTransactionMs,
    keepAlive: true,
    keepAliveInitialDelayMillis: 10_000,
    types: {
      // All our whole numbers are below 2^53; the driver would hand them over as strings.
      getTypeParser: (oid, format) =>
        oid === INT8 && format !== 'binary' ? (text: string) => Number(text) : pg.types.getTypeParser(oid, format),
    },
    // A host can have become a standby since it was found.
    verify: (client, done) => {
      client.query<{ standby: boolean }>('select pg_is_in_recovery() as standby').then(
        ({ rows }) => done(rows[0]?.standby === false ? undefined : new DatabaseAway(`${host.name} is a standby.`, 2)),
        (error: Error) => done(error),
      );
    },
  });
  // A connection may die at any moment of its life, lent or idle; whoever uses it hears so from its statement. Without
  // a listener the news would end the process.
  pool.on('connect', (client) => client.on('error', () => undefined));
  pool.on('error', () => undefined);
  return pool;
}

/** SQLSTATE of a warning that has no number of its own. */
const PLAIN_WARNING = '01000';

type Heard = { lost: () => void; back: () => void };

/** One connection while somebody has it. After its first failure of the way it is used for nothing more. */
class Lent implements PostgresPoolClient {
  readonly pool: pg.Pool;
  readonly #client: pg.PoolClient;
  readonly #heard: Heard;
  #failed: DatabaseAway | null = null;
  #doubt = false;
  readonly #onNotice = (notice: { severity?: string | undefined; code?: string | undefined }) => {
    this.#doubt ||= notice.severity === 'WARNING' && notice.code === PLAIN_WARNING;
  };

  constructor(client: pg.PoolClient, pool: pg.Pool, heard: Heard) {
    this.#client = client;
    this.pool = pool;
    this.#heard = heard;
    client.on('notice', this.#onNotice);
  }

  query<R>(sql: string, parameters: readonly unknown[]): Promise<PostgresQueryResult<R>>;
  query<R>(cursor: PostgresCursor<R>): PostgresCursor<R>;
  query<R>(
    asked: string | PostgresCursor<R>,
    parameters: readonly unknown[] = [],
  ): Promise<PostgresQueryResult<R>> | PostgresCursor<R> {
    if (typeof asked !== 'string') throw new Error('Cursors are not used here.');
    return this.#ask<R>(asked, parameters);
  }

  async #ask<R>(sql: string, parameters: readonly unknown[]): Promise<PostgresQueryResult<R>> {
    // Of a transaction whose connection is lost, the roll-back would otherwise be what is told.
    if (this.#failed) throw this.#failed;
    this.#doubt = false;
    try {
      const result = await this.#client.query(sql, [...parameters]);
      // A cancelled wait for the synchronous standby ends in a commit with a warning; what the standby does not have
      // yet may not be acknowledged.
      if (this.#doubt) throw this.#fail('The standby has not confirmed what was written.', null);
      return result as PostgresQueryResult<R>;
    } catch (error) {
      if (this.#failed) throw this.#failed;
      const judged = judgeFailure(error);
      if (judged === 'busy') throw new DatabaseAway(failureText(error), 2, error);
      if (judged !== 'gone') throw error;
      this.#heard.lost();
      throw this.#fail(failureText(error), error);
    }
  }

  #fail(why: string, cause: unknown): DatabaseAway {
    this.#failed = new DatabaseAway(why, 2, cause);
    return this.#failed;
  }

  /** Ends what is under way on it; its statement fails. */
  cut(): void {
    this.#client.connection.stream.destroy();
  }

  release(destroy = false): void {
    this.#heard.back();
    this.#client.removeListener('notice', this.#onNotice);
    this.#client.release(destroy || this.#failed !== null);
  }
}
