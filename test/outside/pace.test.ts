/** The pace against figures from outside: each test names its source and its status. */
import { expect, test } from 'vitest';
import { paceOf } from '../../server/core/pace/pace.ts';
import { aRip } from '../core/pace/pacedRips.ts';

/**
 * Reaction: recognising which of several signals has come takes 384 ms (Laming 1968, second-hand). Cranking 20 to 60 turns a
 * minute is an assumption: no published comfortable rate was found. Worked by hand: marks 150 mm apart, words of 1.2 s, 3 degrees
 * to turn at 2 degrees a turn: 1.5 turns take 4.5 s at 20 and 1.5 s at 60 turns a minute; 150 mm in 6.084 s is 1.479 m/min, in
 * 3.084 s 2.918 m/min.
 */
test.each([
  [20, 1.479],
  [60, 2.918],
])('150 mm, 1.2 s of words, recognition in 0.384 s, 1.5 turns at %d a minute: %f m/min', (turnsPerMin, limit) => {
  const marks = [
    { mark: 1, alongMm: 0, callDeg: 9, wordsS: 1.2 },
    { mark: 2, alongMm: 150, callDeg: 12, wordsS: 1.2 },
  ];
  const pace = paceOf(aRip(marks, { reactionS: 0.384, turnsPerS: turnsPerMin / 60, feedMPerMin: 3 }, 2));
  expect(pace.limitMPerMin).toBeCloseTo(limit, 3);
  expect(pace.limitedBy).toBe('wheel');
});
