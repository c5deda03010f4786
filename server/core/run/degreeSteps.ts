/** The figures of the routine `degree by degree`: where along the stock each half degree becomes the right one. */
import { interpolate } from '../numeric/interpolate.ts';
import { type ReadoutTable, shownDeg, toReadoutStep } from '../rip/readout.ts';
import type { DegreeStep, RunSetup } from './state.ts';

/** Calls finer than this come too thick, and a hand does not turn to less. */
const FINEST_DEG = 0.5;

export interface StepFigures {
  readonly readoutDeg: number;
  readonly readoutTable: ReadoutTable;
  readonly words: (deg: number) => string;
}

/**
 * Between two places of the profile the tilt is a straight line, so that each place found is exact for it. `firstDeg`: the
 * figure that is held at the beginning. Empty where the tilt never comes nearer to another half degree.
 */
export function degreeSteps(
  { positionsMm, tiltsDeg }: RunSetup['profile'],
  firstDeg: number,
  { readoutDeg, readoutTable, words }: StepFigures,
): readonly DegreeStep[] {
  const stepDeg = Math.max(FINEST_DEG, readoutDeg);
  const shown = tiltsDeg.map((tilt) => shownDeg(tilt, readoutTable));
  const found: { positionMm: number; callDeg: number }[] = [];
  let held = toReadoutStep(firstDeg, stepDeg);
  for (let index = 1; index < shown.length; index += 1) {
    const [fromMm, toMm] = [positionsMm[index - 1] ?? 0, positionsMm[index] ?? 0];
    const [from, to] = [shown[index - 1] ?? 0, shown[index] ?? 0];
    while (Math.abs(to - held) > stepDeg / 2) {
      const half = held + (Math.sign(to - held) * stepDeg) / 2;
      held = toReadoutStep(held + Math.sign(to - held) * stepDeg, stepDeg);
      found.push({ positionMm: placeOf(half, fromMm, toMm, from, to), callDeg: held });
    }
  }
  const endMm = positionsMm.at(-1) ?? 0;
  return found.map(({ positionMm, callDeg }, index) => ({
    positionMm,
    deadlineMm: (positionMm + (found[index + 1]?.positionMm ?? endMm)) / 2,
    callDeg,
    isWhole: Number.isInteger(callDeg),
    text: words(callDeg),
  }));
}

/** Where the line from one place to the other has this figure; the first of them where it begins beyond it. */
function placeOf(deg: number, fromMm: number, toMm: number, from: number, to: number): number {
  return from < to ? interpolate([from, to], [fromMm, toMm], deg) : interpolate([to, from], [toMm, fromMm], deg);
}
