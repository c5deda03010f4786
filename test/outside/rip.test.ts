/** The rip against figures from outside: each test names its source and its status. */
import { describe, expect, test } from 'vitest';
import { type Cut, halfKerfMm, layCut } from '../../server/core/rip/cut.ts';
import { orientationOf } from '../../server/core/rip/leadingEnd.ts';
import { lengthsAlongMm } from '../../server/core/rip/unbentLength.ts';
import { wedgesOf } from '../../server/core/rip/wedges.ts';
import { radiusFloorMm, smallestRadiusMm } from '../../server/core/saw/blade.ts';
import { twistLimitDegPerM } from '../../server/core/saw/twist.ts';
import { MM_PER_INCH, tanDeg } from '../../server/core/units.ts';

const inches = (mm: number): number => mm / MM_PER_INCH;

/** A cut through the middle of the stock at every tilt: straight at half the height, in the middle of the thickness. */
const throughMiddle = (sidingMm: number, thicknessMm: number, kerfMm: number): Cut => ({
  sidingMm,
  kerfMm,
  straightAtMm: sidingMm / 2,
  lineMm: thicknessMm / 2,
  thicknessMm,
});

/**
 * Ripped halves. Derived, no source: T/2 -+ (s/2) tan b - k / (2 cos b). Worked for s = 2, T = 1.5, k = 0.06 in at 20 degrees:
 * 0.75 -+ 0.36397 - 0.06 / (2 x 0.93969) = 0.3541 and 1.0820 in.
 */
describe('ripped halves of a stock 1.5 in thick, siding 2 in, kerf 0.06 in (derived, no source)', () => {
  const cut = throughMiddle(2 * MM_PER_INCH, 1.5 * MM_PER_INCH, 0.06 * MM_PER_INCH);
  test.each([
    [10, 0.5432, 0.8959],
    [20, 0.3541, 1.082],
    [25, 0.2506, 1.1832],
  ])('at %d degrees', (deg, thin, thick) => {
    const { outerMm } = wedgesOf(cut, deg, 'aft');
    expect(inches(outerMm[0])).toBeCloseTo(thin, 4);
    expect(inches(outerMm[1])).toBeCloseTo(thick, 4);
  });
});

/**
 * The halves change places. Derived, no source: with a cut through the middle the outer wedge is
 * [T/2 - e (s/2) tan b - k / (2 cos b), T/2 + e (s/2) tan b - k / (2 cos b)] forward and aft, e = +1 with the moulded face
 * forward, -1 aft, b the bevel with its sign; the inner wedge the same reversed.
 */
describe.each([
  ['forward', 1],
  ['aft', -1],
] as const)('the halves change places, moulded face %s (derived, no source)', (mouldedFace, e) => {
  const [s, T, k] = [60, 40, 2.4];
  test.each([-24, -8, 8, 24])('at a bevel of %d degrees', (bevelDeg) => {
    const hand = bevelDeg < 0 ? -1 : 1;
    const { thickEdge } = orientationOf({ side: 'starboard', mouldedFace }, 'right', hand);
    const { outerMm, innerMm } = wedgesOf(throughMiddle(s, T, k), hand * bevelDeg, thickEdge);
    const kerf = halfKerfMm(k, bevelDeg);
    const forward = T / 2 - e * (s / 2) * tanDeg(bevelDeg) - kerf;
    const aft = T / 2 + e * (s / 2) * tanDeg(bevelDeg) - kerf;
    expect(outerMm[0]).toBeCloseTo(forward, 10);
    expect(outerMm[1]).toBeCloseTo(aft, 10);
    expect(innerMm[0]).toBeCloseTo(aft, 10);
    expect(innerMm[1]).toBeCloseTo(forward, 10);
  });
});

/** Common practice, no source: "a standing bevel on a forward moulded face in the forebody leaves the outer wedge thicker aft". */
test('a standing bevel on a forward moulded face leaves the outer wedge thicker aft', () => {
  expect(orientationOf({ side: 'port', mouldedFace: 'forward' }, 'left', 1).thickEdge).toBe('aft');
});

