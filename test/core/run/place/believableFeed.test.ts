import { expect, test } from 'vitest';
import { believableFeed, ceilingOf } from '../../../../server/core/run/place/believableFeed.ts';
import { expectClose } from '../../../kit/close.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

const planOf = (feedMPerMin: number, ...limits: readonly number[]) =>
  ({
    crew: { reactionS: 0.35, turnsPerS: 0.7, feedMPerMin },
    pace: { intervals: limits.map((limitMPerMin) => ({ limitMPerMin })) },
  }) as unknown as Parameters<typeof believableFeed>[0];

test.each([
  ['the fastest that the plan allows anywhere', 3, [4, 9, 2], 9],
  ['never more than a hand feeds at', 3, [4, 55], 20],
  ['but what the crew says of itself', 25, [4, 55], 25],
  ['and no less than that', 6, [4, 5], 6],
])('a feed is believed that is %s', (_, crew, limits, found) => {
  expect(believableFeed(planOf(crew, ...limits))).toBe(found);
});

/** Half as much again, between 12 and 60 m/min; on top of it, once, 0.6 s of what is believed. 1 m/min = 1/60 mm/ms. */
test.each([
  [3, 12, 3],
  [8, 12, 8],
  [10, 15, 10],
  [20, 30, 20],
  [50, 60, 40],
])('what is believed at %s m/min has its ceiling at %s', (fastestMPerMin, ceilingMPerMin, believedMPerMin) => {
  const ceiling = ceilingOf(smallSetup({ fastestMPerMin }));
  expectClose(ceiling?.mmPerMs ?? Number.NaN, ceilingMPerMin / 60, 1e-12, 'mm/ms');
  expectClose(ceiling?.slackMm ?? Number.NaN, (600 * believedMPerMin) / 60, 1e-9, 'mm');
});

test('a run that says nothing of it believes every feed', () => {
  expect(ceilingOf(smallSetup())).toBeNull();
});
