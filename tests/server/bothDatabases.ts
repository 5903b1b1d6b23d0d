// Runs the same tests on both databases. Each time they ask, they get the address of one that is new.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe } from 'vitest';
import type { DatabaseAddress } from '../../src/server/database/database.ts';
import { startPostgres, type TestPostgres } from './postgres.ts';

export function onBothDatabases(tests: (fresh: () => Promise<DatabaseAddress>) => void): void {
  describe('on SQLite', () => {
    const folder = mkdtempSync(join(tmpdir(), 'asfound-both-'));
    let made = 0;
    afterAll(() => rmSync(folder, { recursive: true }));
    tests(async () => {
      made += 1;
      // In a folder that the server has to make.
      return { type: 'sqlite', file: join(folder, String(made), 'asfound.db') };
    });
  });

  describe('on PostgreSQL', () => {
    let postgres: TestPostgres;
    beforeAll(async () => {
      postgres = await startPostgres();
    });
    afterAll(async () => await postgres?.stop());
    tests(async () => ({ type: 'postgresql', url: await postgres.fresh() }));
  });
}
