/**
 * Where the wood is drawn at every frame, the same for both boards. Reckoned by the server's time, never by when a guide came:
 * place told + speed told x time since it was so. A guide that comes late is no worse for it, one that is older than what is
 * known is passed over, and what a newer one corrects is taken in smoothly.
 */

import type { Station } from '../../../server/core/run/engine/state.ts';
import type { Guide } from '../../../server/core/run/view/guide.ts';

/** Corrections fade by this time constant: after 0.3 s less than a hundredth of one is left. */
const EASE_MS = 60;
/**
 * So old may be what is known before it is said to be old, and the drawing stands: the wireless jitters by 100 ms and stalls
 * by 200 or 300 (assumption), a hand's feed wanders by a millimetre in that time, and half a second is when the server
 * counts as gone. A stop that nobody could tell of lets the drawing run on for so long at most.
 */
export const NO_NEWS_MS = 400;
/** With a continuous position the drawing is never farther than this from what is known: beyond that it leaps. */
export const FARTHEST_MM = 25;
/** Two clocks are compared with some error: what is just told may seem to be of a moment to come. */
const AHEAD_MS = 100;

export interface Shown {
  /** Along the stock, as in the run. */
  readonly positionMm: number;
  /** False while the feed goes on and what is known of it is too old. */
  readonly isLive: boolean;
}

interface News {
  readonly atMs: number;
  readonly positionMm: number;
  readonly speedMmPerMs: number;
  readonly isFeeding: boolean;
  readonly isContinuous: boolean;
  /** Where a guess must stop: nobody has said that the next mark is there. */
  readonly limitMm: number;
}

export class WoodMotion {
  readonly #stations: readonly Station[];
  #news: News | null = null;
  #shown: Shown | null = null;
  #frameMs = Number.NEGATIVE_INFINITY;

  constructor(stations: readonly Station[]) {
    this.#stations = stations;
  }

  /** In any order, any number of times. */
  told(guide: Guide): void {
    if (this.#news !== null && guide.atMs <= this.#news.atMs) return;
    const isFeeding = guide.state === 'feeding';
    this.#news = {
      atMs: guide.atMs,
      positionMm: guide.positionMm ?? this.#unknown(guide),
      speedMmPerMs: isFeeding ? (guide.speedMmPerS ?? 0) / 1000 : 0,
      isFeeding,
      isContinuous: guide.isFollowed,
      limitMm: guide.isFollowed ? Number.POSITIVE_INFINITY : this.#next(guide),
    };
  }

  /** Another server may have another clock: what comes next is news, whatever time it bears. */
  forget(): void {
    this.#news = null;
  }

  /** What to draw in the frame at `nowMs` of this device, when the server's clock says `serverMs` (null: not known yet). */
  frame(nowMs: number, serverMs: number | null): Shown {
    // Both drawings of one frame show the same.
    if (this.#shown !== null && nowMs <= this.#frameMs) return this.#shown;
    const sinceMs = nowMs - this.#frameMs;
    this.#frameMs = nowMs;
    const news = this.#news;
    if (news === null) return this.#shown ?? { positionMm: beforeFirst(this.#stations), isLive: true };
    const ageMs = Math.max(-AHEAD_MS, (serverMs ?? news.atMs) - news.atMs);
    const isOld = ageMs > NO_NEWS_MS;
    const known = news.positionMm + news.speedMmPerMs * Math.min(ageMs, NO_NEWS_MS);
    const target = Math.min(known, Math.max(news.limitMm, news.positionMm));
    this.#shown = {
      positionMm: target + this.#left(news, target, isOld ? 0 : news.speedMmPerMs, sinceMs),
      isLive: !(isOld && news.isFeeding),
    };
    return this.#shown;
  }

  /** How much of the difference between what was shown, gone on with, and what is known is still left. */
  #left(news: News, target: number, speedMmPerMs: number, sinceMs: number): number {
    if (this.#shown === null || this.#news === null) return 0;
    const left = (this.#shown.positionMm + speedMmPerMs * sinceMs - target) * Math.exp(-sinceMs / EASE_MS);
    if (!(Math.abs(left) > 0.005)) return 0;
    return news.isContinuous ? Math.min(FARTHEST_MM, Math.max(-FARTHEST_MM, left)) : left;
  }

  /** Unknown position: the plank lies at the last mark, or a little short of the first one. */
  #unknown({ mark }: Guide): number {
    const reached = this.#stations.find((station) => station.mark === mark);
    return reached?.positionMm ?? beforeFirst(this.#stations);
  }

  #next({ nextMark }: Guide): number {
    return this.#stations.find((station) => station.mark === nextMark)?.positionMm ?? Number.POSITIVE_INFINITY;
  }
}

function beforeFirst([first, second]: readonly Station[]): number {
  return first === undefined || second === undefined ? 0 : -(second.positionMm - first.positionMm) * 0.6;
}
