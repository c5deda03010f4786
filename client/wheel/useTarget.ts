/** What the handwheel is to show: from the guide, and from a call at once when one is given, whichever came last. */
import { useEffect, useMemo, useState } from 'preact/hooks';
import { routineNamed } from '../../server/core/routine/routines.ts';
import type { Call } from '../../server/core/run/engine/events.ts';
import type { RunSetup } from '../../server/core/run/engine/state.ts';
import type { Guide } from '../../server/core/run/view/guide.ts';
import { turnWord } from '../../server/core/words/turnWord.ts';
import type { RunLink } from '../kit/link/runLink.ts';

export interface Target {
  /** `follow`: the tilt goes with the wood all the time. `step`: a figure between marks is held. `turn`: a mark's is turned to. */
  readonly board: 'follow' | 'step' | 'turn';
  /** The figure turned to or held; null before the first call, and while the tilt is followed. */
  readonly deg: number | null;
  /** Index of the station whose figure is turned to, or comes next; stations.length after the last. */
  readonly index: number;
  /** The figure that was held before, and the one that comes after; null where there is none. */
  readonly beforeDeg: number | null;
  readonly thenDeg: number | null;
}

const NOTHING: Target = { board: 'turn', deg: null, index: 0, beforeDeg: null, thenDeg: null };

export function useTarget(link: RunLink, setup: RunSetup): Target {
  const [target, setTarget] = useState<Target>(NOTHING);
  const watch = useMemo(() => new TargetWatch(setup), [setup]);
  useEffect(() => {
    const change = (next: Target): void => setTarget((now) => (isSame(now, next) ? now : next));
    return link.listen({
      call: (call) => change(watch.called(call)),
      guide: (guide) => change(watch.told(guide)),
    });
  }, [link, watch]);
  return target;
}

/** Pure, but for what it remembers: the figure called last, which a guide with a continuous position does not tell. */
export class TargetWatch {
  readonly #setup: RunSetup;
  #called: Pick<Call, 'mark' | 'deg'> | null = null;
  /** Index of the figure between marks that was called last; null until one was heard here. */
  #step: number | null = null;
  #positionMm: number | null = null;
  #now: Target = NOTHING;

  constructor(setup: RunSetup) {
    this.#setup = setup;
  }

  called(call: Pick<Call, 'mark' | 'deg'>): Target {
    if (call.deg === undefined) return this.#now;
    this.#called = call;
    if (this.#now.board === 'follow') return this.#now;
    if (call.mark === undefined) this.#step = this.#stepCalled(call.deg);
    this.#now = call.mark === undefined ? this.#held() : this.#turn(call.deg, this.#indexOf(call.mark));
    return this.#now;
  }

  told(guide: Guide): Target {
    const index = this.#nextOf(guide);
    this.#positionMm = guide.positionMm;
    this.#now = this.#boardOf(guide, index);
    return this.#now;
  }

  #boardOf(guide: Guide, index: number): Target {
    const { isFollowed, isByDegrees } = routineNamed(this.#setup.routine);
    if (!guide.isFollowed) return this.#turn(guide.targetDeg, index);
    if (isFollowed) return { ...NOTHING, board: 'follow', index };
    if (isByDegrees) return this.#held();
    const { mark, deg } = this.#called ?? {};
    if (deg !== undefined && mark !== undefined) return this.#turn(deg, this.#indexOf(mark));
    // Joined after the call.
    const { calledMark, calledDeg } = guide;
    return this.#turn(calledDeg, calledMark === null ? index : this.#indexOf(calledMark));
  }

  #turn(deg: number | null, index: number): Target {
    return { board: 'turn', deg, index, beforeDeg: this.#setup.stations[index - 1]?.callDeg ?? null, thenDeg: null };
  }

  #held(): Target {
    const { steps = [], stations } = this.#setup;
    const first = stations[0]?.callDeg ?? null;
    const at = this.#step ?? this.#inForce();
    const positionMm = this.#positionMm ?? Number.NEGATIVE_INFINITY;
    return {
      board: 'step',
      deg: steps[at]?.callDeg ?? first,
      index: stations.length,
      beforeDeg: at < 0 ? null : (steps[at - 1]?.callDeg ?? first),
      // One that is too late to be called is left out.
      thenDeg: steps.find((step, index) => index > at && step.deadlineMm > positionMm)?.callDeg ?? null,
    };
  }

  /** Index of the figure that is right where the wood is; -1 while that is still the first bevel. */
  #inForce(): number {
    const { steps = [] } = this.#setup;
    return steps.findLastIndex((step) => step.positionMm <= (this.#positionMm ?? Number.NEGATIVE_INFINITY));
  }

  /** A figure comes again on the other side of the bilge: the one meant is the one that is held, or the next of that figure. */
  #stepCalled(deg: number): number {
    const { steps = [] } = this.#setup;
    const from = this.#step ?? this.#inForce();
    const ahead = steps.findIndex((step, index) => index >= from && step.callDeg === deg);
    return ahead >= 0 ? ahead : steps.findLastIndex((step, index) => index < from && step.callDeg === deg);
  }

  #indexOf(mark: number): number {
    return this.#setup.stations.findIndex((station) => station.mark === mark);
  }

  #nextOf({ nextMark }: Guide): number {
    const next = nextMark === null ? -1 : this.#indexOf(nextMark);
    return next < 0 ? this.#setup.stations.length : next;
  }
}

const isSame = (a: Target, b: Target): boolean =>
  a.board === b.board &&
  a.deg === b.deg &&
  a.index === b.index &&
  a.beforeDeg === b.beforeDeg &&
  a.thenDeg === b.thenDeg;

/** Which way the tilt goes, from the figure before to the one turned to. */
export const wayOf = ({ deg, beforeDeg }: Target): 'more' | 'less' | 'same' | null =>
  deg === null || beforeDeg === null ? null : turnWord(beforeDeg, deg);
