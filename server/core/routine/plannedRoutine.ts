/** What every routine tells of itself. */

import type { Limit, PacedRip } from './crewTime.ts';
import type { Pace } from './limits.ts';
import type { Routine } from './routine.ts';

/** What the limits of all routines are reckoned from, each reckoned once. */
export interface ToPace {
  readonly rip: PacedRip;
  /** Of turning mark by mark. */
  readonly intervals: Pace['intervals'];
  /** Even degrees a millimetre that must be turned over each span of the profile. */
  readonly turnedDegPerMm: readonly number[];
}

export interface PlannedRoutine {
  readonly name: Routine;
  /** Without a count of travel it cannot be run as what it is. */
  readonly needsTravel: boolean;
  /** Each bevel is turned to in one go, so that a turn which the blade cannot follow counts against it. */
  readonly isTurnedInOneGo: boolean;
  /** Called a mark ahead, and turned to evenly from mark to mark. */
  readonly isTurnedEvenly: boolean;
  /** Figures between the marks are called as they come due. */
  readonly isByDegrees: boolean;
  /** The hand follows the display, and the voice only confirms. */
  readonly isFollowed: boolean;
  /** The fastest feed over each interval and what stands in the way of more, but for the saw's own. */
  limits(toPace: ToPace): readonly Limit[];
}
