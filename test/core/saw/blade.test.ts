import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lengthIn } from '../../../server/core/figures/lengths.ts';
import { limitOf, twistCures, twistCureText, withCure } from '../../../server/core/rip/twistCures.ts';
import {
  radiusFloorMm,
  smallestRadiusMm,
  standStillDeg,
  standStillSentence,
  widestForRadiusMm,
} from '../../../server/core/saw/blade.ts';
import { twistLimitDegPerM } from '../../../server/core/saw/twist.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { holds } from '../../kit/holds.ts';
import { planned } from '../../kit/planned.ts';
import { ripOf } from '../../kit/sawnFrame.ts';

const saws = fc.record({
  bladeThicknessMm: fc.double({ min: 0.5, max: 1.3, noNaN: true }),
  setMm: fc.double({ min: 0.2, max: 2, noNaN: true }),
  bladeWidthMm: fc.double({ min: 6.35, max: 60, noNaN: true }),
  pivotHeightMm: fc.constantFrom(0, 0, 24, -30),
});
const sawOf = ({
  bladeThicknessMm,
  setMm,
  ...saw
}: {
  bladeThicknessMm: number;
  setMm: number;
  bladeWidthMm: number;
  pivotHeightMm: number;
}) => ({
  ...saw,
  bladeThicknessMm,
  kerfMm: bladeThicknessMm + setMm,
});

