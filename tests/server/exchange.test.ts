// What the exchange promises, on both databases.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe } from 'vitest';
import { describeServerDamage } from '../contract/serverDamage.ts';
import { describeServerExchange } from '../contract/serverExchange.ts';
import { startPostgres, type TestPostgres } from './postgres.ts';

describe('on SQLite', () => {
  const folder = mkdtempSync(join(tmpdir(), 'asfound-exchange-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  describeServerExchange(async () => ({ type: 'sqlite', file: join(folder, 'asfound.db') }));
  describeServerDamage(async () => ({ type: 'sqlite', file: join(folder, 'damaged.db') }));
});

describe('on PostgreSQL', () => {
  let postgres: TestPostgres;
  beforeAll(async () => {
    postgres = await startPostgres();
  });
  afterAll(async () => await postgres?.stop());
  describeServerExchange(async () => ({ type: 'postgresql', url: await postgres.fresh() }));
  describeServerDamage(async () => ({ type: 'postgresql', url: await postgres.fresh() }));
});
