import { type FeedModel, standingFeed, stepFeed } from '../../../server/core/simulate/feedModel.ts';

/** Seeded noise: a small generator and normal deviates from it (Box and Muller 1958). */
export function chance(seed: number): { next(): number; normal(): number } {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    next,
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
  };
}

export interface Truth {
  readonly atMs: number;
  readonly positionMm: number;
  readonly speedMmPerMs: number;
  /** The hand is fully on, as it has been for a second. */
  readonly isSteady: boolean;
}

/** Wood fed by a hand that wanders, with pauses, every `everyMs` until it has gone `lengthMm`. */
export function wood(options: {
  seed: number;
  lengthMm: number;
  everyMs: number;
  mPerMin?: number;
  pauses?: readonly { fromMm: number; forMs: number }[];
}): Truth[] {
  const { seed, lengthMm, everyMs, mPerMin = 3, pauses = [] } = options;
  let model: FeedModel = { ...standingFeed({ mPerMin, seed }), hand: 1 };
  const truths: Truth[] = [];
  const waiting = pauses.map((pause) => ({ ...pause, leftMs: pause.forMs }));
  let sinceFullMs = 1e9;
  for (let atMs = 0; model.positionMm < lengthMm; atMs += everyMs) {
    const pause = waiting.find(({ fromMm, leftMs }) => model.positionMm >= fromMm && leftMs > 0);
    if (pause !== undefined) pause.leftMs -= everyMs;
    const before = model.positionMm;
    model = stepFeed(model, everyMs, pause === undefined);
    sinceFullMs = model.hand === 1 ? sinceFullMs + everyMs : 0;
    truths.push({
      atMs: atMs + everyMs,
      positionMm: model.positionMm,
      speedMmPerMs: (model.positionMm - before) / everyMs,
      isSteady: sinceFullMs > 1000,
    });
  }
  return truths;
}
