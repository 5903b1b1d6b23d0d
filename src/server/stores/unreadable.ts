// Tells a place of the database that cannot be read from every other failure: the first is passed over and named,
// the others stop the request.

/** SQLite: a malformed page, or a disk that fails at it. PostgreSQL: data or index corrupted, text that is no text. */
const POSTGRES_CODES = new Set(['XX001', 'XX002', '22021', '58030']);

export function isUnreadable(error: unknown): boolean {
  const code = error instanceof Error && 'code' in error ? error.code : null;
  if (typeof code !== 'string') return false;
  return /^SQLITE_(?:CORRUPT|IOERR_(?:READ|SHORT_READ|CORRUPTFS))/.test(code) || POSTGRES_CODES.has(code);
}
