// `npm test`: sets up what the tests need and runs them all; further arguments go to vitest. With --pictures the browser
// tests also write the pictures of the help and the README.
import { spawnSync } from 'node:child_process';
import { binary, ensureBuild, ensureChromium, ensureDependencies, ensurePostgres, launch, ROOT } from './setup.js';

export function runTests(args, stdio = 'inherit') {
  ensureDependencies();
  ensureBuild();
  const env = { ...process.env, CHROMIUM_PATH: ensureChromium(), POSTGRES_BIN: ensurePostgres() };
  if (args.includes('--pictures')) env.ASFOUND_PICTURES = '1';
  const rest = args.filter((arg) => arg !== '--pictures');
  return spawnSync(binary(ROOT, 'vitest'), ['run', ...rest], { cwd: ROOT, stdio, env }).status ?? 1;
}

if (process.argv[1]?.endsWith('test.js')) await launch(async (args) => runTests(args));
