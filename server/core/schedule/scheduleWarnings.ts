/** What is unwise about the marks and the feed, and what helps. */
import type { Job } from '../job.ts';
import { lengthText } from '../lengthText.ts';
import type { Pace, Warning } from '../plan.ts';

const CURE = {
  words: 'Feed slower, or take fewer marks (a longer interval pays for its words) or a shorter form of the call.',
  reaction: 'Feed slower, or take fewer marks, so that each interval is longer.',
  wheel: 'Feed slower, or take more degrees to a turn of the handwheel or a brisker hand; other marks help little.',
  twist: 'Feed slower.',
  saw: 'Feed slower.',
} as const;

export function paceWarnings(pace: Pace, feedMPerMin: number): Warning[] {
  if (feedMPerMin <= pace.limitMPerMin) return [];
  const slowest = pace.intervals.reduce((a, b) => (b.limitMPerMin < a.limitMPerMin ? b : a));
  const tooShort = pace.intervals.filter(({ limitMPerMin }) => limitMPerMin < feedMPerMin).length;
  const neededS = slowest.wordsS + slowest.reactionS + slowest.wheelS;
  const givenS = (slowest.lengthMm * 0.06) / feedMPerMin;
  const message = `At ${feedMPerMin} m/min the stock takes ${givenS.toFixed(1)} s from mark ${slowest.fromMark} to mark ${slowest.toMark}, but the call, the reaction and the wheel need ${neededS.toFixed(1)} s (${tooShort} of ${pace.intervals.length} intervals ${tooShort === 1 ? 'is' : 'are'} too short). The limit is ${floorText(pace.limitMPerMin)} m/min. ${CURE[slowest.limitedBy]}`;
  return [{ code: 'pace', message, mark: slowest.toMark }];
}

/** Never rounded up: it is a limit. */
const floorText = (mPerMin: number): string => String(Math.floor(mPerMin * 100) / 100);

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
  const message = `${short.length === 1 ? 'One interval is' : `${short.length} intervals are`} shorter than ${lengthText(SHORT_INTERVAL_MM, job.units)}, the shortest ${lengthText(shortest.lengthMm, job.units)} between marks ${lower} and ${upper}: marks so close are hard to press one by one and hard to read.`;
  return [{ code: 'short-interval', message, mark: shortest.toMark }];
}
