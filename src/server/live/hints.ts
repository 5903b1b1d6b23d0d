// Hints between the processes on one PostgreSQL: that a station has news. Only ever a hint, which may be lost, late or
// wrong; whoever hears one looks for himself, and looks without one too.

import pg from 'pg';
import type { Host } from '../database/postgresHosts.ts';
import { findPrimary, urlToHosts } from '../database/postgresHosts.ts';

export type Hints = {
  tell: (station: string) => void;
  /** Stations of which another process said so. */
  listen: (heard: (station: string) => void) => void;
  close: () => void;
};

type HintParts = {
  url: string;
  /** Calls back once after that many milliseconds; the answer undoes it. */
  after: (ms: number, call: () => void) => () => void;
};

const CHANNEL = 'asfound_news';
const PATIENCE_MS = 3000;
/** Without the connection everything goes on, a little later; so there is no haste to have it back. */
const RETRY_MS = 5000;

type HintState = {
  after: (ms: number, call: () => void) => () => void;
  hosts: Host[];
  listeners: ((station: string) => void)[];
  held: { client: pg.Client; lost: () => void } | null;
  untold: Set<string>;
  telling: boolean;
  closed: boolean;
  cancelRetry: () => void;
};

/** Begins to connect at once and goes on for ever. Throws only when the address itself cannot be read. */
export function createHints({ url, after }: HintParts): Hints {
  const hints: HintState = {
    after,
    hosts: urlToHosts(url),
    listeners: [],
    held: null,
    untold: new Set<string>(),
    telling: false,
    closed: false,
    cancelRetry: () => undefined,
  };

  void connect(hints);
  return {
    tell: (station) => {
      hints.untold.add(station);
      void tellAll(hints);
    },
    listen: (heard) => void hints.listeners.push(heard),
    close: () => {
      hints.closed = true;
      hints.cancelRetry();
      const mine = hints.held;
      hints.held = null;
      void mine?.client.end().catch(() => undefined);
    },
  };
}

async function connect(hints: HintState): Promise<void> {
  const found = await findPrimary(hints.hosts, 0, PATIENCE_MS);
  if (hints.closed) return;
  if (found.type === 'none') {
    later(hints);
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
    if (hints.held?.client !== client) return;
    hints.held = null;
    void client.end().catch(() => undefined);
    later(hints);
  };
  hints.held = { client, lost };
  client.on('error', lost);
  client.on('end', lost);
  client.on('notification', ({ channel, payload, processId }) => {
    if (channel !== CHANNEL || payload === undefined || isOwn(client, processId)) return;
    for (const heard of hints.listeners) heard(payload);
  });
  try {
    await client.connect();
    await client.query(`listen ${CHANNEL}`);
  } catch {
    lost();
  }
}

function later(hints: HintState): void {
  if (!hints.closed) hints.cancelRetry = hints.after(RETRY_MS, () => void connect(hints));
}

/** One after the other; a station that has news again before its turn is told once. */
async function tellAll(hints: HintState): Promise<void> {
  if (hints.telling) return;
  hints.telling = true;
  for (const station of hints.untold) {
    hints.untold.delete(station);
    const mine = hints.held;
    await mine?.client.query('select pg_notify($1, $2)', [CHANNEL, station]).catch(mine.lost);
  }
  hints.telling = false;
}

/** The driver knows which session it is, and says so in no type. */
function isOwn(client: pg.Client, processId: number | undefined): boolean {
  return 'processID' in client && client.processID === processId;
}
