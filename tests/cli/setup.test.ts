// The launchers on machines made up for the test: folders with stand-ins for npm, vite and the rest, so that nothing is
// installed and nothing outside the folder is touched.
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import {
  checkNode,
  ensureBuild,
  ensureDependencies,
  ensureEngines,
  findChromium,
  findFirefox,
  findPostgres,
  findWebKit,
  holdsLocked,
  isBuilt,
  SetupFailed,
} from '../../src/cli/setup.js';

let root: string;
const before = { ...process.env };

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'asfound-setup-'));
  // Only stand-ins can be found, whatever this machine has.
  process.env.PATH = join(root, 'bin');
  delete process.env.CHROMIUM_PATH;
});
afterEach(() => {
  process.env.PATH = before.PATH;
  if (before.CHROMIUM_PATH !== undefined) process.env.CHROMIUM_PATH = before.CHROMIUM_PATH;
  rmSync(root, { recursive: true, force: true });
});

function put(path: string, text: string | object): string {
  const file = join(root, path);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, typeof text === 'string' ? text : JSON.stringify(text));
  return file;
}

/** A program that notes each call, with the build id it was given, and then does `work`. */
function program(path: string, work = ''): void {
  const note = `require('node:fs').appendFileSync(${JSON.stringify(join(root, 'calls'))}, [process.argv[1].split('/').pop(), ...process.argv.slice(2)].join(' ') + '\\n');`;
  const text = `#!${process.execPath}\n${note}\n${work}\n`;
  chmodSync(put(path, text), 0o755);
}

const calls = () =>
  existsSync(join(root, 'calls')) ? readFileSync(join(root, 'calls'), 'utf8').trim().split('\n') : [];
const lockfile = (version: string) => ({ packages: { '': {}, 'node_modules/thing': { version } } });

describe('the version of Node', () => {
  test('is refused below 20.19 with the version that is here', () => {
    for (const old of ['18.20.8', '20.18.3']) expect(() => checkNode(old)).toThrow(new RegExp(`20\\.19.*${old}`));
  });

  test('is taken from 20.19 on', () => {
    for (const good of ['20.19.0', '20.20.2', '22.0.0', '26.1.0']) expect(() => checkNode(good)).not.toThrow();
  });
});

describe('dependencies', () => {
  const npm = (version: string) =>
    program(
      'bin/npm',
      `require('node:fs').mkdirSync(${JSON.stringify(join(root, 'node_modules', 'thing'))}, { recursive: true }); // ${version}`,
    );

  test('are installed once on a fresh clone, and again when the lockfile changes', () => {
    put('package-lock.json', lockfile('1.0.0'));
    npm('1.0.0');
    ensureDependencies(root);
    ensureDependencies(root);
    expect(calls()).toEqual(['npm ci --include=dev --no-audit --no-fund']);
    put('package-lock.json', lockfile('1.0.1'));
    ensureDependencies(root);
    expect(calls()).toHaveLength(2);
  });

  test('are installed again for another system or another Node, because parts of them are compiled', () => {
    put('package-lock.json', lockfile('1.0.0'));
    npm('1.0.0');
    ensureDependencies(root);
    const stamp = readFileSync(join(root, 'node_modules/.asfound-lock'), 'utf8');
    put('node_modules/.asfound-lock', stamp.replace(process.platform, 'elsewhere'));
    ensureDependencies(root);
    expect(calls()).toHaveLength(2);
  });

  test('that somebody installed by hand are left as they are', () => {
    put('package-lock.json', lockfile('1.0.0'));
    put('node_modules/.package-lock.json', lockfile('1.0.0'));
    put('node_modules/thing/package.json', {});
    ensureDependencies(root);
    expect(calls()).toEqual([]);
  });

  test('fit the lockfile only with the same versions, all there, but for those of other systems', () => {
    put('package-lock.json', {
      packages: { ...lockfile('1.0.0').packages, 'node_modules/other-system': { version: '1.0.0', optional: true } },
    });
    put('node_modules/.package-lock.json', lockfile('1.0.0'));
    expect(holdsLocked(root)).toBe(false);
    put('node_modules/thing/package.json', {});
    expect(holdsLocked(root)).toBe(true);
    put('node_modules/.package-lock.json', lockfile('0.9.0'));
    expect(holdsLocked(root)).toBe(false);
  });

  test('that cannot be installed are told in a sentence and tried again the next time', () => {
    put('package-lock.json', lockfile('1.0.0'));
    program('bin/npm', 'process.exit(1);');
    expect(() => ensureDependencies(root)).toThrow(SetupFailed);
    expect(() => ensureDependencies(root)).toThrow(/could not be installed.*python3, make, g\+\+/);
    expect(calls()).toHaveLength(2);
  });

  test('need npm, and its absence is told by name', () => {
    put('package-lock.json', lockfile('1.0.0'));
    expect(() => ensureDependencies(root)).toThrow('npm is not on this machine');
  });
});

