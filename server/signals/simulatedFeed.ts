/** A source of travel readings without wood: the modelled feed, kept going in real time. */
import { type FeedModel, standingFeed, stepFeed, wheelMm } from '../core/simulate/feedModel.ts';

/** How often a wheel on a saw is read: often enough that a call is timed to a millimetre at a brisk feed. */
const EVERY_MS = 20;
/** How often a feed that stands asks whether the run goes on. */
const AT_REST_EVERY_MS = 100;
/** The wood comes up to the blade, and the tilt hand sets the first bevel meanwhile. */
const LEAD_IN_MS = 3000;

/** The clock and the timer of the process, or a test's. */
interface FeedTimer {
  /** Milliseconds since any moment; never goes back. */
  now(): number;
  /** Calls `tick` once, `waitMs` from now, unless what it gives back is called before. */
  after(waitMs: number, tick: () => void): () => void;
}

const realTimer: FeedTimer = {
  now: () => performance.now(),
  after: (waitMs, tick) => {
    const timer = setTimeout(tick, waitMs);
    return () => clearTimeout(timer);
  },
};

interface SimulatedFeed {
  readonly mPerMin: number;
  readonly seed: number;
  /** Whether the run wants the wood to move now: it stops with the run and goes on with it. */
  readonly isFeeding: () => boolean;
  /** The feed ends by itself once the run is finished; until then the wood never does. */
  readonly isFinished: () => boolean;
  /** A travel reading, in millimetres since the feed's zero. */
  readonly send: (mm: number) => void;
  /** The last count before a restart: the wood lies where it lay, and there is no lead-in. */
  readonly fromMm?: number;
  /** From the start of the run to the first reading, which says that the first mark is at the blade. */
  readonly leadInMs?: number;
  readonly everyMs?: number;
  readonly timer?: FeedTimer;
}

/**
 * Feeds in real time from the moment that the run does until the run is finished or `stop` is called. There are readings
 * while the wood moves and while the run is feeding; wood that lies still turns no wheel.
 */
export function startSimulatedFeed({
  mPerMin,
  seed,
  isFeeding,
  isFinished,
  send,
  fromMm = 0,
  leadInMs = LEAD_IN_MS,
  everyMs = EVERY_MS,
  timer = realTimer,
}: SimulatedFeed): { stop(): void } {
  let wood: FeedModel = standingFeed({ mPerMin, seed, fromMm });
  let leadInLeftMs = fromMm === 0 ? leadInMs : 0;
  let lastMs = timer.now();
  let cancel = timer.after(everyMs, tick);

  function tick(): void {
    if (isFinished()) return;
    const nowMs = timer.now();
    const isMoving = isFeeding();
    pass(nowMs - lastMs, isMoving);
    lastMs = nowMs;
    cancel = timer.after(isMoving || wood.hand > 0 ? everyMs : AT_REST_EVERY_MS, tick);
  }

  function pass(dtMs: number, isMoving: boolean): void {
    if (!isMoving && wood.hand === 0) return;
    const comingMs = Math.min(dtMs, leadInLeftMs);
    leadInLeftMs -= comingMs;
    if (leadInLeftMs > 0) return;
    // The first reading is the mark at the blade itself, however late this tick is.
    if (comingMs === 0) wood = stepFeed(wood, dtMs, isMoving);
    send(wheelMm(wood));
  }

  return { stop: () => cancel() };
}
