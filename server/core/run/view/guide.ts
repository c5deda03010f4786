import { type Trust, trustAt } from '../../track/trust.ts';
import { mmPerMsToMPerMin } from '../../units.ts';
import { surelyFasterThan } from '../call/callTiming.ts';
import { heldDeg } from '../call/degreeCalls.ts';
import { FRESH_TILT_MS, safeFeed } from '../call/safeFeed.ts';
import { markReached } from '../engine/effects.ts';
import { slopeAt, tiltAt } from '../engine/profile.ts';
import type { Phase, RunState } from '../engine/state.ts';
import { positionAt, spacingMm, uncertaintyAt } from '../place/position.ts';

/** What the handwheel must be told at one moment. Angles are positive as the saw's tilt is. */
export interface Guide {
  /** The server's Unix time that all of it is said for. */
  readonly atMs: number;
  readonly state: Phase;
  /** With a count of travel the exact tilt for the wood at the blade now; without one the figure being turned to. */
  readonly targetDeg: number | null;
  /** True where `targetDeg` goes with the wood all the time; false where one figure is turned to after another. */
  readonly isFollowed: boolean;
  /** The figure that was called last, and its mark where it is one's; null before the first. */
  readonly calledDeg: number | null;
  readonly calledMark: number | null;
  /** How fast that tilt changes at the feed of now; null while the position is not continuous. */
  readonly rateDegPerS: number | null;
  /** The last mark that reached the blade, 0 before the first. */
  readonly mark: number;
  readonly nextMark: number | null;
  readonly nextDeg: number | null;
  readonly etaMs: number | null;
  readonly positionMm: number | null;
  /** The stock's speed now: 0 while it is told to stand, null while it is not known. */
  readonly speedMmPerS: number | null;
  /** One standard deviation. */
  readonly uncertaintyMm: number | null;
  /** Whether the place is known or guessed at; null before there is one. */
  readonly trust: Trust | null;
  /** The fastest feed from here on at which the coming calls and turns are in time; null while not feeding. */
  readonly safeMPerMin: number | null;
  /** True while the feed is faster than that, or the tilt falls behind: "ease the feed". */
  readonly easeFeed: boolean;
  readonly tiltDeg?: number;
  /** With a fresh tilt reading and `isFollowed`: tilt had less tilt wanted. */
  readonly errorDeg?: number;
}

/** Derived from a state alone; the position is carried on from the last reading to `atMs`. */
export function guideAt(state: RunState, atMs: number): Guide {
  const { reckoning, setup, reached, isPlaceKnown } = state;
  // Where nobody knows how far the wood has come, no figure is shown that could be turned to.
  const next = isPlaceKnown ? setup.stations[reached] : undefined;
  const turningTo = isPlaceKnown ? state.turningTo : -1;
  const isFollowed = reckoning?.by === 'travel';
  const position = reckoning === null ? null : carriedPosition(state, atMs);
  const speed = reckoning?.speedMmPerMs ?? null;
  const isMoving = state.phase === 'feeding' && speed !== null && speed > 0;
  const targetDeg =
    isFollowed && position !== null ? tiltAt(setup, position) : (setup.stations[turningTo]?.callDeg ?? null);
  const safe = position === null ? null : safeFeed(state, position, atMs);
  const tilt = freshTilt(state, atMs);
  return {
    atMs,
    state: state.phase,
    targetDeg,
    calledDeg: turningTo < 0 ? null : heldDeg(state),
    calledMark: state.step >= 0 ? null : (setup.stations[turningTo]?.mark ?? null),
    isFollowed,
    rateDegPerS: isFollowed && isMoving && position !== null ? slopeAt(setup, position) * speed * 1000 : null,
    mark: markReached(state),
    nextMark: next?.mark ?? null,
    nextDeg: next?.callDeg ?? null,
    etaMs:
      isMoving && next !== undefined && position !== null ? Math.max(0, (next.positionMm - position) / speed) : null,
    positionMm: position,
    speedMmPerS: speedShown(state),
    uncertaintyMm: reckoning === null ? null : uncertaintyAt(reckoning, atMs),
    trust: reckoning === null ? null : trustAt(reckoning.track, atMs, spacingMm(state)),
    safeMPerMin: safe === null ? null : mmPerMsToMPerMin(safe),
    easeFeed: safe !== null && isMoving && reckoning !== null && surelyFasterThan(reckoning) > safe,
    ...(state.tilt === null ? {} : { tiltDeg: state.tilt.deg }),
    ...(tilt !== null && isFollowed && targetDeg !== null ? { errorDeg: tilt.deg - targetDeg } : {}),
  };
}

/** What the tilt source told last, unless it has been silent for longer than a standing wheel would be. */
const freshTilt = ({ tilt }: RunState, atMs: number): RunState['tilt'] =>
  tilt !== null && atMs - tilt.atMs < FRESH_TILT_MS ? tilt : null;

/** Between presses or scans the guess stays short of the next mark, which nobody has said to be there. */
function carriedPosition(state: RunState, atMs: number): number {
  const { reckoning, setup, reached } = state;
  if (reckoning === null) return 0;
  const position = positionAt(reckoning, atMs);
  const next = setup.stations[reached]?.positionMm;
  if (reckoning.by === 'travel') return position;
  if (next === undefined) return state.phase === 'feeding' ? reckoning.positionMm : position;
  // A stop makes no mark pass either: the plank would tell of another one as next than the words beside it.
  const heldMm = state.phase === 'feeding' ? reckoning.positionMm : setup.stations[reached - 1]?.positionMm;
  return Math.min(position, Math.max(next, heldMm ?? next));
}

function speedShown({ reckoning }: RunState): number | null {
  if (reckoning?.track.now?.isStanding === true) return 0;
  const speed = reckoning?.speedMmPerMs ?? null;
  return speed === null ? null : speed * 1000;
}
