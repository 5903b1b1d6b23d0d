// The shipped server as a process that is killed, backed up, put back and damaged while phones talk to it. Owns its
// folder; never touches what phones hold.
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { type Database, type DatabaseAddress, openDatabase } from '../../src/server/database/database.ts';
import type { StationName } from '../../src/wire/sync.ts';
import { printedCode, runServer, type ServerProcess, startServer } from '../server/process.ts';

export type FaultServer = {
  port: () => number;
  /** A code for the station; without one there yet, for a new one. */
  code: () => Promise<string>;
  /** SIGKILL and a new start; with `between`, something is done to the database while nobody serves it. */
  kill: (between?: (db: Database) => Promise<void>) => Promise<void>;
  /** While it runs. */
  backup: () => Promise<void>;
  /** Back to the newest backup, or the one before. False when there is none. */
  restore: (newest: boolean) => Promise<boolean>;
  /** Its database, after it was ended for good. */
  end: () => Promise<Database>;
  /** Whatever state it is in. */
  stop: () => Promise<void>;
};

export type ServerParts = {
  /** The bundle of tests/server/process.ts. */
  file: string;
  folder: string;
  /** A new empty database each time; null puts it on SQLite. */
  freshPostgres: (() => Promise<string>) | null;
  staticRoot?: string;
};

export async function startFaultServer({ file, folder, freshPostgres, staticRoot }: ServerParts): Promise<FaultServer> {
  let url = (await freshPostgres?.()) ?? null;
  let generation = 1;
  let backups = 0;
  const dataOf = () => join(folder, `data-${generation}`);
  const env = (): Record<string, string> => ({
    ASFOUND_DATA: dataOf(),
    ...(url === null ? {} : { DATABASE_URL: url }),
    ...(staticRoot === undefined ? {} : { ASFOUND_STATIC: staticRoot }),
  });
  const address = (): DatabaseAddress =>
    url === null ? { type: 'sqlite', file: join(dataOf(), 'asfound.db') } : { type: 'postgresql', url };
  mkdirSync(folder, { recursive: true });
  let running: ServerProcess = await startServer(file, { PORT: '0', ...env() });
  const { port } = running;
  /** The code that was printed at the start is good for the first phone. */
  let printed: string | null = running.code;

  /** Only one at a time may end it and start it. */
  let turn: Promise<unknown> = Promise.resolve();
  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const mine = turn.then(work);
    turn = mine.catch(() => undefined);
    return mine;
  }

  async function start(): Promise<void> {
    running = await startServer(file, { PORT: String(port), ...env() });
  }

  return {
    port: () => port,
    code: () =>
      inTurn(async () => {
        const first = printed;
        printed = null;
        if (first !== null) return first;
        const ended = await runServer(file, ['--pair'], env());
        if (ended.status !== 0) throw new Error(ended.output);
        return printedCode(ended.output);
      }),
    kill: (between) =>
      inTurn(async () => {
        await running.kill('SIGKILL');
        if (between) {
          const db = await openDatabase(address());
          await between(db).finally(() => db.close());
        }
        await start();
      }),
    backup: () =>
      inTurn(async () => {
        const ended = await runServer(file, ['--backup', join(folder, `backup-${backups + 1}.db`)], env());
        // 1: made, and something in it is damaged, as it may be here.
        if (ended.status !== 0 && ended.status !== 1) throw new Error(ended.output);
        backups += 1;
      }),
    restore: (newest) =>
      inTurn(async () => {
        const from = newest ? backups : Math.max(1, backups - 1);
        if (backups === 0) return false;
        await running.kill('SIGKILL');
        const before = dataOf();
        generation += 1;
        url = (await freshPostgres?.()) ?? null;
        const ended = await runServer(file, ['--restore', join(folder, `backup-${from}.db`)], env());
        if (ended.status !== 0 && ended.status !== 1) throw new Error(ended.output);
        rmSync(before, { recursive: true, force: true });
        await start();
        return true;
      }),
    end: () =>
      inTurn(async () => {
        await running.kill('SIGTERM');
        return await openDatabase(address());
      }),
    stop: () => inTurn(async () => void (await running.kill('SIGKILL'))),
  };
}

export type Holding = {
  /** Exact texts by id, with how often. */
  events: Map<string, string[]>;
  /** Hashes of documents whose bytes are what the hash says. */
  documents: Map<string, string[]>;
};

export const NOTHING_HELD = (): Holding => ({ events: new Map(), documents: new Map() });

/** All that a server holds of the station, each document read whole. */
export async function heldByServer(
  db: Database,
  station: StationName,
  hash: (bytes: Uint8Array) => string,
): Promise<Holding> {
  const held = NOTHING_HELD();
  const events = await db.query
    .selectFrom('events')
    .select(['id', 'text', 'hash'])
    .where('station', '=', station.id)
    .execute();
  for (const { id, text, hash: named } of events) {
    // A text under the hash of another one is handed to nobody.
    const whole = hash(Buffer.from(text)) === named ? text : `${text} (under another hash)`;
    held.events.set(id, [...(held.events.get(id) ?? []), whole]);
  }
  const heads = await db.query
    .selectFrom('documents')
    .select('sha')
    .where('station', '=', station.id)
    .where('complete', '=', 1)
    .execute();
  for (const { sha } of heads) {
    const chunks = await db.query
      .selectFrom('chunks')
      .select('bytes')
      .where('station', '=', station.id)
      .where('sha', '=', sha)
      .orderBy('n')
      .execute();
    const found = hash(Buffer.concat(chunks.map((chunk) => chunk.bytes)));
    held.documents.set(sha, [...(held.documents.get(sha) ?? []), found]);
  }
  return held;
}
