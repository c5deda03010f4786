import type { Language } from '../core/job.ts';
import type { Clip, RunView } from '../wire/messages.ts';
import type { StoredRun } from '../wire/storedRun.ts';
import { type LiveRun, type LiveRunNeeds, openLiveRun } from './liveRun.ts';
import { unhurried } from './unhurried.ts';

/** How many of the newest runs are listed; older ones are still found by their name. */
const LISTED = 50;

/** All runs of a data folder. A run is opened when it is first asked for, and then stays open. */
export function createLiveRuns(needs: LiveRunNeeds & { readonly onOpened: (run: LiveRun) => void }) {
  const open = new Map<string, LiveRun>();

  function opened(stored: StoredRun): LiveRun {
    const live = openLiveRun({ ...needs, onPhase: tellOthers }, stored);
    open.set(stored.run, live);
    needs.onOpened(live);
    return live;
  }

  /** Two runs that feed at once are told of each other: the calls of one could be taken for the other's. */
  function tellOthers(): void {
    const feeding = [...open.values()].filter((live) => live.isFeeding());
    for (const live of open.values()) {
      const others = live.isFeeding() ? feeding.filter((other) => other !== live) : [];
      live.besideOthers(others.map((other) => other.view().title));
    }
  }

  function get(run: string): LiveRun | undefined {
    const known = open.get(run);
    if (known !== undefined) return known;
    const stored = needs.journal.run(run);
    return stored === undefined ? undefined : opened(stored);
  }

  function* views(): Generator<void, readonly RunView[]> {
    const found: RunView[] = [];
    for (const run of needs.journal.names(LISTED)) {
      try {
        const view = get(run)?.view();
        if (view !== undefined) found.push(view);
      } catch (error) {
        needs.report(error);
      }
      yield;
    }
    return found;
  }

  return {
    keep(stored: StoredRun): LiveRun {
      needs.journal.keepRun(stored);
      return opened(stored);
    },
    get,
    /** Newest first. One that cannot be read is left out of the list, and told where it is asked for by name. */
    list: (): Promise<readonly RunView[]> => unhurried(views()),
    /** What the clip at this address says, and in whose voice; of the runs that are open, from which its address is known. */
    saidAt(url: string): (Pick<Clip, 'text' | 'voice'> & { readonly language: Language }) | undefined {
      for (const { clips, plan } of open.values()) {
        const found = clips.find((clip) => clip.url === url);
        if (found !== undefined) return { ...found, language: plan.voice.language };
      }
      return undefined;
    },
    forgetTiltHand(name: string): void {
      for (const live of open.values()) live.forgetTiltHand(name);
    },
    rest(): void {
      for (const live of open.values()) live.rest();
    },
    close(): void {
      for (const live of open.values()) live.close();
    },
  };
}
