/** What is unwise about the marks and the feed, and what helps. */

import { secondsText } from '../figures/durations.ts';
import { feedText } from '../figures/feeds.ts';
import { lengthText } from '../figures/lengths.ts';
import type { Notation } from '../figures/notation.ts';
import type { Job } from '../job.ts';
import { crewTime, MM_PER_S_TO_M_PER_MIN } from '../routine/crewTime.ts';
import type { Pace, PaceLimit } from '../routine/limits.ts';
import type { Warning } from '../warning.ts';

const CURE: Readonly<Record<PaceLimit, string>> = {
  words:
    'Feed slower, or take fewer marks (a longer interval leaves more time for the words), or a shorter form of the call.',
  reaction: 'Feed slower, or take fewer marks, so that each interval is longer.',
  wheel: 'Feed slower, turn the handwheel faster, or gear it to more degrees a turn. Other marks help little.',
  twist: 'Feed slower. But no feed cures the twist: see its own warning.',
  saw: 'Feed slower.',
};

export function paceWarnings({ crew: { feedMPerMin }, notation }: Job, pace: Pace): Warning[] {
  if (feedMPerMin <= pace.limitMPerMin) return [];
  const slowest = pace.intervals.reduce((a, b) => (b.limitMPerMin < a.limitMPerMin ? b : a));
  const tooShort = pace.intervals.filter(({ limitMPerMin }) => limitMPerMin < feedMPerMin).length;
  const count = `${tooShort} of ${pace.intervals.length} intervals ${tooShort === 1 ? 'is' : 'are'} too short`;
  const message = `${tooFast(slowest, feedMPerMin, notation)}${slowest.limitedBy === 'saw' ? '' : ` (${count})`}. The limit is ${feedText(pace.limitMPerMin, notation)}. ${CURE[slowest.limitedBy]}`;
  return [{ code: 'pace', message, mark: slowest.toMark }];
}

function tooFast(slowest: Pace['intervals'][number], feedMPerMin: number, notation: Notation): string {
  const { fromMark, toMark, lengthMm, wordsS, reactionS, wheelS, limitedBy } = slowest;
  const givenS = (lengthMm * MM_PER_S_TO_M_PER_MIN) / feedMPerMin;
  const given = `At ${feedText(feedMPerMin, notation, 'nearest')} the stock takes ${secondsText(givenS)} from mark ${fromMark} to mark ${toMark}`;
  if (limitedBy === 'saw')
    return `The crew feeds ${feedText(feedMPerMin, notation, 'nearest')}, more than the saw and its blade take in this depth`;
  return `${given}, but the call, the reaction and the wheel need ${secondsText(crewTime(wordsS, reactionS, wheelS))}`;
}

/** Marks closer than this are hard to press one by one, and their printed codes have no room. Common practice, no source. */
export const SHORT_INTERVAL_MM = 40;

export function shortIntervalWarnings(job: Job, pace: Pace): Warning[] {
  const short = pace.intervals.filter(({ lengthMm }) => lengthMm < SHORT_INTERVAL_MM);
  const shortest = short.reduce<(typeof short)[number] | undefined>(
    (a, b) => (a === undefined || b.lengthMm < a.lengthMm ? b : a),
    undefined,
  );
  if (shortest === undefined) return [];
  const [lower, upper] = [shortest.fromMark, shortest.toMark].sort((a, b) => a - b);
  const message = `${short.length === 1 ? 'One interval is' : `${short.length} intervals are`} shorter than ${lengthText(SHORT_INTERVAL_MM, job.notation)}, the shortest ${lengthText(shortest.lengthMm, job.notation)} between marks ${lower} and ${upper}: marks so close are hard to press one by one and hard to read.`;
  return [{ code: 'short-interval', message, mark: shortest.toMark }];
}
