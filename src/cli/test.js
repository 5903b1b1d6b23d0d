// `npm test`: sets up what the tests need and runs them all; further arguments go to vitest. With --pictures the browser
// tests also write the pictures of the help and the README.
import { spawnSync } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { binary, ensureBuild, ensureChromium, ensureDependencies, ensurePostgres, launch, ROOT } from './setup.js';

/** Runs vitest on everything; answers its exit code. */
export function runTests(args) {
  ensureDependencies();
  ensureBuild();
  // The tests look for PostgreSQL's programs on the PATH, where neither Debian nor Homebrew puts them.
  const env = {
    ...process.env,
    CHROMIUM_PATH: ensureChromium(),
    PATH: `${process.env.PATH}:${ensurePostgres()}`,
  };
  if (args.includes('--pictures')) env.ASFOUND_PICTURES = '1';
  const rest = args.filter((arg) => arg !== '--pictures');
  return spawnSync(binary(ROOT, 'vitest'), ['run', ...rest], { cwd: ROOT, stdio: 'inherit', env }).status ?? 1;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) await launch((args) => runTests(args));
