import type { Language } from '../core/words/voiceChoice.ts';
import { UNREADABLE_RUN } from '../wire/kept/damage.ts';
import type { JournalLine } from '../wire/kept/journalLine.ts';
import type { StoredRun } from '../wire/kept/storedRun.ts';
import type { Clip, ListedRun, UnreadableRun } from '../wire/message/messages.ts';
import type { LiveRunNeeds } from './livePorts.ts';
import { type LiveRun, openLiveRun } from './liveRun.ts';
import { inTimeSlices } from './timeSlice.ts';

/** How many of the newest runs are listed; older ones are still found by their name. */
const LISTED = 50;
/** How long after a stop, or a run's making, the journal is settled: first everyone is told. */
const SETTLE_AFTER_MS = 250;

/** All runs of a data folder. A run is opened when it is first asked for, and then stays open. */
export function createLiveRuns(needs: LiveRunNeeds & { readonly onOpened: (run: LiveRun) => void }) {
  const open = new Map<string, LiveRun>();

  let settling: NodeJS.Timeout | undefined;

  function opened(stored: StoredRun): LiveRun {
    const live = openLiveRun({ ...needs, onPhase }, stored);
    open.set(stored.run, live);
    needs.onOpened(live);
    return live;
  }

  function onPhase(): void {
    tellOthers();
    settleSoon();
  }

  /** Two runs that feed at once are told of each other: the calls of one could be taken for the other's. */
  function tellOthers(): void {
    const feeding = [...open.values()].filter((live) => live.isFeeding());
    for (const live of open.values()) {
      const others = live.isFeeding() ? feeding.filter((other) => other !== live) : [];
      live.besideOthers(others.map((other) => other.view().title));
    }
  }

  /** Where another run is in the cut, its own stop will do it. */
  function settleSoon(): void {
    clearTimeout(settling);
    settling = setTimeout(() => {
      if ([...open.values()].some((live) => live.isFeeding())) return;
      try {
        needs.journal.settle();
      } catch (error) {
        needs.report(error);
      }
    }, SETTLE_AFTER_MS);
    settling.unref();
  }

  /** What is told in the list of a run that cannot be opened. */
  function unreadable(run: string): UnreadableRun {
    const { title, madeAtMs, isChecked } = needs.journal.seal(run);
    const record = { isChecked, damage: UNREADABLE_RUN };
    return { run, isReadable: false, state: 'stopped', title, madeAtMs, record };
  }

  function get(run: string): LiveRun | undefined {
    const known = open.get(run);
    if (known !== undefined) return known;
    const stored = needs.journal.run(run);
    return stored === undefined ? undefined : opened(stored);
  }

  function* views(): Generator<void, readonly ListedRun[]> {
    const found: ListedRun[] = [];
    for (const run of needs.journal.names(LISTED)) {
      try {
        const view = get(run)?.view();
        if (view !== undefined) found.push(view);
      } catch (error) {
        needs.report(error);
        found.push(unreadable(run));
      }
      yield;
    }
    return found;
  }

  return {
    keep(stored: StoredRun): LiveRun {
      needs.journal.keepRun(stored);
      settleSoon();
      return opened(stored);
    },
    get,
    /** A run's lines, also where the run itself cannot be opened: as far as they can be read. Undefined for an unknown run. */
    lines(run: string): Iterable<JournalLine> | undefined {
      try {
        return get(run)?.lines();
      } catch (error) {
        needs.report(error);
        return needs.journal.lines(run);
      }
    },
    /** Newest first. One that cannot be read stands there too, and says so. */
    list: (): Promise<readonly ListedRun[]> => inTimeSlices(views()),
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
      clearTimeout(settling);
      for (const live of open.values()) live.close();
    },
  };
}
