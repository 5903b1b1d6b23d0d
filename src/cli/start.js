// `npm start`: whatever is missing is installed and built, then app and server run on one origin. `npm run pair` prints a
// new pairing code.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { ensureBuild, ensureDependencies, launch, ROOT } from './setup.js';

await launch(async (args) => {
  ensureDependencies();
  ensureBuild();
  const server = spawn(process.execPath, [join(ROOT, 'dist-node', 'server.js'), ...args], { cwd: ROOT, stdio: 'inherit' });
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => server.kill(signal));
  return await new Promise((resolve) => server.on('close', (code) => resolve(code ?? 0)));
});
