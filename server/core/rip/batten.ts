/**
 * Girths off a batten. Bent in the boat against the planking, a batten carries its pencil marks on the line through the middle of
 * its thickness t, which lies t/2 inside the moulded edge; laid straight, it shows them as far apart as that line is long:
 *     d(batten) = (1 - k t/2) d(girth),
 * k the curvature of the moulded edge, positive as a bilge. So around a bilge the girth is longer than what the batten shows; this
 * is the way of the wedges (unbentLength.ts) gone backward. Derived, no source.
 */

import { mouldedEdge } from '../frame/mouldedEdge.ts';
import type { Job, PickUp } from '../job.ts';
import { interpolate } from '../numeric/interpolate.ts';
import { lastRow } from '../rowAt.ts';
import { lengthsAlongMm } from './unbentLength.ts';

const PARTS = 1000;

/** The job with its girths along the moulded edge; as it is where no batten (or no pattern to tell its bends) was used. */
export function offTheBatten(job: Job): Job {
  const { shape } = job;
  if (shape.kind !== 'pick-up') return job;
  const { battenMm, pattern, rows } = shape;
  if (battenMm === undefined || pattern === undefined) return job;
  const girthOf = girthOffBatten(pattern.points, battenMm);
  const taken: PickUp = { ...shape, rows: rows.map((row) => ({ ...row, girthMm: girthOf(row.girthMm) })) };
  return { ...job, shape: taken };
}

/** From a place on the straightened batten to the girth along the moulded edge, both from the heel, in mm. */
export function girthOffBatten(
  points: NonNullable<PickUp['pattern']>['points'],
  battenMm: number,
): (onBattenMm: number) => number {
  const edge = mouldedEdge(points);
  const girths = Array.from({ length: PARTS + 1 }, (_, i) => (edge.girthMm * i) / PARTS);
  // A batten cannot lie in a turn sharper than itself; where the pattern says so its points are at fault, and it is told elsewhere.
  const shares = (girthMm: number) => Math.max(0.5, 1 - (edge.at(girthMm).curvaturePerMm * battenMm) / 2);
  const onBatten = lengthsAlongMm(girths, shares);
  const end = lastRow(onBatten);
  return (onBattenMm) =>
    onBattenMm >= end ? edge.girthMm + (onBattenMm - end) : interpolate(onBatten, girths, onBattenMm);
}
