import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    testTimeout: 60_000,
    hookTimeout: 30_000,
    // Two cores: a browser and a server in one test want both.
    maxWorkers: 2,
  },
});
