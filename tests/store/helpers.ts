// What the storage tests share: a fresh station per test, a clock that stands still, ids that count up.
import { vi } from 'vitest';
import { type Commands, createCommands } from '../../src/store/commands.ts';
import { type OpenOptions, openStation, type StationStore } from '../../src/store/database.ts';
import { createDrafts, type Drafts } from '../../src/store/drafts.ts';
import { textToHash } from '../../src/store/hash.ts';
import { createPageLocks } from '../../src/store/locks.ts';
import type { Copies } from '../../src/store/record/copies.ts';
import type { StationDb } from '../../src/store/schema.ts';

// A busy machine is slow at a few hundred databases; a test that hangs still ends.
vi.setConfig({ testTimeout: 30_000 });

let counter = 0;
export const freshStation = (): string => `test-${process.pid}-${++counter}`;

export async function openOrFail(station: string, options: Partial<OpenOptions> = {}): Promise<StationStore> {
  const opened = await openStation({ station, ...options });
  if (opened.type !== 'done') throw new Error(`not opened: ${opened.type}`);
  return opened.value;
}

type Timers = { after: (ms: number, call: () => void) => () => void; fire: () => void };

export function handTimers(): Timers {
  const calls = new Set<() => void>();
  return {
    after: (_ms, call) => {
      calls.add(call);
      return () => calls.delete(call);
    },
    fire: () => {
      for (const call of [...calls]) call();
    },
  };
}

/** Different locks per page stand for a browser without Web Locks; a shared one for a browser with them. */
export function commandsOf(
  store: StationStore,
  name = 'p',
  lock = createPageLocks(),
  timers = handTimers(),
  copies?: Copies,
): Commands {
  let id = 0;
  return createCommands({
    store,
    author: () => 'Mara Field',
    now: () => 1_700_000_000_000 + id,
    zone: () => 60,
    newId: () => `${name}-${++id}`,
    lock,
    after: timers.after,
    ...(copies ? { copies } : {}),
  });
}

let asides = 0;
export const draftsOf = (store: StationStore): Drafts =>
  createDrafts(
    store,
    () => 1_700_000_000_000,
    () => `aside-${++asides}`,
  );

export async function look<T>(store: StationStore, operation: (db: StationDb) => PromiseLike<T>): Promise<T> {
  const ran = await store.run(operation);
  if (ran.type !== 'done') throw new Error(`failed: ${ran.type}`);
  return ran.value;
}

export const note = (text: string) => ({ text });

export function eventText(
  station: string,
  id: string,
  log: string,
  seq: number,
  text = 'x',
  prev: string | null = null,
): string {
  return JSON.stringify({
    v: 1,
    id,
    station,
    log,
    seq,
    prev,
    author: 'Ivo Rand',
    at: 1_700_000_000_000 + seq,
    zone: 0,
    kind: 'note',
    payload: { text },
  });
}

/** The first texts of a log, each with the hash of the one before. */
export async function logTexts(station: string, log: string, count: number): Promise<string[]> {
  const texts: string[] = [];
  let prev: string | null = null;
  for (let seq = 0; seq < count; seq++) {
    const text = eventText(station, `${log}-${seq}`, log, seq, 'x', prev);
    texts.push(text);
    prev = await textToHash(text);
  }
  return texts;
}

/** For what arrives by a message: a busy machine may take its time. */
export const SLOW = { timeout: 30_000 };
