// When a backup is made by itself, and that a failure is said and noted. The process that makes it is a double here;
// tests/server/backupProcess.test.ts runs the real one.
import { afterEach, beforeEach, expect, test } from 'vitest';
import {
  type ChildEnd,
  readBackupSettings,
  type ScheduleParts,
  scheduleBackups,
} from '../../src/server/copy/backupSchedule.ts';
import { type Database, openDatabase } from '../../src/server/database/database.ts';
import { HandClock } from '../sync/memoryPhone.ts';

const HOUR = 3_600_000;
let db: Database;
let clock: HandClock;
let runs: { end: (end: ChildEnd) => void; stopped: boolean }[];
let said: string[];
let complained: string[];
beforeEach(async () => {
  db = await openDatabase({ type: 'sqlite', file: ':memory:' });
  clock = new HandClock();
  [runs, said, complained] = [[], [], []];
});
afterEach(async () => await db.close());

const settings = { folder: '/backups', everyMs: 24 * HOUR, keep: 3 };

function begin(): () => void {
  const run: ScheduleParts['run'] = () => {
    let end: (end: ChildEnd) => void = () => undefined;
    const ended = new Promise<ChildEnd>((done) => {
      end = done;
    });
    const one = { end, stopped: false };
    runs.push(one);
    const stop = () => {
      one.stopped = true;
    };
    return { ended, stop };
  };
  const [say, complain] = [(text: string) => void said.push(text), (text: string) => void complained.push(text)];
  return scheduleBackups({ db, settings, now: clock.now, after: clock.after, run, say, complain });
}

/** Until it waits for its next look, or has begun a backup more than before. */
async function next(): Promise<void> {
  const before = runs.length;
  if (clock.waits.length > 0) clock.skip();
  await expect.poll(() => clock.waits.length > 0 || runs.length > before, { interval: 1 }).toBe(true);
}

async function fact(value: object): Promise<void> {
  const row = { key: 'backup', value: JSON.stringify(value), at: clock.at };
  await db.query.insertInto('facts').values(row).execute();
}

async function factNow(): Promise<unknown> {
  const row = await db.query.selectFrom('facts').select('value').where('key', '=', 'backup').executeTakeFirst();
  return row ? JSON.parse(row.value) : null;
}

test('the first is due at once, the next a day after the last good one', async () => {
  begin();
  await next();
  expect(runs).toHaveLength(1);
  await fact({ at: clock.at, file: 'x', ok: true, goodAt: clock.at });
  runs[0]?.end({ status: 0, said: 'Backup written.' });
  await expect.poll(() => clock.waits.length).toBe(1);
  expect(said).toEqual(['Backup written.']);
  const made = clock.at;
  while (runs.length < 2) await next();
  expect(clock.at).toBe(made + 24 * HOUR);
  expect(complained).toEqual([]);
});

test('after a restart it waits for the rest of the day', async () => {
  await fact({ at: clock.at, file: 'x', ok: true, goodAt: clock.at - 20 * HOUR });
  const begun = clock.at;
  begin();
  while (runs.length < 1) await next();
  expect(clock.at).toBe(begun + 4 * HOUR);
});

test('one that fails is said, and is tried again within the hour, not a day later', async () => {
  begin();
  await next();
  await fact({ at: clock.at, file: 'x', ok: false, why: 'full', goodAt: clock.at - 30 * HOUR });
  runs[0]?.end({ status: 2, said: 'There is no room.' });
  await expect.poll(() => clock.waits.length).toBe(1);
  expect(complained).toEqual([expect.stringContaining('There is no room.')]);
  const failed = clock.at;
  while (runs.length < 2) await next();
  expect(clock.at).toBe(failed + HOUR);
  // What the process noted itself stands.
  expect(await factNow()).toMatchObject({ why: 'full' });
});

test('one that was killed could note nothing: the server does it', async () => {
  await fact({ at: 1, file: 'x', ok: true, goodAt: 1 });
  begin();
  await next();
  runs[0]?.end({ status: null, said: '' });
  await expect
    .poll(factNow)
    .toEqual({ at: clock.at, file: '/backups', ok: false, why: 'It ended with a signal.', goodAt: 1 });
});

test('the end of the server ends the one under way, and none is begun after it', async () => {
  const stop = begin();
  await next();
  stop();
  expect(runs[0]?.stopped).toBe(true);
  runs[0]?.end({ status: null, said: '' });
  await Promise.resolve();
  expect(clock.waits).toEqual([]);
  expect(await factNow()).toBeNull();
});

test('a database that is away for a while costs one look, not the schedule', async () => {
  const closed = await openDatabase({ type: 'sqlite', file: ':memory:' });
  await closed.close();
  const whole = db;
  db = closed;
  begin();
  await next();
  db = whole;
  expect(complained).toHaveLength(1);
  expect(clock.waits).toEqual([600_000]);
});

test('the settings are read, and those without sense are told', () => {
  expect(readBackupSettings({})).toBeNull();
  expect(readBackupSettings({ ASFOUND_BACKUP: '/b' })).toEqual({ folder: '/b', everyMs: 24 * HOUR, keep: 14 });
  expect(readBackupSettings({ ASFOUND_BACKUP: '/b', ASFOUND_BACKUP_HOURS: '0.5', ASFOUND_BACKUP_KEEP: '2' })).toEqual({
    folder: '/b',
    everyMs: HOUR / 2,
    keep: 2,
  });
  for (const [name, value] of [
    ['ASFOUND_BACKUP_HOURS', '0'],
    ['ASFOUND_BACKUP_HOURS', 'daily'],
    ['ASFOUND_BACKUP_KEEP', '0'],
    ['ASFOUND_BACKUP_KEEP', '1.5'],
  ] as const) {
    expect(() => readBackupSettings({ ASFOUND_BACKUP: '/b', [name]: value })).toThrow(name);
  }
});
