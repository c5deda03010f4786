/** A frame picked up on the boat, held against the frame that the offsets give, and against its neighbours fore and aft. */

import { ok, type Result } from '../errors.ts';
import { tenthsDegText } from '../figures/degrees.ts';
import { lengthText } from '../figures/lengths.ts';
import type { FairHull } from '../hull/fairHull.ts';
import type { FromOffsets, Job } from '../job.ts';
import { goldenSection } from '../numeric/goldenSection.ts';
import type { Warning } from '../warning.ts';
import type { FairBevels } from './fairPickUp.ts';
import type { FairedRow, PickUpAgainst } from './findings.ts';
import { type HullFrame, hullFrame } from './hullFrame.ts';
import { hullOf, offsetsFrame } from './offsetsFrame.ts';

type Against = PickUpAgainst;

/** How far to either side a frame is looked for that would fit better, in sidings, and a frame's own spacing where none is given. */
const LOOK_SIDINGS = 10;
/** Where the two stand apart by more than this, somebody should look again (degrees, root mean square). */
const AGREE_DEG = 1;

export function heldAgainst(
  job: Job,
  shape: FromOffsets,
  fair: FairBevels,
  rows: readonly FairedRow[],
): Result<{ readonly against: Against; readonly warnings: readonly Warning[] }> {
  const here = offsetsFrame(job, shape);
  if (!here.ok) return here;
  const hull = hullOf(shape);
  if (!hull.ok) return hull;
  const frameAt = (atMm: number) => frameOnly(job, shape, hull.value, atMm);
  const apart = (frame: HullFrame): readonly number[] =>
    rows.filter(({ suspect }) => !suspect).map(({ girthMm }) => fair.bevelAtDeg(girthMm) - frame.at(girthMm).bevelDeg);
  const rms = (frame: HullFrame | undefined): number =>
    frame === undefined ? Infinity : Math.sqrt(mean(apart(frame).map((deg) => deg * deg)));
  const { surface } = hull.value;
  const lookMm = LOOK_SIDINGS * job.frame.sidingMm;
  const bestMm = goldenSection(
    (atMm) => rms(frameAt(atMm)),
    Math.max(surface.fromMm, shape.atMm - lookMm),
    Math.min(surface.toMm, shape.atMm + lookMm),
    1,
  );
  const { frame } = here.value;
  const neighbours = [
    shape.framesMm.findLast((atMm) => atMm < shape.atMm - 1),
    shape.framesMm.find((atMm) => atMm > shape.atMm + 1),
  ].flatMap((atMm) => {
    const found = atMm === undefined ? undefined : frameAt(atMm);
    return atMm === undefined || found === undefined ? [] : [{ atMm, frame: found }];
  });
  const against: Against = {
    atMm: shape.atMm,
    girthMm: frame.girthMm,
    meanDeg: mean(apart(frame)),
    rmsDeg: rms(frame),
    bestAtMm: bestMm,
    bestRmsDeg: rms(frameAt(bestMm)),
    rows: rows.map(({ girthMm, bevelDeg, suspect }) => ({
      girthMm,
      pickedUpDeg: bevelDeg,
      offsetsDeg: frame.at(girthMm).bevelDeg,
      suspect,
    })),
    neighbours: neighbours.map((neighbour) => ({ atMm: neighbour.atMm, rmsDeg: rms(neighbour.frame) })),
  };
  return ok({
    against,
    warnings: [...here.value.warnings.filter(({ code }) => code === 'beyond-offsets'), ...apartWarnings(job, against)],
  });
}

function frameOnly({ frame }: Job, shape: FromOffsets, { surface }: FairHull, atMm: number): HullFrame | undefined {
  const { cantDeg, plankingMm } = shape;
  return hullFrame(surface, { atMm, cantDeg, plankingMm, sidingMm: frame.sidingMm, mouldedFace: frame.mouldedFace });
}

const mean = (values: readonly number[]): number =>
  values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;

function apartWarnings({ notation }: Job, against: Against): Warning[] {
  if (against.rmsDeg <= AGREE_DEG) return [];
  const nearer = [...against.neighbours].sort((a, b) => a.rmsDeg - b.rmsDeg)[0];
  const other =
    nearer !== undefined && nearer.rmsDeg < against.rmsDeg / 2
      ? ` The frame at ${lengthText(nearer.atMm, notation)} fits far better (${tenthsDegText(nearer.rmsDeg)}): is it the right frame?`
      : ` The offsets come nearest at ${lengthText(against.bestAtMm, notation)} (${tenthsDegText(against.bestRmsDeg)}).`;
  const message = `The bevels picked up and those of the offsets at ${lengthText(against.atMm, notation)} stand ${tenthsDegText(against.rmsDeg)} apart.${other} The boat as built governs.`;
  return [{ code: 'apart-from-offsets' as const, message }];
}
