// Damage to a file of SQLite as a failing disk does it: whole pages of one table overwritten.
import { closeSync, openSync, writeSync } from 'node:fs';
import SqliteConnection from 'better-sqlite3';

/** Three pages from the middle of the table's rows. Nobody may have the file open. */
export function overwritePages(file: string, table: string): void {
  const sqlite = new SqliteConnection(file);
  sqlite.pragma('wal_checkpoint(TRUNCATE)');
  sqlite.pragma('journal_mode = DELETE');
  const size = Number(sqlite.pragma('page_size', { simple: true }));
  const leaves = sqlite
    .prepare("select pageno from dbstat where name = ? and pagetype = 'leaf' order by pageno")
    .all(table) as { pageno: number }[];
  sqlite.close();
  const at = openSync(file, 'r+');
  const middle = Math.floor(leaves.length / 2);
  for (const { pageno } of leaves.slice(middle, middle + 3)) {
    writeSync(at, Buffer.alloc(size, 0x5a), 0, size, (pageno - 1) * size);
  }
  closeSync(at);
}
