/** A figure that stands still long enough to be read, although what it tells of goes on all the time. */
import { toStep } from '../../../server/core/figures/rounding.ts';

interface Stillness {
  readonly step: number;
  /** How far beyond half a step the value must be before the figure follows, as a share of the step. */
  readonly margin: number;
  /** So long every figure stands at least. */
  readonly holdMs: number;
  /** `down` for a limit: never more than it is. */
  readonly round: 'nearest' | 'down';
}

/** What is so far off is not read to its end first: it would be wrong. */
const LEAP_STEPS = 2.5;

export class StillFigure {
  readonly #still: Stillness;
  #figure: number | null = null;
  #sinceMs = Number.NEGATIVE_INFINITY;

  constructor(still: Stillness) {
    this.#still = still;
  }

  /** The figure to be shown at `nowMs` for this value: within half a step and the margin of it, and what it moved in `holdMs`. */
  at(value: number, nowMs: number): number {
    const { step, margin, holdMs, round } = this.#still;
    const isLeap = this.#figure !== null && Math.abs(value - this.#figure) > LEAP_STEPS * step;
    if (this.#figure !== null && !isLeap && nowMs - this.#sinceMs < holdMs) return this.#figure;
    const middle = this.#figure === null ? value : this.#figure + (round === 'down' ? step / 2 : 0);
    // A limit must not stand above the truth by its margin.
    const slackDown = round === 'down' ? 0 : margin * step;
    if (this.#figure !== null && value <= middle + step / 2 + margin * step && value >= middle - step / 2 - slackDown)
      return this.#figure;
    const figure = toStep(value, step, round === 'down' ? 'at most' : 'nearest');
    if (figure !== this.#figure) this.#sinceMs = nowMs;
    this.#figure = figure;
    return figure;
  }

  forget(): void {
    this.#figure = null;
    this.#sinceMs = Number.NEGATIVE_INFINITY;
  }
}
