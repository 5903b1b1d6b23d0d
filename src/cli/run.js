// `node src/cli/run.js NAME …`: bundles src/cli/NAME.ts, or tests/bench/NAME.ts, for Node and calls its `main(argv)`; the
// answer is the exit code.
// Standard output belongs to the command alone.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { bundleCommand } from './bundle.js';
import { ensureDependencies, launch, ROOT, SetupFailed } from './setup.js';

// Whoever reads the output may stop early (`| head`): no fault, and the exit code stays what it is.
process.stdout.on('error', (error) => {
  if (error.code !== 'EPIPE') throw error;
});

await launch(async ([name = '', ...args]) => {
  const sources = ['src/cli', 'tests/bench'].map((folder) => join(ROOT, folder, `${name}.ts`));
  const source = /^[a-z-]+$/i.test(name) ? sources.find((file) => existsSync(file)) : undefined;
  if (source === undefined) throw new SetupFailed(`There is no command "${name}".`);
  ensureDependencies();
  const more = source === sources[1] ? ['tests'] : [];
  const { main } = await import(pathToFileURL(bundleCommand(source, name, more)).href);
  return await main(args);
});
