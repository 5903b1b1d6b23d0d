// `npm run check`: format and lint, types, build, every test. What a commit must pass; ends with the totals on a line of
// their own and non-zero on any failure.
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { binary, ensureBuild, ensureDependencies, launch, ROOT, run, SetupFailed, say } from './setup.js';
import { runTests } from './test.js';
import { totalsLine } from './totals.js';

const results = join(ROOT, 'build', 'tests.json');

const STEPS = {
  'format and lint': () => run(binary(ROOT, 'biome'), ['ci', '.']),
  types: () => run(binary(ROOT, 'tsc'), ['-b']),
  build: () => ensureBuild() ?? 0,
  tests: () => runTests(['--reporter=default', '--reporter=json', `--outputFile.json=${results}`]),
};

/** Every step runs whatever became of the one before: one round shows all there is to mend. */
function passes(name, work) {
  say(`— ${name}`);
  try {
    return work() === 0;
  } catch (error) {
    if (!(error instanceof SetupFailed)) throw error;
    say(error.message);
    return false;
  }
}

await launch(() => {
  ensureDependencies();
  rmSync(results, { force: true });
  const failed = Object.entries(STEPS).flatMap(([name, work]) => (passes(name, work) ? [] : [name]));
  const report = existsSync(results) ? JSON.parse(readFileSync(results, 'utf8')) : null;
  for (const name of failed) say(`Failed: ${name}`);
  const totals = totalsLine(report, failed);
  process.stdout.write(`${totals.line}\n`);
  return totals.failed > 0 ? 1 : 0;
});
