// `npm run faults -- --seed N --phones 4 --minutes M [--browsers 2] [--database postgresql]`: the large fault run of
// tests/sync/faultRun.ts. Standard output has the counts alone.
import { pathToFileURL } from 'node:url';
import { bundleCommand } from './bundle.js';
import { ensureBuild, ensureChromium, ensureDependencies, ensurePostgres, launch, ROOT } from './setup.js';

await launch(async (args) => {
  ensureDependencies();
  process.chdir(ROOT);
  if (args.includes('--browsers')) {
    ensureBuild();
    process.env.CHROMIUM_PATH ??= ensureChromium();
  }
  if (args.includes('postgresql')) ensurePostgres();
  const { main } = await import(pathToFileURL(bundleCommand('tests/sync/faultCommand.ts', 'faults', ['tests'])).href);
  // Channels between the phones of one process would keep it alive.
  process.exit(await main(args));
});
