// `node src/cli/run.js NAME …`: bundles src/cli/NAME.ts for Node and calls its `main(argv)`; the answer is the exit code.
// Standard output belongs to the command alone.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { binary, ensureDependencies, launch, ROOT, run, SetupFailed } from './setup.js';

await launch(async ([name = '', ...args]) => {
  const source = join(ROOT, 'src', 'cli', `${name}.ts`);
  if (!/^[a-z-]+$/i.test(name) || !existsSync(source)) throw new SetupFailed(`There is no command "${name}".`);
  ensureDependencies();
  const file = join(ROOT, 'dist-node', `cli-${name}.js`);
  const outside = ['better-sqlite3', 'pg', 'playwright-core', 'vite'].flatMap((one) => ['--external', one]);
  const status = run(binary(ROOT, 'rolldown'), [source, '--file', file, '--platform', 'node', '--format', 'esm', '--log-level', 'silent', ...outside]);
  if (status !== 0) throw new SetupFailed(`src/cli/${name}.ts could not be bundled.`);
  const { main } = await import(pathToFileURL(file).href);
  return await main(args);
});
