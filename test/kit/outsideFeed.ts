import { type FeedModel, standingFeed, stepFeed } from '../../server/core/simulate/feedModel.ts';

/** Unix time as this process has it, with fractions of a millisecond. */
export const unixMs = (): number => performance.timeOrigin + performance.now();

const STEP_MS = 5;
/** A wheel is read so often, and counts tenths of a millimetre. */
const READ_EVERY_MS = 20;

export interface OutsideFeed {
  /** Where the wood was; the truth. */
  truthMm(atMs: number): number;
  /** The wood is let go of as by a hand, or stands at once. */
  hold(how: 'by hand' | 'abruptly'): void;
  goOn(): void;
  end(): void;
}

/** Modelled wood outside the program, whose place is known at every moment, and a measuring wheel on it that tells `send`. */
export function outsideFeed(
  { mPerMin, seed }: { readonly mPerMin: number; readonly seed: number },
  send: (frame: object) => void,
): OutsideFeed {
  let wood: FeedModel = { ...standingFeed({ mPerMin, seed }), hand: 1 };
  let isFed = true;
  let steps = 0;
  const beganMs = unixMs();
  const places = [wood.positionMm];
  const timer = setInterval(() => {
    const due = Math.floor((unixMs() - beganMs) / STEP_MS);
    for (; steps < due; steps += 1) {
      wood = stepFeed(wood, STEP_MS, isFed);
      places.push(wood.positionMm);
    }
    // As a wheel's own clock has it: a reading is made when it is due, and sent at once.
    const nowMs = unixMs();
    if (nowMs < readAtMs) return;
    readAtMs = nowMs + READ_EVERY_MS - ((nowMs - readAtMs) % READ_EVERY_MS);
    send({ kind: 'travel', mm: Math.round(truthMm(nowMs) * 10) / 10 });
  }, STEP_MS);
  let readAtMs = beganMs;

  function truthMm(atMs: number): number {
    const at = Math.max(0, (atMs - beganMs) / STEP_MS);
    const before = Math.min(Math.floor(at), places.length - 1);
    const from = places[before] ?? 0;
    const to = places[before + 1] ?? from + (from - (places[before - 1] ?? from));
    return from + (to - from) * Math.min(1, at - before);
  }

  return {
    truthMm,
    hold(how) {
      isFed = false;
      if (how === 'abruptly') wood = { ...wood, hand: 0 };
    },
    goOn() {
      isFed = true;
    },
    end: () => clearInterval(timer),
  };
}
