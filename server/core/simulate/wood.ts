/** The wood under a sawyer's hands: fed, stopped, pulled back, and fed again. */
import { type FeedModel, standingFeed, stepFeed } from './feedModel.ts';
import type { Stop } from './simulation.ts';

/** A sawyer pulls back at a hand's pace (assumption). */
const PULLING_MM_PER_MS = 0.06;
/** From an alarm in the ear to the wood held (assumption: a choice reaction and the hands). */
const HOLDS_AFTER_MS = 400;
/** After an alarm that he did not cause he looks what is wrong (assumption). */
const LOOKS_FOR_MS = 3000;
/** From "resume" to the wood moving: the number is said again first (assumption). */
const GOES_ON_MS = 800;

export interface Wood {
  readonly feed: FeedModel;
  /** How far it was pulled back in all. */
  readonly backMm: number;
  readonly pause: Pause | null;
  /** How many of the stops are behind. */
  readonly stopsDone: number;
}
interface Pause {
  readonly holdsAtMs: number;
  readonly pullsMm: number;
  readonly resumesAtMs: number;
  readonly goesOnAtMs: number;
  /** One of the stops that were asked for, not an alarm of the run's. */
  readonly isAsked: boolean;
}

export const standingWood = (mPerMin: number, seed: number): Wood => ({
  feed: standingFeed({ mPerMin, seed }),
  backMm: 0,
  pause: null,
  stopsDone: 0,
});

export const placeMm = ({ feed, backMm }: Wood): number => feed.positionMm - backMm;

/** What the sawyer does at this moment, beside feeding. */
type Deed = 'says stop' | 'resumes' | null;
interface Decision {
  readonly wood: Wood;
  readonly deed: Deed;
}

/** The sawyer decides. `phase` is the run's, as he hears it. */
export function decide(wood: Wood, stops: readonly Stop[], phase: string, atMs: number): Decision {
  if (wood.pause !== null) return decideInPause(wood, wood.pause, phase, atMs);
  const stop = stops[wood.stopsDone];
  if (phase === 'feeding' && stop !== undefined && placeMm(wood) >= stop.atMm) {
    const pullsMm = stop.pullBackMm ?? 0;
    const resumesAtMs = atMs + stop.forMs + pullsMm / PULLING_MM_PER_MS;
    const goesOnAtMs = resumesAtMs + (stop.goesOnMs ?? GOES_ON_MS);
    const pause = { holdsAtMs: atMs, pullsMm, resumesAtMs, goesOnAtMs, isAsked: true };
    return { wood: { ...wood, pause }, deed: pullsMm > 0 ? null : 'says stop' };
  }
  if (phase !== 'lost' && phase !== 'stopped') return { wood, deed: null };
  const holdsAtMs = atMs + HOLDS_AFTER_MS;
  const resumesAtMs = holdsAtMs + LOOKS_FOR_MS;
  const pause = { holdsAtMs, pullsMm: 0, resumesAtMs, goesOnAtMs: resumesAtMs + GOES_ON_MS, isAsked: false };
  return { wood: { ...wood, pause }, deed: null };
}

function decideInPause(wood: Wood, pause: Pause, phase: string, atMs: number): Decision {
  if (atMs >= pause.goesOnAtMs && phase === 'feeding')
    return { wood: { ...wood, pause: null, stopsDone: wood.stopsDone + (pause.isAsked ? 1 : 0) }, deed: null };
  return { wood, deed: atMs >= pause.resumesAtMs && phase !== 'feeding' ? 'resumes' : null };
}

/** The wood `dtMs` after `atMs`. */
export function moveOn(wood: Wood, atMs: number, dtMs: number): Wood {
  const { pause, feed } = wood;
  const isHeld = pause !== null && atMs >= pause.holdsAtMs;
  if (!isHeld || feed.hand > 0)
    return { feed: stepFeed(feed, dtMs, !isHeld), backMm: wood.backMm, pause, stopsDone: wood.stopsDone };
  if (pause.pullsMm <= 0) return wood;
  const backMm = Math.min(pause.pullsMm, PULLING_MM_PER_MS * dtMs);
  return { ...wood, backMm: wood.backMm + backMm, pause: { ...pause, pullsMm: pause.pullsMm - backMm } };
}
