import type { Phase } from '../engine/state.ts';

/** What of a run's view tells where it is. */
interface MarkPlace {
  readonly state: Phase;
  /** The last mark that passed the blade, 0 before the first. */
  readonly mark: number;
  readonly nextMark: number | null;
  /** False where a damaged record no longer tells it. */
  readonly isPlaceKnown: boolean;
  /** How many marks the run has. */
  readonly marks: number;
}

/** Where a run is, worded so everywhere: which mark passed the blade last, and which comes next. "Passed 1, next 2 of 10"; before the first, "No mark yet, next 13 of 13". */
export function placeText({ state, mark, nextMark, marks, isPlaceKnown }: MarkPlace): string {
  if (!isPlaceKnown) return 'Mark not known';
  const isOver = state === 'finished';
  const passed = mark > 0 ? `Passed ${mark}` : isOver ? 'No mark passed' : 'No mark yet';
  if (nextMark === null) return `${passed}, the last of ${marks}`;
  return `${passed}, ${isOver ? 'ended before' : 'next'} ${nextMark} of ${marks}`;
}
