/** The frame that a job asks of its table of offsets, in the shape in which a plan takes it, with what there is to say of it. */

import { ok, type Problem, type Result, refused } from '../errors.ts';
import { tenthsDegText } from '../figures/degrees.ts';
import { lengthText } from '../figures/lengths.ts';
import { type FairHull, fairHull } from '../hull/fairHull.ts';
import { misplacedStations } from '../hull/misplaced.ts';
import { standingOff } from '../hull/slips.ts';
import type { FromOffsets, Job } from '../job.ts';
import type { Warning } from '../warning.ts';
import { bevelErrorDeg } from './bevelError.ts';
import type { FairBevels } from './fairPickUp.ts';
import type { OffsetsPlan } from './findings.ts';
import { type HullFrame, hullFrame } from './hullFrame.ts';
import type { MouldedEdge } from './mouldedEdge.ts';
import { runOff } from './runOff.ts';

export interface OffsetsFrame {
  readonly frame: HullFrame;
  /** The bevel across the siding, as a plan wants it. */
  readonly sawn: FairBevels;
  readonly edge: MouldedEdge;
  /** What the table may make the sawn bevel at a girth wrong by, one standard deviation. */
  readonly errorAtDeg: (girthMm: number) => number;
  readonly facts: OffsetsPlan;
  readonly warnings: readonly Warning[];
}

/** The hull of the job's table, and which points of it stand off the fair line without a slip that explains them. */
interface Hull extends FairHull {
  readonly warnings: readonly Warning[];
}

/**
 * If the table is fair enough to be believed: slips of the pen are refused, each with its cell, unless it is said to be so drawn. A station
 * at a wrong place puts its points off too: they are judged with it where it would be fair, and the place itself is warned of.
 */
export function hullOf(shape: FromOffsets): Result<Hull> {
  const misplaced = misplacedStations(shape.table);
  const { slips, odd } = standingOff(misplaced.table);
  if (slips.length > 0 && !shape.isAsDrawn) return refused(slips.map(withWayOut));
  const warnings = [...misplaced.problems, ...slips, ...odd].map(({ at, found, wanted }) => ({
    code: 'off-the-fair-line' as const,
    message: `${placeOf(shape.file, at)}: ${found}; ${wanted}. It is taken as it stands.`,
  }));
  return ok({ ...fairHull(shape.table, shape.fairingMm), warnings });
}

/** Row 0 of a wide table is the one with the names of its stations. */
const placeOf = (file: string, { file: name = file, row, column }: Problem['at']): string =>
  `${name}, ${row === 0 ? 'headings' : `row ${row}`}, column ${column}`;

const withWayOut = (slip: Problem): Problem => ({
  ...slip,
  wanted: `${slip.wanted}, and if it is so drawn, say "asDrawn": true beside "offsets"`,
});

export function offsetsFrame(job: Job, shape: FromOffsets): Result<OffsetsFrame> {
  const hull = hullOf(shape);
  if (!hull.ok) return hull;
  const made = frameOn(job, shape, hull.value, shape.atMm);
  return made.ok ? ok({ ...made.value, warnings: [...hull.value.warnings, ...made.value.warnings] }) : made;
}

/** The frame whose moulded face stands at `atMm`. */
export function frameOn(job: Job, shape: FromOffsets, hull: FairHull, atMm: number): Result<OffsetsFrame> {
  const { surface } = hull;
  const { sidingMm, mouldedFace } = job.frame;
  if (!(atMm >= surface.fromMm && atMm <= surface.toMm)) return refused([outside(job, hull, atMm)]);
  const { cantDeg, plankingMm } = shape;
  const stand = { atMm, cantDeg, plankingMm, sidingMm, mouldedFace };
  const frame = hullFrame(surface, stand);
  if (frame === undefined) return refused([doesNotCross(job, hull, atMm)]);
  const facts = factsOf(job, shape, hull, frame, atMm);
  return ok({
    frame,
    sawn: {
      bevelAtDeg: (girthMm) => frame.at(girthMm).sawnDeg,
      slopeAtDegPerMm: (girthMm) => frame.at(girthMm).sawnSlopeDegPerMm,
      rmsDeg: 0,
      suspects: [],
      measureAgain: [],
      unchecked: null,
      isSuspect: () => false,
      fromGirthMm: 0,
      toGirthMm: frame.girthMm,
    },
    edge: { girthMm: frame.girthMm, at: frame.at },
    errorAtDeg: bevelErrorDeg(hull, frame, stand),
    facts,
    warnings: [...knuckleWarnings(job, frame), ...beyondWarnings(job, hull, frame), ...hollowWarnings(job, facts)],
  });
}

