/**
 * How far the line wanders on the stock, and what the sawyer has to steer.
 *
 * The line lies at r0 + (h - q) tan b (cut.ts): on the upper side it wanders by (s - q), on the lower by q, times the range of
 * tan b. The tilt axis, at the height p, stands still in the saw, so the stock is moved under it by (p - q) times that range:
 * nothing along a fence. Curvature of the line is (h - q) (tan b)''; its least radius is for the blade's own least radius. Slopes
 * of the line are so small (some hundredths) that the second derivative stands for the curvature. Derived, no source.
 */
import { rowAt } from '../rowAt.ts';
import { tanDeg } from '../units.ts';
import type { Cut } from './cut.ts';

export interface LineWander {
  /** Greatest less least distance of the line from the reference face, on the stock's upper and lower side. */
  readonly upperWanderMm: number;
  readonly lowerWanderMm: number;
  /** How far the stock is moved sideways under the blade, over the whole rip. */
  readonly steerMm: number;
  /** Smallest radius of the line on either side of the stock, and where; null where it is straight. */
  readonly leastRadiusMm: number | null;
  readonly leastRadiusAtMm: number | null;
}

interface Place {
  readonly stockMm: number;
  readonly tiltDeg: number;
}

/** A radius beyond this is as good as straight, a mark's as well as the line's. */
export const STRAIGHT_MM = 100_000;

/** `places` from end to end of the stock, at least two. */
export function lineWanderOf(cut: Cut, pivotHeightMm: number, places: readonly Place[]): LineWander {
  const tans = places.map(({ tiltDeg }) => tanDeg(tiltDeg));
  const range = Math.max(...tans) - Math.min(...tans);
  const [upper, lower] = [Math.abs(cut.sidingMm - cut.straightAtMm), Math.abs(cut.straightAtMm)];
  const sharpest = sharpestBend(places, tans);
  const radius = 1 / (sharpest.bendPerMm2 * Math.max(upper, lower));
  const isStraight = !(radius < STRAIGHT_MM);
  return {
    upperWanderMm: upper * range,
    lowerWanderMm: lower * range,
    steerMm: Math.abs(pivotHeightMm - cut.straightAtMm) * range,
    leastRadiusMm: isStraight ? null : radius,
    leastRadiusAtMm: isStraight ? null : sharpest.atMm,
  };
}

/** A line is judged over a hand's breadth: closer, only the dust of the figures bends. */
const OVER_MM = 40;

/** Second derivative of tan b along the stock where it is greatest, by three places at least OVER_MM apart. */
function sharpestBend(places: readonly Place[], tans: readonly number[]) {
  let [bendPerMm2, atMm] = [0, rowAt(places, 0).stockMm];
  let [before, after] = [0, 0];
  for (const [i, { stockMm }] of places.entries()) {
    while ((places[before + 1]?.stockMm ?? Number.POSITIVE_INFINITY) <= stockMm - OVER_MM) before += 1;
    while (after < places.length - 1 && rowAt(places, after).stockMm < stockMm + OVER_MM) after += 1;
    const back = stockMm - (places[before]?.stockMm ?? stockMm);
    const on = (places[after]?.stockMm ?? stockMm) - stockMm;
    if (back < OVER_MM || on < OVER_MM) continue;
    const [was, is, will] = [rowAt(tans, before), rowAt(tans, i), rowAt(tans, after)];
    const bend = Math.abs((2 * ((will - is) / on - (is - was) / back)) / (back + on));
    if (bend > bendPerMm2) [bendPerMm2, atMm] = [bend, stockMm];
  }
  return { bendPerMm2, atMm };
}
