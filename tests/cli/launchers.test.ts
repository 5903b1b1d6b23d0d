// The launchers as programs: what goes to stdout, what to stderr, which exit code; and the closing line of the check.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { totalsLine } from '../../src/cli/totals.js';

const ROOT = join(import.meta.dirname, '..', '..');

function launch(...args: string[]) {
  const ended = spawnSync(process.execPath, [join(ROOT, 'src/cli/run.js'), ...args], {
    cwd: tmpdir(),
    encoding: 'utf8',
  });
  return { status: ended.status, out: ended.stdout, err: ended.stderr };
}

describe('run.js', () => {
  test('tells a command that does not exist in one sentence on stderr', () => {
    for (const name of ['nonsense', '../server/main', '']) {
      expect(launch(name)).toEqual({ status: 2, out: '', err: `There is no command "${name}".\n` });
    }
  });

  test('leaves stdout to the command and hands on its exit code', () => {
    const plan = join(ROOT, 'public/demo/schedule.csv');
    const good = launch('reconcile', '--plan', plan);
    expect(Object.keys(JSON.parse(good.out))).toContain('plan');
    const bad = launch('reconcile', '--plan', join(ROOT, 'no-such-file.csv'));
    expect([bad.status, bad.out]).toEqual([2, '']);
  });
});

test('a reader that stops early changes nothing of the exit code and leaves no stack', () => {
  const demo = join(ROOT, 'public/demo');
  const command = `"${process.execPath}" src/cli/run.js reconcile --plan "${demo}/schedule.csv" --sightings "${demo}/floor.csv"`;
  const ended = spawnSync('/bin/sh', ['-c', `{ ${command}; echo "ended with $?" >&2; } | head -c 20`], {
    cwd: ROOT,
    encoding: 'utf8',
  });
  expect(ended.stdout).toHaveLength(20);
  expect(ended.stderr).toMatch(/ended with 1\n$/);
  expect(ended.stderr).not.toContain('EPIPE');
});

describe('.ci/run', () => {
  let bin: string;
  beforeAll(() => {
    bin = mkdtempSync(join(tmpdir(), 'asfound-bin-'));
    for (const name of ['bash', 'dirname']) {
      symlinkSync(
        spawnSync('/bin/sh', ['-c', `command -v ${name}`], { encoding: 'utf8' }).stdout.trim(),
        join(bin, name),
      );
    }
  });
  afterAll(() => rmSync(bin, { recursive: true, force: true }));

  test('says what is needed first on a machine without Node', () => {
    const ended = spawnSync(join(bin, 'bash'), [join(ROOT, '.ci/run')], { env: { PATH: bin }, encoding: 'utf8' });
    expect([ended.status, ended.stderr]).toEqual([2, 'Node 20.19 or later with npm is needed first.\n']);
  });
});

describe('the closing line of the check', () => {
  const file = (status: string, ...tests: string[]) => ({
    status,
    assertionResults: tests.map((one) => ({ status: one })),
  });

  test('counts tests', () => {
    const report = {
      numPassedTests: 7,
      numFailedTests: 0,
      numPendingTests: 2,
      numTodoTests: 1,
      testResults: [file('passed', 'passed')],
    };
    expect(totalsLine(report, [])).toEqual({ line: '7 passed, 0 failed, 3 skipped', failed: 0 });
  });

  test('counts a file that could not even be loaded as a failure', () => {
    const report = {
      numPassedTests: 7,
      numFailedTests: 1,
      numPendingTests: 0,
      numTodoTests: 0,
      testResults: [file('failed', 'failed'), file('failed')],
    };
    expect(totalsLine(report, ['tests'])).toEqual({ line: '7 passed, 2 failed, 0 skipped', failed: 2 });
  });

  test('counts a step that failed, and a failure of the tests that no test shows', () => {
    const report = { numPassedTests: 7, numFailedTests: 0, numPendingTests: 0, numTodoTests: 0, testResults: [] };
    expect(totalsLine(report, ['types']).line).toBe('7 passed, 1 failed, 0 skipped');
    expect(totalsLine(report, ['tests']).line).toBe('7 passed, 1 failed, 0 skipped');
  });

  test('never calls it a success when no test ran', () => {
    const none = { numPassedTests: 0, numFailedTests: 0, numPendingTests: 0, numTodoTests: 0, testResults: [] };
    expect(totalsLine(null, []).failed).toBe(1);
    expect(totalsLine(none, []).failed).toBe(1);
  });
});
