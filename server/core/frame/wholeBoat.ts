/** All frames of a list in one go: bevels along each, at the job's spacing of marks. */
import type { Problem, Result } from '../errors.ts';
import { ok, refused } from '../errors.ts';
import type { FairHull } from '../hull/fairHull.ts';
import type { MovedPoint } from '../hull/fairOffsets.ts';
import type { FromOffsets, Job } from '../job.ts';
import type { OffsetsPlan } from './findings.ts';
import { frameOn, hullOf, type OffsetsFrame } from './offsetsFrame.ts';
import { placeMarks } from './placeMarks.ts';
import { uncertainBevelWarnings } from './uncertainBevels.ts';

export interface BoatFrame {
  readonly atMm: number;
  readonly girthMm: number;
  readonly marks: readonly BoatMark[];
  readonly knuckles: OffsetsPlan['knuckles'];
  readonly hollow: OffsetsPlan['hollow'];
  readonly runOffAtHeadMm: number;
  readonly warnings: readonly string[];
}
interface BoatMark {
  readonly mark: number;
  readonly girthMm: number;
  readonly bevelDeg: number;
  readonly sawnDeg: number;
  /** What the table may make it wrong by, one standard deviation. */
  readonly errorDeg: number;
  readonly hollowMm: number;
  readonly yMm: number;
  readonly zMm: number;
  readonly radiusMm: number | null;
}
export interface Boat {
  readonly format: 'by-the-mark/boat@1';
  readonly title: string;
  readonly units: Job['units'];
  readonly notation: Job['notation'];
  readonly frame: Pick<Job['frame'], 'sidingMm' | 'mouldedFace'>;
  readonly cantDeg: number;
  readonly plankingMm: number;
  /** Between marks, from the heel; null where the job gives the marks' girths. The last mark of a frame is at its head. */
  readonly spacingMm: number | null;
  readonly fairing: { readonly toleranceMm: number; readonly moved: readonly MovedPoint[] };
  readonly frames: readonly BoatFrame[];
  /** Of the table itself. */
  readonly warnings: readonly string[];
}

/** A turn wider than this is as good as straight (mm). */
const STRAIGHT_MM = 100_000;
/** Where the job asks for marks by tolerance, which needs the saw's part too, the boat's table has one every so far (mm). */
const USUAL_SPACING_MM = 150;

/** The frames of `framesMm` on the job's hull; `field` is how the list is called where one of them cannot be. */
export function wholeBoat(job: Job, shape: FromOffsets, framesMm: readonly number[], field: string): Result<Boat> {
  const hull = hullOf(shape);
  if (!hull.ok) return hull;
  const problems: Problem[] = [];
  const frames = framesMm.flatMap((atMm, i) => {
    const made = frameAt(job, shape, hull.value, atMm);
    if (made.ok) return [made.value];
    problems.push(...made.problems.map((problem) => ({ ...problem, at: { field: `${field}[${i}]` } })));
    return [];
  });
  if (problems.length > 0) return refused(problems);
  const { toleranceMm, moved } = hull.value;
  return ok({
    format: 'by-the-mark/boat@1',
    title: job.title,
    units: job.units,
    notation: job.notation,
    frame: { sidingMm: job.frame.sidingMm, mouldedFace: job.frame.mouldedFace },
    cantDeg: shape.cantDeg,
    plankingMm: shape.plankingMm,
    spacingMm: spacingOf(job),
    fairing: { toleranceMm, moved },
    frames,
    warnings: hull.value.warnings.map(({ message }) => message),
  });
}

function frameAt(job: Job, shape: FromOffsets, hull: FairHull, atMm: number): Result<BoatFrame> {
  const made = frameOn(job, shape, hull, atMm);
  if (!made.ok) return made;
  const { facts, warnings } = made.value;
  const girths = girthsOn(job, made.value.frame.girthMm);
  if (!girths.ok) return girths;
  const marks = girths.value.map((girthMm, i) => markAt(made.value, girthMm, i + 1));
  return ok({
    atMm,
    girthMm: made.value.frame.girthMm,
    marks,
    knuckles: facts.knuckles,
    hollow: facts.hollow,
    runOffAtHeadMm: facts.runOff.atHeadMm,
    warnings: [...warnings, ...uncertainBevelWarnings(marks)].map(({ message }) => message),
  });
}

function girthsOn({ marks, notation }: Job, girthMm: number): Result<readonly number[]> {
  const girth = { fromMm: 0, toMm: girthMm, notation };
  // Girths that are given stand for every frame, as far as it reaches.
  if (marks.kind === 'at') return ok(marks.girthsMm.filter((at) => at <= girthMm));
  return placeMarks({ kind: 'spacing', spacingMm: spacingOf({ marks }) ?? USUAL_SPACING_MM }, girth);
}

const spacingOf = ({ marks }: Pick<Job, 'marks'>): number | null =>
  marks.kind === 'at' ? null : marks.kind === 'spacing' ? marks.spacingMm : USUAL_SPACING_MM;

function markAt({ frame, errorAtDeg }: OffsetsFrame, girthMm: number, mark: number): BoatMark {
  const { yMm, zMm, bevelDeg, sawnDeg, hollowMm, curvaturePerMm } = frame.at(girthMm);
  const isStraight = Math.abs(curvaturePerMm) * STRAIGHT_MM < 1;
  return {
    mark,
    girthMm,
    bevelDeg: bevelDeg + 0,
    sawnDeg: sawnDeg + 0,
    errorDeg: errorAtDeg(girthMm),
    hollowMm,
    yMm,
    zMm,
    radiusMm: isStraight ? null : 1 / curvaturePerMm,
  };
}
