// Hints between the processes on one PostgreSQL: that a station has news. Only ever a hint, which may be lost, late or
// wrong; whoever hears one looks for himself, and looks without one too.
import pg from 'pg';
import { findPrimary, urlToHosts } from '../database/postgresHosts.ts';

export type Hints = {
  tell: (station: string) => void;
  /** Stations of which another process said so. */
  listen: (heard: (station: string) => void) => void;
  close: () => void;
};

export type HintParts = {
  url: string;
  /** Calls back once after that many milliseconds; the answer undoes it. */
  after: (ms: number, call: () => void) => () => void;
};

const CHANNEL = 'asfound_news';
const PATIENCE_MS = 3000;
/** Without the connection everything goes on, a little later; so there is no haste to have it back. */
const RETRY_MS = 5000;

/** Begins to connect at once and goes on for ever. Throws only when the address itself cannot be read. */
export function createHints({ url, after }: HintParts): Hints {
  const hosts = urlToHosts(url);
  const listeners: ((station: string) => void)[] = [];
  let held: { client: pg.Client; lost: () => void } | null = null;
  const untold = new Set<string>();
  let telling = false;
  let closed = false;
  let cancelRetry: () => void = () => undefined;

  async function connect(): Promise<void> {
    const found = await findPrimary(hosts, 0, PATIENCE_MS);
    if (closed) return;
    if (found.type === 'none') {
      later();
      return;
    }
    const client = new pg.Client({
      connectionString: found.host.url,
      connectionTimeoutMillis: PATIENCE_MS,
      query_timeout: PATIENCE_MS,
      keepAlive: true,
      keepAliveInitialDelayMillis: 10_000,
    });
    const lost = () => {
      if (held?.client !== client) return;
      held = null;
      void client.end().catch(() => undefined);
      later();
    };
    held = { client, lost };
    client.on('error', lost);
    client.on('end', lost);
    client.on('notification', ({ channel, payload, processId }) => {
      if (channel !== CHANNEL || payload === undefined || isOwn(client, processId)) return;
      for (const heard of listeners) heard(payload);
    });
    try {
      await client.connect();
      await client.query(`listen ${CHANNEL}`);
    } catch {
      lost();
    }
  }

  function later(): void {
    if (!closed) cancelRetry = after(RETRY_MS, () => void connect());
  }

  /** One after the other; a station that has news again before its turn is told once. */
  async function tellAll(): Promise<void> {
    if (telling) return;
    telling = true;
    for (const station of untold) {
      untold.delete(station);
      const mine = held;
      await mine?.client.query('select pg_notify($1, $2)', [CHANNEL, station]).catch(mine.lost);
    }
    telling = false;
  }

  void connect();
  return {
    tell: (station) => {
      untold.add(station);
      void tellAll();
    },
    listen: (heard) => void listeners.push(heard),
    close: () => {
      closed = true;
      cancelRetry();
      const mine = held;
      held = null;
      void mine?.client.end().catch(() => undefined);
    },
  };
}

/** The driver knows which session it is, and says so in no type. */
function isOwn(client: pg.Client, processId: number | undefined): boolean {
  return 'processID' in client && client.processID === processId;
}
