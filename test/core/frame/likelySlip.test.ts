import { expect, test } from 'vitest';
import { slipOf } from '../../../server/core/frame/likelySlip.ts';

test.each([
  [-12, 11.8, 'the sign slipped: 12 would be fair'],
  [21, 12.3, 'two digits changed places: 12 would be fair'],
  [-31.5, -13, 'two digits changed places: -13.5 would be fair'],
  [1.2, 12.4, 'the point slipped: 12 would be fair'],
  [50, 5.2, 'the point slipped: 5 would be fair'],
  [17, 9, undefined],
  [7, 12, undefined],
])('%d where %d would be fair', (foundDeg, fairDeg, slip) => {
  expect(slipOf(foundDeg, fairDeg, 1.5)).toBe(slip);
});
