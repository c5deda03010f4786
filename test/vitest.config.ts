import { defineConfig } from 'vitest/config';

/** Nothing but reckoning: no clock, no disk, no page, and nothing left behind that another file could trip over. */
const PURE = ['core', 'wire', 'text', 'outside'].map((room) => `test/${room}/**/*.test.ts`);

/** The whole program or a browser stands behind them; they wait for it more than they reckon. */
const REAL_TIME = ['test/browser/**/*.test.ts', 'test/app/**/*.test.ts'];

/** Of these, those whose sound, figures or silences are judged to the tenth of a second: alone, when all else is done. */
const BY_THE_CLOCK = [
  ...['liveLead', 'starved', 'stoodStill'].map((name) => `test/app/${name}.test.ts`),
  ...['earKept', 'hearingPanel', 'pointer', 'pointerOnScreen', 'serverGone', 'soundInTime', 'standStill'].map(
    (name) => `test/browser/${name}.test.ts`,
  ),
];

export default defineConfig({
  test: {
    // Deadlines are there for what never ends; a machine that is busy with something else must not reach them.
    testTimeout: 180_000,
    hookTimeout: 60_000,
    expect: { poll: { timeout: 15_000 } },
    setupFiles: ['test/kit/oneSeedInCi.ts'],
    projects: [
      {
        extends: true,
        test: { name: 'pure', include: PURE, pool: 'threads', isolate: false, maxWorkers: 2 },
      },
      {
        extends: true,
        test: {
          name: 'at leisure',
          include: ['test/**/*.test.ts'],
          exclude: [...PURE, ...REAL_TIME],
          maxWorkers: 2,
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: {
          name: 'in real time',
          include: REAL_TIME,
          exclude: BY_THE_CLOCK,
          maxWorkers: 3,
          sequence: { groupOrder: 2 },
        },
      },
      {
        extends: true,
        test: { name: 'by the clock', include: BY_THE_CLOCK, maxWorkers: 1, sequence: { groupOrder: 3 } },
      },
    ],
  },
});
