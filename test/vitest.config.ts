import { defineConfig } from 'vitest/config';

/** Tests that look at the clock, with a browser or the whole program in them: one at a time, when all else is done. */
const REAL_TIME = ['test/browser/**/*.test.ts', 'test/app/**/*.test.ts'];

export default defineConfig({
  test: {
    testTimeout: 60_000,
    hookTimeout: 30_000,
    setupFiles: ['test/kit/oneSeedInCi.ts'],
    projects: [
      {
        extends: true,
        test: { name: 'at leisure', include: ['test/**/*.test.ts'], exclude: REAL_TIME, maxWorkers: 2 },
      },
      {
        extends: true,
        test: { name: 'in real time', include: REAL_TIME, maxWorkers: 1, sequence: { groupOrder: 1 } },
      },
    ],
  },
});
