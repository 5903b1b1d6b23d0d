// The same promises on both databases.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe } from 'vitest';
import { describeServerDatabase } from '../contract/serverDatabase.ts';
import { startPostgres, type TestPostgres } from './postgres.ts';

describe('on SQLite', () => {
  const folder = mkdtempSync(join(tmpdir(), 'asfound-db-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  describeServerDatabase(async () => ({ type: 'sqlite', file: join(folder, 'made', 'asfound.db') }));
});

describe('on PostgreSQL', () => {
  let postgres: TestPostgres;
  beforeAll(async () => {
    postgres = await startPostgres();
  });
  afterAll(async () => await postgres?.stop());
  describeServerDatabase(async () => ({ type: 'postgresql', url: await postgres.fresh() }));
});
