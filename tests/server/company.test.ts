// The same company on both databases, one process or several.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe } from 'vitest';
import { describeServerCompany } from '../contract/serverCompany.ts';
import { startPostgres, type TestPostgres } from './postgres.ts';

describe('on SQLite', () => {
  const folder = mkdtempSync(join(tmpdir(), 'asfound-company-'));
  let made = 0;
  afterAll(() => rmSync(folder, { recursive: true }));
  describeServerCompany(async () => {
    made += 1;
    return { type: 'sqlite', file: join(folder, `${made}.db`) };
  });
});

describe('on PostgreSQL', () => {
  let postgres: TestPostgres;
  beforeAll(async () => {
    postgres = await startPostgres();
  });
  afterAll(async () => await postgres?.stop());
  describeServerCompany(async () => ({ type: 'postgresql', url: await postgres.fresh() }));
});
