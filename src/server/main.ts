// The one place of the server that reads the environment, opens sockets and prints. `--pair` only makes a code in the
// same database and ends, `--phones` only lists, removes or raises phones, `--backup` and `--restore` write and read a
// file, `--check-pages FILE` only says what is wrong with a file of SQLite.
import { spawn } from 'node:child_process';
import { randomBytes, X509Certificate } from 'node:crypto';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { statfs } from 'node:fs/promises';
import { createServer as createHttps, Server as HttpsServer } from 'node:https';
import { networkInterfaces } from 'node:os';
import { join, resolve } from 'node:path';
import { type ServerType, serve } from '@hono/node-server';
import { createApp } from './app.ts';
import { backupCommand, restoreCommand } from './copy/backupCommand.ts';
import { type BackupSettings, readBackupSettings, runBackup, scheduleBackups } from './copy/backupSchedule.ts';
import type { Database, DatabaseAddress } from './database/database.ts';
import { openPatiently, shutFolder } from './database/opening.ts';
import { checkPages, openForReading } from './database/sqlite.ts';
import { failureKind } from './failures.ts';
import { createHints } from './live/hints.ts';
import { createLog } from './log.ts';
import { askForCode, readAsked, whichText } from './phones/pairCommand.ts';
import { readPhonesAsked, runPhones } from './phones/phonesCommand.ts';
import { readProxies } from './proxies.ts';
import * as settings from './settings.ts';
import { keepUp } from './upkeep/upkeep.ts';
import { codeText, type Reach, reachText } from './welcome.ts';

const env = process.env;
const random = (bytes: number) => randomBytes(bytes);
const clock = { now: () => Date.now() };
const json = env.ASFOUND_LOG === 'json';
const log = createLog({
  json,
  now: clock.now,
  write: (to, line) => (to === 'out' ? console.log(line) : console.error(line)),
  after: (ms, call) => void setTimeout(call, ms).unref(),
});

function readCertificate(tls: settings.Tls): NonNullable<Reach['certificate']> {
  const certificate = new X509Certificate(tls.cert);
  const names = (certificate.subjectAltName ?? '').split(', ').map((name) => name.replace(/^(?:DNS|IP Address):/, ''));
  return { names: names.filter(Boolean), until: new Date(certificate.validTo) };
}

function ownAddresses(): string[] {
  const all = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  return all.filter((one) => !one.internal && one.family === 'IPv4').map((one) => one.address);
}

/** Nobody but the owner reads what is made from here on; the folder as well, when it is ours. */
function makePrivate(address: DatabaseAddress): void {
  process.umask(0o077);
  if (address.type !== 'sqlite') return;
  const open = shutFolder(settings.dataFolder(env));
  if (open) log.say('warning', 'folder-open', open);
}

/** Whoever waits at the terminal waits no longer than that. */
const TERMINAL_WAIT_MS = 5000;

/** @param work Answers with the code to end with. */
async function withDatabase(work: (db: Database) => Promise<number>): Promise<void> {
  const address = settings.databaseAddress(env);
  makePrivate(address);
  const db = await openPatiently(address, TERMINAL_WAIT_MS, log);
  try {
    process.exitCode = await work(db);
  } finally {
    await db.close();
  }
}

async function copyOnly(command: typeof backupCommand, args: string[]): Promise<void> {
  const address = settings.databaseAddress(env);
  // What it writes holds all that the phones saw, and is for this user alone.
  makePrivate(address);
  const [print, complain] = [console.log, console.error];
  process.exitCode = await command(args, { address, now: clock.now, random, print, complain });
}

async function pairOnly(db: Database, args: string[]): Promise<number> {
  const answer = await askForCode(db, random, clock.now(), readAsked(args));
  console.log(answer.type === 'code' ? codeText(answer.made) : whichText(answer));
  return answer.type === 'which' ? 2 : 0;
}

async function phonesOnly(db: Database, args: string[]): Promise<number> {
  const { text, done } = await runPhones(db, clock.now(), readPhonesAsked(args));
  console.log(text);
  return done ? 0 : 2;
}

/** In a process of its own, because a large file takes SQLite many seconds in which it does nothing else. */
async function checkApart(address: DatabaseAddress): Promise<string[] | null> {
  const [, program] = process.argv;
  if (address.type !== 'sqlite' || program === undefined) return null;
  const child = spawn(process.execPath, [program, '--check-pages', address.file], {
    stdio: ['ignore', 'pipe', 'ignore'],
    env: {},
  });
  let text = '';
  child.stdout.setEncoding('utf8').on('data', (part: string) => {
    text += part;
  });
  const status = await new Promise<number | null>((done, failed) => child.on('close', done).on('error', failed));
  if (status !== 0) throw new Error(`The check of the database file ended with ${status}.`);
  return text.split('\n').filter(Boolean);
}

