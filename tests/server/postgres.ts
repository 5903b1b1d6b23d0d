// A PostgreSQL of the tests' own: a fresh cluster in a temporary folder, reached over a socket file in it, gone
// afterwards. Uses the server named by DATABASE_URL_TEST instead when there is one.
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';

export type TestPostgres = {
  /** Makes an empty database and answers with its address. */
  fresh: () => Promise<string>;
  stop: () => Promise<void>;
};

const MISSING =
  'The full test needs PostgreSQL: install it from the system packages (postgresql), or name a server in DATABASE_URL_TEST.';

export function findBinaries(): string {
  const versions = existsSync('/usr/lib/postgresql') ? readdirSync('/usr/lib/postgresql') : [];
  const folders = [
    ...versions
      .sort()
      .reverse()
      .map((version) => `/usr/lib/postgresql/${version}/bin`),
  ];
  const found = [...folders, ...(process.env.PATH ?? '').split(':')].find((folder) =>
    existsSync(join(folder, 'initdb')),
  );
  if (!found) throw new Error(MISSING);
  return found;
}

/** PostgreSQL refuses to run as root, so root lends it another user. */
export function otherUser(): { uid: number; gid: number } | Record<string, never> {
  if (process.getuid?.() !== 0) return {};
  for (const name of ['postgres', 'nobody']) {
    try {
      const [uid, gid] = ['-u', '-g'].map((which) => Number(execFileSync('id', [which, name], { stdio: 'pipe' })));
      return { uid, gid };
    } catch {
      // No such user here: the next one.
    }
  }
  throw new Error('PostgreSQL does not run as root, and there is no user "postgres" or "nobody" to run it as.');
}

export async function untilReady(binaries: string, folder: string, server: ChildProcess, port = 5432): Promise<void> {
  while (server.exitCode === null) {
    try {
      // Waits for an answer itself, up to a second.
      execFileSync(join(binaries, 'pg_isready'), ['-h', folder, '-p', String(port), '-t', '1', '-q'], {
        stdio: 'ignore',
      });
      return;
    } catch {
      await new Promise((again) => setTimeout(again, 20));
    }
  }
  throw new Error('PostgreSQL was started for the tests and has ended.');
}

export async function startPostgres(): Promise<TestPostgres> {
  const given = process.env.DATABASE_URL_TEST;
  if (given) {
    const names: string[] = [];
    const fresh = async () => {
      const url = await makeDatabase(given);
      names.push(new URL(url).pathname.slice(1));
      return url;
    };
    return { fresh, stop: async () => await dropDatabases(given, names) };
  }
  const binaries = findBinaries();
  const user = otherUser();
  // Short, because the path of a socket may have no more than about a hundred characters.
  const folder = mkdtempSync(join(tmpdir(), 'af-pg-'));
  if (user.uid !== undefined) chownSync(folder, user.uid, user.gid);
  const data = join(folder, 'data');
  const options = { ...user, cwd: folder, env: { LC_ALL: 'C.UTF-8' } };
  execFileSync(join(binaries, 'initdb'), ['-D', data, '-U', 'tests', '-A', 'trust', '-E', 'UTF8', '--no-sync'], {
    ...options,
    stdio: 'pipe',
  });
  const server = spawn(
    join(binaries, 'postgres'),
    ['-D', data, '-k', folder, '-c', 'listen_addresses=', '-c', 'fsync=off', '-c', 'max_connections=60'],
    { ...options, stdio: 'ignore' },
  );
  const gone = new Promise<void>((resolve) => server.once('exit', () => resolve()));
  const stop = async () => {
    // The fast shutdown: open sessions are ended, not waited for.
    server.kill('SIGINT');
    await gone;
    rmSync(folder, { recursive: true, force: true });
  };
  try {
    await untilReady(binaries, folder, server);
  } catch (error) {
    await stop();
    throw error;
  }
  return { fresh: () => makeDatabase(`postgres://tests@localhost/postgres?host=${folder}`), stop };
}

let made = 0;

async function makeDatabase(url: string): Promise<string> {
  made += 1;
  const name = `asfound_${process.pid}_${Date.now().toString(36)}_${made}`;
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    await client.query(`create database ${name}`);
  } finally {
    await client.end();
  }
  const address = new URL(url);
  address.pathname = `/${name}`;
  return address.href;
}

async function dropDatabases(url: string, names: string[]): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    for (const name of names) await client.query(`drop database if exists ${name} with (force)`);
  } finally {
    await client.end();
  }
}
