// Backups of a server process in use: everything acknowledged before one began is in it, whatever phones push while it
// runs; a disk that fills up and a restore beside it; and the schedule with its own child process.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import SqliteConnection from 'better-sqlite3';
import { afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import { ENGINES, fill, newFolder, opened, postgres, useDatabases } from './backupHelp.ts';
import { eventText, STATION, sha } from './help.ts';
import { bundleServer, runServer, type ServerProcess, startServer } from './process.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });
useDatabases();

let file: string;
let running: ServerProcess[] = [];
beforeAll(async () => {
  file = await bundleServer('backup');
});
afterEach(async () => {
  for (const server of running) if (server.child.exitCode === null) await server.kill('SIGKILL');
  running = [];
});

async function started(env: Record<string, string>): Promise<ServerProcess> {
  const server = await startServer(file, { PORT: '0', ...env });
  running.push(server);
  return server;
}

type Phone = { push: (ids: string[]) => Promise<void>; put: (bytes: Uint8Array<ArrayBuffer>) => Promise<void> };

async function pairedPhone({ port, code }: ServerProcess): Promise<Phone> {
  const origin = `http://127.0.0.1:${port}`;
  const wire = { 'asfound-wire': '1', 'content-type': 'application/json' };
  const body = JSON.stringify({ code, phone: 'Phone', station: STATION });
  const paired = await fetch(`${origin}/api/pair`, { method: 'POST', headers: wire, body });
  const { token } = (await paired.json()) as { token: string };
  const headers = { ...wire, authorization: `Bearer ${token}` };
  const must = async (asked: Promise<Response>) => {
    const answer = await asked;
    if (!answer.ok) throw new Error(`${answer.status}: ${await answer.text()}`);
    await answer.arrayBuffer();
  };
  return {
    push: (ids) => {
      const texts = ids.map((id) => eventText(id, { log: `log-${id}`, seq: 0 }));
      return must(fetch(`${origin}/api/events`, { method: 'POST', headers, body: JSON.stringify({ texts }) }));
    },
    put: (bytes) => {
      const of = { ...headers, 'content-type': 'application/octet-stream' };
      return must(fetch(`${origin}/api/documents/${sha(bytes)}`, { method: 'PUT', headers: of, body: bytes }));
    },
  };
}

function readCopy(copied: string) {
  const copy = new SqliteConnection(copied, { readonly: true });
  const numbers = copy
    .prepare<[], { n: number }>(
      'select number as n from events union all select number from documents where number is not null order by 1',
    )
    .all();
  const held = {
    ids: new Set(
      copy
        .prepare<[], { id: string }>('select id from events')
        .all()
        .map((row) => row.id),
    ),
    documents: new Set(
      copy
        .prepare<[], { sha: string }>('select sha from documents')
        .all()
        .map((row) => row.sha),
    ),
    numbers: numbers.map((row) => row.n),
    next: copy.prepare<[], { n: number }>('select next_number as n from stations').get()?.n ?? 0,
  };
  copy.close();
  return held;
}

describe.each(ENGINES)('on %s', (engine) => {
  test('while phones push, each backup is consistent and holds all that was acknowledged before it began', async () => {
    const folder = newFolder();
    const env = {
      ASFOUND_DATA: join(folder, 'data'),
      ...(engine === 'postgresql' ? { DATABASE_URL: await postgres.fresh() } : {}),
    };
    const server = await started(env);
    const phone = await pairedPhone(server);
    const acknowledged = { events: new Set<string>(), documents: new Set<string>() };
    let pushing = true;
    let made = 0;
    const pushers = Array.from({ length: 3 }, async (_, which) => {
      while (pushing) {
        made += 1;
        const ids = Array.from({ length: 20 }, (_each, i) => `e${made}-${i}`);
        if (which > 0) {
          await phone.push(ids);
          for (const id of ids) acknowledged.events.add(id);
        } else {
          const bytes = new Uint8Array(60_000).fill(made % 251).map((byte, i) => (byte + i + made) % 256);
          await phone.put(bytes);
          acknowledged.documents.add(sha(bytes));
        }
      }
    });
    let during = 0;
    for (let n = 1; n <= 3; n += 1) {
      const before = { events: [...acknowledged.events], documents: [...acknowledged.documents] };
      const to = join(folder, `backup-${n}.db`);
      const ended = await runServer(file, ['--backup', to], env);
      expect([ended.status, ended.output]).toEqual([0, expect.stringContaining('Every text and every document')]);
      during += acknowledged.events.size - before.events.length;
      const held = readCopy(to);
      expect(before.events.filter((id) => !held.ids.has(id))).toEqual([]);
      expect(before.documents.filter((name) => !held.documents.has(name))).toEqual([]);
      // No gap and nothing twice: a number is in the copy with everything below it.
      expect(held.numbers).toEqual(held.numbers.map((_, i) => i + (held.numbers[0] ?? 1)));
      expect(held.numbers[0]).toBe(1);
      expect(held.next).toBe(held.numbers.length + 1);
    }
    pushing = false;
    await Promise.all(pushers);
    // They did not stand still meanwhile.
    expect(during).toBeGreaterThan(60);
    expect(await server.kill('SIGTERM')).toBe(0);
  });
});

/** A process whose files may not grow beyond so many blocks of 512 bytes: what a full disk does to it. */
function onFullDisk(blocks: number, args: string[], env: Record<string, string>) {
  const command = `ulimit -f ${blocks}; exec "$0" "$@"`;
  const ended = spawnSync('/bin/sh', ['-c', command, process.execPath, file, ...args], {
    env: { PATH: process.env.PATH ?? '', ...env },
    encoding: 'utf8',
  });
  return { status: ended.status, out: ended.stdout, err: ended.stderr };
}

test('on a full disk neither a backup nor a restore leaves half of anything behind', async () => {
  const folder = newFolder();
  const env = { ASFOUND_DATA: join(folder, 'data') };
  const db = await opened({ type: 'sqlite', file: join(folder, 'data', 'asfound.db') });
  await fill(db);
  await db.close();
  const to = join(folder, 'kept.db');
  const full = onFullDisk(2000, ['--backup', to], env);
  expect([full.status, full.out]).toEqual([2, '']);
  expect(full.err).toContain('could not be written to the end');
  expect(readdirSync(folder)).toEqual(['data']);
  expect((await runServer(file, ['--backup', to], env)).status).toBe(0);
  const target = { ASFOUND_DATA: join(folder, 'other', 'data') };
  const restored = onFullDisk(2000, ['--restore', to], target);
  expect([restored.status, restored.out]).toEqual([2, '']);
  expect(restored.err).toContain('There is no room');
  expect(readdirSync(folder).sort()).toEqual(['data', 'kept.db']);
  expect((await runServer(file, ['--restore', to], target)).status).toBe(0);
});

test('the schedule makes one by itself in the folder named, and says when it cannot', async () => {
  const folder = newFolder();
  const env = {
    ASFOUND_DATA: join(folder, 'data'),
    ASFOUND_BACKUP: join(folder, 'kept'),
    ASFOUND_BACKUP_FIRST_MS: '1',
  };
  const server = await started(env);
  await expect.poll(() => server.output(), { timeout: 60_000 }).toContain('Backup written');
  expect(readdirSync(join(folder, 'kept'))).toEqual([expect.stringMatching(/^asfound-\d{8}-\d{6}\.db$/)]);
  expect(await server.kill('SIGTERM')).toBe(0);
  const other = newFolder();
  mkdirSync(join(other, 'kept'));
  writeFileSync(join(other, 'kept', 'file'), '');
  const blocked = { ...env, ASFOUND_DATA: join(other, 'data'), ASFOUND_BACKUP: join(other, 'kept', 'file') };
  const second = await started(blocked);
  await expect.poll(() => second.output(), { timeout: 60_000 }).toContain('failed or is not whole');
  expect(existsSync(join(other, 'kept', 'file'))).toBe(true);
  expect(await second.kill('SIGTERM')).toBe(0);
});
