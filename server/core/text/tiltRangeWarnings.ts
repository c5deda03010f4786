/** Marks that the saw cannot tilt to, and what brings them within its reach. */

import { degText } from '../figures/degrees.ts';
import { everyMarkText } from '../figures/markRanges.ts';
import { rounded } from '../figures/rounding.ts';
import type { Job } from '../job.ts';
import type { HandChangePlan } from '../plan/ripPlan.ts';
import { type MainHand, oppositeSide } from '../rip/leadingEnd.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import type { Warning } from '../warning.ts';

/**
 * At most one, at the mark that is farthest out of reach; or, where only what lies between two marks is, at the mark before it.
 * `handChanges` as the plan of the rip has them.
 */
export function tiltRangeWarnings(
  job: Job,
  hand: MainHand,
  marks: readonly PlannedMark[],
  handChanges: readonly Pick<HandChangePlan, 'afterMark' | 'tiltDeg' | 'isReached'>[],
): Warning[] {
  const [least, most] = job.saw.tiltDeg;
  const tilts = marks.map(({ mark, sawnDeg }) => ({ mark, tiltDeg: hand * sawnDeg }));
  const overBy = ({ tiltDeg }: Tilt): number => Math.max(least - tiltDeg, tiltDeg - most);
  const beyond = tilts.filter((at) => overBy(at) > 0);
  const [first] = beyond;
  if (first === undefined) return betweenMarks(least, handChanges);
  const worst = beyond.reduce((a, b) => (overBy(b) > overBy(a) ? b : a), first);
  const cures = reachCures(
    job.saw,
    tilts.map(({ tiltDeg }) => tiltDeg),
  );
  const helps =
    cures.length === 0
      ? 'No other way of laying or ripping it brings that within reach: it needs another saw, or less bevel in one frame'
      : `What helps${cures.length > 1 ? ', each by itself' : ''}: ${cures.join('. Or ')}`;
  const message = `${capital(everyMarkText(beyond))} need${beyond.length === 1 ? 's' : ''} the saw at ${asked(beyond, least)}; it reaches from ${figure(least)} to ${figure(most)}. ${helps}.`;
  return [{ code: 'tilt-out-of-reach', message, mark: worst.mark }];
}

/** The marks are all within reach, and the least tilt of the other hand is not. */
function betweenMarks(least: number, handChanges: Parameters<typeof tiltRangeWarnings>[3]): Warning[] {
  const beyond = handChanges.find(({ isReached }) => !isReached);
  if (beyond === undefined) return [];
  const message = `Beyond the change of hand after mark ${beyond.afterMark} between two marks the saw would have to tilt to ${figure(-up(-beyond.tiltDeg))}; it goes down to ${figure(least)}. What helps: cross-cut the stock where the bevel changes hand and rip each length as a job of its own.`;
  return [{ code: 'tilt-out-of-reach', message, mark: beyond.afterMark }];
}

interface Tilt {
  readonly mark: number;
  readonly tiltDeg: number;
}

type Saw = Pick<Job['saw'], 'tiltDeg' | 'leans'>;

/** More planks than this are not laid one on the other. Our own choice, no source. */
const MOST_PLANKS = 4;

/** Each alone brings every mark within reach: each is tried on all of them. `tilts` are those of the frame's main hand. */
function reachCures(saw: Saw, tilts: readonly number[]): string[] {
  return [inTwoLengths(saw, tilts), onTheOtherSide(saw, tilts), inPlanks(saw, tilts)].filter(
    (cure) => cure !== undefined,
  );
}

const reaches = ([least, most]: readonly [number, number], tilts: readonly number[]): boolean =>
  tilts.every((tiltDeg) => tiltDeg >= least && tiltDeg <= most);

/** Only what lies on the side of the lesser hand is out of reach: that length by itself is laid the other way. */
function inTwoLengths({ tiltDeg }: Saw, tilts: readonly number[]): string | undefined {
  const lesser = tilts.filter((tilt) => tilt < 0);
  const main = tilts.filter((tilt) => tilt >= 0);
  // Where the bevel changes hand both lengths begin at square.
  const isReached = reaches(tiltDeg, [0, ...main]) && reaches(tiltDeg, [0, ...lesser.map((tilt) => -tilt)]);
  if (lesser.length === 0 || !isReached) return undefined;
  return `cross-cut the stock where the bevel changes hand and rip each length as a job of its own; the one of the lesser hand is then laid the other way and asks for up to ${figure(up(-Math.min(...lesser)))}`;
}

/** A saw that tilts farther to its other side saws the frame there, the stock laid for that lean. */
function onTheOtherSide({ tiltDeg: [least, most], leans }: Saw, tilts: readonly number[]): string | undefined {
  const mirrored = [0 - most, 0 - least] as const;
  if (!reaches(mirrored, tilts)) return undefined;
  const other = oppositeSide(leans);
  return `saw it on the other side of this saw: say in the job that its top leans to the ${other} and its tilt goes from ${figure(mirrored[0])} to ${figure(mirrored[1])}, with a readout that counts and was tested to that side, and plan it again; then another end leads`;
}

/** The fewest planks, each with its share of every bevel. */
function inPlanks({ tiltDeg }: Saw, tilts: readonly number[]): string | undefined {
  for (let planks = 2; planks <= MOST_PLANKS; planks++) {
    const shares = tilts.map((tilt) => tilt / planks);
    if (reaches(tiltDeg, shares))
      return `rip ${planks} planks, each as a job of its own with 1/${planks} of every bevel, and make each wedge of ${planks} halves laid one on the other: their angles add up, and the saw tilts to ${figure(up(Math.max(...shares)))} at most`;
  }
  return undefined;
}

/** What is asked for is told outward to a tenth, so that it never reads as if it were within reach. */
function asked(beyond: readonly Tilt[], least: number): string {
  const low = beyond.filter(({ tiltDeg }) => tiltDeg < least).map(({ tiltDeg }) => tiltDeg);
  const high = beyond.filter(({ tiltDeg }) => tiltDeg >= least).map(({ tiltDeg }) => tiltDeg);
  const [lowest, highest] = [figure(-up(-Math.min(...low))), figure(up(Math.max(...high)))];
  if (low.length > 0 && high.length > 0) return `${lowest} and at ${highest}`;
  return `${beyond.length === 1 ? '' : low.length > 0 ? 'down to ' : 'up to '}${low.length > 0 ? lowest : highest}`;
}

const up = (deg: number): number => rounded(deg, 1, 'at least');
const figure = (deg: number): string => degText(deg, 1);
const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