const EDGE_PARTS = 200;

type EdgePlace = Readonly<Record<'girthMm' | 'hollowMm' | 'yMm' | 'zMm', number>>;

function placesOn(frame: HullFrame): readonly EdgePlace[] {
  return Array.from({ length: EDGE_PARTS + 1 }, (_, i) => {
    const girthMm = (frame.girthMm * i) / EDGE_PARTS;
    const { yMm, zMm, hollowMm } = frame.at(girthMm);
    return { girthMm, yMm, zMm, hollowMm };
  });
}

function factsOf(job: Job, shape: FromOffsets, hull: FairHull, frame: HullFrame, atMm: number): OffsetsFrame['facts'] {
  const places = placesOn(frame);
  const worst = places.reduce((a, b) => (Math.abs(b.hollowMm) > Math.abs(a.hollowMm) ? b : a));
  return {
    file: shape.file,
    atMm,
    cantDeg: shape.cantDeg,
    plankingMm: shape.plankingMm,
    edge: places.map(({ girthMm, yMm, zMm }) => ({ girthMm, yMm, zMm })),
    knuckles: frame.knucklesMm.map((girthMm) => ({
      girthMm,
      belowDeg: frame.at(girthMm, 'below').sawnDeg,
      aboveDeg: frame.at(girthMm, 'above').sawnDeg,
    })),
    hollow: { mostMm: worst.hollowMm, girthMm: worst.girthMm },
    runOff: runOff(frame, job.frame.mouldedFace),
    fairing: { toleranceMm: hull.toleranceMm, moved: hull.moved },
  };
}

const outside = ({ notation }: Job, { surface }: FairHull, atMm: number): Problem => ({
  code: 'out-of-range',
  at: { field: 'shape.at' },
  found: lengthText(atMm, notation),
  wanted: `a place between the outermost stations, from ${lengthText(surface.fromMm, notation)} to ${lengthText(surface.toMm, notation)}`,
});

const doesNotCross = (job: Job, { surface }: FairHull, atMm: number): Problem => ({
  code: 'out-of-range',
  at: { field: 'shape.cantDeg' },
  found: `a frame at ${lengthText(atMm, job.notation)} that does not cross the hull from heel to head within its stations`,
  wanted: `a frame that lies between ${lengthText(surface.fromMm, job.notation)} and ${lengthText(surface.toMm, job.notation)} all along: a lesser cant, or another place`,
});

function knuckleWarnings({ notation }: Job, frame: HullFrame): Warning[] {
  return frame.knucklesMm.map((girthMm) => {
    const [below, above] = (['below', 'above'] as const).map((side) => tenthsDegText(frame.at(girthMm, side).sawnDeg));
    const message = `At the knuckle, girth ${lengthText(girthMm, notation)}, the bevel leaps from ${below} to ${above}: no saw turns so on the way. Saw the frame in two lengths that meet there.`;
    return { code: 'knuckle' as const, message };
  });
}

function beyondWarnings({ notation }: Job, { surface }: FairHull, { usedMm: [fromMm, toMm] }: HullFrame): Warning[] {
  const beyondMm = Math.max(surface.fromMm - fromMm, toMm - surface.toMm);
  if (beyondMm <= 1) return [];
  const message = `The frame reaches ${lengthText(beyondMm, notation)} beyond the outermost station: there the hull is carried on as its last stations run. Check it on the loft floor.`;
  return [{ code: 'beyond-offsets' as const, message }];
}

/** What glue and planking take up without anyone seeing it. */
const HOLLOW_MM = 0.5;

function hollowWarnings({ notation }: Job, { hollow }: OffsetsFrame['facts']): Warning[] {
  const sizeMm = Math.abs(hollow.mostMm);
  if (sizeMm <= HOLLOW_MM) return [];
  const where = `at girth ${lengthText(hollow.girthMm, notation)}`;
  const message =
    hollow.mostMm > 0
      ? `Sawn straight across, the frame is up to ${lengthText(sizeMm, notation)} short of the planking in the middle of its siding, ${where}: the hull is round there.`
      : `Sawn straight across, the frame is up to ${lengthText(sizeMm, notation)} proud in the middle of its siding, ${where}: the hull is hollow there; take it off by hand.`;
  return [{ code: 'hollow' as const, message }];
}
