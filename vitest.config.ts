import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/** A busy machine is slow, not wrong: no test proves a time by these, and none sets a shorter one. */
const patient = { testTimeout: 240_000, hookTimeout: 240_000, expect: { poll: { timeout: 60_000 } } };

// Two projects: everything that needs no browser, and the real Chromium runs (see tests/browser/browser.ts).
export default defineConfig({
  test: {
    // A file of browser tests waits more than it works, so even two cores run two at a time. Each has its own server,
    // browser and data.
    maxWorkers: Math.max(2, availableParallelism()),
    projects: [
      {
        test: {
          name: 'node',
          environment: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**'],
          ...patient,
          setupFiles: ['fake-indexeddb/auto'],
        },
      },
      {
        test: {
          name: 'browser',
          environment: 'node',
          include: ['tests/browser/**/*.test.ts'],
          ...patient,
        },
      },
    ],
  },
});
