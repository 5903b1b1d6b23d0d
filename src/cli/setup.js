// What a bare machine needs before anything else can run: dependencies, a build, a browser and a database for tests.
// Plain JavaScript with Node built-ins only, because it runs before anything is installed. Chatter goes to stderr.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const LEAST_NODE = [20, 19];
/** Exit codes 1 and 2 belong to the commands; a bug in one must not read as an answer. */
const BUG = 70;

/** An expected failure: one sentence with the next step, no stack. */
export class SetupFailed extends Error {}

/** Runs a launcher's work and turns what it answers or throws into the exit code. */
export async function launch(work) {
  try {
    process.exitCode = (await work(process.argv.slice(2))) ?? 0;
  } catch (error) {
    process.stderr.write(`${error instanceof SetupFailed ? error.message : (error?.stack ?? error)}\n`);
    process.exitCode = error instanceof SetupFailed ? 2 : BUG;
  }
}

export function say(text) {
  process.stderr.write(`${text}\n`);
}

/** Runs a command in the project's folder, its output on stderr so that stdout stays clean. */
export function run(command, args, options = {}) {
  const result = spawnSync(command, args, { cwd: ROOT, stdio: ['ignore', 2, 2], ...options });
  if (result.error?.code === 'ENOENT') {
    throw new SetupFailed(`${command} is not on this machine. Install it and run this again.`);
  }
  return result.status ?? 1;
}

export function binary(root, name) {
  return join(root, 'node_modules', '.bin', name);
}

export function checkNode(version = process.versions.node) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const [leastMajor, leastMinor] = LEAST_NODE;
  if (major > leastMajor || (major === leastMajor && minor >= leastMinor)) return;
  throw new SetupFailed(
    `Node ${LEAST_NODE.join('.')} or later is needed; this is ${version}. Install a newer Node and run this again.`,
  );
}

function hashOf(parts) {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part);
  return hash.digest('hex');
}

/** Whether node_modules already holds just what the lockfile asks for, as after a plain `npm ci`. */
export function holdsLocked(root) {
  const [wanted, held] = ['package-lock.json', join('node_modules', '.package-lock.json')].map((name) => {
    const file = join(root, name);
    return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')).packages : null;
  });
  if (!wanted || !held) return false;
  // Packages for other systems are optional and rightly absent.
  const needed = Object.entries(wanted).filter(([path, one]) => path !== '' && !one.optional && !one.devOptional);
  return needed.every(([path, one]) => held[path]?.version === one.version && existsSync(join(root, path)));
}

/** Installs with npm ci when node_modules is missing or is not what the lockfile asks for on this machine. */
export function ensureDependencies(root = ROOT) {
  checkNode();
  const stamp = join(root, 'node_modules', '.asfound-lock');
  // Packages with native code are built for one system and one version of Node's binary interface.
  const machine = `${process.platform} ${process.arch} ${process.versions.modules}`;
  const wanted = `${machine}\n${hashOf([readFileSync(join(root, 'package-lock.json'))])}\n`;
  const stamped = existsSync(stamp) ? readFileSync(stamp, 'utf8') : null;
  if (stamped === wanted) return;
  // Emptying node_modules breaks whatever runs beside this, so it is done only where it has to be.
  const otherMachine = stamped !== null && !stamped.startsWith(`${machine}\n`);
  if (otherMachine || !holdsLocked(root)) installDependencies(root);
  writeFileSync(stamp, wanted);
}

function installDependencies(root) {
  say('Installing dependencies …');
  const install = () => run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund'], { cwd: root });
  if (install() === 0) return;
  // The database driver is compiled where no ready-made one can be fetched.
  const missing = ['python3', 'make', 'g++'].filter((name) => !onPath(name));
  if (missing.length > 0 && installDebian(missing) && install() === 0) return;
  const tools = missing.length > 0 ? ` Compiling also needs ${missing.join(', ')}.` : '';
  throw new SetupFailed(`The dependencies could not be installed. Check the network and run this again.${tools}`);
}

function filesUnder(path) {
  if (!existsSync(path)) return [];
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path)
    .sort()
    .flatMap((name) => filesUnder(join(path, name)));
}

const SOURCES = ['src', 'sw', 'public', 'index.html', 'vite.config.ts', 'package.json', 'package-lock.json'];

/** One hash over all that a build is made from; its first letters are the build id. `more`: further folders. */
export function hashSources(root = ROOT, more = []) {
  const files = [...SOURCES, ...more].flatMap((name) => filesUnder(join(root, name)));
  return hashOf(files.flatMap((file) => [`\0${file.slice(root.length)}\0`, readFileSync(file)]));
}

function buildStamp(root) {
  return join(root, 'dist-node', '.asfound-build');
}

export function isBuilt(root = ROOT, sources = hashSources(root)) {
  const there = [join(root, 'dist', 'index.html'), join(root, 'dist-node', 'server.js'), buildStamp(root)];
  return there.every((file) => existsSync(file)) && readFileSync(buildStamp(root), 'utf8') === sources;
}

/** Builds app and server when they are missing or were built from other sources. */
export function ensureBuild(root = ROOT) {
  const sources = hashSources(root);
  if (!isBuilt(root, sources)) buildAll(root, sources);
}

