/**
 * Wood being fed by hand, modelled: what a measuring wheel on it would count. For rehearsals, for `simulate`, and for trying
 * the program without a saw. The same seed gives the same wood and the same hand, however often it is looked at: everything
 * that varies is a function of the time fed and of the place on the wood, so that splitting a step in two changes nothing.
 *
 * The figures below are a feel for hand feeding (from memory, no source); nothing of the work rests on them.
 */
import { mulberry32 } from '../numeric/mulberry32.ts';
import { mPerMinToMmPerMs } from '../units.ts';

/** From full feed to a stand, and back: the sawyer lets go, the blade's friction does the rest. */
export const FULL_STOP_MS = 300;
/** The hand swings about its feed in slow waves; together they stay under the sum of the shares. */
const WAVES = [
  { periodMs: 11_300, share: 0.02 },
  { periodMs: 4_100, share: 0.015 },
  { periodMs: 1_700, share: 0.005 },
] as const;
/** A measuring wheel rides over the sawn surface: each millimetre of wood lifts it by up to this much. */
const ROUGH_MM = 0.05;
/** How finely the wheel counts. */
const COUNTS_PER_MM = 10;

export interface FeedModel {
  readonly feedMmPerMs: number;
  readonly seed: number;
  /** 0 standing, 1 fed with a full hand. */
  readonly hand: number;
  /** Time fed, standing left out. */
  readonly fedMs: number;
  /** Along the stock, from where the wheel's zero is. */
  readonly positionMm: number;
}

/** Wood that stands. `fromMm`: where it stands, for a feed that goes on after a restart. */
export function standingFeed({
  mPerMin,
  seed,
  fromMm = 0,
}: {
  readonly mPerMin: number;
  readonly seed: number;
  readonly fromMm?: number;
}): FeedModel {
  if (!(mPerMin > 0 && Number.isFinite(mPerMin))) throw new Error(`a feed is more than 0 m/min, found ${mPerMin}`);
  return { feedMmPerMs: mPerMinToMmPerMs(mPerMin), seed, hand: 0, fedMs: 0, positionMm: fromMm };
}

/** The wood `dtMs` later, if it has been fed (or held) all that time. */
export function stepFeed(model: FeedModel, dtMs: number, moving: boolean): FeedModel {
  if (!(dtMs >= 0)) throw new Error(`time goes forward, found a step of ${dtMs} ms`);
  const wanted = moving ? 1 : 0;
  const rampMs = Math.min(dtMs, Math.abs(wanted - model.hand) * FULL_STOP_MS);
  const ramped = fed(model, rampMs, model.hand + (Math.sign(wanted - model.hand) * rampMs) / FULL_STOP_MS);
  const hand = rampMs < dtMs ? wanted : ramped.hand;
  return hand === 0 ? { ...ramped, hand } : fed({ ...ramped, hand }, dtMs - rampMs, hand);
}

/** What the wheel has counted, in millimetres: it never runs back, and stands while the wood stands. */
export function wheelMm({ seed, positionMm }: FeedModel): number {
  const cell = Math.floor(positionMm);
  const within = positionMm - cell;
  const lift = roughness(seed, cell) * (1 - within) + roughness(seed, cell + 1) * within;
  return Math.round((positionMm + lift) * COUNTS_PER_MM) / COUNTS_PER_MM;
}

/** Steps at a hand that goes evenly from the model's to `toHand`. */
function fed(model: FeedModel, dtMs: number, toHand: number): FeedModel {
  // Speed = feed x hand x (1 + waves), the hand linear in time: both parts have an integral in closed form.
  const slope = dtMs === 0 ? 0 : (toHand - model.hand) / dtMs;
  const mean = ((model.hand + toHand) / 2) * dtMs;
  const waves = WAVES.reduce((sum, wave, index) => {
    const w = (2 * Math.PI) / wave.periodMs;
    const from = w * model.fedMs + 2 * Math.PI * mulberry32(model.seed, index);
    const to = from + w * dtMs;
    const integral =
      (model.hand * Math.cos(from) - toHand * Math.cos(to)) / w + (slope * (Math.sin(to) - Math.sin(from))) / (w * w);
    return sum + wave.share * integral;
  }, 0);
  return {
    ...model,
    hand: toHand,
    fedMs: model.fedMs + dtMs,
    positionMm: model.positionMm + model.feedMmPerMs * (mean + waves),
  };
}

/** The surface at the edge of a millimetre of wood; 0 at the zero, so that the first count is 0. */
function roughness(seed: number, cell: number): number {
  return cell === 0 ? 0 : ROUGH_MM * (2 * mulberry32(seed, WAVES.length + cell) - 1);
}
