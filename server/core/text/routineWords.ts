/** How the routines, and what limits their feed, are named to people: the one list for pages and sentences. */

import type { PaceLimit } from '../routine/limits.ts';
import type { Routine } from '../routine/routine.ts';

interface RoutineWords {
  readonly title: string;
  /** What is done in it, in one sentence. */
  readonly meaning: string;
  /** Within a sentence, as what is done. */
  readonly doing: string;
}

export const ROUTINE_WORDS: Readonly<Record<Routine, RoutineWords>> = {
  'mark by mark': {
    title: 'Mark by mark',
    meaning: 'The bevel is called late in its interval and turned to at once.',
    doing: 'mark by mark',
  },
  'even turning': {
    title: 'Even turning',
    meaning: 'The bevel is called one mark ahead and turned to evenly between the two.',
    doing: 'even turning',
  },
  'degree by degree': {
    title: 'Degree by degree',
    meaning: 'Each half degree is called as it comes due, each whole one where halves do not fit.',
    doing: 'calling degree by degree',
  },
  following: {
    title: 'Following',
    meaning: 'The display is followed; the voice confirms each mark.',
    doing: 'following the display',
  },
};

/** What limits the feed: "limited by", "because of" and the like stand before them. */
export const LIMIT_WORDS: Readonly<Record<PaceLimit, string>> = {
  words: 'the time that the call takes',
  reaction: 'the time to react',
  wheel: 'the time to turn the wheel',
  twist: 'how fast the blade can follow the twist',
  saw: 'the saw',
};
