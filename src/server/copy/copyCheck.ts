// What a copy of the database holds, and whether it is what its hashes say: every text, every document, every number.
// Reads a SQLite file from one end to the other without a pause, so it must never run in a process that serves phones.
import { createHash } from 'node:crypto';
import type SqliteConnection from 'better-sqlite3';
import type { Tables } from '../database/tables.ts';
import { textToHash } from '../hash.ts';

export type CopyStation = {
  id: string;
  name: string;
  events: number;
  documents: number;
  /** Of the documents. */
  bytes: number;
  /** Those that were not removed. */
  phones: number;
  nextNumber: number;
};

type CopyDamage = Pick<Tables['damaged'], 'station' | 'kind' | 'id'>;

export type CopyCheck = {
  stations: CopyStation[];
  /** Texts and documents that are not what their hash says. */
  damaged: CopyDamage[];
  /** In words: pages that cannot be read, numbers that contradict each other. */
  broken: string[];
};

/** Whether everything is as it was written. */
export function isWhole({ damaged, broken }: CopyCheck): boolean {
  return damaged.length === 0 && broken.length === 0;
}

type Sqlite = SqliteConnection.Database;

export function checkCopy(copy: Sqlite): CopyCheck {
  const broken: string[] = [];
  /** A page that cannot be read costs what stands on it, and not the rest of the check. */
  const reading = <T>(what: string, otherwise: T, read: () => T): T => {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && /^SQLITE_(?:CORRUPT|IOERR)/.test(String(error.code))))
        throw error;
      broken.push(`${what} cannot be read to the end: ${error.message}.`);
      return otherwise;
    }
  };
  reading('The database', undefined, () => {
    for (const row of copy.prepare<[], { quick_check: string }>('pragma quick_check(5)').all()) {
      if (row.quick_check !== 'ok') broken.push(`The file itself is damaged: ${row.quick_check.replace(/\s+/g, ' ')}.`);
    }
  });
  const damaged: CopyDamage[] = [];
  reading('The list of events', undefined, () => checkEvents(copy, damaged));
  reading('The list of documents', undefined, () => checkDocuments(copy, damaged));
  reading('The list of numbers', undefined, () => checkNumbers(copy, broken));
  const stations = reading('The list of stations', [], () => countStations(copy));
  return { stations, damaged, broken };
}

function checkEvents(copy: Sqlite, damaged: CopyDamage[]): void {
  type Row = Pick<Tables['events'], 'station' | 'id' | 'hash' | 'text'>;
  for (const row of copy.prepare<[], Row>('select station, id, hash, text from events').iterate()) {
    if (textToHash(row.text) !== row.hash) damaged.push({ station: row.station, kind: 'event', id: row.id });
  }
}

function checkDocuments(copy: Sqlite, damaged: CopyDamage[]): void {
  type Head = Pick<Tables['documents'], 'station' | 'sha' | 'bytes'>;
  const chunks = copy.prepare<[string, string], { bytes: Uint8Array }>(
    'select bytes from chunks where station = ? and sha = ? order by n',
  );
  const heads = copy.prepare<[], Head>('select station, sha, bytes from documents where complete = 1').all();
  for (const { station, sha, bytes } of heads) {
    const hash = createHash('sha256');
    let length = 0;
    for (const chunk of chunks.iterate(station, sha)) {
      hash.update(chunk.bytes);
      length += chunk.bytes.byteLength;
    }
    if (length !== bytes || hash.digest('hex') !== sha) damaged.push({ station, kind: 'document', id: sha });
  }
}

/** A number at or above the next one would be given out again. */
function checkNumbers(copy: Sqlite, broken: string[]): void {
  const columns = copy.prepare<[], { name: string }>('pragma table_info(documents)').all();
  // Documents of the first version have none.
  const tables = columns.some((one) => one.name === 'number') ? ['events', 'documents'] : ['events'];
  for (const table of tables) {
    const rows = copy
      .prepare<[], { name: string; top: number; next: number }>(
        `select s.name as name, max(t.number) as top, s.next_number as next
         from stations s join ${table} t on t.station = s.id group by s.id having top >= next`,
      )
      .all();
    for (const { name, top, next } of rows) {
      broken.push(`The station ${name} gave out number ${top} and would give out ${next} next.`);
    }
  }
}

function countStations(copy: Sqlite): CopyStation[] {
  return copy
    .prepare<[], CopyStation>(
      `select id, name, next_number as nextNumber,
         (select count(*) from events where station = stations.id) as events,
         (select count(*) from documents where station = stations.id and complete = 1) as documents,
         (select coalesce(sum(bytes), 0) from documents where station = stations.id and complete = 1) as bytes,
         (select count(*) from phones where station = stations.id and revoked_at is null) as phones
       from stations order by made_at, id`,
    )
    .all();
}
