/** Job -> plan: everything that can be known before the blade turns. */

import { ok, type Result, refused } from './errors.ts';
import { tenthsDegText } from './figures/degrees.ts';
import type { FairBevels } from './frame/fairPickUp.ts';
import type { Suspect } from './frame/findings.ts';
import { type FrameShape, frameShape } from './frame/frameShape.ts';
import { placeMarks } from './frame/placeMarks.ts';
import { uncertainBevelWarnings } from './frame/uncertainBevels.ts';
import type { Job } from './job.ts';
import { betweenMarksOf, betweenMarksWarnings } from './pace/betweenMarks.ts';
import { fewestMarks, leastTolerance } from './pace/fewestMarks.ts';
import { planPace } from './pace/planPace.ts';
import { quickTurnWarnings } from './pace/quickTurn.ts';
import { battenPlan } from './plan/battenPlan.ts';
import { bendPlanOf } from './plan/bendPlan.ts';
import { forbids } from './plan/forbids.ts';
import type { Plan } from './plan/plan.ts';
import { leftMm, type RipPlan, ripPlanOf } from './plan/ripPlan.ts';
import { sawTruthOf } from './plan/sawCheck.ts';
import { offTheBatten } from './rip/batten.ts';
import { lineOf } from './rip/cut.ts';
import { unsureFields } from './rip/leadingEnd.ts';
import { STRAIGHT_MM } from './rip/lineWander.ts';
import type { PlannedMark } from './rip/plannedMark.ts';
import { type Rip, type RipPlace, ripOf } from './rip/rip.ts';
import { stockSize } from './rip/stockSize.ts';
import { callFor, trueTiltDeg } from './saw/readout.ts';
import { ripChoices } from './saw/sawDefaults.ts';
import { twistLimitDegPerM } from './saw/twist.ts';
import { flatsOf } from './stack/flats.ts';
import { pliesBetween } from './stack/wedgeBend.ts';
import { CAUTIONS } from './text/cautions.ts';
import { measureAgainWarnings } from './text/measureAgainWarnings.ts';
import { orderWarnings } from './text/orderWarnings.ts';
import { paceWarnings, shortIntervalWarnings } from './text/paceWarnings.ts';
import {
  bothHandsWarnings,
  lineRadiusWarnings,
  patternLengthWarnings,
  readoutTableWarnings,
  twistWarnings,
  whichEndWarnings,
} from './text/ripWarnings.ts';
import { readoutJumpWarnings, turnsTableWarnings } from './text/sawTruthWarnings.ts';
import { bendWarnings, laminationWarnings, stackWarnings } from './text/stackWarnings.ts';
import { tiltRangeWarnings } from './text/tiltRangeWarnings.ts';
import type { Warning } from './warning.ts';

/**
 * The plan for a parsed job. Wrong input is refused, each problem with its place; what is unwise (which end leads, saw, twist,
 * bend, pace, stack) is planned and warned of.
 */
export function makePlan(given: Job): Result<Plan> {
  const shape = frameShape(offTheBatten(given));
  return shape.ok ? planOfShape(given, shape.value) : shape;
}

/** The same where the frame's shape is known: that of a job that differs in nothing that the shape goes by. */
export function planOfShape(given: Job, shape: FrameShape): Result<Plan> {
  const job = offTheBatten(given);
  const { fair, edge: pattern } = shape;
  const pickedUp = { fromMm: fair.fromGirthMm, toMm: fair.toGirthMm, notation: job.notation };

  const placed = job.marks.kind === 'tolerance' ? ok(undefined) : placeMarks(job.marks, pickedUp);
  if (!placed.ok) return placed;
  const girthsMm = placesToLookAt(placed.value, pickedUp.fromMm, pickedUp.toMm);
  const rip = ripOf(job, girthsMm, fair, pattern);
  if (!rip.ok) return rip;

  const marked = markedPlaces(job, rip.value, placed.value);
  if (!marked.ok) return marked;
  const marks = marked.value.map((place, i) => plannedMark(job, rip.value, shape, place, i + 1));
  return ok(planOf(job, shape, rip.value, marks, battenPlan(given, job)));
}

/** Places along the girth are looked at every 5 mm, or as closely as some thousand of them allow, and never fewer than 20. */
const STEP_MM = 5;
const MOST_STEPS = 1000;
const FEWEST_STEPS = 20;

