// PostgreSQL servers of the tests' own that listen on ports of 127.0.0.1: a primary, standbys copied from it, and what
// may happen to them.
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { chownSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { findBinaries, otherUser, untilReady } from './postgres.ts';

export type Node = {
  port: number;
  /** As an administrator on this very server. */
  ask: <R extends pg.QueryResultRow>(sql: string) => Promise<R[]>;
  /** All its processes at once, as a power cut does. */
  kill: () => Promise<void>;
  /** Stopped in the middle of whatever it does; the kernel still takes connections for it. */
  freeze: () => void;
  thaw: () => void;
  promote: () => void;
  /** Starts again what was killed, as it was. */
  revive: () => Promise<Node>;
};

export type Cluster = {
  primary: () => Promise<Node>;
  /** A copy of the primary, on this port, which the primary from then on waits for before it acknowledges. */
  standby: (of: Node, port: number) => Promise<Node>;
  stop: () => Promise<void>;
};

export const DATABASE = 'asfound';

export async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((open) => server.listen(0, '127.0.0.1', open));
  const address = server.address();
  await new Promise((closed) => server.close(closed));
  if (typeof address !== 'object' || !address) throw new Error('No free port.');
  return address.port;
}

export function createCluster(): Cluster {
  const binaries = findBinaries();
  const user = otherUser();
  const folder = mkdtempSync(join(tmpdir(), 'af-ha-'));
  if (user.uid !== undefined) chownSync(folder, user.uid, user.gid);
  const options = { ...user, cwd: folder, env: { LC_ALL: 'C.UTF-8' } };
  const children: ChildProcess[] = [];
  let made = 0;

  const run = (program: string, args: string[]) =>
    execFileSync(join(binaries, program), args, { ...options, stdio: 'pipe' });
  const newData = () => {
    made += 1;
    return join(folder, `data${made}`);
  };

  async function startNode(data: string, port: number): Promise<Node> {
    const settings = ['listen_addresses=127.0.0.1', 'fsync=off', 'max_connections=40', 'wal_level=replica'];
    const child = spawn(
      join(binaries, 'postgres'),
      ['-D', data, '-k', folder, '-p', String(port), ...settings.flatMap((one) => ['-c', one])],
      { ...options, stdio: 'ignore' },
    );
    children.push(child);
    await untilReady(binaries, folder, child, port);
    const gone = new Promise<void>((done) => child.once('exit', () => done()));
    const signalAll = (signal: NodeJS.Signals) => {
      for (const pid of [child.pid, ...childrenOf(child.pid)]) if (pid) sendTo(pid, signal);
    };
    return {
      port,
      ask: async <R extends pg.QueryResultRow>(sql: string) => {
        const client = new pg.Client({ host: folder, port, user: 'tests', database: 'postgres' });
        await client.connect();
        try {
          return (await client.query<R>(sql)).rows;
        } finally {
          await client.end();
        }
      },
      kill: async () => {
        signalAll('SIGKILL');
        await gone;
      },
      freeze: () => signalAll('SIGSTOP'),
      thaw: () => signalAll('SIGCONT'),
      // Waits until it takes writes.
      promote: () => void run('pg_ctl', ['promote', '-D', data, '-w', '-t', '60']),
      revive: () => startNode(data, port),
    };
  }

  return {
    primary: async () => {
      const data = newData();
      run('initdb', ['-D', data, '-U', 'tests', '-A', 'trust', '-E', 'UTF8', '--no-sync']);
      const node = await startNode(data, await freePort());
      await node.ask(`create database ${DATABASE}`);
      return node;
    },
    standby: async (of, port) => {
      const data = newData();
      const from = ['-h', folder, '-p', String(of.port), '-U', 'tests'];
      run('pg_basebackup', [...from, '-D', data, '-R', '-X', 'stream', '--checkpoint=fast', '--no-sync']);
      const node = await startNode(data, port);
      await of.ask(`alter system set synchronous_standby_names = '*'`);
      await of.ask('select pg_reload_conf()');
      await untilSynchronous(of);
      return node;
    },
    stop: async () => {
      for (const child of children) {
        for (const pid of [child.pid, ...childrenOf(child.pid)]) if (pid) sendTo(pid, 'SIGKILL');
      }
      await Promise.all(
        children.map((child) => child.exitCode ?? child.signalCode ?? new Promise((done) => child.once('exit', done))),
      );
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Until what the primary acknowledges is with the standby. */
async function untilSynchronous(primary: Node): Promise<void> {
  for (;;) {
    const rows = await primary.ask<{ sync_state: string }>('select sync_state from pg_stat_replication');
    if (rows.some((row) => row.sync_state === 'sync')) return;
    await new Promise((next) => setTimeout(next, 20));
  }
}

function childrenOf(pid: number | undefined): number[] {
  if (pid === undefined) return [];
  try {
    const text = execFileSync('ps', ['-o', 'pid=', '--ppid', String(pid)], { stdio: 'pipe' }).toString();
    return text.split('\n').map(Number).filter(Boolean);
  } catch {
    // It has none.
    return [];
  }
}

function sendTo(pid: number, signal: NodeJS.Signals): void {
  try {
    process.kill(pid, signal);
  } catch {
    // Gone by itself meanwhile.
  }
}
