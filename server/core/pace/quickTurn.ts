/**
 * Turns in one go that twist the kerf faster than the blade follows, and for which there is no room to be gentler.
 *
 * The wheel turns at its own rate whatever the feed: the slower the feed, the less way a turn takes. A turn that the blade
 * follows takes at least the way of its change at the twist limit; where the interval has that way left behind words and
 * reaction, the hand need not hurry. No limit of the feed comes of it (a slower one makes it worse unless the hand turns slower
 * too), only this warning.
 */

import { secondsText } from '../figures/durations.ts';
import { feedText } from '../figures/feeds.ts';
import { placeText } from '../figures/lengths.ts';
import type { Job } from '../job.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import { MM_PER_S_TO_M_PER_MIN, START_UP_S } from '../routine/crewTime.ts';
import type { Pace } from '../routine/limits.ts';
import { timeBetweenS, wayOf } from '../saw/handwheel.ts';
import type { Warning } from '../warning.ts';

interface QuickTurn {
  readonly toMark: number;
  readonly takesMm: number;
  /** The way that it must be spread over, and what words and reaction leave of the interval. */
  readonly needsMm: number;
  readonly leftMm: number;
  /** The feed that leaves that way; null where hardly any does. */
  readonly roomAtMPerMin: number | null;
}

/** At most one for a plan: where a turn in one go lacks most way at the crew's feed, or at the limit where that is slower. */
export function quickTurnWarnings(
  job: Job,
  pace: Pace,
  twistLimitDegPerM: number,
  marks: readonly CalledMark[],
): Warning[] {
  const [first, ...others] = quickTurns(job, pace, twistLimitDegPerM, marks);
  if (first === undefined) return [];
  const worst = others.reduce((a, b) => (b.needsMm - b.leftMm > a.needsMm - a.leftMm ? b : a), first);
  return [{ code: 'quick-turn', message: messageOf(job, worst, others.length, feedOf(job, pace)), mark: worst.toMark }];
}

const feedOf = (job: Job, pace: Pace): number => Math.min(job.crew.feedMPerMin, pace.limitMPerMin);

const quickTurns = (
  job: Job,
  pace: Pace,
  twistLimitDegPerM: number,
  marks: readonly CalledMark[],
): readonly QuickTurn[] =>
  pace.intervals.flatMap(
    (interval) => quickTurn(job, turnOver(job, interval, marks), feedOf(job, pace), twistLimitDegPerM) ?? [],
  );

type CalledMark = Pick<PlannedMark, 'mark' | 'callDeg'>;
type Interval = Pace['intervals'][number];
type Turn = Pick<Interval, 'toMark' | 'lengthMm' | 'wordsS' | 'reactionS'> & {
  readonly changeDeg: number;
  /** For so long the tilt moves: while looseness is taken up, it stands. */
  readonly tiltS: number;
};

/** What the tilt changes by over an interval, and in what time. */
function turnOver(job: Job, interval: Interval, marks: readonly CalledMark[]): Turn {
  const called = (mark: number): number => marks.find((each) => each.mark === mark)?.callDeg ?? 0;
  const [fromDeg, toDeg] = [called(interval.fromMark), called(interval.toMark)];
  const tiltS = timeBetweenS(job, fromDeg, toDeg, wayOf(fromDeg, toDeg));
  return { ...interval, changeDeg: Math.abs(toDeg - fromDeg), tiltS };
}

/** Where less than this share of an interval is left for words and reaction, no feed is worth naming. */
const LEAST_SHARE = 0.1;

function quickTurn(
  { saw }: Job,
  { toMark, lengthMm, wordsS, reactionS, tiltS, changeDeg }: Turn,
  feedMPerMin: number,
  twistLimitDegPerM: number,
): QuickTurn | null {
  const mmPerS = feedMPerMin / MM_PER_S_TO_M_PER_MIN;
  const heardS = wordsS + reactionS;
  const wayMm = (deg: number): number => (deg / twistLimitDegPerM) * 1000;
  const takesMm = (tiltS + START_UP_S) * mmPerS;
  const leftMm = Math.max(0, lengthMm - heardS * mmPerS);
  // The readout shows a figure from half a step before to half a step behind: not warned of unless even the least turn that
  // shows the two figures is too quick. One that the blade cannot follow over the whole interval is the twist warning's.
  const leastMm = wayMm(changeDeg - saw.readoutDeg);
  if (leastMm <= Math.max(takesMm, leftMm) || leastMm > lengthMm) return null;
  const needsMm = Math.min(lengthMm, wayMm(changeDeg));
  const spareMm = lengthMm - needsMm;
  const roomAtMPerMin = spareMm < LEAST_SHARE * lengthMm ? null : (spareMm * MM_PER_S_TO_M_PER_MIN) / heardS;
  return { toMark, takesMm, needsMm, leftMm, roomAtMPerMin };
}

function messageOf(job: Job, worst: QuickTurn, others: number, feedMPerMin: number): string {
  const { toMark, takesMm, needsMm, leftMm, roomAtMPerMin } = worst;
  const length = (mm: number): string => placeText(mm, job.notation);
  const spreadS = (needsMm * MM_PER_S_TO_M_PER_MIN) / feedMPerMin;
  const elsewhere = others === 0 ? '' : ` (${others} other turn${others === 1 ? ' is' : 's are'} also too quick)`;
  const cure =
    roomAtMPerMin === null
      ? 'No feed leaves room for that and for the call.'
      : `At up to ${feedText(roomAtMPerMin, job.notation)} there is room for that, if the wheel is turned so slowly; a slower feed alone makes it worse.`;
  return `At ${feedText(feedMPerMin, job.notation)} the turn to mark ${toMark} in one go takes ${length(takesMm)}, and twists the kerf faster than the blade follows. It must be spread over ${length(needsMm)}, ${secondsText(spreadS)} at that feed, but the call leaves ${length(leftMm)}${elsewhere}. ${cure} Even turning, with a measuring wheel, spreads every turn by itself.`;
}
