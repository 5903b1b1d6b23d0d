// `npm run build`: types first, then the app into dist/ and the server into dist-node/. Builds again even when nothing
// has changed.
import { binary, buildAll, ensureDependencies, launch, ROOT, run, SetupFailed } from './setup.js';

await launch(() => {
  ensureDependencies();
  if (run(binary(ROOT, 'tsc'), ['-b']) !== 0) throw new SetupFailed('The type check failed; see the places above.');
  buildAll();
});
