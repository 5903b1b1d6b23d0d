// What the server says about itself: sentences for people, or one JSON object to each line for machines. A failure that
// comes again and again is told once and then counted. Codes, tokens and passwords never stand in it.
import { failureText } from './database/databaseErrors.ts';

type Level = 'info' | 'warning' | 'error';
export type Log = {
  /** @param event Short and always the same, for machines; `more` goes into the JSON line only. */
  say: (level: Level, event: string, sentence: string, more?: Record<string, string | number | boolean | null>) => void;
  /** Something failed; the same again within `QUIET_MS` is counted and told with its number afterwards. */
  failed: (event: string, error: unknown) => void;
  /** Tells what was counted and not told yet. */
  flush: () => void;
};

type LogParts = {
  json: boolean;
  now: () => number;
  /** One line without its end, for standard output or standard error. */
  write: (to: 'out' | 'err', line: string) => void;
  /** Calls back after so many ms; must not keep the process alive. */
  after: (ms: number, call: () => void) => void;
};

/** How long a failure that was told is only counted. */
export const QUIET_MS = 30_000;
/** Different failures that are counted at once; beyond it they share one count. */
const MOST_KINDS = 50;
const MOST_TEXT = 2000;

export function createLog({ json, now, write, after }: LogParts): Log {
  const counts = new Map<string, { event: string; text: string; again: number; since: number }>();

  function line(level: Level, event: string, sentence: string, more: Record<string, unknown> = {}): void {
    const to = level === 'info' ? 'out' : 'err';
    const text = withoutSecrets(sentence);
    if (!json) {
      write(to, text);
      return;
    }
    const rest = Object.fromEntries(
      Object.entries(more).map(([key, value]) => [key, typeof value === 'string' ? withoutSecrets(value) : value]),
    );
    write(to, JSON.stringify({ at: new Date(now()).toISOString(), level, event, text, ...rest }));
  }

  function told(key: string): void {
    const count = counts.get(key);
    counts.delete(key);
    if (!count || count.again === 0) return;
    const seconds = Math.max(1, Math.round((now() - count.since) / 1000));
    const text = `${count.event}, again ${count.again} times in ${seconds} s: ${count.text}`;
    line('error', count.event, text, { times: count.again, seconds });
  }

  return {
    say: line,
    failed: (event, error) => {
      const text = failureText(error).slice(0, MOST_TEXT);
      const own = `${event} ${likeness(text)}`;
      const key = counts.has(own) || counts.size < MOST_KINDS ? own : 'more';
      const count = counts.get(key);
      if (count) {
        count.again += 1;
        return;
      }
      counts.set(key, { event, text, again: 0, since: now() });
      after(QUIET_MS, () => told(key));
      const stack = error instanceof Error && error.stack ? error.stack.slice(0, MOST_TEXT) : null;
      // People read where it happened only when nobody foresaw it.
      const said = event === 'unexpected' && stack && !json ? stack : text;
      line('error', event, `${event}: ${said}`, stack ? { stack } : {});
    },
    flush: () => {
      for (const key of [...counts.keys()]) told(key);
    },
  };
}

/** Failures that differ in numbers alone are one kind. */
function likeness(text: string): string {
  return text.replace(/[0-9]+/g, '0').slice(0, 200);
}

/** Passwords in addresses, tokens (43 characters), `Bearer` and codes after their prefix. */
function withoutSecrets(text: string): string {
  return text
    .replace(/\b([a-z][a-z0-9+.-]*:\/\/)[^/?#\s@]*@/gi, '$1…@')
    .replace(/([?&](?:password|sslpassword|sslkey)=)[^&\s]*/gi, '$1…')
    .replace(/\bBearer\s+\S+/gi, 'Bearer …')
    .replace(/(?<![A-Za-z0-9_-])[A-Za-z0-9_-]{43}(?![A-Za-z0-9_-])/g, '…')
    .replace(/\bASFOUND-PAIR:\S+/g, 'ASFOUND-PAIR:…');
}
