/** What the table of offsets tells of a frame beside its bevels, in sentences: the same in a terminal and on a page. */
import { degText, errorFigure, hundredthsDegText, signedDegText, tenthsDegText } from '../figures/degrees.ts';
import { fineText, lengthText } from '../figures/lengths.ts';
import type { Notation } from '../figures/notation.ts';
import type { OffsetsPlan, PickUpAgainst } from '../frame/findings.ts';
import type { Plan } from '../plan/plan.ts';
import { radToDeg } from '../units.ts';

/** Where it comes from, fairing, chord against tangent, hollow, run-off, knuckles: one sentence or two each. */
export function offsetsSentences({ offsets, marks, notation, frame }: Plan): readonly string[] {
  if (offsets === undefined) return [];
  return [
    whereSentence(offsets, notation),
    fairingSentence(offsets.fairing, notation),
    chordSentence(marks),
    ...errorSentences(marks),
    hollowSentence(offsets, frame.sidingMm, notation),
    runOffSentence(offsets, notation),
    ...offsets.knuckles.map(
      ({ girthMm, belowDeg, aboveDeg }) =>
        `Knuckle at girth ${lengthText(girthMm, notation)}: ${signedDegText(belowDeg, 2)} below it, ${signedDegText(aboveDeg, 2)} above.`,
    ),
  ];
}

function whereSentence({ file, atMm, cantDeg, plankingMm }: OffsetsPlan, notation: Notation): string {
  const cant =
    cantDeg === 0
      ? ''
      : `, canted ${Math.abs(cantDeg)}° so that its outer end stands farther ${cantDeg > 0 ? 'aft' : 'forward'}`;
  const planking =
    plankingMm === 0
      ? 'The offsets are taken to the inside of the planking: nothing is deducted.'
      : `${lengthText(plankingMm, notation)} of planking is deducted from the offsets.`;
  return `From ${file}: moulded face at ${lengthText(atMm, notation)}${cant}. ${planking}`;
}

/** How far a point was moved. */
export const movedMm = ({ fromMm, toMm }: OffsetsPlan['fairing']['moved'][number]): number =>
  Math.hypot(toMm[0] - fromMm[0], toMm[1] - fromMm[1]);

export function fairingSentence({ toleranceMm, moved }: OffsetsPlan['fairing'], notation: Notation): string {
  const may = `it may move a point by ${fineText(toleranceMm, notation)}`;
  if (toleranceMm === 0) return 'Fairing moved nothing: the figures are exact, or too few of them are rounded alike.';
  const [first] = moved;
  if (first === undefined)
    return `Fairing moved nothing (${may}): the table is fair as it stands, or too rough to tell.`;
  const worst = moved.reduce((a, b) => (movedMm(b) > movedMm(a) ? b : a), first);
  return `Fairing moved ${moved.length} points (${may}), most of all station ${worst.station}, row ${worst.row}, by ${fineText(movedMm(worst), notation)}.`;
}

function chordSentence(marks: Plan['marks']): string {
  const [first] = marks;
  if (first === undefined) return '';
  const apart = (mark: Plan['marks'][number]): number => mark.bevelDeg - mark.sawnDeg;
  const worst = marks.reduce((a, b) => (Math.abs(apart(b)) > Math.abs(apart(a)) ? b : a), first);
  return (
    `Called and sawn is the chord from face to face. It is off the tangent at the moulded edge by ${degText(Math.abs(apart(worst)), 2)} ` +
    `at most, at mark ${worst.mark}: ${signedDegText(worst.bevelDeg, 2)} at the edge, ${signedDegText(worst.sawnDeg, 2)} across the siding.`
  );
}

function errorSentences(marks: Plan['marks']): readonly string[] {
  const known = marks.flatMap(({ mark, errorDeg }) => (errorDeg === undefined ? [] : [{ mark, errorDeg }]));
  const [first] = known;
  if (first === undefined) return [];
  const worst = known.reduce((a, b) => (b.errorDeg > a.errorDeg ? b : a), first);
  return [
    `The table may make a bevel wrong by ${errorFigure(worst.errorDeg)}° at most, at mark ${worst.mark} (one standard deviation, of rounding and of points far apart; twice that covers 95 places of 100).`,
  ];
}

function hollowSentence({ hollow }: OffsetsPlan, sidingMm: number, notation: Notation): string {
  const size = fineText(Math.abs(hollow.mostMm), notation);
  const where = `at girth ${lengthText(hollow.girthMm, notation)}`;
  if (Math.abs(hollow.mostMm) < 0.01) return 'The straight cut lies on the planking all across the siding.';
  return hollow.mostMm > 0
    ? `In the middle of its ${lengthText(sidingMm, notation)} siding the straight cut is ${size} short of the planking at most, ${where}.`
    : `In the middle of its ${lengthText(sidingMm, notation)} siding the straight cut is ${size} proud of the planking at most, ${where}.`;
}

/** To the first order in the slope; from here on it is only rough. */
const ROUGH_SLOPE = 0.3;

function runOffSentence({ runOff: { atHeadMm, slopeAtHead } }: OffsetsPlan, notation: Notation): string {
  if (Math.abs(atHeadMm) < 1) return 'A plain stack without bevelled wedges would stay in the plane of the frame.';
  const rough = Math.abs(slopeAtHead) > ROUGH_SLOPE ? 'roughly ' : '';
  return (
    `Why the wedges: a plain stack laid on the planking from the heel would run off the plane of the frame, and stand ${rough}` +
    `${lengthText(Math.abs(atHeadMm), notation)} ${atHeadMm > 0 ? 'aft' : 'forward'} of it at the head, ${tenthsDegText(Math.abs(radToDeg(Math.atan(slopeAtHead))))} askew.`
  );
}

/** A picked-up frame beside the one of the offsets. */
export function againstSentences(against: PickUpAgainst, girthMm: number, notation: Notation): readonly string[] {
  const { atMm, rmsDeg, meanDeg, bestAtMm, bestRmsDeg, neighbours } = against;
  const more = meanDeg > 0 ? 'greater' : 'less';
  return [
    `Beside the offsets' frame at ${lengthText(atMm, notation)}: ${hundredthsDegText(rmsDeg)} apart (root mean square); picked up is ${hundredthsDegText(Math.abs(meanDeg))} ${more} on the whole.`,
    `The offsets come nearest at ${lengthText(bestAtMm, notation)}: ${hundredthsDegText(bestRmsDeg)} apart.`,
    ...neighbours.map(
      (neighbour) =>
        `The frame at ${lengthText(neighbour.atMm, notation)} is ${hundredthsDegText(neighbour.rmsDeg)} from it.`,
    ),
    `Girth: picked up to ${lengthText(girthMm, notation)}, ${lengthText(against.girthMm, notation)} by the offsets. The boat as built governs.`,
  ];
}