describe('what cures a twist', () => {
  test('each cure, applied, holds the limit; the next wider blade or a tenth less set does not', () => {
    holds(
      fc.property(
        saws,
        fc.double({ min: 30, max: 120, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.double({ min: 1.01, max: 6, noNaN: true }),
        (set, sidingMm, bevelDeg, times) => {
          const cut = { saw: sawOf(set), sidingMm, bevelDeg };
          const twist = limitOf(cut) * times;
          for (const cure of twistCures(cut, twist)) {
            expect(limitOf(withCure(cut, cure))).toBeGreaterThanOrEqual(twist * (1 - 1e-12));
            if (cure.kind === 'more set')
              expect(limitOf(withCure(cut, { ...cure, kerfMm: cure.kerfMm - 0.1 }))).toBeLessThan(twist);
            if (cure.kind === 'more pieces' && cure.pieces > 2)
              expect(limitOf(withCure(cut, { ...cure, pieces: cure.pieces - 1 }))).toBeLessThan(twist);
          }
        },
      ),
    );
  });

  test('with their figures, and none where the blade follows as it is', () => {
    const cut = {
      saw: { kerfMm: 2.4, bladeThicknessMm: 1.1, bladeWidthMm: 38, pivotHeightMm: 0 },
      sidingMm: 60,
      bevelDeg: 10,
    };
    // (2.4 - 1.1) cos 10 / (2 x 60 x 38) = 2.807e-4 rad/mm = 16.1 degrees a metre.
    expect(limitOf(cut)).toBeCloseTo(16.09, 2);
    expect(twistCures(cut, 16)).toStrictEqual([]);
    const cures = twistCures(cut, 25);
    expect(cures.map((cure) => twistCureText(cure, lengthIn('mm')))).toStrictEqual([
      'a narrower blade, 19 mm wide',
      'more set, for a kerf of 3.2 mm',
      'thinner stock: 2 pieces side by side, each of 1/2 of the siding (at most 38.6 mm)',
      'feeding along a line at half the height (30 mm)',
    ]);
    expect(twistCures(cut, 500)).toStrictEqual([]);
  });
});

/**
 * Second computation of the twist limit, in space: the kerf is the ruled face r = (h - p) tan theta(s), the blade a flat band as
 * wide as W, tangent to it along the tilt axis where it cuts; its back edge must stay in the kerf that was cut W before.
 */
test('the twist limit, by a flat blade in the kerf that it has cut', () => {
  const saw = { kerfMm: 2.4, bladeThicknessMm: 1.1, bladeWidthMm: 25, pivotHeightMm: 10 };
  const sidingMm = 60;
  for (const bevelDeg of [0, 10, 25]) {
    const fits = (degPerM: number): boolean => {
      const rad = (deg: number) => (deg * Math.PI) / 180;
      const now = rad(bevelDeg);
      const then = rad(bevelDeg - (degPerM * saw.bladeWidthMm) / 1000);
      return [0, sidingMm].every((height) => {
        const apart = (height - saw.pivotHeightMm) * (Math.tan(now) - Math.tan(then));
        return Math.abs(apart) * Math.cos(now) <= (saw.kerfMm - saw.bladeThicknessMm) / 2;
      });
    };
    let [low, high] = [0, 500];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (fits(middle)) low = middle;
      else high = middle;
    }
    // The tangent bends a little over the width of the blade: (W dtheta/ds) tan b, well under 1 %.
    const limit = twistLimitDegPerM(saw, sidingMm, bevelDeg);
    const inSpace = low;
    expect(Math.abs(inSpace / limit - 1)).toBeLessThan(0.01);
  }
});

describe('tilting while the wood stands still', () => {
  const mm = (length: number): string => `${length.toFixed(1)} mm`;
  const saw = { kerfMm: 2.4, bladeThicknessMm: 1.1, bladeWidthMm: 25, pivotHeightMm: 0 };
  test('the bound, by turning a blade of this thickness in a kerf of this width until it touches', () => {
    for (const bevelDeg of [0, 20]) {
      const heightAlong = 60 / Math.cos((bevelDeg * Math.PI) / 180);
      let turn = 0;
      // The corner of the blade's body, turned about the axis: square to the kerf it may come to half the kerf.
      while (heightAlong * Math.sin(turn) + (saw.bladeThicknessMm / 2) * Math.cos(turn) < saw.kerfMm / 2) turn += 1e-7;
      expect(standStillDeg(saw, 60, bevelDeg)).toBeCloseTo((turn * 180) / Math.PI, 3);
    }
  });
  test('is told with its figure, and never as an advice', () => {
    const blade = { standStillDeg: standStillDeg(saw, 60, 0), farEdgeMm: 60 };
    const sentence = standStillSentence({ feeds: 'along a fence', straightAtMm: 0, blade }, 60, mm);
    expect(sentence).toMatch(/^Never tilt while the wood stands still in the cut\..* 0\.6° .*\(1\.0 mm a degree/);
  });
  test('along a line too the blade turns about its own axis: the room and the step at the far edge are reckoned from there', () => {
    // [siding, pivot, line] -> far edge from the axis; room (k - g) / (2 far) at square, in degrees.
    for (const [sidingMm, pivotHeightMm, lineHeightMm, farMm] of [
      [55, 0, 20, 55],
      [48, 100, 24, 100],
      [50, -30, 25, 80],
      [60, 12, 30, 48],
    ] as const) {
      const job = aJob({
        frame: { sidingMm, mouldingMm: 110 },
        shape: picked([0, 0], [900, 8], [1800, 0]),
        saw: { pivotHeightMm },
        rip: { feeds: 'along a line', lineHeightMm },
      });
      const rip = ripOf(planned(job));
      const squareDeg = (1.3 / (2 * farMm)) * (180 / Math.PI);
      expect(rip.blade.standStillDeg).toBeGreaterThan(squareDeg * Math.cos((8.1 * Math.PI) / 180));
      expect(rip.blade.standStillDeg).toBeLessThan(squareDeg * Math.cos((7.5 * Math.PI) / 180));
      expect(standStillSentence(rip, sidingMm, mm)).toContain(
        `(${mm((farMm * Math.PI) / 180)} a degree at the far edge)`,
      );
    }
  });
  test('is never told as more than it is, nor at all by a plan that reckoned it about a line', () => {
    const told = (roomDeg: number, feeds: 'along a fence' | 'along a line', farEdgeMm?: number) =>
      standStillSentence(
        {
          feeds,
          straightAtMm: 20,
          blade: { standStillDeg: roomDeg, ...(farEdgeMm === undefined ? {} : { farEdgeMm }) },
        },
        55,
        mm,
      );
    expect(told(0.479, 'along a line', 55)).toContain('has 0.4° of room');
    expect(told(0.05, 'along a line', 55)).toContain('has less than 0.1° of room');
    expect(told(0.715, 'along a line')).not.toMatch(/\d/);
    expect(told(0.715, 'along a line')).toContain('has hardly any room');
    // Along a fence such a plan tells the axis itself.
    expect(told(0.715, 'along a fence')).toMatch(/0\.7° of room.*\(0\.6 mm a degree/);
  });
});

describe('the smallest radius', () => {
  const blade = { kerfMm: 1.1 + 0.77, bladeThicknessMm: 1.1 };
  test('never falls as the blade gets wider, and is never less than the geometric floor', () => {
    let before = 0;
    for (let bladeWidthMm = 3; bladeWidthMm < 80; bladeWidthMm += 0.5) {
      const radius = smallestRadiusMm({ ...blade, bladeWidthMm });
      expect(radius).toBeGreaterThanOrEqual(before);
      expect(radius).toBeGreaterThanOrEqual(radiusFloorMm({ ...blade, bladeWidthMm }));
      before = radius;
    }
  });
  test('the widest blade for a radius follows it, the next one sold does not', () => {
    expect(widestForRadiusMm({ ...blade, bladeWidthMm: 32 }, 150)).toBeCloseTo(19.05, 9);
    expect(widestForRadiusMm({ ...blade, bladeWidthMm: 32 }, 10)).toBeUndefined();
  });
});
