// `node src/cli/run.js NAME …`: bundles src/cli/NAME.ts for Node and calls its `main(argv)`; the answer is the exit code.
// Standard output belongs to the command alone.
import { appendFileSync, existsSync, readFileSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { binary, ensureDependencies, hashSources, launch, ROOT, run, SetupFailed } from './setup.js';

const OUTSIDE = ['better-sqlite3', 'pg', 'playwright-core', 'vite', 'rolldown'];

/** The bundle carries the hash of its sources as its last line and appears whole or not at all: two may run at once. */
function bundle(source, name) {
  const file = join(ROOT, 'dist-node', `cli-${name}.js`);
  const mark = `\n// ${hashSources()}\n`;
  if (existsSync(file) && readFileSync(file, 'utf8').endsWith(mark)) return file;
  const draft = join(ROOT, 'dist-node', `cli-${name}.${process.pid}.js`);
  const options = ['--file', draft, '--platform', 'node', '--format', 'esm', '--log-level', 'silent'];
  const outside = OUTSIDE.flatMap((one) => ['--external', one]);
  if (run(binary(ROOT, 'rolldown'), [source, ...options, ...outside]) !== 0) {
    throw new SetupFailed(`src/cli/${name}.ts could not be bundled.`);
  }
  appendFileSync(draft, mark);
  renameSync(draft, file);
  return file;
}

// Whoever reads the output may stop early (`| head`): no fault, and the exit code stays what it is.
process.stdout.on('error', (error) => {
  if (error.code !== 'EPIPE') throw error;
});

await launch(async ([name = '', ...args]) => {
  const source = join(ROOT, 'src', 'cli', `${name}.ts`);
  if (!/^[a-z-]+$/i.test(name) || !existsSync(source)) throw new SetupFailed(`There is no command "${name}".`);
  ensureDependencies();
  const { main } = await import(pathToFileURL(bundle(source, name)).href);
  return await main(args);
});