describe('the build', () => {
  beforeEach(() => {
    const makes = (file: string) => {
      const path = JSON.stringify(join(root, file));
      return `const fs = require('node:fs'); fs.mkdirSync(require('node:path').dirname(${path}), { recursive: true }); fs.writeFileSync(${path}, process.env.ASFOUND_BUILD);`;
    };
    program('node_modules/.bin/vite', makes('dist/index.html'));
    program('node_modules/.bin/rolldown', makes('dist-node/server.js'));
    put('src/main.tsx', 'one');
    put('package-lock.json', '{}');
  });

  test('is made once for the same sources, even when they were touched', () => {
    ensureBuild(root);
    utimesSync(join(root, 'src/main.tsx'), 2_000_000_000, 2_000_000_000);
    ensureBuild(root);
    expect(calls().map((line) => line.split(' ')[0])).toEqual(['vite', 'rolldown']);
    expect(isBuilt(root)).toBe(true);
  });

  test('is made again when a source changed, moved or came, and carries another id', () => {
    ensureBuild(root);
    const ids = [readFileSync(join(root, 'dist/index.html'), 'utf8')];
    for (const change of [
      () => put('src/main.tsx', 'two'),
      () => put('src/more.ts', ''),
      () => put('public/a.svg', ''),
    ]) {
      change();
      expect(isBuilt(root)).toBe(false);
      ensureBuild(root);
      ids.push(readFileSync(join(root, 'dist/index.html'), 'utf8'));
    }
    expect(new Set(ids).size).toBe(4);
    expect(ids.every((id) => /^[0-9a-f]{8}$/.test(id))).toBe(true);
  });

  test('is made again when a part of it is gone', () => {
    ensureBuild(root);
    rmSync(join(root, 'dist-node/server.js'));
    ensureBuild(root);
    expect(calls()).toHaveLength(4);
  });

  test('that breaks off does not pass for the one before it', () => {
    ensureBuild(root);
    put('src/main.tsx', 'broken');
    program('node_modules/.bin/rolldown', 'process.exit(3);');
    expect(() => ensureBuild(root)).toThrow('The build failed in rolldown');
    put('src/main.tsx', 'one');
    expect(isBuilt(root)).toBe(false);
  });
});

describe('a browser', () => {
  test('is the one that CHROMIUM_PATH names, and a wrong name is told', () => {
    process.env.CHROMIUM_PATH = put('my-browser', '');
    expect(findChromium()).toBe(join(root, 'my-browser'));
    process.env.CHROMIUM_PATH = join(root, 'nothing');
    expect(() => findChromium()).toThrow(/CHROMIUM_PATH names .*nothing, which is not there/);
  });

  test('is found on the PATH', () => {
    put('bin/google-chrome', '');
    expect(findChromium()).toBe(join(root, 'bin/google-chrome'));
    put('bin/chromium', '');
    expect(findChromium()).toBe(join(root, 'bin/chromium'));
  });
});

describe('the other engines', () => {
  const script = (path: string, text: string) => chmodSync(put(path, `#!/bin/sh\n${text}\n`), 0o755);

  test('are Firefox by either name, and a Python that opens a web view beside a screen for it', () => {
    expect(findFirefox()).toBe(null);
    put('bin/firefox', '');
    expect(findFirefox()).toBe(join(root, 'bin/firefox'));
    script('bin/python3', 'exit 0');
    expect(findWebKit([])).toBe(null);
    put('bin/Xvfb', '');
    expect(findWebKit([])).toBe(join(root, 'bin/python3'));
    script('bin/python3', 'exit 1');
    expect(findWebKit([])).toBe(null);
  });

  test('are installed together where they are missing, and none is installed that is there', () => {
    const asked: string[][] = [];
    const there = new Set(['b']);
    const engine = (name: string) => ({ find: () => (there.has(name) ? name : null), packages: [`${name}-package`] });
    const install = (packages: string[]) => {
      asked.push(packages);
      for (const name of ['a', 'c']) there.add(name);
      return true;
    };
    expect(ensureEngines({ a: engine('a'), b: engine('b'), c: engine('c') }, install)).toMatchObject({ without: [] });
    expect(ensureEngines({ a: engine('a') }, install)).toMatchObject({ without: [] });
    expect(asked).toEqual([['a-package', 'c-package']]);
  });

  test('are named where they cannot be had: left out, or a failure where root could have installed them', () => {
    const engines = { a: { find: () => null, packages: ['a-package'] } };
    expect(() => ensureEngines(engines, () => false, true)).toThrow(
      /The tests in a need packages .* apt-get install a-package/,
    );
    expect(ensureEngines(engines, () => false, false)).toEqual({
      without: ['a'],
      sentence: expect.stringMatching(/^Left out: the tests in a, .* apt-get install a-package$/),
    });
  });
});

describe('PostgreSQL', () => {
  const debian = () => join(root, 'postgresql');
  const whole = (folder: string) => {
    for (const name of ['initdb', 'postgres']) put(`${folder}/${name}`, '');
  };

  test('is the newest whole version of those that Debian keeps beside each other', () => {
    whole('postgresql/9/bin');
    whole('postgresql/15/bin');
    put('postgresql/17/bin/initdb', '');
    expect(findPostgres([debian()])).toBe(join(debian(), '15/bin'));
  });

  test('is found in a folder of Homebrew with its version in the name', () => {
    whole('opt/postgresql@16/bin');
    whole('opt/postgresql-tools/bin');
    expect(findPostgres([join(root, 'opt')])).toBe(join(root, 'opt/postgresql@16/bin'));
  });

  test('on the PATH comes first, and without any the answer is none', () => {
    expect(findPostgres([debian()])).toBeNull();
    whole('postgresql/15/bin');
    whole('bin');
    expect(findPostgres([debian()])).toBe(join(root, 'bin'));
  });
});
