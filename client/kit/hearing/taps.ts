/** A series of taps, each in answer to one thing that is heard or seen at an irregular moment. */

/** Of these the first is for practice. */
export const TAPS_GIVEN = 9;
/** Nobody is so slow: it was not noticed. */
const MISSED_MS = 1500;
/** After so many that were not noticed it is over. */
const MOST_MISSED = 3;
const PAUSE_MS = { least: 700, most: 1900 } as const;

/** Between two of them: so irregular that no rhythm can be tapped along with. */
export const irregularPauseMs = (): number => PAUSE_MS.least + Math.random() * (PAUSE_MS.most - PAUSE_MS.least);

/** The taps of a person (`performance.now()`), one after another. */
export class TapLine {
  #wake: ((atMs: number | null) => void) | null = null;

  tapped(atMs: number): void {
    this.#wake?.(atMs);
  }

  /** The next tap; null when none came for so long. */
  next(limitMs: number): Promise<number | null> {
    return new Promise((settle) => {
      const settled = (atMs: number | null): void => {
        clearTimeout(timer);
        this.#wake = null;
        settle(atMs);
      };
      const timer = setTimeout(() => settled(null), limitMs);
      this.#wake = settled;
    });
  }
}

/**
 * From each `give` (which says when it was given) to its tap, in ms. Fewer than asked for where they were not noticed or
 * `signal` ended it. A tap in a pause begins the pause again.
 */
export async function tapSeries(parts: {
  readonly taps: TapLine;
  readonly give: () => number | Promise<number>;
  readonly pauseMs: () => number;
  readonly told: (done: number) => void;
  readonly signal: AbortSignal;
}): Promise<readonly number[]> {
  const { taps, give, pauseMs, told, signal } = parts;
  const answered: number[] = [];
  let missed = 0;
  while (answered.length < TAPS_GIVEN && missed <= MOST_MISSED && !signal.aborted) {
    if ((await taps.next(pauseMs())) !== null || signal.aborted) continue;
    const givenMs = await give();
    const tapMs = await taps.next(givenMs - performance.now() + MISSED_MS);
    if (tapMs === null) missed += 1;
    else answered.push(tapMs - givenMs);
    told(answered.length);
  }
  return answered.slice(1);
}
