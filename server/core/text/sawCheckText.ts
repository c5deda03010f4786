/** What is done before a rip so that the saw tells the truth, in sentences: on the plan, the page and paper. */

import { degText, signedDegText } from '../figures/degrees.ts';
import { secondsText } from '../figures/durations.ts';
import { turnsText } from '../figures/turns.ts';
import type { SawTruth } from '../plan/sawCheck.ts';

/** How the saw is squared at zero; the first thing before every rip. */
export const squareSentence = ({ squareShowsDeg }: Pick<SawTruth, 'squareShowsDeg'>): string =>
  `Check square before each rip, with the saw switched off and the blade at rest. Hold a square that you trust against the blade's body, not its teeth. Turn the blade square to the table, in the direction of the first turn. The readout must then show ${figure(squareShowsDeg)}. If not, set it. If it cannot be set, tell the run what it shows: then every call is shifted by as much.`;

export function sawTruthLines(truth: SawTruth): readonly string[] {
  return [squareSentence(truth), correctionSentence(truth), loosenessSentence(truth), TRIAL_SENTENCE];
}

const TRIAL_SENTENCE =
  'Saw a trial on cheap stock first: straight, with the same bevels and marks. The command trial, or the plan’s page, makes the job for it. Measure the trial and enter the bevels: they show how far the readout and the hand are off.';

function correctionSentence({ correction, testAtDeg }: SawTruth): string {
  const blocks = `test blocks sawn at ${testAtDeg.map(figure).join(', ')}`;
  if (correction === null)
    return `The plan trusts the readout. Check it with ${blocks}: measure them with a bevel and put the pairs into saw.readoutTable.`;
  const { blocks: count, mostDeg, atDeg } = correction;
  const most =
    Math.abs(mostDeg) < 0.05
      ? 'on this frame it is hardly off'
      : `on this frame it is off by at most ${signedDegText(mostDeg, 1)}, at a true ${figure(atDeg)}`;
  return `The readout is corrected by ${count} test ${count === 1 ? 'block' : 'blocks'}, by a straight line between two of them: ${most}. The calls name what the readout must show.`;
}

/**
 * How the first bevel is come to, by figures of the readout: "less" and "more" would be taken by size where the figures are negative.
 * `figureOf` writes a figure of the readout.
 */
export function firstBevelSentence(
  { comeToFirst, firstBevel }: Pick<SawTruth, 'comeToFirst' | 'firstBevel'>,
  figureOf: (deg: number) => string = readoutFigure,
): string {
  if (comeToFirst === 'either way') return 'The tilt stays as it is over the whole rip.';
  const then = 'the first turn then goes on the same way, with nothing loose before it.';
  if (firstBevel === undefined || firstBevel === null)
    return `Come to the first bevel with the figure ${comeToFirst === 'from less tilt' ? 'growing' : 'falling'} (of negative figures −6 is more than −8): ${then}`;
  const { callDeg, fromDeg, towardDeg } = firstBevel;
  if (fromDeg === null)
    return `Come to the first bevel, ${figureOf(callDeg)}, as far as the saw lets you the way that the first turn goes on: toward ${figureOf(towardDeg)}.`;
  return `Come to the first bevel from ${figureOf(fromDeg)} to ${figureOf(callDeg)}: ${then}`;
}

function loosenessSentence(truth: SawTruth): string {
  const { looseness } = truth;
  const first = firstBevelSentence(truth);
  if (looseness === null)
    return `${first} If the wheel has play, write it in saw.backlashTurns, and the plan counts with it.`;
  const { turns, seconds, atMarks } = looseness;
  const where =
    atMarks.length === 0
      ? 'The way of turning never changes on this frame.'
      : `The way of turning changes at the call for ${atMarks.length === 1 ? 'mark' : 'marks'} ${atMarks.join(', ')}: there the wheel turns ${turnsText(turns)} (${secondsText(seconds)}) before the tilt moves. Go by the readout and never by counting turns, and never overshoot a bevel to come back to it: the wood is in the cut.`;
  return `${first} ${where}`;
}

const figure = (deg: number): string => degText(deg, 1);
/** A readout's step may be finer than a tenth. */
const readoutFigure = (deg: number): string => degText(deg, 3);
