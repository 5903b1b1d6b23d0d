// The settings of the environment, read into values. Throws one sentence for what is wrong; opens nothing but the files
// of the certificate.
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { DatabaseAddress } from './database/database.ts';

type Environment = Record<string, string | undefined>;

export function dataFolder(env: Environment): string {
  return resolve(env.ASFOUND_DATA || './data');
}

export function databaseAddress(env: Environment): DatabaseAddress {
  const url = env.DATABASE_URL;
  if (!url) return { type: 'sqlite', file: join(dataFolder(env), 'asfound.db') };
  if (/^postgres(?:ql)?:/.test(url)) return { type: 'postgresql', url };
  throw new Error('DATABASE_URL has to begin with postgres://; without it the data goes into ASFOUND_DATA.');
}

export function readPort(env: Environment): number {
  const port = Number(env.PORT || 8080);
  if (Number.isInteger(port) && port >= 0 && port < 65_536) return port;
  throw new Error('PORT has to be a number from 0 to 65535.');
}

export type Tls = { cert: Buffer; key: Buffer; certFile: string };

export function readTls(env: Environment): Tls | null {
  const [certFile, keyFile] = [env.ASFOUND_TLS_CERT, env.ASFOUND_TLS_KEY];
  if (!certFile && !keyFile) return null;
  if (!certFile || !keyFile) throw new Error('HTTPS needs both ASFOUND_TLS_CERT and ASFOUND_TLS_KEY.');
  return { cert: readFileSync(certFile), key: readFileSync(keyFile), certFile };
}

/** Whether the log is lines of JSON. */
export function readLog(env: Environment): boolean {
  const said = env.ASFOUND_LOG || 'text';
  if (said === 'json' || said === 'text') return said === 'json';
  throw new Error('ASFOUND_LOG has to be json or text.');
}

/** How long a start waits for a database that is away, in ms. */
export function readDatabaseWait(env: Environment): number {
  const seconds = Number(env.ASFOUND_DATABASE_WAIT || 30);
  if (seconds >= 0 && seconds <= 3600) return seconds * 1000;
  throw new Error('ASFOUND_DATABASE_WAIT has to be a number of seconds from 0 to 3600.');
}

/** Whether an hour of this machine's clock is one of `ASFOUND_QUIET_HOURS`, such as 1-5 or 22-4; the last one ends it. */
export function readQuietHours(env: Environment): (now: number) => boolean {
  const said = env.ASFOUND_QUIET_HOURS || '1-5';
  const [, from = '', to = ''] = /^([0-9]{1,2})-([0-9]{1,2})$/.exec(said) ?? [];
  const [first, last] = [Number(from), Number(to)];
  if (from === '' || first > 23 || last > 24) {
    throw new Error('ASFOUND_QUIET_HOURS has to be two hours, such as 1-5.');
  }
  return (now) => {
    const hour = new Date(now).getHours();
    return first < last ? hour >= first && hour < last : hour >= first || hour < last;
  };
}
