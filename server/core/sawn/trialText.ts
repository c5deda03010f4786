/** What is done with a trial and what it told, in sentences. */
import { plusMinusFigure, signedPlusMinusFigure } from '../figures/decimals.ts';
import { measuredDegText } from '../figures/degrees.ts';
import { secondsText } from '../figures/durations.ts';
import type { Lengths } from '../figures/lengths.ts';
import type { TrialCorrection, TrialEstimate } from './correction.ts';
import type { Trial } from './trial.ts';

export const trialTitle = (title: string, { fromMark, toMark }: Trial): string =>
  `Trial, marks ${fromMark} to ${toMark} of: ${title}`;

export function trialSentences(trial: Trial, lengths: Lengths): readonly string[] {
  const { fromMark, toMark, lengthMm, measureAt } = trial;
  const steep = measureAt.reduce((a, b) => (Math.abs(b.bevelDeg) > Math.abs(a.bevelDeg) ? b : a));
  return [
    `This saws marks ${fromMark} to ${toMark} on cheap, sound, straight stock, ${lengths.along(lengthMm)} between the first mark and the last: the same tilts, marks and words, and nothing is bent. It is called as a run of its own, its marks counted from 1.`,
    'Feed and turn as you will at the work itself. All cautions hold as they do for good wood.',
    `Then measure the bevel of the sawn face on the half that would be the outer wedge, off its flat, at each mark's line and halfway between two of them (${measureAt.length} places; the greatest is ${measuredDegText(steep.bevelDeg)} at ${lengths.along(steep.alongMm)} from the first mark's line). Write them as along,bevel, heel end first, signed as the frame's.`,
  ];
}

/** `mmPerS`: the feed of the trial. */
export function correctionSentences(found: TrialCorrection, lengths: Lengths, mmPerS: number): readonly string[] {
  if (found.either !== null) return [eitherSentence(found.either), leftSentence(found)];
  return [lateSentence(found, lengths, mmPerS), offSentence(found), leftSentence(found)];
}

const eitherSentence = (either: TrialEstimate): string =>
  `The tilt came out off by ${signedPlusMinusFigure(either.value, CLEARLY * either.error, 2)}° in the mean. Whether the readout is off or the hand was late this trial cannot tell: over its stretch both look alike. A trial over the whole tells them apart, because its bevel rises and falls; or a test block tells the readout alone.`;

function lateSentence({ late, noticeable }: TrialCorrection, lengths: Lengths, mmPerS: number): string {
  if (late === null) {
    const least =
      noticeable.mm === null
        ? 'the bevel hardly changes on this trial, so that it cannot tell'
        : `less than ${lengths.along(noticeable.mm)} (${secondsText(noticeable.mm / mmPerS)}) would not have been noticed`;
    return `The bevels came where they should, as far as this trial tells: ${least}.`;
  }
  const way = late.value > 0 ? 'late' : 'early';
  const seconds = { value: Math.abs(late.value) / mmPerS, error: late.error / mmPerS };
  const cure =
    late.value > 0
      ? `Add ${secondsText(seconds.value)} to crew.reactionS, or feed more slowly`
      : 'Turn when the words are over and not before, or take as much off crew.reactionS';
  return `The bevels came ${lengths.along(Math.abs(late.value))} ${way}, give or take ${lengths.along(CLEARLY * late.error)}: ${plusMinusFigure(seconds.value, CLEARLY * seconds.error, 1)} s at that feed. ${cure}.`;
}

function offSentence({ off, rows, noticeable }: TrialCorrection): string {
  if (off === null)
    return `The readout is right within what this trial tells: less than ${measuredDegText(noticeable.deg)} would not have been noticed. No correction is called for.`;
  const parts = off.map(
    ({ tiltDeg, deg }) => `${signedPlusMinusFigure(deg.value, CLEARLY * deg.error, 2)}° at ${measuredDegText(tiltDeg)}`,
  );
  return `The tilt came out off by ${parts.join(' and ')}. Square at zero first; if that was right, these rows go into saw.readoutTable: ${JSON.stringify(rows)}. They hold between these tilts only; a test block tells it better than a trial.`;
}

const leftSentence = ({ leftDeg, measured }: TrialCorrection): string =>
  `${measured} places were measured; ${measuredDegText(leftDeg)} stay unexplained (root mean square): hand, readout step and measuring together.`;

const CLEARLY = 2;
