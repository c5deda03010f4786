/** What the handwheel is to show: from the guide, and from a call at once when one is given, whichever came last. */
import { useEffect, useState } from 'preact/hooks';
import { type ReadoutTable, shownDeg } from '../../server/core/rip/readout.ts';
import type { Station } from '../../server/core/run/state.ts';
import { turnWord } from '../../server/core/words/turnWord.ts';
import type { RunLink } from '../kit/runLink.ts';

export interface Target {
  /** Null before the first call. */
  readonly deg: number | null;
  /** True where the tilt changes with the wood all the time; false where one figure is turned to after another. */
  readonly isFollowed: boolean;
  /** Index of the station whose figure is turned to, or comes next; stations.length after the last. */
  readonly index: number;
}

const NOTHING: Target = { deg: null, isFollowed: false, index: 0 };

export function useTarget(link: RunLink, stations: readonly Station[], table: ReadoutTable): Target {
  const [target, setTarget] = useState<Target>(NOTHING);
  useEffect(() => {
    const change = (next: Target): void => setTarget((now) => (isSame(now, next) ? now : next));
    return link.listen({
      call: ({ mark, deg }) => {
        if (mark === undefined || deg === undefined) return;
        const index = stations.findIndex((station) => station.mark === mark);
        setTarget((now) => (now.isFollowed ? now : { deg, isFollowed: false, index }));
      },
      guide: ({ targetDeg, isFollowed, nextMark }) => {
        const next = stations.findIndex((station) => station.mark === nextMark);
        const index = next < 0 ? stations.length : next;
        // The hand watches the readout, so it is told what that must show; a call's figure is so already.
        const deg = isFollowed && targetDeg !== null ? shownDeg(targetDeg, table) : targetDeg;
        change({ deg, isFollowed, index });
      },
    });
  }, [link, stations, table]);
  return target;
}

const isSame = (a: Target, b: Target): boolean =>
  a.deg === b.deg && a.isFollowed === b.isFollowed && a.index === b.index;

/** Which way the tilt goes: from the mark before to the one turned to, or from the tilt of now to the next mark's. */
export function wayOf(
  target: Target,
  stations: readonly Station[],
  readoutDeg: number,
): 'more' | 'less' | 'same' | null {
  const to = stations[target.index];
  if (target.deg === null || to === undefined) return null;
  const shown = Math.round(target.deg / readoutDeg) * readoutDeg;
  if (target.isFollowed) {
    // Just short of a mark its figure stands there already: the way is then that to the mark after it.
    const ahead = stations.slice(target.index, target.index + 2).find((station) => station.callDeg !== shown);
    return ahead === undefined ? 'same' : turnWord(shown, ahead.callDeg);
  }
  const from = stations[target.index - 1];
  return from === undefined ? null : turnWord(from.callDeg, target.deg);
}
