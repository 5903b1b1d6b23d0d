// Bundles one command for Node into the ignored build folder, and only when its sources have changed. Plain JavaScript
// with Node built-ins only, like all that runs before anything is built.
import { appendFileSync, existsSync, readFileSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { binary, hashSources, ROOT, run, SetupFailed } from './setup.js';

const OUTSIDE = ['better-sqlite3', 'pg', 'playwright-core', 'vite', 'rolldown'];

/**
 * The bundle carries the hash of its sources as its last line and appears whole or not at all: two may run at once.
 * @param more Folders beside the sources of the app that it is made from.
 */
export function bundleCommand(source, name, more = []) {
  const file = join(ROOT, 'dist-node', `cli-${name}.js`);
  const mark = `\n// ${hashSources(ROOT, more)}\n`;
  if (existsSync(file) && readFileSync(file, 'utf8').endsWith(mark)) return file;
  const draft = join(ROOT, 'dist-node', `cli-${name}.${process.pid}.js`);
  const options = [
    '--file',
    draft,
    '--platform',
    'node',
    '--format',
    'esm',
    '--no-codeSplitting',
    '--log-level',
    'silent',
  ];
  const outside = OUTSIDE.flatMap((one) => ['--external', one]);
  if (run(binary(ROOT, 'rolldown'), [source, ...options, ...outside]) !== 0) {
    throw new SetupFailed(`The command ${name} could not be bundled.`);
  }
  appendFileSync(draft, mark);
  renameSync(draft, file);
  return file;
}
