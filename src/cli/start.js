// `npm start`: whatever is missing is installed and built, then app and server run on one origin. `npm run pair` prints a
// new pairing code, `npm run phones` what is paired; `npm run backup` and `npm run restore` write and read a file with
// all that the server holds.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { ensureBuild, ensureDependencies, launch, ROOT } from './setup.js';

await launch(async (args) => {
  const program = join(ROOT, 'dist-node', 'server.js');
  ensureDependencies();
  // A command is given while the server runs: the app must not be rebuilt under its feet.
  if (!args[0]?.startsWith('--') || !existsSync(program)) ensureBuild();
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
