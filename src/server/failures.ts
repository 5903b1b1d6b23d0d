// What the asker is told when something failed that is not the asker's doing. Never more than the kind of it.
import type { Context } from 'hono';
import { errorAnswer } from './answers.ts';
import type { Condition } from './database/database.ts';
import { DatabaseAway, judgeFailure } from './database/databaseErrors.ts';

type FailureKind = 'database-away' | 'disk-full' | 'database-damaged' | 'disk-failing' | 'unexpected';

const SENTENCES: Record<Exclude<FailureKind, 'database-away' | 'unexpected'>, string> = {
  'disk-full':
    "The server's disk is full and nothing was kept there. The phone keeps everything and tries again; make room at the server.",
  'database-damaged':
    "The server's database is damaged and takes nothing new. The phone keeps everything; restore the database at the server: npm run restore.",
  'disk-failing':
    "The server's disk cannot be read or written and nothing was kept there. The phone keeps everything and tries again.",
};

export function failureKind(error: unknown): FailureKind {
  switch (judgeFailure(error)) {
    case 'gone':
    case 'busy':
      return 'database-away';
    case 'full':
      return 'disk-full';
    case 'damaged':
      return 'database-damaged';
    case 'disk':
      return 'disk-failing';
    case 'unexpected':
      return 'unexpected';
  }
}

export function failureAnswer(c: Context, error: unknown) {
  const kind = failureKind(error);
  if (kind === 'unexpected') return errorAnswer(c, 'failed');
  if (kind !== 'database-away') return errorAnswer(c, 'failed', SENTENCES[kind], 60);
  return errorAnswer(c, kind, undefined, error instanceof DatabaseAway ? error.retrySeconds : 2);
}

/** Asks that write nothing of what phones hold. */
const HARMLESS = /\/(?:compare|presence)$/;

/** The refusal of everything that wants to be kept, while an answer "stored" could not be relied on. */
export function refuseWhenBroken(c: Context, condition: Condition) {
  if (condition.broken === null || c.req.method === 'GET' || HARMLESS.test(c.req.path)) return null;
  return errorAnswer(c, 'failed', SENTENCES['database-damaged'], 60);
}
