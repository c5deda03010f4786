import { interpolate } from '../numeric/interpolate.ts';
import { positionAt, uncertaintyAt } from './reckon.ts';
import type { Phase, RunState } from './state.ts';
import { markReached, stationAt } from './turn.ts';

/** What the handwheel must be told at one moment. Angles are positive as the saw's tilt is. */
export interface Guide {
  readonly state: Phase;
  /** With a count of travel the exact tilt for the wood at the blade now; without one the figure being turned to. */
  readonly targetDeg: number | null;
  /** True where `targetDeg` goes with the wood all the time; false where one figure is turned to after another. */
  readonly isFollowed: boolean;
  /** How fast that tilt changes at the feed of now; null while the position is not continuous. */
  readonly rateDegPerS: number | null;
  /** The last mark that reached the blade, 0 before the first. */
  readonly mark: number;
  readonly nextMark: number | null;
  readonly nextDeg: number | null;
  readonly etaMs: number | null;
  readonly positionMm: number | null;
  /** One standard deviation. */
  readonly uncertaintyMm: number | null;
  readonly tiltDeg?: number;
}

/** Derived from a state alone; the position is carried on from the last reading to `atMs`. */
export function guideAt(state: RunState, atMs: number): Guide {
  const { reckoning, setup, reached } = state;
  const next = setup.stations[reached];
  const isFollowed = reckoning?.by === 'travel';
  const position = reckoning === null ? null : carriedPosition(state, atMs);
  const speed = reckoning?.speedMmPerMs ?? null;
  const isMoving = state.phase === 'feeding' && speed !== null && speed > 0;
  return {
    state: state.phase,
    targetDeg:
      isFollowed && position !== null ? tiltAt(state, position) : (setup.stations[state.turningTo]?.callDeg ?? null),
    isFollowed,
    rateDegPerS: isFollowed && isMoving && position !== null ? slopeAt(state, position) * speed * 1000 : null,
    mark: markReached(state),
    nextMark: next?.mark ?? null,
    nextDeg: next?.callDeg ?? null,
    etaMs:
      isMoving && next !== undefined && position !== null ? Math.max(0, (next.positionMm - position) / speed) : null,
    positionMm: position,
    uncertaintyMm: reckoning === null ? null : uncertaintyAt(reckoning, atMs),
    ...(state.tilt === null ? {} : { tiltDeg: state.tilt.deg }),
  };
}

/** Between presses or scans the guess stays short of the next mark, which nobody has said to be there. */
function carriedPosition(state: RunState, atMs: number): number {
  const { reckoning, setup, reached } = state;
  if (reckoning === null) return 0;
  if (reckoning.by === 'travel' || state.phase !== 'feeding') return positionAt(reckoning, atMs);
  const next = setup.stations[reached]?.positionMm ?? reckoning.positionMm;
  return Math.min(positionAt(reckoning, atMs), Math.max(next, reckoning.positionMm));
}

/** The exact tilt for a place on the stock; beyond the first and last mark theirs holds. */
export function tiltAt(state: RunState, positionMm: number): number {
  const { positionsMm, tiltsDeg } = state.setup.profile;
  return interpolate(positionsMm, tiltsDeg, positionMm);
}

/** Degrees a millimetre, over the 10 mm ahead: what the hand is about to need. */
function slopeAt(state: RunState, positionMm: number): number {
  const last = stationAt(state, state.setup.stations.length - 1).positionMm;
  const from = Math.min(Math.max(positionMm, 0), last - 10);
  return (tiltAt(state, from + 10) - tiltAt(state, from)) / 10;
}
