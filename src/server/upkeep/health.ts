// Whether the server can do what it is there for: one real write, one real read, what is known to be damaged, how old
// scrub and backup are. Anybody may ask, so it tells no paths and asks the database at most once a second.
import * as z from 'zod/mini';
import type { Health } from '../../wire/sync.ts';
import { type Damage, listDamage } from '../database/damage.ts';
import type { Database } from '../database/database.ts';
import { type Fact, readFact, writeFact } from '../database/facts.ts';

type HealthParts = {
  db: Database;
  clock: { now: () => number };
  about: Pick<Health, 'version' | 'wire' | 'minClient'>;
  /** Bytes left where the data is; null when this server cannot see it. */
  diskFree: () => Promise<number | null>;
  /** Requests under way. */
  underWay: () => number;
  /** Told of what a probe met; the asker learns only that it failed. */
  onFailure: (error: unknown) => void;
  patienceMs?: number;
};

const FRESH_MS = 1000;
/** A probe that takes longer says as much as one that fails. */
const PATIENCE_MS = 1500;
/** Names that are told; the count is of all. */
const MOST_NAMES = 20;

type Probed = { reads: boolean; writes: boolean; damage: Damage | null; scrub: Fact | null; backup: Fact | null };
const FAILED: Probed = { reads: false, writes: false, damage: null, scrub: null, backup: null };

/** The probes of one server; each answer may be a second old. */
export function createHealth(parts: HealthParts): () => Promise<Health> {
  let last: { at: number; health: Promise<Health> } | null = null;
  let known: Probed = FAILED;
  let running = false;

  async function probeInTime(): Promise<Probed> {
    // The last one still hangs: one more would only hang beside it.
    if (running) return FAILED;
    running = true;
    const probe = probeDatabase(parts).finally(() => {
      running = false;
    });
    let timer: NodeJS.Timeout | undefined;
    const late = new Promise<Probed>((done) => {
      timer = setTimeout(() => done(FAILED), parts.patienceMs ?? PATIENCE_MS);
    });
    const probed = await Promise.race([probe, late]);
    clearTimeout(timer);
    return probed;
  }

  async function look(): Promise<Health> {
    const { db, clock, about } = parts;
    const [probed, diskFree] = await Promise.all([probeInTime(), parts.diskFree().catch(() => null)]);
    // What was damaged, scrubbed and backed up is remembered over an outage.
    if (probed.damage) known = probed;
    const { broken } = db.condition;
    const reads = probed.reads;
    const writes = probed.writes && broken === null;
    const names = (known.damage?.first ?? []).map(({ station, kind, id }) => `${kind} ${id} of station ${station}`);
    const count = (known.damage?.count ?? 0) + (broken === null ? 0 : 1);
    return {
      ...about,
      database: db.dialect,
      status: !reads || !writes ? 'failing' : count > 0 ? 'damaged' : 'ok',
      reads,
      writes,
      now: clock.now(),
      diskFree,
      waiting: db.condition.waiting(),
      requests: parts.underWay(),
      scrub: known.scrub && { at: known.scrub.at, damaged: numberOf(known.scrub, 'damaged') },
      backup: known.backup && { at: known.backup.at, ok: z.safeParse(backupFact, known.backup.value).data?.ok ?? true },
      damaged: { count, names: broken === null ? names : [`database file: ${broken}`, ...names] },
    };
  }

  return async () => {
    const now = parts.clock.now();
    // A clock that was set back must not keep an old answer for ever.
    if (!last || Math.abs(now - last.at) >= FRESH_MS) last = { at: now, health: look() };
    return await last.health;
  };
}

const backupFact = z.object({ ok: z.boolean() });

function numberOf({ value }: Fact, name: string): number {
  const found = z.safeParse(z.record(z.string(), z.unknown()), value).data?.[name];
  return typeof found === 'number' ? found : 0;
}

async function probeDatabase({ db, clock, onFailure }: HealthParts): Promise<Probed> {
  const probed: Probed = { ...FAILED };
  try {
    probed.damage = await listDamage(db, MOST_NAMES);
    probed.scrub = await readFact(db, 'scrub');
    probed.backup = await readFact(db, 'backup');
    probed.reads = true;
  } catch (error) {
    onFailure(error);
  }
  try {
    await writeFact(db, 'health', {}, clock.now());
    // What was written is read back: a write that went nowhere is none.
    probed.writes = (await readFact(db, 'health')) !== null;
  } catch (error) {
    onFailure(error);
  }
  return probed;
}
