import { describe, expect, it } from 'vitest';
import { forget, type Hand, type HeardCall, hear, hold, restingHand, turnOn } from '../../../server/core/hand/hand.ts';
import { QUICKEST_MS, usualHand, withoutChance } from '../../../server/core/hand/traits.ts';
import { draws } from '../../../server/core/numeric/draws.ts';
import { expectClose } from '../../kit/close.ts';

const usual = usualHand({ reactionS: 0.35, turnsPerS: 0.7 }, 2, 0.5);
/** 0.7 turns a second of 2 degrees: 1.4 degrees a second, reached at once. */
const exact = { ...withoutChance(usual), startUpMs: 0 };
const none = draws(1);

const call = (deg: number, overMs: number, evenMs: number | null = null): HeardCall => ({
  id: `call ${deg}`,
  deg,
  overMs,
  evenMs,
  trueTiltDeg: (shown) => shown,
});

function turnFor(hand: Hand, fromMs: number, toMs: number, traits = exact): Hand {
  let now = hand;
  for (let atMs = fromMs; atMs < toMs; atMs += 1) now = turnOn(now, atMs, 1, traits);
  return now;
}
const tiltAfter = (hand: Hand, ms: number, traits = exact): number => turnFor(hand, 0, ms, traits).wheel.tiltDeg;

describe('a hand that hears numbers', () => {
  it('waits for the end of the words and its reaction, then turns as fast as it turns', () => {
    const heard = hear(restingHand(8), call(10, 1000), exact, none);
    expect(tiltAfter(heard, 1350)).toBe(8);
    expectClose(tiltAfter(heard, 1850), 8 + 1.4 * 0.5, 0.005, 'half a second into the turn');
    expectClose(tiltAfter(heard, 4000), 10, 1e-9, 'there');
  });

  it('takes its start-up once longer over a turn than without: half to speed up, half to slow down', () => {
    const heavy = { ...exact, startUpMs: 200 };
    const heard = hear(restingHand(8), call(10, 1000), heavy, none);
    // Derived: d/v + t over a trapezium of speed, 2/1.4 s + 0.2 s behind the reaction.
    const thereMs = 1350 + 2000 / 1.4 + 200;
    expectClose(tiltAfter(heard, thereMs, heavy), 10, 0.01, 'there');
    expect(tiltAfter(heard, thereMs - 150, heavy)).toBeLessThan(9.95);
    // v t / 2 while it speeds up.
    expectClose(tiltAfter(heard, 1350 + 200, heavy), 8 + (1.4 * 0.2) / 2, 0.002, 'at full speed');
  });

  it('turns evenly where it is told to, so as to be there in time', () => {
    const heard = hear(restingHand(8), call(10, 1000, 3000), exact, none);
    expectClose(tiltAfter(heard, 1350 + 1500), 9, 0.005, 'half way');
    expectClose(tiltAfter(heard, 1350 + 3000), 10, 0.005, 'there');
  });

  it('turns to what the readout must show, table and all', () => {
    const heard = hear(restingHand(8), { ...call(10, 0), trueTiltDeg: (shown) => shown + 0.1 }, exact, none);
    expectClose(tiltAfter(heard, 4000), 10.1, 1e-9, 'true tilt');
  });

  it('takes one call after another', () => {
    const one = hear(restingHand(8), call(10, 0), exact, none);
    const both = hear(one, call(9, 1500), exact, none);
    expect(tiltAfter(both, 1800)).toBeGreaterThan(9.9);
    expectClose(tiltAfter(both, 4000), 9, 1e-9, 'the later one');
  });

  it('does not turn to a call that was cut off, but to one that was heard out', () => {
    const heard = hear(restingHand(8), call(10, 1000), exact, none);
    expect(tiltAfter(forget(heard, 'call 10', 900), 4000)).toBe(8);
    expectClose(tiltAfter(forget(heard, 'call 10', 1100), 4000), 10, 1e-9, 'heard out');
  });

  it('stands when the tilt is to be held', () => {
    const heard = hear(restingHand(8), call(10, 1000), exact, none);
    const held = hold(turnFor(heard, 0, 1800));
    expect(turnFor(held, 1800, 5000).wheel.tiltDeg).toBe(held.wheel.tiltDeg);
  });

  it('loses its backlash when it turns round', () => {
    const loose = { ...exact, backlashDeg: 0.2 };
    const up = turnFor(hear(restingHand(8), call(10, 0), loose, none), 0, 3000, loose);
    const down = turnFor(hear(up, call(8, 3000), loose, none), 3000, 7000, loose);
    expectClose(up.wheel.tiltDeg, 9.9, 1e-9, 'going up');
    expectClose(down.wheel.tiltDeg, 8.1, 1e-9, 'going down');
  });
});

describe('a hand of flesh and blood', () => {
  const heard = (deg: number, traits: typeof usual, times = 4000) => {
    const draw = draws(4);
    return Array.from({ length: times }, () => hear(restingHand(deg), call(deg, 0), traits, draw).coming[0] ?? null);
  };

  it('mishears and overhears as often as it is said to, six for three', () => {
    const goals = heard(6.5, { ...exact, misheard: 0.1, unheard: 0.05 });
    expectClose(goals.filter((goal) => goal === null).length / 4000, 0.05, 0.015, 'unheard');
    // One of the two digits is taken for another: 3.5, or 6.9.
    expectClose(goals.filter((goal) => goal?.deg === 3.5).length / 4000, 0.05, 0.015, 'six taken for three');
    expectClose(goals.filter((goal) => goal?.deg === 6.9).length / 4000, 0.05, 0.015, 'five taken for nine');
  });

  it('does not believe a number that is out of the question', () => {
    expect(heard(31, { ...exact, misheard: 1 }, 100).every((goal) => goal === null)).toBe(true);
  });

  /** Derived: even over a step s, the deviation is s/sqrt(12). */
  it('stops anywhere within the step that the readout shows', () => {
    const offs = heard(7, { ...exact, readoutDeg: 0.5 }).map((goal) => (goal?.deg ?? 7) - 7);
    expect(Math.max(...offs.map(Math.abs))).toBeLessThanOrEqual(0.25);
    expectClose(
      Math.sqrt(offs.reduce((sum, off) => sum + off * off, 0) / 4000),
      0.5 / Math.sqrt(12),
      0.005,
      'deviation',
    );
  });

  it('slips by a whole step as often as it is said to', () => {
    const slipped = heard(7, { ...exact, readoutDeg: 0.5, slips: 0.1 }).filter(
      (goal) => Math.abs((goal?.deg ?? 7) - 7) > 0.25,
    );
    expectClose(slipped.length / 4000, 0.1, 0.015, 'slips');
  });

  /**
   * Laming 1968: 384 ms to recognise (second-hand, check values section 8); a lognormal's median is its parameter, whatever
   * the spread (derived).
   */
  it('reacts about its median, never quicker than to a plain sound', () => {
    const times = heard(7, { ...usual, reactionMs: 384, misheard: 0, unheard: 0 }).map((goal) => goal?.fromMs ?? 0);
    times.sort((a, b) => a - b);
    expectClose(times[2000] ?? 0, 384, 8, 'median');
    const logs = times.map((time) => Math.log(time / 384));
    expectClose(Math.sqrt(logs.reduce((sum, log) => sum + log * log, 0) / 4000), usual.reactionSpread, 0.01, 'spread');
    const quick = heard(7, { ...usual, reactionMs: 150, misheard: 0, unheard: 0 }).map((goal) => goal?.fromMs ?? 0);
    expect(Math.min(...quick)).toBe(QUICKEST_MS);
  });
});
