/** The feed that is safe from here on, and whether to ask for less: in figures that stand still long enough to be read. */
import { useEffect, useState } from 'preact/hooks';
import { feedNowText } from '../../../server/core/figures/feeds.ts';
import { type Notation, unitsOf } from '../../../server/core/figures/notation.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { Guide } from '../../../server/core/run/view/guide.ts';
import { mmPerMsToMPerMin } from '../../../server/core/units.ts';
import type { RunLink } from '../link/runLink.ts';
import { HeldSign } from './minimumShown.ts';
import { StillFigure } from './steadyFigure.ts';

export interface SafeFeed {
  readonly isEasing: boolean;
  /** With its unit; null while not feeding, or where nothing limits the feed. */
  readonly safe: string | null;
  /** The feed now, with its unit; null while it is not known. */
  readonly feed: string | null;
}

const NOTHING: SafeFeed = { isEasing: false, safe: null, feed: null };
/** A tenth of a metre, half a foot: nobody feeds more finely by hand. */
const STEP_M_PER_MIN = { mm: 0.1, in: 0.5 * 0.3048 };
const READ_MS = 1000;
/** Faster than this nobody feeds: there is nothing to be told. */
const NO_LIMIT_M_PER_MIN = 20;

export function useSafeFeed(link: RunLink, { notation }: Pick<Plan, 'notation'>): SafeFeed {
  const [told, setTold] = useState(NOTHING);
  useEffect(() => {
    const watch = new SafeFeedWatch(notation);
    return link.listen({
      guide: (guide) => {
        const next = watch.told(guide, performance.now());
        setTold((now) =>
          now.isEasing === next.isEasing && now.safe === next.safe && now.feed === next.feed ? now : next,
        );
      },
    });
  }, [link, notation]);
  return told;
}

export class SafeFeedWatch {
  readonly #ease = new HeldSign({ leastMs: 2000, goneMs: 500 });
  readonly #safe: StillFigure;
  readonly #feed: StillFigure;
  #raisedFor: number | null = null;
  readonly #asText: (mPerMin: number) => string;

  constructor(notation: Notation) {
    const step = STEP_M_PER_MIN[unitsOf(notation)];
    this.#safe = new StillFigure({ step, margin: 1, holdMs: READ_MS, round: 'down' });
    this.#feed = new StillFigure({ step, margin: 0.5, holdMs: READ_MS, round: 'nearest' });
    this.#asText = (mPerMin) => feedNowText(mPerMin, notation);
  }

  told(guide: Pick<Guide, 'state' | 'easeFeed' | 'safeMPerMin' | 'speedMmPerS'>, nowMs: number): SafeFeed {
    if (guide.state !== 'feeding') {
      for (const each of [this.#ease, this.#safe, this.#feed]) each.forget();
      this.#raisedFor = null;
      return NOTHING;
    }
    const { safeMPerMin, speedMmPerS: speed } = guide;
    const isEasing = this.#ease.at(guide.easeFeed, nowMs);
    // While the sign stands, so does the figure that it was raised for: a higher one beside it would contradict it.
    if (!isEasing) this.#raisedFor = null;
    else if (guide.easeFeed) this.#raisedFor = safeMPerMin;
    const safe = this.#raisedFor ?? safeMPerMin;
    return {
      isEasing,
      safe: safe === null || safe > NO_LIMIT_M_PER_MIN ? null : this.#asText(this.#safe.at(safe, nowMs)),
      feed: speed === null ? null : this.#asText(this.#feed.at(mmPerMsToMPerMin(speed / 1000), nowMs)),
    };
  }
}
