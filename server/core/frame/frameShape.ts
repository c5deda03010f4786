/** The frame's shape for a plan, wherever it comes from: bevels picked up on the boat, or the table of offsets. */

import { ok, type Problem, type Result, refused } from '../errors.ts';
import { lengthText } from '../figures/lengths.ts';
import type { Notation } from '../figures/notation.ts';
import type { Job, PickUp } from '../job.ts';
import { lastRow, rowAt } from '../rowAt.ts';
import type { Warning } from '../warning.ts';
import { type FairBevels, fairPickUp } from './fairPickUp.ts';
import type { FairedRow, PickUpAgainst } from './findings.ts';
import { heldAgainst } from './heldAgainst.ts';
import { type MouldedEdge, mouldedEdge } from './mouldedEdge.ts';
import { type OffsetsFrame, offsetsFrame } from './offsetsFrame.ts';
import { NEAREST_MM } from './placeMarks.ts';

export interface FrameShape {
  /** The bevel that is sawn. */
  readonly fair: FairBevels;
  readonly edge?: MouldedEdge;
  readonly pickedUp: readonly FairedRow[];
  /** Only where the shape is known all around the edge: from offsets. */
  readonly offsets?: OffsetsFrame;
  readonly against?: PickUpAgainst;
  readonly warnings: readonly Warning[];
}

/** What is wrong with the shape is refused, each problem with its place. */
export function frameShape(job: Job): Result<FrameShape> {
  if (job.shape.kind === 'pick-up') return fromPickUp(job, job.shape);
  const made = offsetsFrame(job, job.shape);
  if (!made.ok) return made;
  const offsets = made.value;
  return ok({ fair: offsets.sawn, edge: offsets.edge, pickedUp: [], offsets, warnings: offsets.warnings });
}

function fromPickUp(job: Job, shape: PickUp): Result<FrameShape> {
  const short = tooShort(shape, job.notation);
  if (short !== undefined) return refused([short]);
  const edge = shape.pattern === undefined ? {} : { edge: mouldedEdge(shape.pattern.points) };
  const cut = edge.edge === undefined ? undefined : patternTooShort(shape, edge.edge.girthMm, job.notation);
  if (cut !== undefined) return refused([cut]);
  const fair = fairPickUp(withoutMinusZero(shape));
  const pickedUp = shape.rows.map((row, i) => ({
    girthMm: row.girthMm,
    bevelDeg: row.bevelDeg + 0,
    suspect: fair.isSuspect(i + 1),
  }));
  if (shape.against === undefined) return ok({ fair, ...edge, pickedUp, warnings: [] });
  const held = heldAgainst(job, shape.against, fair, pickedUp);
  if (!held.ok) return held;
  return ok({ fair, ...edge, pickedUp, against: held.value.against, warnings: held.value.warnings });
}

function tooShort({ rows, file }: PickUp, notation: Notation): Problem | undefined {
  const lengthMm = lastRow(rows).girthMm - rowAt(rows, 0).girthMm;
  if (lengthMm >= NEAREST_MM) return undefined;
  const wanted = `bevels over at least ${lengthText(NEAREST_MM, notation)} of girth`;
  return { code: 'out-of-range', at: { file }, found: lengthText(lengthMm, notation), wanted };
}

/** A pattern that ends before this share of the girth that was picked up: over the rest nobody knows how the frame turns. */
const FAR_SHORT = 0.9;

function patternTooShort({ rows, pattern }: PickUp, patternMm: number, notation: Notation): Problem | undefined {
  const toMm = lastRow(rows).girthMm;
  if (pattern === undefined || patternMm >= FAR_SHORT * toMm) return undefined;
  const wanted = `points of the moulded edge as far as girth ${lengthText(toMm, notation)}, where the pick-up ends, from the same heel`;
  return {
    code: 'out-of-range',
    at: { file: pattern.file },
    found: `a pattern ${lengthText(patternMm, notation)} long`,
    wanted,
  };
}

/** -0 is no bevel that anyone has measured, and JSON does not know it. */
const withoutMinusZero = (pickUp: PickUp): PickUp => ({
  ...pickUp,
  rows: pickUp.rows.map((row) => ({ ...row, bevelDeg: row.bevelDeg + 0 })),
});
