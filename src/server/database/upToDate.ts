// Brings the tables up to date, forward only, one process at a time. A database with a step that this server does not
// know is left exactly as it is.
import { type Kysely, Migrator } from 'kysely';
import { judgeFailure } from './databaseErrors.ts';
import { migrations } from './migrations.ts';
import type { Tables } from './tables.ts';

/** A sentence for the person at the server, who has to decide something. */
export class CannotOpen extends Error {
  override readonly name = 'CannotOpen';
}

const STEPS = 'kysely_migration';

/**
 * @param alone Runs the work while no other process can do the same.
 * Throws `CannotOpen`, or what the database said when it is away.
 */
export async function bringUpToDate(
  query: Kysely<Tables>,
  dialect: 'sqlite' | 'postgresql',
  alone: (work: () => Promise<void>) => Promise<void>,
): Promise<void> {
  const known = migrations(dialect);
  if (await isUpToDate(query, Object.keys(known))) return;
  await alone(async () => {
    const migrator = new Migrator({ db: query, provider: { getMigrations: async () => known } });
    // The migrator reports failure in its answer and throws nothing.
    const { error } = await migrator.migrateToLatest();
    if (!error) return;
    if (judgeFailure(error) !== 'unexpected') throw error;
    // A newer server may have been faster between the look above and the lock.
    await isUpToDate(query, Object.keys(known));
    throw new CannotOpen('The database could not be brought up to date.', { cause: error });
  });
}

/** Throws when it is further than that. */
async function isUpToDate(query: Kysely<Tables>, known: string[]): Promise<boolean> {
  const tables = await query.introspection.getTables({ withInternalKyselyTables: true });
  if (!tables.some((table) => table.name === STEPS)) return false;
  const steps = query.withTables<{ [STEPS]: { name: string } }>();
  const done = await steps.selectFrom(STEPS).select('name').orderBy('name').execute();
  const foreign = done.filter((step) => !known.includes(step.name));
  if (foreign.length === 0) return done.length === known.length;
  throw new CannotOpen(
    `The database was used by a newer server: it has the step ${foreign.map((step) => step.name).join(', ')}. ` +
      'Start that version or a newer one. Nothing was changed.',
  );
}
