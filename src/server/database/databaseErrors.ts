// What an error of the two databases means for whoever asked: away, busy, full, damaged, or nobody's idea. Looks at
// codes and at the driver's own messages; does nothing about it.

/** The database does not answer now, or has more to do than it can; what was asked may be asked again. */
export class DatabaseAway extends Error {
  override readonly name = 'DatabaseAway';
  /** Whole seconds after which asking again makes sense. */
  readonly retrySeconds: number;
  constructor(why: string, retrySeconds: number, cause?: unknown) {
    super(why, { cause });
    this.retrySeconds = retrySeconds;
  }
}

type Judgement =
  /** Nobody answers there, or it is not the one that takes writes: look for another. */
  | 'gone'
  /** It answers, and did not get to it in time. */
  | 'busy'
  | 'full'
  /** Pages or indexes are not what the database wrote. */
  | 'damaged'
  /** The disk refuses to read or write. */
  | 'disk'
  /** Neither of these: a fault of the program or the settings. */
  | 'unexpected';

const SOCKET = new Set([
  'ECONNREFUSED',
  'ECONNRESET',
  'ECONNABORTED',
  'ETIMEDOUT',
  'EPIPE',
  'EHOSTUNREACH',
  'EHOSTDOWN',
  'ENETUNREACH',
  'ENETDOWN',
  'ENOTFOUND',
  'EAI_AGAIN',
]);

/** PostgreSQL's SQLSTATE and SQLite's names, by how they begin (from both manuals). */
const CODES: [RegExp, Judgement][] = [
  // Ended by an administrator or a crash, starting up, read-only: another host may be the one.
  [/^(?:08...|57P0[1235]|25006)$/, 'gone'],
  [/^(?:57014|55P03|40001|40P01|53300|25P0[34])$/, 'busy'],
  [/^SQLITE_(?:BUSY|LOCKED)/, 'busy'],
  [/^(?:SQLITE_FULL|53100|ENOSPC|EDQUOT)$/, 'full'],
  [/^(?:SQLITE_CORRUPT.*|SQLITE_NOTADB|XX00[12])$/, 'damaged'],
  [/^(?:SQLITE_IOERR.*|SQLITE_CANTOPEN.*|SQLITE_READONLY.*|58030|EIO|EROFS)$/, 'disk'],
];

/** The driver throws these without a code. */
const MESSAGES: [RegExp, Judgement][] = [
  [/^timeout exceeded when trying to connect/, 'busy'],
  [/^(?:timeout expired|Query read timeout|Connection terminated)/, 'gone'],
  [/is not queryable$/, 'gone'],
];

/** Looks through the causes as well: drivers wrap what the socket said. */
export function judgeFailure(error: unknown): Judgement {
  let at: unknown = error;
  for (let depth = 0; depth < 6 && at instanceof Error; depth += 1) {
    if (at instanceof DatabaseAway) return 'gone';
    const verdict = judgeOne(at);
    if (verdict !== 'unexpected') return verdict;
    at = at instanceof AggregateError && at.errors.length > 0 ? at.errors[0] : at.cause;
  }
  return 'unexpected';
}

function judgeOne(error: Error): Judgement {
  const code = 'code' in error && typeof error.code === 'string' ? error.code : '';
  if (SOCKET.has(code)) return 'gone';
  // A socket file that is not there; of any other file it would be a fault of ours.
  if (code === 'ENOENT' && 'syscall' in error && error.syscall === 'connect') return 'gone';
  const byCode = CODES.find(([pattern]) => pattern.test(code));
  if (byCode) return byCode[1];
  if (code !== '') return 'unexpected';
  return MESSAGES.find(([pattern]) => pattern.test(error.message))?.[1] ?? 'unexpected';
}

/** One line for people at the server, without what led to it. */
export function failureText(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  if (error instanceof AggregateError && error.errors.length > 0) return failureText(error.errors[0]);
  const code = 'code' in error && typeof error.code === 'string' && !error.message.includes(error.code);
  return code ? `${error.message} (${String(error.code)})` : error.message;
}
