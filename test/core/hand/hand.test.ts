import { describe, expect, it } from 'vitest';
import { followOn, type Hand, hear, hold, restingHand, turnOn, usualHand } from '../../../server/core/hand/hand.ts';
import { draws } from '../../../server/core/numeric/draws.ts';
import { expectClose } from '../../kit/close.ts';

const exact = {
  ...usualHand({ reactionS: 0.35, turnsPerS: 0.7 }, 2, 0.5),
  reactionSpread: 0,
  settleShare: 0,
  backlashDeg: 0,
  misheard: 0,
  unheard: 0,
};
const none = draws(1);

function turnFor(hand: Hand, fromMs: number, toMs: number, traits = exact): Hand {
  let now = hand;
  for (let atMs = fromMs + 1; atMs <= toMs; atMs += 1) now = turnOn(now, atMs, 1, traits);
  return now;
}

describe('a hand that hears numbers', () => {
  it('waits for the end of the words and its reaction, then turns as fast as it turns', () => {
    const heard = hear(restingHand(8), { deg: 10, overMs: 1000, evenMs: null }, exact, none);
    expect(turnFor(heard, 0, 1349).tiltDeg).toBe(8);
    // 0.7 turns a second of 2 degrees: 1.4 degrees a second.
    expectClose(turnFor(heard, 0, 1849).tiltDeg, 8 + 1.4 * 0.5, 0.005, 'half a second into the turn');
    expectClose(turnFor(heard, 0, 4000).tiltDeg, 10, 1e-9, 'there');
  });

  it('turns evenly where it is told to, so as to be there in time', () => {
    const heard = hear(restingHand(8), { deg: 10, overMs: 1000, evenMs: 3000 }, exact, none);
    expectClose(turnFor(heard, 0, 1350 + 1500).tiltDeg, 9, 0.005, 'half way');
    expectClose(turnFor(heard, 0, 1350 + 3000).tiltDeg, 10, 0.005, 'there');
  });

  it('stands when the tilt is to be held', () => {
    const heard = hear(restingHand(8), { deg: 10, overMs: 1000, evenMs: null }, exact, none);
    const held = hold(turnFor(heard, 0, 1800));
    expect(turnFor(held, 1800, 5000).tiltDeg).toBe(held.tiltDeg);
  });

  it('loses its backlash when it turns round', () => {
    const loose = { ...exact, backlashDeg: 0.2 };
    const up = turnFor(hear(restingHand(8), { deg: 10, overMs: 0, evenMs: null }, loose, none), 0, 3000, loose);
    const down = turnFor(hear(up, { deg: 8, overMs: 3000, evenMs: null }, loose, none), 3000, 7000, loose);
    expectClose(up.tiltDeg, 9.9, 1e-9, 'going up');
    expectClose(down.tiltDeg, 8.1, 1e-9, 'going down');
  });

  it('mishears and overhears as often as it is said to', () => {
    const draw = draws(4);
    const poor = { ...exact, misheard: 0.1, unheard: 0.05 };
    const heard = Array.from({ length: 4000 }, () =>
      hear(restingHand(0), { deg: 6.5, overMs: 0, evenMs: null }, poor, draw),
    );
    expectClose(heard.filter(({ coming }) => coming === null).length / 4000, 0.05, 0.015, 'unheard');
    expectClose(heard.filter(({ coming }) => coming?.deg === 3.5).length / 4000, 0.1, 0.02, 'six taken for three');
  });
});

describe('a hand that follows the display', () => {
  /**
   * Source: crossover model w_c e^(-tau s)/s, McRuer and Krendel, AGARD-AG-188 (second-hand): behind a steady ramp, without
   * preview, it lags by rate/w_c; 2 degrees a second at 3 rad/s: 0.667 degrees (derived).
   */
  it('lags behind a ramp by the rate over the crossover frequency', () => {
    const quick = { ...exact, degPerMs: 1 };
    let hand = restingHand(0);
    for (let atMs = 1; atMs <= 6000; atMs += 1) {
      const deg = 0.002 * atMs;
      hand = followOn(hand, { deg, degPerMs: 0, readDeg: hand.tiltDeg }, 1, quick);
    }
    expectClose(12 - hand.tiltDeg, 2 / 3, 0.005, 'lag');
  });

  it('does not lag behind a ramp that it sees coming, and never turns faster than it can', () => {
    let hand = restingHand(0);
    for (let atMs = 1; atMs <= 6000; atMs += 1)
      hand = followOn(hand, { deg: 0.001 * atMs, degPerMs: 0.001, readDeg: hand.tiltDeg }, 1, exact);
    expectClose(hand.tiltDeg, 6, 0.005, 'with the ramp');
    const far = followOn(restingHand(0), { deg: 40, degPerMs: 0, readDeg: 0 }, 100, exact);
    expectClose(far.tiltDeg, 0.14, 1e-9, 'at the wheel rate');
  });
});
