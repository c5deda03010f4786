import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  BOUNCE_MS,
  type FootInput,
  footStep,
  footWakeAtMs,
  HOLD_MS,
  heldGestures,
  NO_FOOT,
  type PedalDuty,
  type PedalSign,
} from '../../../server/core/pedal/footKeptDown.ts';

/** The signs that a series of inputs gives. */
function signs(inputs: readonly FootInput[]): PedalSign[] {
  let foot = NO_FOOT;
  return inputs.flatMap((input) => {
    const [next, sign] = footStep(foot, input);
    foot = next;
    return sign === null ? [] : [sign];
  });
}
const down = (atMs: number, duty: PedalDuty = 'press'): FootInput => ({ kind: 'down', pedal: duty, duty, atMs });
const up = (atMs: number, pedal: PedalDuty = 'press'): FootInput => ({ kind: 'up', pedal, atMs });
const woken = (atMs: number): FootInput => ({ kind: 'woken', atMs });

describe('a foot on the pedal', () => {
  it('counts a press the moment that it comes down', () => {
    expect(signs([down(0)])).toEqual(['press']);
    expect(signs([down(0), up(120), down(400), up(500)])).toEqual(['press', 'press']);
  });

  it('passes over the repeats of a key that is held and the bounces of a worn switch', () => {
    expect(signs([down(0), down(300), down(330)])).toEqual(['press']);
    expect(signs([down(0), up(3), down(6), up(9), down(14), up(150)])).toEqual(['press']);
    expect(signs([down(0), up(100), down(100 + BOUNCE_MS - 1)])).toEqual(['press']);
    expect(signs([down(0), up(100), down(100 + BOUNCE_MS)])).toEqual(['press', 'press']);
  });

  it('is a stop when it stays down, once, and bounces do not shorten or lengthen the wait', () => {
    expect(signs([down(0), woken(HOLD_MS - 1), woken(HOLD_MS), woken(2 * HOLD_MS)])).toEqual(['press', 'held']);
    expect(signs([down(0), up(5), down(10), woken(HOLD_MS)])).toEqual(['press', 'held']);
    expect(signs([down(0), up(HOLD_MS - 1), woken(HOLD_MS)])).toEqual(['press']);
    expect(signs([down(0), woken(HOLD_MS), up(900), down(905), woken(905 + HOLD_MS)])).toEqual(['press', 'held']);
  });

  it('is a stop also where nobody looked in time, and then once', () => {
    expect(signs([down(0), up(HOLD_MS)])).toEqual(['press', 'held']);
    expect(signs([down(0), up(HOLD_MS + 5), down(HOLD_MS + 10), woken(3 * HOLD_MS)])).toEqual(['press', 'held']);
  });

  it('lets go when no release will be seen: no stop follows', () => {
    expect(signs([down(0), { kind: 'released' }, woken(HOLD_MS)])).toEqual(['press']);
  });

  it('holds only on the press: a long "again" is one "again"', () => {
    expect(signs([down(0, 'again'), woken(HOLD_MS), up(1000, 'again')])).toEqual(['again']);
  });

  it('wants to be looked at at the end of the hold time, and not once it is held or lifted', () => {
    const [foot] = footStep(NO_FOOT, down(50));
    expect(footWakeAtMs(foot)).toBe(50 + HOLD_MS);
    expect(footWakeAtMs(footStep(foot, up(90))[0])).toBeNull();
    expect(footWakeAtMs(footStep(foot, woken(50 + HOLD_MS))[0])).toBeNull();
    expect(footWakeAtMs(footStep(NO_FOOT, down(50, 'again'))[0])).toBeNull();
  });

  it('takes back only a press that was counted, before the stop', () => {
    expect(heldGestures(true)).toEqual(['back', 'stop']);
    expect(heldGestures(false)).toEqual(['stop']);
  });

  it('never counts more presses than there are clean ones, whatever the switch does', () => {
    const bouncy = fc.array(
      fc.record({
        bounces: fc.array(fc.integer({ min: 1, max: BOUNCE_MS - 1 }), { maxLength: 4 }),
        restMs: fc.integer({ min: 200, max: 600 }),
      }),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(bouncy, (presses) => {
        let atMs = 0;
        const inputs = presses.flatMap(({ bounces, restMs }) => {
          const press: FootInput[] = [down(atMs)];
          for (const gapMs of bounces) {
            press.push(up(atMs), down(atMs + gapMs));
            atMs += gapMs;
          }
          atMs += 100;
          press.push(up(atMs));
          atMs += restMs;
          return press;
        });
        expect(signs(inputs)).toEqual(presses.map(() => 'press'));
      }),
      { numRuns: 200 },
    );
  });

  it('whatever comes in: no press without a foot that came down, and at most one hold behind each press', () => {
    const inputs = fc.array(
      fc.tuple(
        fc.constantFrom<FootInput['kind']>('down', 'up', 'woken', 'released'),
        fc.constantFrom<PedalDuty>('press', 'press', 'again'),
        fc.oneof(fc.integer({ min: 0, max: BOUNCE_MS + 5 }), fc.integer({ min: 0, max: 2 * HOLD_MS })),
      ),
      { maxLength: 40 },
    );
    fc.assert(
      fc.property(inputs, (drawn) => {
        let atMs = 0;
        let foot = NO_FOOT;
        let isHoldLeft = false;
        for (const [kind, duty, afterMs] of drawn) {
          atMs += afterMs;
          const input: FootInput =
            kind === 'down'
              ? down(atMs, duty)
              : kind === 'up'
                ? up(atMs, duty)
                : kind === 'woken'
                  ? woken(atMs)
                  : { kind };
          const [next, sign] = footStep(foot, input);
          foot = next;
          if (sign === 'held') {
            expect(isHoldLeft).toBe(true);
            isHoldLeft = false;
          } else if (sign !== null) {
            expect(input).toMatchObject({ kind: 'down', duty: sign });
            isHoldLeft = sign === 'press';
          }
          // Whoever looks when asked to is never asked again for the same hold.
          const wakeAtMs = footWakeAtMs(foot);
          if (wakeAtMs !== null) expect(footStep(foot, woken(wakeAtMs))[1]).toBe('held');
        }
      }),
      { numRuns: 300 },
    );
  });
});
