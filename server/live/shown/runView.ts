import type { Plan } from '../../core/plan/plan.ts';
import { squareDeg } from '../../core/plan/squareAtZero.ts';
import { whyNotByPress } from '../../core/run/call/heard.ts';
import type { Notice } from '../../core/run/engine/events.ts';
import type { RunState } from '../../core/run/engine/state.ts';
import { guideAt } from '../../core/run/view/guide.ts';
import type { StoredRun } from '../../wire/kept/storedRun.ts';
import type { Listener, RecordState, RunView } from '../../wire/message/messages.ts';
import type { Beside } from '../record/beside.ts';
import type { HereNotice } from './hereNow.ts';

/** Everything that a run shows follows from these. */
interface ToShow {
  readonly stored: StoredRun;
  readonly plan: Plan;
  readonly state: RunState;
  readonly beside: Beside;
  readonly here: { seen(): HereNotice | null; others(): HereNotice | null };
  readonly listeners: readonly Listener[];
  readonly seq: number;
  readonly record: RecordState;
}

/** A run as its pages and the API see it at a moment. */
export function runView({ stored, plan, state, beside, here, listeners, seq, record }: ToShow, atMs: number): RunView {
  const { setup, run, title, feed, madeAtMs } = stored;
  const guide = guideAt(state, atMs);
  return {
    run,
    title,
    state: state.phase,
    mode: setup.mode,
    routine: setup.routine,
    feed: feed.kind,
    mark: guide.mark,
    marks: setup.stations.length,
    nextMark: guide.nextMark,
    nextDeg: guide.nextDeg,
    positionMm: guide.positionMm,
    uncertaintyMm: guide.uncertaintyMm,
    madeAtMs,
    seq,
    notice: noticeOf(state, beside, here),
    lost: state.phase === 'lost' ? (state.lost?.by ?? null) : null,
    takesPress: state.phase === 'feeding' || (state.phase === 'lost' && whyNotByPress(state, atMs) === null),
    listeners,
    square: setup.mode === 'rehearsal' ? null : { wantedDeg: squareDeg(plan.saw), seenDeg: beside.squareSeenDeg },
    isPlaceKnown: state.isPlaceKnown,
    record,
  };
}

/**
 * One at a time. While it feeds, what was told last comes before the run's own; where it stands, its own says why, and comes first.
 * What lasts as long as another run feeds comes after both.
 */
function noticeOf(state: RunState, { notices }: Beside, here: ToShow['here']): Notice | null {
  const { phase, notice } = state;
  if (phase === 'lost') return notice;
  const tried = phase === 'ready' ? here.seen() : null;
  const toldLast = phase === 'finished' ? null : (tried ?? notices.at(-1) ?? null);
  const [first, second] = phase === 'stopped' ? [notice, toldLast] : [toldLast, notice];
  return first ?? second ?? here.others();
}
