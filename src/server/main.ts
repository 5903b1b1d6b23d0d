// The one place of the server that reads the environment, opens sockets and prints. `--pair` only makes a code in the
// same database and ends, `--phones` only lists, removes or raises phones, `--backup` and `--restore` write and read a
// file.
import { randomBytes, X509Certificate } from 'node:crypto';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer as createHttps, Server as HttpsServer } from 'node:https';
import { networkInterfaces } from 'node:os';
import { join, resolve } from 'node:path';
import { serve } from '@hono/node-server';
import { createApp } from './app.ts';
import { backupCommand, restoreCommand } from './backupCommand.ts';
import { type BackupSettings, readBackupSettings, runBackup, scheduleBackups } from './backupSchedule.ts';
import { type Database, type DatabaseAddress, openDatabase } from './database.ts';
import { askForCode, readAsked, whichText } from './pairCommand.ts';
import { readPhonesAsked, runPhones } from './phonesCommand.ts';
import { readProxies } from './proxies.ts';
import { codeText, type Reach, reachText } from './welcome.ts';

const env = process.env;
const random = (bytes: number) => randomBytes(bytes);
const clock = { now: () => Date.now() };

function databaseAddress(): DatabaseAddress {
  const url = env.DATABASE_URL;
  if (!url) return { type: 'sqlite', file: join(resolve(env.ASFOUND_DATA || './data'), 'asfound.db') };
  if (/^postgres(?:ql)?:/.test(url)) return { type: 'postgresql', url };
  throw new Error('DATABASE_URL has to begin with postgres://; without it the data goes into ASFOUND_DATA.');
}

function readPort(): number {
  const port = Number(env.PORT || 8080);
  if (Number.isInteger(port) && port >= 0 && port < 65_536) return port;
  throw new Error('PORT has to be a number from 0 to 65535.');
}

type Tls = { cert: Buffer; key: Buffer; certFile: string };

function readTls(): Tls | null {
  const [certFile, keyFile] = [env.ASFOUND_TLS_CERT, env.ASFOUND_TLS_KEY];
  if (!certFile && !keyFile) return null;
  if (!certFile || !keyFile) throw new Error('HTTPS needs both ASFOUND_TLS_CERT and ASFOUND_TLS_KEY.');
  return { cert: readFileSync(certFile), key: readFileSync(keyFile), certFile };
}

function readCertificate(tls: Tls): NonNullable<Reach['certificate']> {
  const certificate = new X509Certificate(tls.cert);
  const names = (certificate.subjectAltName ?? '').split(', ').map((name) => name.replace(/^(?:DNS|IP Address):/, ''));
  return { names: names.filter(Boolean), until: new Date(certificate.validTo) };
}

function ownAddresses(): string[] {
  const all = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  return all.filter((one) => !one.internal && one.family === 'IPv4').map((one) => one.address);
}

async function pairOnly(args: string[]): Promise<void> {
  const db = await openDatabase(databaseAddress());
  try {
    const answer = await askForCode(db, random, clock.now(), readAsked(args));
    console.log(answer.type === 'code' ? codeText(answer.made) : whichText(answer));
    if (answer.type === 'which') process.exitCode = 2;
  } finally {
    await db.close();
  }
}

async function phonesOnly(args: string[]): Promise<void> {
  const db = await openDatabase(databaseAddress());
  try {
    const { text, done } = await runPhones(db, clock.now(), readPhonesAsked(args));
    console.log(text);
    if (!done) process.exitCode = 2;
  } finally {
    await db.close();
  }
}

/** A whole plan over the slowest link a phone may have takes longer than Node's five minutes. */
const PATIENCE = { requestTimeout: 45 * 60_000, headersTimeout: 30_000 };
/** But a sender from whom nothing comes at all gives its place back. */
const SILENCE_MS = 60_000;