/** A whole plan over the slowest link a phone may have takes longer than Node's five minutes. */
const PATIENCE = { requestTimeout: 45 * 60_000, headersTimeout: 30_000 };
/** But a sender from whom nothing comes at all gives its place back. */
const SILENCE_MS = 60_000;
/** Connections at once; each holds a few kB, and a phone has a handful. */
const MOST_CONNECTIONS = 4000;

async function run(): Promise<void> {
  settings.readLog(env);
  const staticRoot = resolve(env.ASFOUND_STATIC || './dist');
  const port = settings.readPort(env);
  const tls = settings.readTls(env);
  const address = settings.databaseAddress(env);
  const trustedProxies = readProxies(env.ASFOUND_TRUSTED_PROXIES ?? '');
  const backups = readBackupSettings(env);
  const isQuiet = settings.readQuietHours(env);
  makePrivate(address);
  const db = await openPatiently(address, settings.readDatabaseWait(env), log, {
    onNews: (news) => {
      if (news.type === 'away') log.say('error', 'database-away', `The database is out of reach: ${news.why}`);
      else log.say('info', 'database-back', `The database answers again, at ${news.host}.`, { awayMs: news.awayMs });
    },
  });
  const onFailure = (error: unknown) => log.failed(failureKind(error), error);
  const stop = new AbortController();
  const hints = address.type === 'postgresql' ? createHints({ url: address.url, after }) : null;
  if (hints) stop.signal.addEventListener('abort', hints.close);
  const app = createApp({
    db,
    clock,
    random,
    version: env.npm_package_version ?? readVersion(),
    staticRoot,
    onFailure,
    diskFree: async () => (address.type === 'sqlite' ? await freeBytes(settings.dataFolder(env)) : null),
    trustedProxies,
    ends: stop.signal,
    ...(hints ? { hints } : {}),
  });
  const server = serve({
    fetch: app.fetch,
    port,
    ...(tls
      ? { createServer: createHttps, serverOptions: { ...PATIENCE, cert: tls.cert, key: tls.key } }
      : { serverOptions: PATIENCE }),
  });
  server.setTimeout(SILENCE_MS);
  server.maxConnections = MOST_CONNECTIONS;
  server.on('error', (error) => {
    const taken = 'code' in error && error.code === 'EADDRINUSE';
    if (taken) log.say('error', 'port-taken', `Port ${port} is in use already. Choose another with PORT.`);
    else onFailure(error);
    process.exitCode = 1;
    hints?.close();
    void db.close();
  });
  // A server that cannot print a code still serves the phones it has.
  server.on('listening', () => {
    void welcome(server, db, { port, tls, staticRoot }).catch(onFailure);
    void keepUp({
      db,
      clock,
      isQuiet,
      checkPages: () => checkApart(address),
      onFailure,
      onFound: (sentence) => log.say('error', 'damaged', sentence),
      pause: (ms) => pauseUnless(stop.signal, ms),
      stopping: () => stop.signal.aborted,
    });
  });
  if (tls && server instanceof HttpsServer) renewCertificate(server, tls.certFile);
  if (backups) stop.signal.addEventListener('abort', keepBackups(db, backups));
  stopOnSignal(server, db, stop);
}

/** How phones reach it and a code to pair with; or one line of the log, where it is kept. */
async function welcome(
  server: ServerType,
  db: Database,
  { port, tls, staticRoot }: { port: number; tls: ReturnType<typeof settings.readTls>; staticRoot: string },
): Promise<void> {
  const address = server.address();
  const open = typeof address === 'object' && address ? address.port : port;
  const reach: Reach = { port: open, addresses: ownAddresses(), certificate: tls ? readCertificate(tls) : null };
  // A log is kept; a code that works has no place in it.
  if (json)
    log.say('info', 'started', `Asfound listens on port ${open}. For a pairing code: npm run pair`, { port: open });
  else console.log(reachText(reach, clock.now()));
  if (!existsSync(join(staticRoot, 'index.html'))) {
    log.say('warning', 'not-built', `The app is not built yet (${staticRoot}).`);
  }
  if (json) return;
  const answer = await askForCode(db, random, clock.now(), { type: 'any' });
  console.log(`\n${answer.type === 'code' ? codeText(answer.made) : whichText(answer)}`);
}

