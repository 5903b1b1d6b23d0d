// The launchers' set-up: when it acts and when it leaves things alone, tried on roots made for the test. Nothing is
// installed here and no network is asked.

import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const SETUP = pathToFileURL(join(import.meta.dirname, '..', '..', 'src', 'cli', 'setup.js')).href;

/** Plain JavaScript is not typed here, so each call runs as the launchers run it: in a process of its own. */
function node(code: string, env: Record<string, string> = {}) {
  const done = spawnSync(
    process.execPath,
    ['--input-type=module', '-e', `import * as setup from '${SETUP}';\n${code}`],
    {
      encoding: 'utf8',
      env: { ...process.env, ...env },
    },
  );
  return { exit: done.status, out: done.stdout, err: done.stderr };
}

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'asfound-setup-'));
  writeFileSync(join(root, 'package.json'), '{}');
  writeFileSync(join(root, 'package-lock.json'), '{"lockfileVersion":3}');
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

/** A stand-in for a tool: notes that it was called, and makes what it would make. */
function fakeTool(folder: string, name: string, script: string): void {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, name), `#!/bin/sh\necho "${name} $*" >> '${join(root, 'calls')}'\n${script}\n`, {
    mode: 0o755,
  });
}
const calls = () => {
  try {
    return readFileSync(join(root, 'calls'), 'utf8').trim().split('\n');
  } catch {
    return [];
  }
};

describe('checkNode', () => {
  it.each(['20.19.0', '20.20.2', '22.0.0', '24.1.0'])('accepts Node %s', (version) => {
    expect(node(`setup.checkNode('${version}')`)).toMatchObject({ exit: 0, err: '' });
  });

  it.each(['18.20.0', '20.18.3'])('refuses Node %s with the version that is needed', (version) => {
    const { exit, err, out } = node(`await setup.launch(() => setup.checkNode('${version}'))`);
    expect(exit).toBe(2);
    expect(err.trim()).toBe(
      `Node 20.19 or later is needed; this is ${version}. Install a newer Node and run this again.`,
    );
    expect(out).toBe('');
  });
});

describe('launch', () => {
  it('passes the exit code of the work on, and 0 when there is none', () => {
    expect(node('await setup.launch(() => 1)').exit).toBe(1);
    expect(node('await setup.launch(() => undefined)').exit).toBe(0);
  });

  it('lets a bug throw with its stack', () => {
    const { exit, err } = node("await setup.launch(() => { throw new TypeError('broken') })");
    // 1 and 2 are answers of the commands; a bug must not read as one of them.
    expect([0, 1, 2]).not.toContain(exit);
    expect(err).toContain('TypeError: broken');
    expect(err).toContain('at ');
  });

  it('names a command that is not on the machine', () => {
    const { exit, err } = node("await setup.launch(() => setup.run('no-such-command-here', []))");
    expect(exit).toBe(2);
    expect(err).toContain('no-such-command-here is not on this machine.');
  });
});

describe('ensureDependencies', () => {
  const ensure = () =>
    node(`await setup.launch(() => setup.ensureDependencies(${JSON.stringify(root)}))`, {
      PATH: `${join(root, 'bin')}:/usr/bin:/bin`,
    });

  it('does nothing when the stamp fits the lockfile and this Node', () => {
    fakeTool(join(root, 'bin'), 'npm', `mkdir -p '${join(root, 'node_modules')}'`);
    ensure();
    fakeTool(join(root, 'bin'), 'npm', 'exit 1');
    rmSync(join(root, 'calls'));
    expect(ensure()).toMatchObject({ exit: 0, out: '', err: '' });
    expect(calls()).toEqual([]);
  });

  it('installs once from the lockfile, and again when the lockfile changes', () => {
    fakeTool(join(root, 'bin'), 'npm', `mkdir -p '${join(root, 'node_modules')}'`);
    expect(ensure()).toMatchObject({ exit: 0, out: '' });
    expect(ensure().err).toBe('');
    expect(calls()).toHaveLength(1);
    expect(calls()[0]).toMatch(/^npm ci( --|$)/);
    writeFileSync(join(root, 'package-lock.json'), '{"lockfileVersion":3,"name":"other"}');
    expect(ensure().err).toContain('Installing dependencies');
    expect(calls()).toHaveLength(2);
  });

  it('leaves no stamp behind when the installation fails, and says what to do', () => {
    fakeTool(join(root, 'bin'), 'npm', `mkdir -p '${join(root, 'node_modules')}'; exit 1`);
    const { exit, err } = ensure();
    expect(exit).toBe(2);
    expect(err).toContain('The dependencies could not be installed. Check the network and run this again.');
    expect(ensure().exit).toBe(2);
    expect(calls()).toHaveLength(2);
  });
});

describe('ensureBuild', () => {
  const ensure = () => node(`await setup.launch(() => setup.ensureBuild(${JSON.stringify(root)}))`);

  beforeEach(() => {
    const bin = join(root, 'node_modules', '.bin');
    fakeTool(bin, 'vite', `mkdir -p '${join(root, 'dist')}'; echo built > '${join(root, 'dist', 'index.html')}'`);
    fakeTool(
      bin,
      'rolldown',
      `mkdir -p '${join(root, 'dist-node')}'; echo s > '${join(root, 'dist-node', 'server.js')}'`,
    );
    mkdirSync(join(root, 'src'));
    writeFileSync(join(root, 'src', 'main.tsx'), 'one');
  });

  it('builds once, and again only when a source has changed', () => {
    expect(ensure()).toMatchObject({ exit: 0, out: '' });
    expect(ensure().err).toBe('');
    expect(calls().map((line) => line.split(' ')[0])).toEqual(['vite', 'rolldown']);
    writeFileSync(join(root, 'src', 'main.tsx'), 'two');
    expect(ensure().err).toContain('Building');
    expect(calls()).toHaveLength(4);
  });

  it('builds again when the build was removed', () => {
    ensure();
    rmSync(join(root, 'dist'), { recursive: true });
    ensure();
    expect(calls()).toHaveLength(4);
  });

  it('names the tool in which a build failed', () => {
    fakeTool(join(root, 'node_modules', '.bin'), 'rolldown', 'exit 3');
    const { exit, err } = ensure();
    expect(exit).toBe(2);
    expect(err).toContain('The build failed in rolldown; its message stands above.');
  });
});

describe('the browser and the database', () => {
  it('takes the Chromium that CHROMIUM_PATH names', () => {
    fakeTool(join(root, 'bin'), 'some-chromium', '');
    const path = join(root, 'bin', 'some-chromium');
    expect(node('console.log(setup.findChromium())', { CHROMIUM_PATH: path }).out.trim()).toBe(path);
  });

  it('says so when CHROMIUM_PATH leads nowhere, and does not take another browser instead', () => {
    fakeTool(join(root, 'bin'), 'chromium', '');
    const env = { CHROMIUM_PATH: join(root, 'nowhere'), PATH: join(root, 'bin') };
    const { exit, out, err } = node('await setup.launch(() => console.log(setup.findChromium()))', env);
    expect({ exit, out }).toEqual({ exit: 2, out: '' });
    expect(err).toContain(`CHROMIUM_PATH names ${join(root, 'nowhere')}`);
  });

  it('looks for a Chromium on the path', () => {
    fakeTool(join(root, 'bin'), 'chromium', '');
    const env = { CHROMIUM_PATH: '', PATH: join(root, 'bin') };
    expect(node('console.log(setup.findChromium())', env).out.trim()).toBe(join(root, 'bin', 'chromium'));
  });
});
