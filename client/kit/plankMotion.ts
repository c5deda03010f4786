/** Where the plank is drawn between two messages: carried on at the feed told last, eased so that a correction does not jump. */
import type { Guide } from '../../server/core/run/guide.ts';
import type { Station } from '../../server/core/run/state.ts';

/** Corrections are taken in by this time constant. */
const EASE_MS = 90;
/** Without news for so long the drawing stands: it must not run on by itself. */
const STAND_AFTER_MS = 400;

export class PlankMotion {
  readonly #stations: readonly Station[];
  #positionMm = 0;
  #speedMmPerMs = 0;
  #toldAtMs = 0;
  #shownMm: number | null = null;
  #shownAtMs = 0;

  constructor(stations: readonly Station[]) {
    this.#stations = stations;
  }

  told(guide: Guide, atMs: number): void {
    this.#positionMm = guide.positionMm ?? this.#before(guide);
    this.#speedMmPerMs = guide.state === 'feeding' ? this.#speed(guide) : 0;
    this.#toldAtMs = atMs;
  }

  /** Position to be drawn at a frame's time. */
  at(nowMs: number): number {
    const sinceMs = Math.max(0, nowMs - this.#toldAtMs);
    const target = this.#positionMm + this.#speedMmPerMs * Math.min(sinceMs, STAND_AFTER_MS);
    const share = 1 - Math.exp(-Math.max(0, nowMs - this.#shownAtMs) / EASE_MS);
    const shown = this.#shownMm === null ? target : this.#shownMm + (target - this.#shownMm) * share;
    this.#shownMm = Math.abs(target - shown) < 0.02 ? target : shown;
    this.#shownAtMs = nowMs;
    return this.#shownMm;
  }

  /** Unknown position: the plank lies at the last mark, or a little short of the first one. */
  #before(guide: Guide): number {
    const reached = this.#stations.find((station) => station.mark === guide.mark);
    if (reached !== undefined) return reached.positionMm;
    const [first, second] = this.#stations;
    return first === undefined || second === undefined ? 0 : -(second.positionMm - first.positionMm) * 0.6;
  }

  #speed(guide: Guide): number {
    const next = this.#stations.find((station) => station.mark === guide.nextMark);
    if (next === undefined || guide.etaMs === null || guide.etaMs < 1) return 0;
    return Math.max(0, next.positionMm - this.#positionMm) / guide.etaMs;
  }
}