function after(ms: number, call: () => void): () => void {
  const timer = setTimeout(call, ms).unref();
  return () => clearTimeout(timer);
}

function keepBackups(db: Database, settings: BackupSettings): () => void {
  const say = (text: string) => log.say('info', 'backup', text);
  const complain = (text: string) => log.say('error', 'backup', text);
  return scheduleBackups({ db, settings, now: clock.now, after, run: runBackup, say, complain });
}

async function freeBytes(folder: string): Promise<number> {
  const { bavail, bsize } = await statfs(folder);
  return bavail * bsize;
}

/** Not kept waiting by an end, and keeping no end waiting. */
async function pauseUnless(signal: AbortSignal, ms: number): Promise<void> {
  if (signal.aborted) return;
  await new Promise<void>((done) => {
    const over = () => {
      clearTimeout(timer);
      signal.removeEventListener('abort', over);
      done();
    };
    const timer = setTimeout(over, ms);
    timer.unref();
    signal.addEventListener('abort', over);
  });
}

/** Requests under way get so long for their answer; then everything is closed, at the latest after the second time. */
const ANSWER_MS = 3000;
const END_MS = 8000;

function stopOnSignal(server: ReturnType<typeof serve>, db: Database, stop: AbortController): void {
  const end = () => {
    if (stop.signal.aborted) return;
    // Streams of news end themselves; a phone that hangs on does not hold the end up for long.
    stop.abort();
    server.close(
      () =>
        void db
          .close()
          .catch((error: unknown) => log.failed('unexpected', error))
          .then(log.flush),
    );
    if ('closeIdleConnections' in server) server.closeIdleConnections();
    setTimeout(() => 'closeAllConnections' in server && server.closeAllConnections(), ANSWER_MS).unref();
    // A database that does not answer may not keep the process: the service manager would kill it without a word.
    setTimeout(() => {
      log.say('warning', 'ended-late', 'The database did not close in time; the server ends without it.');
      log.flush();
      process.exit();
    }, END_MS).unref();
  };
  process.on('SIGTERM', end);
  process.on('SIGINT', end);
}

/** Certificates are renewed every few weeks by another program; taking the new one must need no restart. */
function renewCertificate(server: HttpsServer, certFile: string): void {
  let seen = statSync(certFile).mtimeMs;
  const look = () => {
    try {
      const mtime = statSync(certFile).mtimeMs;
      if (mtime === seen) return;
      const tls = settings.readTls(env);
      if (tls) server.setSecureContext({ cert: tls.cert, key: tls.key });
      seen = mtime;
    } catch (error) {
      // Half-written files at the moment of renewal: the old one serves on, the next look tries again.
      log.failed('certificate', new Error('The renewed certificate could not be read yet.', { cause: error }));
    }
  };
  setInterval(look, 600_000).unref();
}

function readVersion(): string {
  try {
    const said: unknown = JSON.parse(readFileSync('package.json', 'utf8'));
    return typeof said === 'object' && said && 'version' in said ? String(said.version) : 'unknown';
  } catch {
    return 'unknown';
  }
}

/** One line for each fault. */
function printPages(file: string): void {
  const connection = openForReading(file);
  for (const line of checkPages(connection)) console.log(line.replace(/\s+/g, ' '));
  connection.close();
}

/** What is done instead of serving when the first argument names it. */
const COMMANDS: Record<string, (args: string[]) => Promise<void> | void> = {
  '--pair': (args) => withDatabase((db) => pairOnly(db, args)),
  '--phones': (args) => withDatabase((db) => phonesOnly(db, args)),
  '--backup': (args) => copyOnly(backupCommand, args),
  '--restore': (args) => copyOnly(restoreCommand, args),
  '--check-pages': ([file = '']) => printPages(file),
};

async function start([asked = '', ...rest]: string[]): Promise<void> {
  const command = Object.hasOwn(COMMANDS, asked) ? COMMANDS[asked] : undefined;
  await (command ? command(rest) : run());
}

// In the log like everything else, and then the end: what was not foreseen may have left anything half done.
process.on('uncaughtException', (error) => {
  log.failed('crashed', error);
  log.flush();
  process.exit(1);
});
process.removeAllListeners('warning');
process.on('warning', (warning) => log.failed('warning', warning));

await start(process.argv.slice(2)).catch((error: unknown) => {
  log.say('error', 'not-started', error instanceof Error ? error.message : String(error));
  if (error instanceof Error && error.cause) log.failed('cause', error.cause);
  process.exitCode = 1;
});
