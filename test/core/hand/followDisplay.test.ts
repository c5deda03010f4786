import { describe, expect, it } from 'vitest';
import { followDisplay } from '../../../server/core/hand/followDisplay.ts';
import { type Hand, restingHand } from '../../../server/core/hand/hand.ts';
import { type HandTraits, usualHand, withoutChance } from '../../../server/core/hand/traits.ts';
import { draws } from '../../../server/core/numeric/draws.ts';
import { expectClose } from '../../kit/close.ts';

/**
 * Source of all: the crossover model w_c e^(-tau s)/s, McRuer and Krendel, AGARD-AG-188 (second-hand, check values section 8):
 * tau 0.1 to 0.3 s, w_c a few rad/s.
 */
const usual = withoutChance(usualHand({ reactionS: 0.35, turnsPerS: 0.7 }, 2, 0.5));
const quick: HandTraits = { ...usual, degPerMs: 1 };
const CROSSOVER = 3;
const DELAY_S = 0.2;
const model: HandTraits = { ...quick, follows: { ...quick.follows, lookAheadMs: 0, smoothingMs: 0 } };
const none = draws(1);

/** The tilt at each millisecond, the target being shown a look-ahead early. */
function follow(target: (s: number) => number, untilMs: number, traits: HandTraits, at = restingHand(0)): number[] {
  let hand: Hand = at;
  const tilts: number[] = [];
  for (let atMs = 0; atMs < untilMs; atMs += 1) {
    tilts.push(hand.wheel.tiltDeg);
    const aheadDeg = target((atMs + traits.follows.lookAheadMs) / 1000);
    hand = followDisplay(hand, { atMs, aheadDeg, hadDeg: hand.wheel.tiltDeg }, 1, traits, none);
  }
  return tilts;
}

describe('a hand that follows the display', () => {
  /** 2 degrees a second at 3 rad/s: 0.667 degrees (derived there). */
  it('lags behind a ramp by the rate over the crossover frequency, without look-ahead', () => {
    const tilts = follow((s) => 2 * s, 8000, model);
    expectClose(2 * 7.999 - (tilts[7999] ?? 0), 2 / 3, 0.005, 'lag');
  });

  /** Derived: with a look-ahead T and smoothing S the lag is rate x (1/w_c + S - T), which the usual hand makes zero. */
  it('does not lag behind a ramp that it sees coming', () => {
    const tilts = follow((s) => 2 * s, 12_000, quick);
    expectClose(2 * 11.999 - (tilts[11_999] ?? 0), 0, 0.005, 'usual look-ahead');
    const short = { ...quick, follows: { ...quick.follows, lookAheadMs: 300 } };
    const behind = follow((s) => 2 * s, 12_000, short);
    expectClose(2 * 11.999 - (behind[11_999] ?? 0), 2 * (1 / 3 + (0.6 - 1 / 3) - 0.3), 0.005, 'half the look-ahead');
  });

  /** Derived by the method of steps for x'(t) = w (1 - x(t - tau)): w (t - tau), then less w^2 (t - 2 tau)^2 / 2, and so on. */
  it('answers a step as the delay equation does', () => {
    const tilts = follow(() => 1, 1000, model);
    const x = (s: number): number => {
      const [one, two, three] = [1, 2, 3].map((delays) => Math.max(0, s - delays * DELAY_S)) as [
        number,
        number,
        number,
      ];
      return CROSSOVER * one - (CROSSOVER ** 2 * two ** 2) / 2 + (CROSSOVER ** 3 * three ** 3) / 6;
    };
    for (const ms of [100, 200, 300, 400, 500, 600, 799])
      expectClose(tilts[ms] ?? Number.NaN, x(ms / 1000), 0.005, `after ${ms} ms`);
  });

  /** The open loop, tilt over error: gain w_c/w and phase -pi/2 - w tau, at frequencies about the crossover. */
  it.each([0.5, 1, 2, 3, 4.5])('has the crossover model for its frequency response at %d rad/s', (w) => {
    const periodMs = Math.round((2 * Math.PI * 1000) / w);
    const turns = Math.ceil(15_000 / periodMs);
    const tilts = follow((s) => Math.sin(w * s), periodMs * (turns + 1), model);
    let [errorSin, errorCos, tiltSin, tiltCos] = [0, 0, 0, 0];
    for (let ms = periodMs * turns; ms < periodMs * (turns + 1); ms += 1) {
      const s = ms / 1000;
      const tilt = tilts[ms] ?? 0;
      const error = Math.sin(w * s) - tilt;
      errorSin += error * Math.sin(w * s);
      errorCos += error * Math.cos(w * s);
      tiltSin += tilt * Math.sin(w * s);
      tiltCos += tilt * Math.cos(w * s);
    }
    const gain = Math.hypot(tiltSin, tiltCos) / Math.hypot(errorSin, errorCos);
    const phase = Math.atan2(tiltCos, tiltSin) - Math.atan2(errorCos, errorSin);
    expectClose(gain / (CROSSOVER / w), 1, 0.01, 'gain');
    expectClose(Math.cos(phase - (-Math.PI / 2 - w * DELAY_S)), 1, 2e-4, 'phase');
  });

  it('never turns faster than it can', () => {
    const tilts = follow(() => 40, 1000, usual);
    for (let ms = 1; ms < 1000; ms += 1)
      expect((tilts[ms] ?? 0) - (tilts[ms - 1] ?? 0)).toBeLessThanOrEqual(0.0014 + 1e-12);
    expectClose(tilts[999] ?? 0, 0.0014 * (999 - 200), 0.003, 'at the rate of the wheel, behind the delay');
  });

  it('does nothing beside the model where there is no error', () => {
    const noisy = { ...quick, follows: { ...quick.follows, remnant: 0.01 } };
    expect(Math.max(...follow(() => 5, 3000, noisy, restingHand(5)).map((deg) => Math.abs(deg - 5)))).toBe(0);
    expect(follow(() => 5, 3000, noisy)).not.toEqual(follow(() => 5, 3000, quick));
  });
});
