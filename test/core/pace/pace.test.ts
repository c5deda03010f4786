import { describe, expect, test } from 'vitest';
import { paceOf } from '../../../server/core/pace/pace.ts';
import { aRip } from './pacedRips.ts';

const crew = { reactionS: 0.4, turnsPerS: 0.5, feedMPerMin: 3 };
const marks = [
  { mark: 3, alongMm: 300, callDeg: 2, wordsS: 9 },
  { mark: 2, alongMm: 180, callDeg: 4, wordsS: 0.6 },
  { mark: 1, alongMm: 0, callDeg: 4.5, wordsS: 1.1 },
];

describe('the pace', () => {
  test('an interval has to last as long as the words of the call for its end, the reaction and the wheel', () => {
    const { intervals } = paceOf(aRip(marks, crew, 2));
    // 120 mm in 0.6 + 0.4 + 2 s, and 180 mm in 1.1 + 0.4 + 0.5 s. The first mark is set before the wood meets the blade.
    expect(intervals).toHaveLength(2);
    expect(intervals[0]).toMatchObject({ fromMark: 3, toMark: 2, lengthMm: 120, wheelS: 2, limitedBy: 'wheel' });
    expect(intervals[0]?.limitMPerMin).toBeCloseTo((0.12 / 3) * 60, 12);
    expect(intervals[1]).toMatchObject({ fromMark: 2, toMark: 1, wheelS: 0.5, limitedBy: 'words' });
    expect(intervals[1]?.limitMPerMin).toBeCloseTo((0.18 / 2) * 60, 12);
  });

  test('the slowest interval limits the whole, and the rip lasts as long as that lets it', () => {
    const pace = paceOf(aRip(marks, crew, 2));
    expect(pace).toMatchObject({ limitedBy: 'wheel' });
    expect(pace.limitMPerMin).toBeCloseTo(2.4, 12);
    expect(pace.durationS).toBeCloseTo((0.3 / 2.4) * 60, 12);
    expect(paceOf(aRip(marks, { ...crew, feedMPerMin: 1 }, 2)).durationS).toBeCloseTo(18, 12);
  });
});
