/** A run in progress, with all that has to do with it: who listens, what follows the stock, and what its pages show. */

import { learnHand } from '../core/hand/learn/learnHand.ts';
import { withoutTiltHand } from '../core/hand/tiltHand.ts';
import { stillSaid } from '../core/run/call/say.ts';
import type { RunEffect, RunEvent } from '../core/run/engine/events.ts';
import { debriefing } from '../core/run/view/debrief.ts';
import { guideAt } from '../core/run/view/guide.ts';
import type { StoredRun } from '../wire/kept/storedRun.ts';
import { type FeedFrame, isFootFrame, type ReadingFrame } from '../wire/message/feedFrame.ts';
import type { Answer, Command, Listener, RunView } from '../wire/message/messages.ts';
import type { Follower } from '../wire/message/runFollower.ts';
import { createListening } from './ears/listening.ts';
import { createFeet } from './feet.ts';
import type { LiveRunNeeds } from './livePorts.ts';
import { createSources } from './openSources.ts';
import { commandEvent, frameEvent } from './record/asEvent.ts';
import { END_IN_DOUBT, isBackAtTheEnd } from './record/backAtTheEnd.ts';
import type { KeptNotice } from './record/beside.ts';
import { eventsOf } from './record/eventsOf.ts';
import { handRecordOf } from './record/handRecordOf.ts';
import { readBack } from './record/readBack.ts';
import { createFollowers } from './shown/followers.ts';
import { createHereNow, type HereNotice } from './shown/hereNow.ts';
import { runView } from './shown/runView.ts';
import { squareFault } from './squareFault.ts';
import { type NotTaken, takeEvents } from './takeEvents.ts';
import { inTimeSlices } from './timeSlice.ts';

export type LiveRun = ReturnType<typeof openLiveRun>;

/**
 * Opens a kept run at the state that its journal leads to; one that was feeding then stands stopped, and so does one whose record is
 * damaged, until a person says where the wood is.
 */
export function openLiveRun(needs: LiveRunNeeds, stored: StoredRun) {
  const { journal, nowMs, haveSeen, report, ownTime } = needs;
  const { run, clips, setup } = stored;
  let { plan } = stored;
  const { isChecked, damage, untold, ...back } = readBack(journal, stored);
  haveSeen(back.last.atMs);
  let isClosing = false;
  const followers = createFollowers();
  const here = createHereNow();
  const { state, beside, writer, take, lose, alarm, ...events } = takeEvents({
    live: needs,
    run,
    back,
    onRefused,
    onTaken,
  });
  const listening = createListening({ writer, nowMs, state, beside, take: (event) => void take(event), tell, show });
  const isFed = (): boolean => state().phase === 'feeding' && !isClosing;
  const sources = createSources({ isNeeded: isFed, onLost: (detail) => lose('travel', detail) });
  const feet = createFeet({ nowMs, alarm, take: read, seq: writer.seq, isFed, report });

  function onTaken(effects: readonly RunEffect[]): void {
    for (const effect of effects) followers.effect(effect);
    show();
    listening.follows(effects);
  }

  /** What somebody at the run must know of what was not taken. */
  function onRefused({ kind, atMs }: RunEvent, { code, message, mark }: NotTaken): void {
    if (code === 'too-soon') tell({ code, message, ...(mark === undefined ? {} : { mark }) }, atMs);
    if (state().phase !== 'ready' || (kind !== 'pressed' && kind !== 'scanned')) return;
    here.trySignal(kind);
    show();
  }

  function tell(notice: KeptNotice | HereNotice, atMs: number): void {
    void writer.now([{ kind: 'told', atMs, ...notice }]);
    followers.notice(notice);
    show();
  }

  function besideOthers(titles: readonly string[]): void {
    const notice = here.besideOthers(titles);
    if (notice === null) show();
    else if (notice !== undefined) tell(notice, writer.stamp());
  }

  function view(): RunView {
    const shown = { stored, plan, state: state(), beside: beside(), here, listeners: listening.list() };
    return runView({ ...shown, seq: writer.seq(), record: { isChecked, damage } }, nowMs());
  }
  function show(): void {
    followers.view(view());
  }

  function command(asked: Command): Promise<Answer> {
    ownTime.look();
    const deaf = listening.notConfirmed(asked);
    if (deaf !== null) return Promise.resolve({ ok: false, error: deaf });
    const isSquared = beside().squareSeenDeg !== null;
    const square = setup.mode === 'rehearsal' ? undefined : isSquared ? 'confirmed' : 'not confirmed';
    return take(commandEvent(asked, writer.stamp(), square));
  }

  /** What the readout shows with the blade squared by the test block. */
  async function squared(seenDeg: number): Promise<Answer> {
    const error = squareFault(state().phase, plan.saw, seenDeg);
    if (error !== null) return { ok: false, error };
    const kept = await writer.now([{ kind: 'squared', atMs: writer.stamp(), seenDeg }]);
    show();
    return kept;
  }

  function reading(source: string, frame: FeedFrame): Promise<Answer> {
    return isFootFrame(frame) ? feet.take(source, frame) : read(source, frame);
  }

  function read(source: string, frame: ReadingFrame): Promise<Answer> {
    ownTime.look();
    const isBack = isBackAtTheEnd(state(), frame);
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
    if (isFed()) void lose('server', detail);
  }
  const isEndInDoubt = untold !== null && state().phase === 'finished';
  const unwatch = ownTime.watch({ stoodStill, beat: () => !isClosing && listening.beat() });
  beginAgain();

  function beginAgain(): void {
    const { phase } = state();
    const atMs = writer.stamp();
    if (untold !== null && phase !== 'finished') void take({ kind: 'damaged', ...untold, atMs });
    else if (phase === 'feeding' || phase === 'lost') void take({ kind: 'stopped', by: 'restart', atMs });
    else events.rearm();
    // Whoever listened before has not come back yet.
    if (state().phase !== 'finished') listening.tellHeard();
  }

  return {
    run,
    get plan() {
      return plan;
    },
    clips,
    feed: stored.feed,
    view,
    guide: () => guideAt(state(), nowMs()),
    isFeeding: () => state().phase === 'feeding',
    isFinished: () => state().phase === 'finished',
    /** The last count of a travel source, if one has spoken: where a simulated one goes on after a restart. */
    travelledMm: () => state().reckoning?.travel?.lastMm,
    command,
    /** A person says which mark is at the blade, where the record does not tell. */
    placed: (mark: number) => take({ kind: 'placed', mark, atMs: writer.stamp() }),
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
    speaking: () => stillSaid(state(), nowMs()),
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
      feet.close();
      unwatch();
      sources.close();
      events.close();
    },
  };
}
