/** What is unwise about a rip, and what helps. */

import { degText, roomText } from '../figures/degrees.ts';
import { rateText } from '../figures/feeds.ts';
import { lengthIn, lengthText } from '../figures/lengths.ts';
import { marksText } from '../figures/markRanges.ts';
import type { Job } from '../job.ts';
import type { BladePlan, MarkTwist } from '../plan/bladePlan.ts';
import { type MainHand, unsureFields } from '../rip/leadingEnd.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import type { PatternCurve } from '../rip/rip.ts';
import { twistCureText } from '../rip/twistCures.ts';
import { smallestRadiusMm, widestForRadiusMm } from '../saw/blade.ts';
import type { Warning } from '../warning.ts';

export function whichEndWarnings(job: Job, leads: 'heel' | 'head'): Warning[] {
  const missing = unsureFields(job.defaults);
  if (missing.length === 0) return [];
  const message = `The ${leads} leads, but only if ${missing.join(', ')} ${missing.length === 1 ? 'is' : 'are'} as assumed: write ${missing.length === 1 ? 'it' : 'them'} in the job. With the wrong end first both halves are scrap.`;
  return [{ code: 'which-end-unsure', message }];
}

/** Marks at which the saw has to tilt the other way than for the frame's greatest bevel. */
export function bothHandsWarnings(job: Job, hand: MainHand, marks: readonly PlannedMark[]): Warning[] {
  const other = marks.filter(({ sawnDeg }) => hand * sawnDeg < -job.saw.readoutDeg / 2);
  const first = other[0];
  if (first === undefined) return [];
  const [main, rest] = hand === 1 ? ['standing', 'under'] : ['under', 'standing'];
  const farthest = Math.min(...other.map(({ sawnDeg }) => hand * sawnDeg));
  const message = `This frame is ${main} where its bevel is greatest and ${rest} at ${marksText(other)}: there the saw has to pass through zero and tilt the other way, to ${degText(farthest, 1)}. Before you start try whether the saw does so, tell the tilt hand, and check the readout at zero. If it cannot, saw the frame in two lengths and scarf them.`;
  return [{ code: 'both-hands', message, mark: first.mark }];
}

/** How far beyond the last test block the table is still taken on trust (degrees). */
const TRUSTED_BEYOND_DEG = 1;

export function readoutTableWarnings(job: Job, hand: MainHand, marks: readonly PlannedMark[]): Warning[] {
  const first = job.saw.readoutTable[0];
  const last = job.saw.readoutTable.at(-1);
  if (first === undefined || last === undefined) return [];
  const beyond = marks.filter(
    ({ sawnDeg }) => hand * sawnDeg < first[1] - TRUSTED_BEYOND_DEG || hand * sawnDeg > last[1] + TRUSTED_BEYOND_DEG,
  );
  const worst = beyond.reduce<PlannedMark | undefined>(
    (a, b) => (a === undefined || Math.abs(b.sawnDeg) > Math.abs(a.sawnDeg) ? b : a),
    undefined,
  );
  if (worst === undefined) return [];
  const message = `The readout was tested from ${degText(first[1], 1)} to ${degText(last[1], 1)} only, but ${marksText(beyond)} need${beyond.length === 1 ? 's' : ''} up to ${degText(hand * worst.sawnDeg, 1)}: beyond the table its end offset is assumed. Test a block near that angle.`;
  return [{ code: 'readout-table', message, mark: worst.mark }];
}

/** At most one: after which marks the bevel changes faster than the blade follows, and what helps all along. */
export function twistWarnings(job: Job, blade: BladePlan): Warning[] {
  const beyond = blade.marks.filter(({ isTooFast }) => isTooFast);
  const worst = beyond.reduce<MarkTwist | undefined>(
    (a, b) => (a === undefined || share(b) > share(a) ? b : a),
    undefined,
  );
  if (worst === undefined) return [];
  const others = beyond.filter((at) => at !== worst);
  const also = others.length === 0 ? '' : ` It is too fast after ${marksText(others)} too.`;
  const helps =
    blade.cures.length === 0
      ? 'No single change of blade or stock helps: spread the change of bevel over more length'
      : `What helps, each by itself: ${blade.cures.map((cure) => twistCureText(cure, lengthIn(job.notation))).join('; ')}`;
  const message = `After mark ${worst.mark} the bevel changes by ${rateText(worst.degPerM, job.notation)}; this blade in its kerf can follow about ${rateText(worst.limitDegPerM, job.notation)}.${also} ${helps}. Otherwise no feed is slow enough. Do not stop to tilt: after ${roomText(blade.standStillDeg)} of tilt without feed the blade's body lies against the wood.`;
  return [{ code: 'twist', message, mark: worst.mark }];
}

const share = ({ degPerM, limitDegPerM }: MarkTwist): number => degPerM / limitDegPerM;

/** Where the line that is followed on the stock turns more sharply than the blade is fed along: `line` as the plan of the rip has it. */
export function lineRadiusWarnings(
  job: Job,
  marks: readonly PlannedMark[],
  line: { readonly leastRadiusMm: number | null; readonly leastRadiusAtMm: number | null },
): Warning[] {
  const { leastRadiusMm, leastRadiusAtMm } = line;
  const leastMm = smallestRadiusMm(job.saw);
  if (leastRadiusMm === null || leastRadiusMm >= leastMm) return [];
  const widestMm = widestForRadiusMm(job.saw, leastRadiusMm);
  const length = lengthIn(job.notation);
  const helps =
    widestMm === undefined
      ? 'No blade follows it'
      : `A narrower blade, ${length(widestMm)} wide, follows it; so does less change of bevel there`;
  const mark = [...marks].reverse().find(({ stockMm }) => stockMm <= (leastRadiusAtMm ?? 0))?.mark ?? 1;
  const message = `After mark ${mark} the line turns in a radius of ${length(leastRadiusMm, 'about')}; a blade ${length(job.saw.bladeWidthMm)} wide is fed along ${length(leastMm, 'about, at least')} at the least. ${helps}.`;
  return [{ code: 'twist', message, mark }];
}

/** Pattern and pick-up are both measured along the moulded edge from the heel: they have to agree about its length. */
const LENGTHS_AGREE = 0.01;

export function patternLengthWarnings(job: Job, pattern: PatternCurve | undefined, pickedUpToMm: number): Warning[] {
  if (pattern === undefined) return [];
  if (Math.abs(pattern.girthMm - pickedUpToMm) <= LENGTHS_AGREE * pickedUpToMm) return [];
  const message = `The pattern is ${lengthText(pattern.girthMm, job.notation)} long, the pick-up ends at girth ${lengthText(pickedUpToMm, job.notation)}: they should agree within 1 %. Check that both start at the same heel and end at the same head.`;
  return [{ code: 'pattern-length', message }];
}
