// The steps that make and change the tables. A step that has been released is never edited; a new one is added.
import { type Kysely, type Migration, sql } from 'kysely';

/** Bytes are the one thing the two databases call by different names. */
export function migrations(dialect: 'sqlite' | 'postgresql'): Record<string, Migration> {
  const blob = dialect === 'sqlite' ? sql`blob` : sql`bytea`;
  return {
    '0001-first': {
      up: async (db: Kysely<unknown>) => {
        await db.schema
          .createTable('stations')
          .addColumn('id', 'text', (c) => c.primaryKey())
          .addColumn('name', 'text', (c) => c.notNull())
          .addColumn('next_number', 'bigint', (c) => c.notNull())
          .addColumn('history', 'text', (c) => c.notNull())
          .addColumn('made_at', 'bigint', (c) => c.notNull())
          .execute();
        await db.schema
          .createTable('phones')
          .addColumn('id', 'text', (c) => c.primaryKey())
          .addColumn('station', 'text', (c) => c.notNull().references('stations.id'))
          .addColumn('name', 'text', (c) => c.notNull())
          .addColumn('token_hash', 'text', (c) => c.notNull().unique())
          .addColumn('paired_at', 'bigint', (c) => c.notNull())
          .addColumn('seen_at', 'bigint')
          .addColumn('revoked_at', 'bigint')
          .execute();
        await db.schema
          .createTable('codes')
          .addColumn('hash', 'text', (c) => c.primaryKey())
          .addColumn('station', 'text', (c) => c.references('stations.id'))
          .addColumn('expires_at', 'bigint', (c) => c.notNull())
          .addColumn('used_at', 'bigint')
          .execute();
        await db.schema
          .createTable('events')
          .addColumn('station', 'text', (c) => c.notNull().references('stations.id'))
          .addColumn('id', 'text', (c) => c.notNull())
          .addColumn('number', 'bigint', (c) => c.notNull())
          .addColumn('hash', 'text', (c) => c.notNull())
          .addColumn('log', 'text', (c) => c.notNull())
          .addColumn('seq', 'bigint', (c) => c.notNull())
          .addColumn('text', 'text', (c) => c.notNull())
          .addColumn('received_at', 'bigint', (c) => c.notNull())
          .addPrimaryKeyConstraint('events_key', ['station', 'id'])
          .addUniqueConstraint('events_number', ['station', 'number'])
          .execute();
        await db.schema
          .createTable('set_aside')
          .addColumn('station', 'text', (c) => c.notNull().references('stations.id'))
          .addColumn('id', 'text', (c) => c.notNull())
          .addColumn('hash', 'text', (c) => c.notNull())
          .addColumn('text', 'text', (c) => c.notNull())
          .addColumn('why', 'text', (c) => c.notNull())
          .addColumn('received_at', 'bigint', (c) => c.notNull())
          .addPrimaryKeyConstraint('set_aside_key', ['station', 'id', 'hash'])
          .execute();
        await db.schema
          .createTable('documents')
          .addColumn('station', 'text', (c) => c.notNull().references('stations.id'))
          .addColumn('sha', 'text', (c) => c.notNull())
          .addColumn('bytes', 'bigint', (c) => c.notNull())
          .addColumn('mime', 'text', (c) => c.notNull())
          .addColumn('complete', 'integer', (c) => c.notNull())
          .addPrimaryKeyConstraint('documents_key', ['station', 'sha'])
          .execute();
        await db.schema
          .createTable('chunks')
          .addColumn('station', 'text', (c) => c.notNull())
          .addColumn('sha', 'text', (c) => c.notNull())
          .addColumn('n', 'integer', (c) => c.notNull())
          .addColumn('bytes', blob, (c) => c.notNull())
          .addPrimaryKeyConstraint('chunks_key', ['station', 'sha', 'n'])
          .addForeignKeyConstraint('chunks_document', ['station', 'sha'], 'documents', ['station', 'sha'])
          .execute();
      },
    },
    '0002-proof-and-company': {
      up: async (db: Kysely<unknown>) => {
        await db.schema.alterTable('documents').addColumn('number', 'bigint').execute();
        await db.schema.alterTable('documents').addColumn('received_at', 'bigint').execute();
        await db.schema.createIndex('documents_number').on('documents').columns(['station', 'number']).execute();
        await db.schema
          .alterTable('phones')
          .addColumn('keeper', 'integer', (c) => c.notNull().defaultTo(0))
          .execute();
        await db.schema.alterTable('phones').addColumn('invited_by', 'text').execute();
        await db.schema.alterTable('codes').addColumn('made_by', 'text').execute();
        // Until now every phone could remove every other; of each station the first one keeps that.
        await sql`update phones set keeper = 1 where not exists (
          select 1 from phones as other where other.station = phones.station and other.revoked_at is null
            and (other.paired_at < phones.paired_at or (other.paired_at = phones.paired_at and other.id < phones.id))
        ) and revoked_at is null`.execute(db);
        await db.schema
          .createTable('parts')
          .addColumn('station', 'text', (c) => c.notNull().references('stations.id'))
          .addColumn('sha', 'text', (c) => c.notNull())
          .addColumn('n', 'integer', (c) => c.notNull())
          .addColumn('bytes', blob, (c) => c.notNull())
          .addColumn('received_at', 'bigint', (c) => c.notNull())
          .addPrimaryKeyConstraint('parts_key', ['station', 'sha', 'n'])
          .execute();
        await db.schema
          .createTable('damaged')
          .addColumn('station', 'text', (c) => c.notNull().references('stations.id'))
          .addColumn('kind', 'text', (c) => c.notNull())
          .addColumn('id', 'text', (c) => c.notNull())
          .addColumn('found_at', 'bigint', (c) => c.notNull())
          .addPrimaryKeyConstraint('damaged_key', ['station', 'kind', 'id'])
          .execute();
        await db.schema
          .createTable('presence')
          .addColumn('station', 'text', (c) => c.notNull().references('stations.id'))
          .addColumn('phone', 'text', (c) => c.notNull())
          .addColumn('said', 'text', (c) => c.notNull())
          .addColumn('at', 'bigint', (c) => c.notNull())
          .addPrimaryKeyConstraint('presence_key', ['station', 'phone'])
          .execute();
        await db.schema
          .createTable('rates')
          .addColumn('key', 'text', (c) => c.primaryKey())
          .addColumn('level', 'double precision', (c) => c.notNull())
          .addColumn('at', 'bigint', (c) => c.notNull())
          .execute();
        await db.schema
          .createTable('facts')
          .addColumn('key', 'text', (c) => c.primaryKey())
          .addColumn('value', 'text', (c) => c.notNull())
          .addColumn('at', 'bigint', (c) => c.notNull())
          .execute();
      },
    },
    '0003-whose-parts': {
      up: async (db: Kysely<unknown>) => {
        await db.schema.alterTable('parts').addColumn('phone', 'text').execute();
        // Counted without reading the parts themselves.
        await db.schema.createIndex('parts_phone').on('parts').columns(['station', 'phone']).execute();
      },
    },
    '0004-renumbered': {
      up: async (db: Kysely<unknown>) => {
        await db.schema
          .createTable('renumbered')
          .addColumn('station', 'text', (c) => c.notNull().references('stations.id'))
          .addColumn('number', 'bigint', (c) => c.notNull())
          .addColumn('hash', 'text', (c) => c.notNull())
          .addPrimaryKeyConstraint('renumbered_key', ['station', 'number'])
          .execute();
      },
    },
  };
}