/** Half a degree across 60 mm is 0.52 mm. Derived: 60 tan 0.5 = 0.5236. */
test('half a degree across a siding of 60 mm is 0.52 mm', () => {
  const cut = throughMiddle(60, 40, 2.4);
  const off = wedgesOf(cut, 0.5, 'aft').outerMm[1] - wedgesOf(cut, 0, 'aft').outerMm[1];
  expect(2 * off).toBeCloseTo(0.52, 2);
});

/**
 * Twist limit. Derived, no source: (k - g) cos b / (2 h W); h = 2 in, W = 1 in, k - g = 0.030 in: 0.0075 rad/in = 0.4297
 * degrees an inch = 16.9 degrees a metre.
 */
describe('the twist that a blade can follow (derived, no source)', () => {
  const saw = { kerfMm: 1.5, bladeThicknessMm: 1.5 - 0.03 * 25.4, bladeWidthMm: 25.4, pivotHeightMm: 0 };
  test('0.4297 degrees an inch', () => {
    const limit = twistLimitDegPerM(saw, 50.8, 0);
    expect(limit * 0.0254).toBeCloseTo(0.4297, 4);
    expect(limit).toBeCloseTo(16.9, 1);
  });
  test('less at a bevel, by its cosine', () => {
    expect(twistLimitDegPerM(saw, 50.8, 30)).toBeCloseTo(16.918 * Math.cos(Math.PI / 6), 2);
  });
  test('twice as much with the axis at half the height', () => {
    expect(twistLimitDegPerM({ ...saw, pivotHeightMm: 25.4 }, 50.8, 0)).toBeCloseTo(2 * 16.918, 2);
  });
});

/** Derived, no source: two layers 1.5 in apart through 90 degrees differ by 1.5 x pi / 2 = 2.3562 in. */
test('the inner one of two layers 1.5 in apart is 2.3562 in shorter through a right angle', () => {
  const radius = 1200;
  const girths = [0, (radius * Math.PI) / 2];
  const at = (depthMm: number) => lengthsAlongMm(girths, () => 1 - depthMm / radius).at(-1) ?? 0;
  expect(inches(at(10) - at(10 + 1.5 * MM_PER_INCH))).toBeCloseTo(2.3562, 4);
});

/**
 * Smallest radius by width of blade, in: 1/4 5/8, 3/8 1-3/8, 1/2 2-1/2, 5/8 4, 3/4 5-1/2, 1 7-5/8, 1-1/4 9-7/8. Read: a band saw's
 * manual; other tables differ by a quarter. The blades have a usual set, a kerf of 0.030 in over their thickness.
 */
test.each([
  [1 / 4, 5 / 8],
  [3 / 8, 1 + 3 / 8],
  [1 / 2, 2 + 1 / 2],
  [5 / 8, 4],
  [3 / 4, 5 + 1 / 2],
  [1, 7 + 5 / 8],
  [1 + 1 / 4, 9 + 7 / 8],
])('a blade %d in wide is fed along %d in (a saw manual, read)', (widthIn, radiusIn) => {
  const blade = {
    kerfMm: 0.065 * MM_PER_INCH,
    bladeThicknessMm: 0.035 * MM_PER_INCH,
    bladeWidthMm: widthIn * MM_PER_INCH,
  };
  expect(inches(smallestRadiusMm(blade))).toBeCloseTo(radiusIn, 9);
  // The geometric floor W^2 / (8 (k - g)): derived.
  expect(inches(radiusFloorMm(blade))).toBeCloseTo(widthIn ** 2 / (8 * 0.03), 9);
  expect(radiusFloorMm(blade)).toBeLessThan(smallestRadiusMm(blade));
});

/** T = 2a + s tan b + k / cos b. Derived; 60 mm siding, 20 degrees, 3 mm thin edge, kerf 2.4: 6 + 21.838 + 2.554 = 30.392. */
test('the stock of a one-handed bevel', () => {
  for (const straightAtMm of [0, 30]) {
    const { thicknessMm } = layCut({ kerfMm: 2.4, straightAtMm, thinnestEdgeMm: 3 }, 60, [0, 9, 20]);
    expect(thicknessMm).toBeCloseTo(30.392, 3);
  }
});
