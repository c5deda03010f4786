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
  { perMs: (2 * Math.PI) / 11_300, share: 0.02 },
  { perMs: (2 * Math.PI) / 4_100, share: 0.015 },
  { perMs: (2 * Math.PI) / 1_700, share: 0.005 },
] as const;
/** A measuring wheel rides over the sawn surface: each millimetre of wood lifts it by up to this much. */
const ROUGH_MM = 0.05;
/** How finely the wheel counts. */
const COUNTS_PER_MM = 10;

export interface FeedModel {
  readonly feedMmPerMs: number;
  readonly seed: number;
  /** As they are over a step of this length; kept from one step to the next, which is mostly as long. */
  readonly stepMs: number;
  readonly waves: readonly Wave[];
  /** 0 standing, 1 fed with a full hand. */
  readonly hand: number;
  /** Time fed, standing left out. */
  readonly fedMs: number;
  /** Along the stock, from where the wheel's zero is. */
  readonly positionMm: number;
}

interface Wave {
  readonly perMs: number;
  readonly share: number;
  /** Where it begins, by the seed. */
  readonly phase: number;
  /** Half of what it turns through in a step, and the sine of that. */
  readonly half: number;
  readonly sineOfHalf: number;
}

const overStep = <W extends Pick<Wave, 'perMs'>>(waves: readonly W[], stepMs: number) =>
  waves.map((wave) => {
    const half = (wave.perMs * stepMs) / 2;
    return { ...wave, half, sineOfHalf: Math.sin(half) };
  });

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
  const waves = WAVES.map((wave, index) => ({ ...wave, phase: 2 * Math.PI * mulberry32(seed, index) }));
  return {
    feedMmPerMs: mPerMinToMmPerMs(mPerMin),
    seed,
    stepMs: 0,
    waves: overStep(waves, 0),
    hand: 0,
    fedMs: 0,
    positionMm: fromMm,
  };
}

/** The wood `dtMs` later, if it has been fed (or held) all that time. */
export function stepFeed(model: FeedModel, dtMs: number, moving: boolean): FeedModel {
  if (!(dtMs >= 0)) throw new Error(`time goes forward, found a step of ${dtMs} ms`);
  const wanted = moving ? 1 : 0;
  if (model.hand === wanted) return wanted === 0 ? model : fed(model, dtMs, wanted);
  const rampMs = Math.min(dtMs, Math.abs(wanted - model.hand) * FULL_STOP_MS);
  if (rampMs === dtMs) return fed(model, dtMs, model.hand + (Math.sign(wanted - model.hand) * dtMs) / FULL_STOP_MS);
  const ramped = fed(model, rampMs, wanted);
  return wanted === 0 ? ramped : fed(ramped, dtMs - rampMs, wanted);
}

/** What the wheel has counted, in millimetres: it never runs back, and stands while the wood stands. */
export function wheelMm({ seed, positionMm }: FeedModel): number {
  const cell = Math.floor(positionMm);
  const within = positionMm - cell;
  const lift = roughness(seed, cell) * (1 - within) + roughness(seed, cell + 1) * within;
  return Math.round((positionMm + lift) * COUNTS_PER_MM) / COUNTS_PER_MM;
}

/**
 * Steps at a hand that goes evenly from the model's to `toHand`. Speed = feed x hand x (1 + waves), the hand linear in time:
 * both parts have an integral in closed form, and so have two steps the same as one. Error: rounding, some 1e-12 mm a step.
 */
function fed(model: FeedModel, dtMs: number, toHand: number): FeedModel {
  const { feedMmPerMs, seed, hand, fedMs } = model;
  const waves = dtMs === model.stepMs ? model.waves : overStep(model.waves, dtMs);
  const slope = dtMs === 0 ? 0 : (toHand - hand) / dtMs;
  let handMs = ((hand + toHand) / 2) * dtMs;
  for (const { perMs, share, phase, half, sineOfHalf } of waves) {
    const middle = perMs * fedMs + phase + half;
    // cos a - cos b = 2 sin((a+b)/2) sin((b-a)/2): nothing is lost where the two are close.
    let integral = (2 * hand * Math.sin(middle) * sineOfHalf) / perMs;
    if (slope !== 0) {
      const to = middle + half;
      integral += (slope / perMs) * ((2 * Math.cos(middle) * sineOfHalf) / perMs - dtMs * Math.cos(to));
    }
    handMs += share * integral;
  }
  return {
    feedMmPerMs,
    seed,
    stepMs: dtMs,
    waves,
    hand: toHand,
    fedMs: fedMs + dtMs,
    positionMm: model.positionMm + feedMmPerMs * handMs,
  };
}

/** The surface at the edge of a millimetre of wood; 0 at the zero, so that the first count is 0. */
function roughness(seed: number, cell: number): number {
  return cell === 0 ? 0 : ROUGH_MM * (2 * mulberry32(seed, WAVES.length + cell) - 1);
}
