/** How a run is made: by whom, and how the tilt is brought along. */

export type RunMode = 'pair' | 'solo' | 'rehearsal';

/**
 * How the tilt is brought along. `mark by mark`: a bevel is called late in its interval and turned to at once, to be there
 * when its mark is. `even turning`: it is called before the mark in front of it, and turned to evenly between the two.
 * `degree by degree`: each half degree is called as it comes due, each whole one where halves do not fit between the calls.
 * `following`: the display is followed, and the voice confirms each mark's bevel as it comes.
 * Without a count of travel all of them are mark by mark. In the order of what they ask of the people. What is particular to each
 * stands in the file of its name, and all of them in routines.ts: ask what a routine is, do not compare its name.
 */
export const ROUTINES = ['mark by mark', 'even turning', 'degree by degree', 'following'] as const;

export type Routine = (typeof ROUTINES)[number];

/** The one that a run takes by itself, that paper goes by, and that every other is without a count of travel. */
export const USUAL_ROUTINE: Routine = 'mark by mark';

/** A figure that comes due between marks, in the routine `degree by degree`. */
export interface DegreeStep {
  /** Where the exact tilt has come so near to the figure that it is the right one: the turn to it is centred here. */
  readonly positionMm: number;
  /** Half the way on to where the next figure is right: by then its words must be over. */
  readonly deadlineMm: number;
  /** What the readout must show. */
  readonly callDeg: number;
  readonly isWhole: boolean;
  readonly text: string;
}

/** The exact tilt along the straight stock, in the order of the run; between two places it is a straight line. */
export interface TiltProfile {
  readonly positionsMm: readonly number[];
  readonly tiltsDeg: readonly number[];
}
