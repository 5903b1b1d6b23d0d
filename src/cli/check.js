// `npm run check`: format and lint, types, build, every test. What a commit must pass; ends with the totals on a line of
// their own and non-zero on any failure.
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { binary, ensureDependencies, launch, ROOT, run, say } from './setup.js';
import { runTests } from './test.js';

await launch(async () => {
  ensureDependencies();
  const failed = [];
  const step = (name, work) => {
    say(`— ${name}`);
    if (work() !== 0) failed.push(name);
  };
  step('format and lint', () => run(binary(ROOT, 'biome'), ['ci', '.']));
  step('types', () => run(binary(ROOT, 'tsc'), ['-b']));
  const results = join(ROOT, 'build', 'tests.json');
  rmSync(results, { force: true });
  step('build and tests', () => runTests(['--reporter=default', '--reporter=json', `--outputFile.json=${results}`]));
  const totals = existsSync(results) ? JSON.parse(readFileSync(results, 'utf8')) : null;
  if (!totals || totals.numTotalTests === 0) failed.push('no test ran');
  for (const name of failed) say(`Failed: ${name}`);
  const [passed, bad, skipped] = totals ? [totals.numPassedTests, totals.numFailedTests, totals.numPendingTests] : [0, 1, 0];
  process.stdout.write(`${passed} passed, ${bad} failed, ${skipped} skipped\n`);
  return failed.length > 0 ? 1 : 0;
});
