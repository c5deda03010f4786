/**
 * A run in progress: hands each event to the engine, makes it durable, and only then lets what follows from it leave.
 * Everything here is synchronous but the timers, so that events are taken strictly one at a time.
 */

import { learnHand } from '../core/hand/learn/learnHand.ts';
import { withoutTiltHand } from '../core/hand/tiltHand.ts';
import { stillSaid } from '../core/run/call/say.ts';
import type { RunEffect, RunEvent } from '../core/run/engine/events.ts';
import type { RunState } from '../core/run/engine/state.ts';
import { step } from '../core/run/step.ts';
import { debriefing } from '../core/run/view/debrief.ts';
import { guideAt } from '../core/run/view/guide.ts';
import type { JournalEntry } from '../wire/kept/journalLine.ts';
import type { StoredRun } from '../wire/kept/storedRun.ts';
import { type FeedFrame, isFootFrame, type ReadingFrame } from '../wire/message/feedFrame.ts';
import type { Answer, Command, Listener, RunView } from '../wire/message/messages.ts';
import type { Follower } from '../wire/message/runFollower.ts';
import { createListening } from './ears/listening.ts';
import { createFeet } from './feet.ts';
import { createFollowers } from './followers.ts';
import { createHereNow, type HereNotice } from './hereNow.ts';
import type { LiveRunNeeds } from './livePorts.ts';
import { notKept } from './notKept.ts';
import { createSources } from './openSources.ts';
import { outcome } from './outcome.ts';
import { commandEvent, frameEvent, isStop } from './record/asEvent.ts';
import { END_IN_DOUBT, isBackAtTheEnd } from './record/backAtTheEnd.ts';
import { besideAfter, type KeptNotice } from './record/beside.ts';
import { eventsOf } from './record/eventsOf.ts';
import { createEventWriter } from './record/eventWriter.ts';
import { handRecordOf } from './record/handRecordOf.ts';
import { readBack } from './record/readBack.ts';
import { createAlarm } from './runAlarm.ts';
import { runView } from './runView.ts';
import { squareFault } from './squareFault.ts';
import { inTimeSlices } from './timeSlice.ts';

export type LiveRun = ReturnType<typeof openLiveRun>;

/**
 * Opens a kept run at the state that its journal leads to; one that was feeding then stands stopped, and so does one whose record is
 * damaged, until a person says where the wood is.
 */
