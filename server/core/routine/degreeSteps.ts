/** The figures of the routine `degree by degree`: where along the stock each half degree becomes the right one. */

import { toReadoutStep } from '../figures/rounding.ts';
import { interpolate } from '../numeric/interpolate.ts';
import { lastRow, rowAt } from '../rowAt.ts';
import { type ReadoutTable, shownDeg, trueTiltDeg } from '../saw/readout.ts';
import type { DegreeStep, TiltProfile } from './routine.ts';

/** Calls finer than this come too thick, and a hand does not turn to less. */
const FINEST_DEG = 0.5;

interface StepFigures {
  readonly readoutDeg: number;
  readonly readoutTable: ReadoutTable;
  readonly words: (deg: number) => string;
}

/**
 * Between two places of the profile the tilt is a straight line, so that each place found is exact for it. `firstDeg`: the
 * figure that is held at the beginning. Empty where the tilt never comes nearer to another half degree.
 */
export function degreeSteps(
  { positionsMm, tiltsDeg }: TiltProfile,
  firstDeg: number,
  { readoutDeg, readoutTable, words }: StepFigures,
): readonly DegreeStep[] {
  const stepDeg = Math.max(FINEST_DEG, readoutDeg);
  const shown = tiltsDeg.map((tilt) => shownDeg(tilt, readoutTable));
  const found: { positionMm: number; callDeg: number }[] = [];
  let held = toReadoutStep(firstDeg, stepDeg);
  for (let index = 1; index < shown.length; index += 1) {
    const [fromMm, toMm] = [rowAt(positionsMm, index - 1), rowAt(positionsMm, index)];
    const [from, to] = [rowAt(tiltsDeg, index - 1), rowAt(tiltsDeg, index)];
    const toShown = rowAt(shown, index);
    while (Math.abs(toShown - held) > stepDeg / 2) {
      const way = Math.sign(toShown - held) * stepDeg;
      // By the true tilt, which alone is straight: the readout's figure has a bend at each pair of its table.
      const halfDeg = trueTiltDeg(held + way / 2, readoutTable);
      held = toReadoutStep(held + way, stepDeg);
      found.push({ positionMm: placeOf(halfDeg, fromMm, toMm, from, to), callDeg: held });
    }
  }
  const endMm = lastRow(positionsMm);
  return found.map(({ positionMm, callDeg }, index) => ({
    positionMm,
    deadlineMm: (positionMm + (found[index + 1]?.positionMm ?? endMm)) / 2,
    callDeg,
    isWhole: Number.isInteger(callDeg),
    text: words(callDeg),
  }));
}

/** Where the line from one place to the other has this tilt; the first of them where it begins beyond it. */
function placeOf(tiltDeg: number, fromMm: number, toMm: number, from: number, to: number): number {
  return from < to
    ? interpolate([from, to], [fromMm, toMm], tiltDeg)
    : interpolate([to, from], [toMm, fromMm], tiltDeg);
}
