/** What makes the saw tell the truth, worked by hand; tables hold (readout shown, true tilt). */
import { describe, expect, test } from 'vitest';
import { type SawTruth, sawTruthOf } from '../../../server/core/plan/sawCheck.ts';
import { sawTruthLines } from '../../../server/core/text/sawCheckText.ts';
import { aJob } from '../../kit/aJob.ts';

function truthOf(called: readonly number[], saw: object = {}): SawTruth {
  const job = aJob({ saw: { tiltDeg: [-45, 45], readoutDeg: 0.5, ...saw }, crew: { turnsPerS: 0.7 } });
  return sawTruthOf(
    job,
    called.map((callDeg, i) => ({ mark: i + 1, callDeg })),
  );
}

describe('the readout’s correction', () => {
  const OFF_BY_04 = [
    [0, 0.1],
    [10, 10.4],
    [20, 20.2],
  ] as const;

  test('is the farthest that its figure is from the true tilt on this frame: at a block between its bevels', () => {
    const { correction } = truthOf([4, 15], { readoutTable: OFF_BY_04 });
    expect(correction).toMatchObject({ blocks: 3, atDeg: 10.4 });
    expect(correction?.mostDeg).toBeCloseTo(-0.4, 9);
  });

  test('or at the last bevel, where the block lies beyond it', () => {
    // 5 shown is half the way from 0.1 to 10.4.
    const { correction } = truthOf([4, 5], { readoutTable: OFF_BY_04 });
    expect(correction?.atDeg).toBeCloseTo(5.25, 9);
    expect(correction?.mostDeg).toBeCloseTo(-0.25, 9);
  });

  test('counts for the other hand too', () => {
    const readoutTable = [
      [-20, -20.2],
      [-10, -10.5],
      [0, 0],
    ];
    const truth = truthOf([-5, -12], { readoutTable });
    expect(truth.correction).toMatchObject({ blocks: 3, atDeg: -10.5 });
    expect(truth.correction?.mostDeg).toBeCloseTo(0.5, 9);
    // True tilts from 0 to -12.44.
    expect(truth.testAtDeg).toEqual([-12, -6, 0]);
  });

  test('is said with the figure by which the calls differ from the bevels', () => {
    const said = (saw: object): string | undefined => sawTruthLines(truthOf([4, 15], saw))[1];
    expect(said({ readoutTable: OFF_BY_04 })).toContain(
      'by 3 test blocks, by a straight line between two of them: on this frame it is off by at most -0.4°, at a true 10.4°',
    );
    expect(said({ readoutTable: [[10, 10.4]] })).toContain('by 1 test block,');
    expect(said({ readoutTable: [[10, 10.01]] })).toContain('it is hardly off');
  });

  test('is none without test blocks; they tell most at square, at the ends and half the way', () => {
    const truth = truthOf([4, 9, 15]);
    expect(truth.correction).toBeNull();
    expect(truth.testAtDeg).toEqual([0, 8, 15]);
    expect(sawTruthLines(truth)[1]).toContain('Check it with test blocks sawn at 0°, 8°, 15°');
    expect(truthOf([-4, 9]).testAtDeg).toEqual([-4, 0, 3, 9]);
  });

  test('shifts what must be shown at square', () => {
    expect(truthOf([4, 15], { readoutTable: [[1.2, 0.1]] }).squareShowsDeg).toBe(1);
  });
});

describe('the looseness of the wheel', () => {
  const reversals = (...called: readonly number[]) => truthOf(called, { backlashTurns: 0.25 }).looseness?.atMarks;

  test('is turned through at each call that turns the other way', () => {
    expect(reversals(4, 6, 8, 7, 7, 9)).toEqual([4, 6]);
    expect(reversals(4, 6, 5)).toEqual([3]);
    expect(reversals(4, 6, 6, 8)).toEqual([]);
  });

  test('is taken up beforehand for the first turn, however late that comes', () => {
    expect(reversals(6, 4, 2, 3)).toEqual([4]);
    expect(reversals(6, 6, 4, 2, 3)).toEqual([5]);
  });
});

describe('the first bevel', () => {
  test('is come to from beyond it, on the way of the first turn', () => {
    expect(truthOf([8, 8, 10])).toMatchObject({
      comeToFirst: 'from less tilt',
      firstBevel: { callDeg: 8, fromDeg: 6.5, towardDeg: 10 },
    });
    expect(truthOf([8, 6])).toMatchObject({
      comeToFirst: 'from more tilt',
      firstBevel: { callDeg: 8, fromDeg: 9.5, towardDeg: 6 },
    });
    expect(truthOf([8, 8])).toMatchObject({ comeToFirst: 'either way', firstBevel: null });
  });

  test('from a figure that the readout shows, no nearer than a degree and a half', () => {
    expect(truthOf([8, 10], { readoutDeg: 0.4 }).firstBevel?.fromDeg).toBeCloseTo(6.4, 9);
  });

  test('from twice the looseness, in degrees of tilt where a turn is worth less there', () => {
    // A turn of looseness, and a turn is a degree here, not two.
    const turnsTable = [
      [0, 0],
      [40, 40],
    ];
    expect(truthOf([8, 10], { degreesPerTurn: 2, backlashTurns: 1, turnsTable }).firstBevel?.fromDeg).toBe(6);
    expect(truthOf([8, 10], { degreesPerTurn: 2, backlashTurns: 1 }).firstBevel?.fromDeg).toBe(4);
  });

  test('from nowhere where the saw’s true tilt does not reach', () => {
    const fromDeg = (called: readonly number[], saw: object) => truthOf(called, saw).firstBevel?.fromDeg;
    expect(fromDeg([8, 10], { tiltDeg: [6.5, 45] })).toBe(6.5);
    expect(fromDeg([8, 10], { tiltDeg: [6.6, 45] })).toBeNull();
    expect(fromDeg([8, 6], { tiltDeg: [0, 9.5] })).toBe(9.5);
    expect(fromDeg([8, 6], { tiltDeg: [0, 9.4] })).toBeNull();
    expect(fromDeg([8, 10], { tiltDeg: [6.6, 45], readoutTable: [[0, 0.2]] })).toBe(6.5);
  });
});