/** A grid from the first mark to the last (or over all that was picked up), with the marks that are given on it. */
function placesToLookAt(
  marksMm: readonly number[] | undefined,
  pickedUpFromMm: number,
  pickedUpToMm: number,
): number[] {
  const fromMm = marksMm?.[0] ?? pickedUpFromMm;
  const toMm = marksMm?.at(-1) ?? pickedUpToMm;
  const lengthMm = toMm - fromMm;
  const roundMm = STEP_MM * Math.max(1, Math.ceil(lengthMm / (MOST_STEPS * STEP_MM)));
  const stepMm = Math.min(roundMm, lengthMm / FEWEST_STEPS);
  const grid = Array.from({ length: Math.ceil(lengthMm / stepMm - 1e-9) }, (_, i) => fromMm + i * stepMm);
  return [...new Set([...grid, ...(marksMm ?? []), toMm])].sort((a, b) => a - b);
}

function markedPlaces(job: Job, rip: Rip, givenMm: readonly number[] | undefined): Result<readonly RipPlace[]> {
  if (job.marks.kind !== 'tolerance') {
    const wanted = new Set(givenMm);
    return ok(rip.places.filter(({ girthMm }) => wanted.has(girthMm)));
  }
  const grid = gridOf(job, rip);
  const found = fewestMarks(grid, job.marks.toleranceDeg);
  if (found === undefined) {
    const leastDeg = Math.ceil(leastTolerance(grid) * 100) / 100;
    const wanted = `at least ${leastDeg}°, the least that a readout in steps of ${job.saw.readoutDeg}° allows on this frame`;
    const at = { field: 'marks.tolerance' };
    return refused([{ code: 'cannot-be-met', at, found: `${job.marks.toleranceDeg}°`, wanted }]);
  }
  const chosen = new Set(found);
  return ok(rip.places.filter((_, i) => chosen.has(i)));
}

const gridOf = ({ saw }: Job, { places }: Rip) =>
  places.map(({ stockMm, tiltDeg }) => ({
    alongMm: stockMm,
    tiltDeg,
    calledTiltDeg: trueTiltDeg(callFor(saw, tiltDeg), saw.readoutTable),
  }));

/** A pattern that ends short of a mark by more than this share of the girth does not know where the mark is. */
const PATTERN_REACHES = 0.01;

function plannedMark(
  job: Job,
  rip: Rip,
  { edge: pattern, offsets }: FrameShape,
  place: RipPlace,
  mark: number,
): PlannedMark {
  const hull = offsets?.frame.at(place.girthMm);
  const line = lineOf(rip.cut, place.tiltDeg);
  const isOnPattern = pattern !== undefined && place.girthMm <= pattern.girthMm * (1 + PATTERN_REACHES);
  const at = isOnPattern ? pattern.at(Math.min(place.girthMm, pattern.girthMm)) : undefined;
  const isStraight = at === undefined || Math.abs(at.curvaturePerMm) * STRAIGHT_MM < 1;
  return {
    mark,
    girthMm: place.girthMm,
    bevelDeg: hull === undefined ? place.bevelDeg : hull.bevelDeg + 0,
    sawnDeg: place.sawnDeg,
    ...(hull === undefined ? {} : { hollowMm: hull.hollowMm, errorDeg: offsets?.errorAtDeg(place.girthMm) ?? 0 }),
    callDeg: callFor(job.saw, place.tiltDeg),
    yMm: at?.yMm ?? null,
    zMm: at?.zMm ?? null,
    radiusMm: isStraight ? null : 1 / at.curvaturePerMm,
    stockMm: place.stockMm,
    innerStockMm: place.innerStockMm,
    lineTopMm: line.topMm,
    lineBottomMm: line.bottomMm,
    outerEdgesMm: place.wedges.outerMm,
    innerEdgesMm: place.wedges.innerMm,
    innerInFrameMm: place.innerInFrameMm,
    innerLeftDeg: place.innerSawnDeg - place.bevelDeg + 0,
    innerLeftMm: leftMm(job.frame.sidingMm, place.innerSawnDeg, place.bevelDeg),
  };
}