export function buildAll(root = ROOT, sources = hashSources(root)) {
  say('Building …');
  // A build that breaks off must not pass for the one before it.
  rmSync(buildStamp(root), { force: true });
  const env = { ...process.env, ASFOUND_BUILD: sources.slice(0, 8) };
  const steps = [
    ['vite', ['build', '--logLevel', 'warn']],
    ['rolldown', ['-c', 'src/cli/bundles.config.js', '--log-level', 'silent']],
  ];
  for (const [name, args] of steps) {
    if (run(binary(root, name), args, { cwd: root, env }) !== 0) {
      throw new SetupFailed(`The build failed in ${name}; see its message above.`);
    }
  }
  mkdirSync(dirname(buildStamp(root)), { recursive: true });
  writeFileSync(buildStamp(root), sources);
}

function firstThatExists(candidates) {
  return candidates.find((path) => path && existsSync(path)) ?? null;
}

function searchPath() {
  return (process.env.PATH ?? '').split(':').filter(Boolean);
}

function onPath(name) {
  return firstThatExists(searchPath().map((folder) => join(folder, name)));
}

function installDebian(packages) {
  if (process.platform !== 'linux' || process.getuid?.() !== 0 || !onPath('apt-get')) return false;
  say(`Installing ${packages.join(' and ')} from the system's packages …`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  run('apt-get', ['update', '-q'], { env });
  return run('apt-get', ['install', '-y', '-q', '--no-install-recommends', ...packages], { env }) === 0;
}

export function findChromium() {
  const named = process.env.CHROMIUM_PATH;
  if (named) {
    if (existsSync(named)) return named;
    throw new SetupFailed(`CHROMIUM_PATH names ${named}, which is not there. Correct it or leave it out.`);
  }
  return (
    ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'].map(onPath).find(Boolean) ??
    firstThatExists([
      '/usr/bin/chromium',
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

/** The system's own Python has the system's packages; another one may stand before it on the PATH. */
const SYSTEM_PYTHON = ['/usr/bin/python3'];
const WEBKIT_PROBE =
  "import cairo, gi; gi.require_version('Gtk', '3.0'); gi.require_version('WebKit2', '4.1'); from gi.repository import WebKit2";

export function findFirefox() {
  return ['firefox-esr', 'firefox'].map(onPath).find(Boolean) ?? null;
}

/** A Python that can open a WebKitGTK web view, where there is a screen without a monitor to open it on. */
export function findWebKit(pythons = SYSTEM_PYTHON) {
  const python = firstThatExists(pythons) ?? onPath('python3');
  if (!python || !onPath('Xvfb')) return null;
  return spawnSync(python, ['-c', WEBKIT_PROBE], { stdio: 'ignore' }).status === 0 ? python : null;
}

const ENGINES = {
  firefox: { find: findFirefox, packages: ['firefox-esr'] },
  webkit: { find: findWebKit, packages: ['gir1.2-webkit2-4.1', 'python3-gi', 'python3-gi-cairo', 'xvfb'] },
};

/** Debian has both engines, and root may install them: there nothing is left out. */
function isDebianRoot() {
  const release = existsSync('/etc/os-release') ? readFileSync('/etc/os-release', 'utf8') : '';
  return /^ID=debian$/m.test(release) && process.getuid?.() === 0;
}

/**
 * The other engines for the smoke runs: found, or installed as root on Debian. Names those that cannot be had.
 * @param {Record<string, { find: () => string | null, packages: string[] }>} engines
 */
export function ensureEngines(engines = ENGINES, install = installDebian, must = isDebianRoot()) {
  const missing = () => Object.keys(engines).filter((name) => !engines[name].find());
  const first = missing();
  if (first.length === 0) return { without: [], sentence: '' };
  const packages = first.flatMap((name) => engines[name].packages);
  install(packages);
  const without = missing();
  if (without.length === 0) return { without, sentence: '' };
  const how = `Debian: sudo apt-get install ${packages.join(' ')}`;
  if (must) {
    throw new SetupFailed(`The tests in ${without.join(' and ')} need packages that could not be installed. ${how}`);
  }
  const sentence = `Left out: the tests in ${without.join(' and ')}, because this machine has no such browser. ${how}`;
  say(sentence);
  return { without, sentence };
}

/** The folder of PostgreSQL's own programs. Debian keeps them off the PATH, Homebrew keeps one folder per version. */
export function findPostgres(packaged = ['/usr/lib/postgresql', '/opt/homebrew/opt', '/usr/local/opt']) {
  const number = (name) => Number(/\d+/.exec(name)?.[0] ?? Number.POSITIVE_INFINITY);
  const versions = packaged.flatMap((folder) =>
    (existsSync(folder) ? readdirSync(folder) : [])
      .filter((name) => /^(?:\d+|postgresql(?:@\d+)?)$/.test(name))
      .sort((a, b) => number(b) - number(a))
      .map((name) => join(folder, name, 'bin')),
  );
  const whole = (folder) => ['initdb', 'postgres'].every((name) => existsSync(join(folder, name)));
  return [...searchPath(), ...versions].find(whole) ?? null;
}

/** PostgreSQL for the database contract: found, or installed from Debian's packages as root. */
export function ensurePostgres() {
  const found = findPostgres() ?? (installDebian(['postgresql']) ? findPostgres() : null);
  if (found) return found;
  throw new SetupFailed(
    'The server tests need PostgreSQL. Install it (Debian and Ubuntu: sudo apt-get install postgresql; macOS: brew install postgresql) and run this again.',
  );
}
