import { rowAt } from '../../rowAt.ts';
import { withoutLateCall } from '../call/cutLateCall.ts';
import { isByDegrees } from '../call/degreeCalls.ts';
import { whyNotByPress } from '../call/heard.ts';
import { tell } from '../call/say.ts';
import { callWhatIsDue, missed } from '../call/whenToCall.ts';
import { follow, refuse, type Step } from '../engine/effects.ts';
import { type RunEvent, trueAtMs } from '../engine/events.ts';
import type { RunState } from '../engine/state.ts';
import { atStation } from '../place/position.ts';
import { readTooSoon, withEarned } from '../place/tooSoon.ts';
import { placeUnknown } from './damaged.ts';
import { finish } from './finish.ts';
import { AT_BLADE_MM } from './marksPassed.ts';

type Scanned = Extract<RunEvent, { kind: 'scanned' }>;

/** A mark's code was read at the blade: absolute evidence. What does not fit the order of the marks is told, never passed over. */
export function scanned(state: RunState, scan: Scanned): Step {
  const index = state.setup.stations.findIndex((station) => station.mark === scan.mark);
  if (index < 0)
    return refuse(
      state,
      'no-such-mark',
      `mark ${scan.mark} is not in this run, which has marks 1 to ${state.setup.stations.length}`,
    );
  if (state.phase === 'ready')
    return refuse(state, 'not-feeding', 'the run has not been started; start it before the first mark');
  if (!state.isPlaceKnown) return placeUnknown(state);
  const whyNot = whyNotByPress(state, scan.atMs);
  if (whyNot !== null) return refuse(state, 'not-feeding', whyNot);
  const atBlade = reachedAt(state, index, scan.offsetMm);
  if (atBlade < state.reached - 1 || (atBlade < state.reached && index < atBlade)) return markBehind(state, scan.mark);
  const isDoubled = atBlade === state.reached && scan.offsetMm >= 0 && state.scannedMark === scan.mark;
  if (isDoubled) return markDoubled(state, scan.mark);
  const refusal = readTooSoon(state, index, scan.offsetMm, trueAtMs(scan));
  if (refusal !== null) return refusal;
  const reached = Math.max(state.reached, atBlade);
  const read = { ...state, reached, scannedMark: scan.mark, guessed: 0 };
  const { state: located, verdict } = atStation(read, index, scan.offsetMm, trueAtMs(scan), 'scan', scan.atMs);
  if (verdict === 'false') return markDoubtful({ ...state, reckoning: located.reckoning }, scan.mark);
  const positionMm = rowAt(state.setup.stations, index).positionMm + scan.offsetMm;
  return follow(
    withEarned(located, positionMm, trueAtMs(scan)),
    (now) => withoutLateCall(now, scan.atMs),
    (now) => callAfterScan(now, scan.atMs, scan.id),
    // Last, so that no smaller notice stands in front of it.
    (now) => noteSkipped(now, state),
  );
}

/** How many stations have reached the blade when this one lies `offsetMm` past it. */
function reachedAt({ setup }: RunState, index: number, offsetMm: number): number {
  const positionMm = rowAt(setup.stations, index).positionMm + offsetMm + AT_BLADE_MM;
  return setup.stations.filter((station) => station.positionMm <= positionMm).length;
}

/** Called only while feeding: in a stopped or lost run a scan tells where the stock stands and nothing more, but at its end. */
function callAfterScan(state: RunState, atMs: number, cause?: string): Step {
  if (state.reached === state.setup.stations.length) return finish(state, atMs, cause);
  return state.phase === 'feeding' ? callWhatIsDue(state, atMs) : [state, []];
}

/** Marks between the one expected and the one read were never read; those that were never called are recorded as missed. */
function noteSkipped(now: RunState, before: RunState): Step {
  // There the figures between the marks are what is called.
  if (isByDegrees(now)) return [now, []];
  const last = now.reached - 1;
  if (last <= before.reached)
    return missed(now, Math.max(before.reached, before.turningTo + 1), now.reached, 'its mark came before its call');
  const skipped = now.setup.stations.slice(before.reached, last).map(({ mark }) => mark);
  const read = rowAt(now.setup.stations, last).mark;
  const which = skipped.length === 1 ? `Mark ${skipped[0]} was` : `Marks ${skipped[0]} to ${skipped.at(-1)} were`;
  return follow(
    now,
    (state) =>
      missed(
        state,
        Math.max(before.reached, before.turningTo + 1),
        now.reached,
        'marks were not read, so its call was never due in time',
      ),
    (state) =>
      tell(state, {
        code: 'mark-skipped',
        message: `${which} not read: mark ${read} is taken to be at the blade. Is that so? If not, stop the feed.`,
        mark: read,
      }),
  );
}

function markBehind(state: RunState, mark: number): Step {
  return tell(state, {
    code: 'mark-behind',
    message: `Mark ${mark} was read, which has passed the blade already. It is not counted. Is this the right strip?`,
    mark,
  });
}

/** The count of travel says that this mark cannot be at the blade; if more readings say that it is, they win. */
function markDoubtful(state: RunState, mark: number): Step {
  return tell(state, {
    code: 'mark-doubtful',
    message: `Mark ${mark} was read, but by the travel count it is nowhere near the blade. It is not counted. Which mark is at the blade?`,
    mark,
  });
}

function markDoubled(state: RunState, mark: number): Step {
  return tell(state, { code: 'mark-doubled', message: `Mark ${mark} was read twice. It counts once.`, mark });
}