export function openLiveRun(needs: LiveRunNeeds, stored: StoredRun) {
  const { journal, nowMs, haveSeen, report, ownTime, onPhase } = needs;
  const { run, clips, setup } = stored;
  let { plan } = stored;
  const { last, isChecked, damage, untold, ...back } = readBack(journal, stored);
  let { state, beside } = back;
  haveSeen(last.atMs);
  let callOffWake = (): void => {};
  let isClosing = false;
  const followers = createFollowers();
  const here = createHereNow();
  const writer = createEventWriter({
    ...needs,
    run,
    last,
    onTaken: (entries) => {
      beside = entries.reduce(besideAfter, beside);
    },
    onBroken: tellNotKept,
  });
  const listening = createListening({
    writer,
    nowMs,
    state: () => state,
    beside: () => beside,
    take: (event) => void take(event, 'now'),
    tell,
    show: () => followers.view(view()),
  });
  const isFed = (): boolean => state.phase === 'feeding' && !isClosing;
  const sources = createSources({
    isNeeded: isFed,
    onLost: (detail) => take({ kind: 'signal-lost', lifeline: 'travel', detail, atMs: writer.stamp() }, 'now'),
  });

  const alarm = createAlarm({ nowMs, onFault });
  const feet = createFeet({ nowMs, alarm, take: read, seq: writer.seq, isFed, report });

  /** Takes one event; `group` lets readings that set nothing off wait a few milliseconds and be committed together. */
  function take(event: RunEvent, when: 'now' | 'group'): Promise<Answer> {
    const [next, effects] = step(state, event);
    const refusal = effects.find((effect) => effect.kind === 'refuse');
    if (refusal !== undefined) return refused(event, refusal);
    if (event.kind === 'woken' && effects.length === 0) {
      state = next;
      rearm();
      return Promise.resolve({ ok: true, seq: writer.seq() });
    }
    const entries: JournalEntry[] = [event, ...effects.flatMap((effect) => outcome(effect, event.atMs))];
    const before = beside.notices;
    const isQuiet = effects.length === 0 && next.phase === state.phase && next.reached === state.reached;
    const kept = when === 'group' && isQuiet ? writer.group(entries) : writer.now(entries);
    if (!writer.isSound()) {
      // What cannot be kept is not called; but a person's stop wins over everything, the record included.
      if (!isStop(event)) return kept;
      show(next, effects);
      return Promise.resolve({ ok: true, kept: false });
    }
    if (event.kind === 'started') here.started();
    if (isQuiet && next.notice === state.notice && beside.notices === before) {
      state = next;
      rearm();
    } else show(next, effects);
    return kept;
  }

  /** What was not taken is answered; what somebody at the run must know of it is told too. */
  function refused(
    { kind, atMs }: RunEvent,
    { code, message, mark }: Extract<RunEffect, { kind: 'refuse' }>,
  ): Promise<Answer> {
    if (code === 'too-soon') tell({ code, message, ...(mark === undefined ? {} : { mark }) }, atMs);
    if (state.phase === 'ready' && (kind === 'pressed' || kind === 'scanned')) {
      here.trySignal(kind);
      followers.view(view());
    }
    return Promise.resolve({ ok: false, error: { code, message } });
  }

  function tell(notice: KeptNotice | HereNotice, atMs: number): void {
    void writer.now([{ kind: 'told', atMs, ...notice }]);
    followers.notice(notice);
    followers.view(view());
  }

  function besideOthers(titles: readonly string[]): void {
    const notice = here.besideOthers(titles);
    if (notice === null) followers.view(view());
    else if (notice !== undefined) tell(notice, writer.stamp());
  }

  function show(next: RunState, effects: readonly RunEffect[]): void {
    const isOther = next.phase !== state.phase;
    state = next;
    rearm();
    for (const effect of effects) followers.effect(effect);
    followers.view(view());
    if (isOther) onPhase?.();
    listening.follows(effects);
  }

  /** The journal has failed: the run is lost, said aloud and shown, although it cannot be written down. */
  function tellNotKept(message: string): void {
    const atMs = nowMs();
    const [lost, effects] = step(state, { kind: 'signal-lost', lifeline: 'sound', detail: '', atMs });
    const notice = notKept(message);
    show({ ...lost, notice, wakeAtMs: null }, [
      ...effects.filter(({ kind }) => kind !== 'tell'),
      { kind: 'tell', notice },
    ]);
  }

  function rearm(): void {
    callOffWake();
    if (state.wakeAtMs !== null) callOffWake = alarm(state.wakeAtMs, wake);
  }

  function wake(): void {
    ownTime.look();
    void take({ kind: 'woken', atMs: writer.stamp() }, 'now');
  }

  /** The run is lost, and that is said, rather than silent for good. */
  function onFault(error: unknown): void {
    report(error);
    const detail = 'The program met a fault and cannot say when the next call is due.';
    void take({ kind: 'signal-lost', lifeline: 'sound', detail, atMs: writer.stamp() }, 'now');
  }

  const view = (): RunView =>
    runView(
      {
        stored,
        plan,
        state,
        beside,
        here: { seen: here.seen(), others: here.others() },
        listeners: listening.list(),
        seq: writer.seq(),
        record: { isChecked, damage },
      },
      nowMs(),
    );

  function command(asked: Command): Promise<Answer> {
    ownTime.look();
    const deaf = listening.notConfirmed(asked);
    if (deaf !== null) return Promise.resolve({ ok: false, error: deaf });
    const square =
      setup.mode === 'rehearsal' ? undefined : beside.squareSeenDeg === null ? 'not confirmed' : 'confirmed';
    return take(commandEvent(asked, writer.stamp(), square), 'now');
  }

  /** What the readout shows with the blade squared by the test block. */
  async function squared(seen: number): Promise<Answer> {
    const error = squareFault(state.phase, plan.saw, seen);
    if (error !== null) return { ok: false, error };
    const kept = await writer.now([{ kind: 'squared', atMs: writer.stamp(), seenDeg: seen }]);
    followers.view(view());
    return kept;
  }

  function reading(source: string, frame: FeedFrame): Promise<Answer> {
    return isFootFrame(frame) ? feet.take(source, frame) : read(source, frame);
  }

  function read(source: string, frame: ReadingFrame): Promise<Answer> {
    ownTime.look();
    const isBack = isBackAtTheEnd(state, frame);
    if (isBack) listening.tellHeard();
    if (isBack && isEndInDoubt) return Promise.resolve(END_IN_DOUBT);
    const when = frame.kind === 'travel' || frame.kind === 'tilt' ? 'group' : 'now';
    const answer = take(frameEvent(frame, writer.stamp()), when);
    sources.heard(source, frame.kind);
    return answer;
  }

  /** What comes now may have waited for as long, and calls that were due then are late. */
  function stoodStill(detail: string, forMs: number): void {
    listening.stoodStill(forMs);
    if (!isFed()) return;
    void take({ kind: 'signal-lost', lifeline: 'server', detail, atMs: writer.stamp() }, 'now');
  }
  const isEndInDoubt = untold !== null && state.phase === 'finished';
  const unwatch = ownTime.watch({ stoodStill, beat: () => !isClosing && listening.beat() });
  if (untold !== null && state.phase !== 'finished')
    void take({ kind: 'damaged', ...untold, atMs: writer.stamp() }, 'now');
  else if (state.phase === 'feeding' || state.phase === 'lost')
    void take({ kind: 'stopped', by: 'restart', atMs: writer.stamp() }, 'now');
  else rearm();
  // Whoever listened before has not come back yet.
  if (state.phase !== 'finished') listening.tellHeard();

  return {
    run,
    get plan() {
      return plan;
    },
    clips,
    feed: stored.feed,
    view,
    guide: () => guideAt(state, nowMs()),
    isFeeding: () => state.phase === 'feeding',
    isFinished: () => state.phase === 'finished',
    /** The last count of a travel source, if one has spoken: where a simulated one goes on after a restart. */
    travelledMm: () => state.reckoning?.travel?.lastMm,
    command,
    /** A person says which mark is at the blade, where the record does not tell. */
    placed: (mark: number) => take({ kind: 'placed', mark, atMs: writer.stamp() }, 'now'),
    squared,
    reading,
    sourceClosed(source: string): void {
      feet.closed(source);
      sources.closed(source);
    },
    pageCame: sources.cameBack,
    hearing(page: string, listener: Listener | null): void {
      ownTime.look();
      if (!isClosing) listening.hearing(page, listener);
    },
    alive: listening.alive,
    unplayed: listening.unplayed,
    speaking: () => stillSaid(state, nowMs()),
    /** Other runs that feed at this moment, by their titles. */
    besideOthers,
    follow: (follower: Follower) => followers.add(follower),
    lines() {
      writer.flush();
      return journal.lines(run);
    },
    debrief() {
      writer.flush();
      return inTimeSlices(debriefing(setup, eventsOf(journal, run)));
    },
    /** The person for whom the plan was made was forgotten: the journal names them no more, and so must not what is in memory. */
    forgetTiltHand(name: string): void {
      if (plan.crew.tiltHand === name) plan = withoutTiltHand(plan);
    },
    /** What this run tells of its tilt hand. */
    hand() {
      writer.flush();
      return learnHand(handRecordOf({ plan, setup }, journal.lines(run)));
    },
    /** The server is about to end: pages that fall away now are not lost listeners. */
    rest() {
      isClosing = true;
    },
    close() {
      callOffWake();
      feet.close();
      unwatch();
      sources.close();
      writer.flush();
    },
  };
}
