import { describe, expect, it } from 'vitest';
import { expect as expectMark, newExpectation } from '../../../server/core/simulate/expectation.ts';
import { expectClose } from '../../kit/close.ts';

const stations = [0, 150, 300, 400].map((positionMm, index) => ({
  mark: index + 1,
  positionMm,
  tiltDeg: 5 + index,
  callDeg: 5 + index,
}));
const at = (index: number, beginsAtMs: number, tiltDeg = 4 + index) => ({
  stations,
  index,
  beginsAtMs,
  feedBeganAtMs: 1000,
  tiltDeg,
});

describe('when a hand expects the next mark', () => {
  const first = expectMark(newExpectation(0.05), at(1, 1000));

  it('takes the agreed feed at first', () => {
    expect(expectMark(newExpectation(0.05), at(0, 0)).evenMs).toBeNull();
    expect(first.evenMs).toBe(3000);
  });

  it('has what is left of the first interval where it begins late, for it heard the feed begin', () => {
    const late = expectMark(newExpectation(0.05), at(1, 1800));
    expect(late.evenMs).toBe(2200);
    expect(expectMark(newExpectation(0.05), at(1, 4500)).evenMs).toBe(0);
    // And feels the feed from the two marks: 150 mm in 2500 ms are 0.06 mm/ms.
    expectClose(expectMark(late.expectation, at(2, 3500)).evenMs ?? 0, 150 / 0.055, 1e-9, 'as felt from the marks');
  });

  it('feels half of a change of feed at the next mark, and knows how far the marks lie apart', () => {
    // 150 mm in 2500 ms are 0.06 mm/ms.
    const second = expectMark(first.expectation, at(2, 3500));
    expectClose(second.evenMs ?? 0, 150 / 0.055, 1e-9, 'as far again');
    const third = expectMark(second.expectation, at(3, 3500 + 150 / 0.055));
    expectClose(third.evenMs ?? 0, 100 / 0.055, 1e-9, 'a shorter way');
  });

  it('goes on with what is left of a turn when its bevel is said again', () => {
    expect(expectMark(first.expectation, at(1, 20_000, 5.75)).evenMs).toBe(750);
  });

  it('is not led astray by a long stop', () => {
    expectClose(
      expectMark(first.expectation, at(2, 60_000)).evenMs ?? 0,
      150 / (0.05 / 1.5),
      1e-9,
      'at most half as long again',
    );
  });
});