function planOf(
  job: Job,
  { fair, edge: pattern, pickedUp, offsets, against, warnings }: FrameShape,
  rip: Rip,
  marks: readonly PlannedMark[],
  batten: Pick<RipPlan, 'batten'>,
): Plan {
  const { orientation, cut, places, sawn, ends } = rip;
  const { saw, crew, stack } = job;
  const steepest = places.reduce((a, b) => (b.twistDegPerM > a.twistDegPerM ? b : a));
  const twist = {
    maxDegPerM: steepest.twistDegPerM,
    limitDegPerM: twistLimitDegPerM({ ...saw, pivotHeightMm: cut.straightAtMm }, job.frame.sidingMm, steepest.sawnDeg),
  };
  const pace = planPace({ job, bevels: sawn, orientation, places, marks, twistLimitDegPerM: twist.limitDegPerM });
  const bothWedgesMm = Math.max(...places.map(({ wedges }) => wedges.outerMm[0] + wedges.innerMm[0]));
  const stackPlan = { ...stack, plies: pliesBetween(job.frame.mouldingMm, bothWedgesMm, stack.laminationMm) };
  const ripped = ripPlanOf(job, rip, marks);
  const { mouldedFace: moulded, mouldingMm } = job.frame;
  const bend = bendPlanOf(job, marks, flatsOf(rip, pattern, { moulded, mouldingMm, marks }), stackPlan.plies);
  const betweenMarks = betweenMarksOf(places, marks);
  const reach = [...places.flatMap(({ stockMm, innerStockMm }) => [stockMm, innerStockMm]), ...endsOf(ends)];

  return {
    format: 'by-the-mark/plan@1',
    title: job.title,
    units: job.units,
    notation: job.notation,
    frame: job.frame,
    marks,
    curve: curveOf(fair),
    pickedUp,
    girthMm: fair.toGirthMm,
    stock: stockSize(cut.thicknessMm, job.frame.sidingMm, ripChoices(job), reach),
    fairing: { rmsDeg: fair.rmsDeg, suspects: fair.suspects, measureAgain: fair.measureAgain },
    leads: orientation.leads,
    leadsIsSure: unsureFields(job.defaults).length === 0,
    thickEdge: orientation.thickEdge,
    hand: orientation.hand,
    rip: { ...ripped, ...batten },
    bend,
    betweenMarks,
    twist,
    pace,
    stack: stackPlan,
    saw: {
      tiltDeg: saw.tiltDeg,
      readoutDeg: saw.readoutDeg,
      readoutTable: saw.readoutTable,
      degreesPerTurn: saw.degreesPerTurn,
      ...(saw.turnsTable === undefined ? {} : { turnsTable: saw.turnsTable }),
      ...(saw.backlashTurns === undefined ? {} : { backlashTurns: saw.backlashTurns }),
      ...(saw.feedMPerMin === undefined ? {} : { feedMPerMin: saw.feedMPerMin }),
      leans: saw.leans,
      kerfMm: saw.kerfMm,
    },
    crew,
    sawTruth: sawTruthOf(job, orientation.leads === 'head' ? marks.toReversed() : marks),
    voice: job.voice,
    ...(offsets === undefined ? {} : { offsets: offsets.facts }),
    ...(against === undefined ? {} : { against }),
    defaults: job.defaults,
    warnings: [
      ...whichEndWarnings(job, orientation.leads),
      ...fair.suspects.map((suspect) => suspectWarning(job, suspect)),
      ...measureAgainWarnings(job, fair),
      ...warnings,
      ...uncertainBevelWarnings(marks),
      ...patternLengthWarnings(job, pattern, fair.toGirthMm),
      ...bothHandsWarnings(job, orientation.hand, marks),
      ...tiltRangeWarnings(job, orientation.hand, marks, ripped.handChanges),
      ...readoutTableWarnings(job, orientation.hand, marks),
      ...readoutJumpWarnings(job),
      ...turnsTableWarnings(job, orientation.hand, marks),
      ...twistWarnings(job, ripped.blade),
      ...lineRadiusWarnings(job, marks, ripped.line),
      ...betweenMarksWarnings(job, betweenMarks, marks, places, () => gridOf(job, rip)),
      ...bendWarnings(job, bend),
      ...laminationWarnings(job, bend),
      ...stackWarnings(job, stackPlan, job.frame.mouldingMm - bothWedgesMm),
      ...paceWarnings(job, pace),
      ...quickTurnWarnings(job, pace, twist.limitDegPerM, marks),
      ...shortIntervalWarnings(job, pace),
      ...orderWarnings(job.voice),
    ].map((warning): Warning => (forbids(warning) ? { ...warning, forbids: true } : warning)),
    cautions: CAUTIONS,
  };
}

const endsOf = ({ outer, inner }: Rip['ends']): readonly number[] => [
  outer.heelMm,
  outer.headMm,
  inner.heelMm,
  inner.headMm,
];

const CURVE_PARTS = 200;

function curveOf(fair: FairBevels): Plan['curve'] {
  const { fromGirthMm, toGirthMm } = fair;
  return Array.from({ length: CURVE_PARTS + 1 }, (_, i) => {
    const girthMm = fromGirthMm + ((toGirthMm - fromGirthMm) * i) / CURVE_PARTS;
    return { girthMm, bevelDeg: fair.bevelAtDeg(girthMm) + 0 };
  });
}

const suspectWarning = ({ shape }: Job, { row, foundDeg, fairDeg, reason }: Suspect): Warning => ({
  code: 'suspect-bevel',
  message: `${shape.file}, row ${row}: ${foundDeg}° ${reason}. It is left out of the fair curve, which has ${tenthsDegText(fairDeg)} there.`,
});