async function run(): Promise<void> {
  const staticRoot = resolve(env.ASFOUND_STATIC || './dist');
  const port = readPort();
  const tls = readTls();
  const trustedProxies = readProxies(env.ASFOUND_TRUSTED_PROXIES ?? '');
  const backups = readBackupSettings(env);
  const ending = new AbortController();
  const db = await openDatabase(databaseAddress());
  const app = createApp({
    db,
    clock,
    random,
    version: env.npm_package_version ?? readVersion(),
    staticRoot,
    trustedProxies,
    ends: ending.signal,
    onFailure: (error) => console.error(error),
  });
  const server = serve({
    fetch: app.fetch,
    port,
    ...(tls
      ? { createServer: createHttps, serverOptions: { ...PATIENCE, cert: tls.cert, key: tls.key } }
      : { serverOptions: PATIENCE }),
  });
  server.setTimeout(SILENCE_MS);
  server.on('error', (error) => {
    const taken = 'code' in error && error.code === 'EADDRINUSE';
    console.error(taken ? `Port ${port} is in use already. Choose another with PORT.` : error);
    process.exitCode = 1;
    void db.close();
  });
  const welcome = async () => {
    const address = server.address();
    const open = typeof address === 'object' && address ? address.port : port;
    const reach: Reach = { port: open, addresses: ownAddresses(), certificate: tls ? readCertificate(tls) : null };
    console.log(reachText(reach, clock.now()));
    if (!existsSync(join(staticRoot, 'index.html'))) console.log(`\nThe app is not built yet (${staticRoot}).`);
    const answer = await askForCode(db, random, clock.now(), { type: 'any' });
    console.log(`\n${answer.type === 'code' ? codeText(answer.made) : whichText(answer)}`);
  };
  // A server that cannot print a code still serves the phones it has.
  server.on('listening', () => void welcome().catch((error: unknown) => console.error(error)));
  if (tls && server instanceof HttpsServer) renewCertificate(server, tls.certFile);

  const stopBackups = backups ? keepBackups(db, backups) : () => undefined;
  let closing = false;
  const close = () => {
    if (closing) return;
    closing = true;
    ending.abort();
    stopBackups();
    // Requests under way get their answer; a phone that hangs on does not hold the end up for long.
    server.close(() => void db.close());
    if ('closeIdleConnections' in server) server.closeIdleConnections();
    setTimeout(() => 'closeAllConnections' in server && server.closeAllConnections(), 3000).unref();
  };
  process.on('SIGTERM', close);
  process.on('SIGINT', close);
}

function keepBackups(db: Database, settings: BackupSettings): () => void {
  const after = (ms: number, call: () => void) => {
    const timer = setTimeout(call, ms).unref();
    return () => clearTimeout(timer);
  };
  const [say, complain] = [console.log, console.error];
  return scheduleBackups({ db, settings, now: clock.now, after, run: runBackup, say, complain });
}

/** Certificates are renewed every few weeks by another program; taking the new one must need no restart. */
function renewCertificate(server: HttpsServer, certFile: string): void {
  let seen = statSync(certFile).mtimeMs;
  const look = () => {
    try {
      const mtime = statSync(certFile).mtimeMs;
      if (mtime === seen) return;
      const tls = readTls();
      if (tls) server.setSecureContext({ cert: tls.cert, key: tls.key });
      seen = mtime;
    } catch (error) {
      // Half-written files at the moment of renewal: the old one serves on, the next look tries again.
      console.error('The renewed certificate could not be read yet.', error);
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

async function copyOnly(command: typeof backupCommand, args: string[]): Promise<void> {
  // What it writes holds all that the phones saw, and is for this user alone.
  process.umask(0o077);
  const [print, complain] = [console.log, console.error];
  process.exitCode = await command(args, { address: databaseAddress(), now: clock.now, random, print, complain });
}

/** What is done instead of serving when the first argument names it. */
const COMMANDS: Record<string, (args: string[]) => Promise<void>> = {
  '--pair': pairOnly,
  '--phones': phonesOnly,
  '--backup': (args) => copyOnly(backupCommand, args),
  '--restore': (args) => copyOnly(restoreCommand, args),
};

const [, , asked = '', ...rest] = process.argv;
const command = Object.hasOwn(COMMANDS, asked) ? COMMANDS[asked] : undefined;
await (command ? command(rest) : run()).catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  if (error instanceof Error && error.cause) console.error(error.cause);
  process.exitCode = 1;
});
