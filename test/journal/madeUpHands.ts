import type { KeptHand } from '../../server/wire/kept/crew.ts';

/** What two invented runs told of two people; the runs are those of a snapshot. */
export const madeUpHands: readonly KeptHand[] = [
  {
    run: 'a',
    name: 'Ö. W.',
    keptAtMs: 1_700_000_100_000,
    reactionS: { median: 0.42, error: 0.03, spread: 0.2, turns: 11 },
    turnsPerS: { median: 0.63, error: 0.01, spread: 0, turns: 10 },
  },
  {
    run: 'b',
    name: 'KT',
    keptAtMs: 1_700_000_200_000,
    reactionS: { median: 0.51, error: 0.05, spread: 0.3, turns: 6 },
    turnsPerS: null,
  },
];
