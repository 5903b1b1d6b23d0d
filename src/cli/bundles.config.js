// Bundles what Vite does not: the server for Node, its npm packages with native code left outside, and the worker that
// retires the service worker.
import { defineConfig } from 'rolldown';

export default defineConfig([
  {
    input: 'src/server/main.ts',
    platform: 'node',
    external: ['better-sqlite3', 'pg'],
    output: { file: 'dist-node/server.js', format: 'esm' },
  },
  {
    input: 'sw/retire.ts',
    platform: 'browser',
    output: { file: 'dist-node/retire-sw.js', format: 'iife' },
  },
]);
