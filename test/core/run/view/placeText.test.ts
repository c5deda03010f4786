import { describe, expect, it } from 'vitest';
import { placeText } from '../../../../server/core/run/view/placeText.ts';

describe('where a run is', () => {
  it.each([
    ['ready', 0, 1, 'No mark yet, next 1 of 10'],
    ['feeding', 1, 2, 'Passed 1, next 2 of 10'],
    // From head to heel.
    ['stopped', 10, 9, 'Passed 10, next 9 of 10'],
    ['finished', 10, null, 'Passed 10, the last of 10'],
    ['finished', 4, 5, 'Passed 4, ended before 5 of 10'],
    ['finished', 0, 1, 'No mark passed, ended before 1 of 10'],
  ] as const)('%s, passed %d, next %s', (state, mark, nextMark, words) => {
    expect(placeText({ state, mark, nextMark, marks: 10, isPlaceKnown: true })).toBe(words);
  });

  it('is not told where a damaged record does not tell it', () => {
    expect(placeText({ state: 'stopped', mark: 3, nextMark: 4, marks: 10, isPlaceKnown: false })).toBe(
      'Mark not known',
    );
  });
});
