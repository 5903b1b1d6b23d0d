// What a bare machine needs before anything else can run: dependencies, a build, a browser and a database for tests.
// Plain JavaScript with Node built-ins only, because it runs before anything is installed. Chatter goes to stderr.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const LEAST_NODE = [20, 19];

export class SetupFailed extends Error {}

/** Runs a launcher's work and turns an expected failure into one sentence and an exit code. */
export async function launch(work) {
  try {
    process.exitCode = (await work(process.argv.slice(2))) ?? 0;
  } catch (error) {
    if (!(error instanceof SetupFailed)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 2;
  }
}

export function say(text) {
  process.stderr.write(`${text}\n`);
}

/** Runs a command in the project's folder, its output on stderr so that stdout stays clean. */
export function run(command, args, options = {}) {
  const result = spawnSync(command, args, { cwd: ROOT, stdio: ['ignore', 2, 2], ...options });
  if (result.error?.code === 'ENOENT') throw new SetupFailed(`${command} is not on this machine. Install it and run this again.`);
  return result.status ?? 1;
}

export function checkNode(version = process.versions.node) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const [leastMajor, leastMinor] = LEAST_NODE;
  if (major > leastMajor || (major === leastMajor && minor >= leastMinor)) return;
  throw new SetupFailed(`Node ${LEAST_NODE.join('.')} or later is needed; this is ${version}. Install a newer Node and run this again.`);
}

const hashOf = (parts) => {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part);
  return hash.digest('hex');
};

/** Installs with npm ci when node_modules is missing or the lockfile has changed since it was filled. */
export function ensureDependencies(root = ROOT) {
  checkNode();
  const stamp = join(root, 'node_modules', '.asfound-lock');
  const wanted = hashOf([readFileSync(join(root, 'package-lock.json')), process.version]);
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  say('Installing dependencies …');
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  if (run(npm, ['ci', '--no-audit', '--no-fund'], { cwd: root }) !== 0) {
    throw new SetupFailed('The dependencies could not be installed. Check the network and run this again.');
  }
  writeFileSync(stamp, wanted);
}

function filesUnder(path) {
  if (!existsSync(path)) return [];
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path)
    .sort()
    .flatMap((name) => filesUnder(join(path, name)));
}

const SOURCES = ['src', 'sw', 'public', 'index.html', 'vite.config.ts', 'rolldown.config.js', 'package-lock.json', 'tsconfig.json'];

/** Builds app and server when they are missing or were built from other sources. */
export function ensureBuild(root = ROOT) {
  const stamp = join(root, 'dist-node', '.asfound-build');
  const files = SOURCES.flatMap((name) => filesUnder(join(root, name))).filter((file) => !file.includes('/public/help/'));
  const wanted = hashOf(files.flatMap((file) => [file.slice(root.length), readFileSync(file)]));
  const built = existsSync(join(root, 'dist', 'index.html')) && existsSync(join(root, 'dist-node', 'server.js'));
  if (built && existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  say('Building …');
  const steps = [
    ['vite', ['build', '--logLevel', 'warn']],
    ['rolldown', ['-c', '--log-level', 'silent']],
  ];
  for (const [name, args] of steps) {
    const status = run(binary(root, name), args, { cwd: root, env: { ...process.env, ASFOUND_BUILD: wanted.slice(0, 8) } });
    if (status !== 0) throw new SetupFailed(`The build failed in ${name}; its message stands above.`);
  }
  mkdirSync(join(root, 'dist-node'), { recursive: true });
  writeFileSync(stamp, wanted);
}

export function binary(root, name) {
  return join(root, 'node_modules', '.bin', process.platform === 'win32' ? `${name}.cmd` : name);
}

function firstThatExists(candidates) {
  return candidates.find((path) => path && existsSync(path)) ?? null;
}

function onPath(name) {
  return firstThatExists((process.env.PATH ?? '').split(':').map((folder) => join(folder, name)));
}

function installDebian(packages) {
  if (process.platform !== 'linux' || process.getuid?.() !== 0 || !onPath('apt-get')) return false;
  say(`Installing ${packages.join(' and ')} from the system's packages …`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  run('apt-get', ['update', '-q'], { env });
  return run('apt-get', ['install', '-y', '-q', '--no-install-recommends', ...packages], { env }) === 0;
}

export function findChromium() {
  return (
    firstThatExists([process.env.CHROMIUM_PATH]) ??
    ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'].map(onPath).find(Boolean) ??
    firstThatExists([
      '/Applications/Chromium.app/Contents/MacOS/Chromium',
      '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    ])
  );
}

/** A Chromium for the browser tests: found, or installed from Debian's packages as root. */
export function ensureChromium() {
  const found = findChromium() ?? (installDebian(['chromium']) ? findChromium() : null);
  if (found) return found;
  throw new SetupFailed(
    'The browser tests need Chromium. Install it (Debian and Ubuntu: sudo apt-get install chromium; macOS: brew install --cask chromium), or set CHROMIUM_PATH to one that is here.',
  );
}

export function findPostgres() {
  const debian = '/usr/lib/postgresql';
  const versions = existsSync(debian) ? readdirSync(debian).sort((a, b) => Number(b) - Number(a)) : [];
  const folders = [
    ...versions.map((version) => join(debian, version, 'bin')),
    '/opt/homebrew/opt/postgresql/bin',
    '/opt/homebrew/bin',
    '/usr/local/bin',
    '/usr/bin',
  ];
  return folders.find((folder) => existsSync(join(folder, 'initdb')) && existsSync(join(folder, 'postgres'))) ?? null;
}

/** PostgreSQL's own programs for the database contract: found, or installed from Debian's packages as root. */
export function ensurePostgres() {
  const found = findPostgres() ?? (installDebian(['postgresql']) ? findPostgres() : null);
  if (found) return found;
  throw new SetupFailed(
    'The server tests need PostgreSQL. Install it (Debian and Ubuntu: sudo apt-get install postgresql; macOS: brew install postgresql) and run this again.',
  );
}
