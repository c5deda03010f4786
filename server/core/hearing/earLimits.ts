/** What is asked of every ear alike, on a page or at the server's own loudspeaker. */

/** A call that could only be begun later than this is not begun: a late number is worse than none. */
export const TOO_LATE_MS = 250;
/** No ear is taken to hear later than this after the sound was given to its device. */
export const LONGEST_DELAY_MS = 2000;
/** In so many ms a delay is told, so that it rests. */
const DELAY_STEP_MS = 5;

/** The delay that is told of an ear, in ms, of the one that was measured. */
export const toldDelayMs = (measuredMs: number): number =>
  Math.round(Math.min(LONGEST_DELAY_MS, Math.max(0, measuredMs)) / DELAY_STEP_MS) * DELAY_STEP_MS;
