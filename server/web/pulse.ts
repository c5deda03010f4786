/** The guide's pulse: each run that is followed is asked for its guide once a beat, and all its followers get that one. */
import type { Guide } from '../core/run/view/guide.ts';
import { atFixedIntervals } from './fixedInterval.ts';
import type { RunPort } from './webPorts.ts';

/** The contract asks for 20 to 60 Hz while feeding and at least 2 Hz always. */
const FEEDING_HZ = 30;
const BEATS_A_REST = 8;
/** Stopped wood runs on for a moment, and the displays must not lag behind where it comes to a stand: two seconds. */
const BEATS_OF_STOPPING = 2 * FEEDING_HZ;

export interface Pulse {
  /** Sends the guide at once and then on every beat: about 30 Hz while feeding and until the wood stands, about 4 Hz otherwise. Gives the end of it. */
  follow(run: RunPort, show: (guide: Guide) => void): () => void;
  close(): void;
}

interface Followed {
  readonly run: RunPort;
  readonly shows: Set<(guide: Guide) => void>;
  readonly unfollow: () => void;
  rested: number;
  /** Beats that are left until the wood of a run that feeds no more stands. */
  stopping: number;
  /** The step of the run that was shown last. */
  shown: string;
}

const stepOf = ({ state, mark }: { readonly state: string; readonly mark: number }): string => `${state} ${mark}`;

export function createPulse(): Pulse {
  const followed = new Map<string, Followed>();
  let stop: (() => void) | null = null;

  const showAll = (each: Followed): void => {
    each.rested = 0;
    const guide = each.run.guide();
    each.shown = stepOf(guide);
    for (const show of each.shows) show(guide);
  };
  const beat = (): void => {
    for (const each of followed.values()) {
      each.rested += 1;
      each.stopping = each.run.view().state === 'feeding' ? BEATS_OF_STOPPING : Math.max(0, each.stopping - 1);
      if (each.rested >= BEATS_A_REST || each.stopping > 0) showAll(each);
    }
  };

  return {
    follow(run, show) {
      let each = followed.get(run.run);
      if (each === undefined) {
        const made: Followed = {
          run,
          shows: new Set(),
          rested: 0,
          stopping: 0,
          shown: '',
          unfollow: run.follow({
            // A press or a stop is shown when it happens, not up to a quarter of a second later; mere travel waits its turn.
            view: (view) => {
              if (stepOf(view) !== made.shown) showAll(made);
            },
          }),
        };
        followed.set(run.run, made);
        each = made;
      }
      const entry = each;
      // A wrapper of its own, so that one function may follow twice.
      const shown = (guide: Guide): void => show(guide);
      entry.shows.add(shown);
      shown(run.guide());
      stop ??= atFixedIntervals(1000 / FEEDING_HZ, beat);
      return () => {
        if (!entry.shows.delete(shown) || entry.shows.size > 0) return;
        entry.unfollow();
        followed.delete(run.run);
        if (followed.size > 0) return;
        stop?.();
        stop = null;
      };
    },
    close() {
      for (const { unfollow } of followed.values()) unfollow();
      followed.clear();
      stop?.();
      stop = null;
    },
  };
}
