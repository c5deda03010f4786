/** The exact tilt along the stock: beyond the first and last mark theirs holds. */

import { firstBeyond, interpolate } from '../../numeric/interpolate.ts';
import { lastRow, rowAt } from '../../rowAt.ts';
import type { RunSetup } from './state.ts';

/** Over so much wood the change of the tilt is looked at: what the hand is about to need. */
const AHEAD_MM = 10;

/** Positive as the saw's tilt is, degrees, not rounded. */
export const tiltAt = ({ profile }: RunSetup, positionMm: number): number =>
  interpolate(profile.positionsMm, profile.tiltsDeg, positionMm);

/** The same at places `everyMm` apart, from one on. */
export function tiltsFrom({ profile }: RunSetup, fromMm: number, everyMm: number, count: number): readonly number[] {
  const { positionsMm, tiltsDeg } = profile;
  const last = positionsMm.length - 1;
  const tilts: number[] = [];
  let index = firstBeyond(positionsMm, fromMm);
  for (let each = 0; each < count; each += 1) {
    const mm = fromMm + each * everyMm;
    while (index <= last && (positionsMm[index] ?? mm) <= mm) index += 1;
    const to = rowAt(tiltsDeg, Math.min(index, last));
    const from = tiltsDeg[Math.max(0, index - 1)] ?? to;
    const fromPlaceMm = positionsMm[Math.max(0, index - 1)] ?? mm;
    const wayMm = (positionsMm[Math.min(index, last)] ?? mm) - fromPlaceMm;
    tilts.push(wayMm > 0 ? from + ((mm - fromPlaceMm) / wayMm) * (to - from) : to);
  }
  return tilts;
}

/** Degrees a millimetre over the wood just ahead. */
export function slopeAt(setup: RunSetup, positionMm: number): number {
  const last = lastRow(setup.stations).positionMm;
  const from = Math.min(Math.max(positionMm, 0), last - AHEAD_MM);
  return (tiltAt(setup, from + AHEAD_MM) - tiltAt(setup, from)) / AHEAD_MM;
}

/** The steepest change over the wood from one place to another, degrees a millimetre, without its sign. */
export function steepestBetween(setup: RunSetup, fromMm: number, toMm: number): number {
  const { positionsMm, tiltsDeg } = setup.profile;
  let steepest = 0;
  for (let index = Math.max(1, firstBeyond(positionsMm, fromMm)); index < positionsMm.length; index += 1) {
    const before = rowAt(positionsMm, index - 1);
    const after = rowAt(positionsMm, index);
    if (before >= toMm) break;
    const change = Math.abs(rowAt(tiltsDeg, index) - rowAt(tiltsDeg, index - 1));
    steepest = Math.max(steepest, change / (after - before));
  }
  return steepest;
}
