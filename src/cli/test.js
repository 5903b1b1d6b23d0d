// `npm test`: sets up what the tests need and runs them all; further arguments go to vitest. With --pictures the browser
// tests also write the pictures of the help and the README.
import { spawnSync } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import {
  binary,
  ensureBuild,
  ensureChromium,
  ensureDependencies,
  ensureEngines,
  ensurePostgres,
  findFirefox,
  launch,
  ROOT,
  say,
} from './setup.js';

/** Runs vitest on everything; answers its exit code. */
export function runTests(args) {
  ensureDependencies();
  ensureBuild();
  const { without, sentence } = ensureEngines();
  // The tests look for PostgreSQL's programs on the PATH, where neither Debian nor Homebrew puts them.
  const env = {
    ...process.env,
    CHROMIUM_PATH: ensureChromium(),
    PATH: `${process.env.PATH}:${ensurePostgres()}`,
    FIREFOX_PATH: findFirefox() ?? '',
  };
  if (args.includes('--pictures')) env.ASFOUND_PICTURES = '1';
  const rest = args.filter((arg) => arg !== '--pictures');
  const leftOut = without.map((name) => `--exclude=tests/browser/engines/${name}.test.ts`);
  const ran = spawnSync(binary(ROOT, 'vitest'), ['run', ...rest, ...leftOut], { cwd: ROOT, stdio: 'inherit', env });
  // Once more at the end, where it is seen: green does not speak for what did not run.
  if (without.length > 0) say(sentence);
  return ran.status ?? 1;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) await launch((args) => runTests(args));
