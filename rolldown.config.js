// Bundles the server for Node: its own TypeScript in one file, npm packages stay outside.
import { defineConfig } from 'rolldown';

export default defineConfig({
  input: 'src/server/main.ts',
  platform: 'node',
  external: ['better-sqlite3', 'pg'],
  output: { file: 'dist-node/server.js', format: 'esm' },
});
