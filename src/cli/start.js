// `npm start`: whatever is missing is installed and built, then app and server run on one origin. `npm run pair` prints a
// new pairing code.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { ensureBuild, ensureDependencies, launch, ROOT } from './setup.js';

await launch(async (args) => {
  const program = join(ROOT, 'dist-node', 'server.js');
  ensureDependencies();
  // A code is asked for while the server runs: the app must not be rebuilt under its feet.
  if (!args.includes('--pair') || !existsSync(program)) ensureBuild();
  const server = spawn(process.execPath, [program, ...args], { cwd: ROOT, stdio: 'inherit' });
  let asked = false;
  for (const signal of ['SIGINT', 'SIGTERM']) {
    process.on(signal, () => {
      asked = true;
      server.kill(signal);
    });
  }
  return await new Promise((resolve) => server.on('close', (code) => resolve(code ?? (asked ? 0 : 1))));
});
