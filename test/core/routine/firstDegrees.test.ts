/**
 * Worked by hand: a bevel that rises by 4° every 100 mm from 0°, so that 0.5° becomes right 6.25 mm on, 1° at 18.75 mm, 1.5° at
 * 31.25 mm. A reaction of 0.35 s, 1.4° a second at the wheel, a speed that is told 0.08 s late.
 */
import { expect, test } from 'vitest';
import type { PacedRip } from '../../../server/core/routine/crewTime.ts';
import { degreesAtTheStart } from '../../../server/core/routine/firstDegrees.ts';
import { expectClose } from '../../kit/close.ts';
import { aRip } from '../pace/pacedRips.ts';

const LONG_MM = 300;
const crew = { reactionS: 0.35, turnsPerS: 0.7, feedMPerMin: 3 };

function rising(wordsS: (deg: number) => number, headLeads = false, hand: 1 | -1 = 1): PacedRip {
  const ends = [0, 12].map((deg, i) => {
    const alongMm = headLeads ? LONG_MM - i * LONG_MM : i * LONG_MM;
    return { mark: i + 1, alongMm, callDeg: hand * deg, wordsS: 1 };
  });
  return { ...aRip(ends, crew, 2), figureWordsS: (deg) => wordsS(Math.abs(deg)) };
}
const mPerMin = (mm: number, s: number): number => (60 * mm) / (1000 * s);
const limitOf = (rip: PacedRip): number => degreesAtTheStart(rip).limitMPerMin ?? Number.NaN;

test('the first figure must be understood before the tilt is half a degree, and half of what the readout shows, behind', () => {
  // 0.75° is 18.75 mm on; until then half a second of words is said and reacted to.
  expectClose(limitOf(rising(() => 0.5)), mPerMin(18.75, 0.08 + 0.5 + 0.35), 1e-9, 'm/min');
  expect(degreesAtTheStart(rising(() => 0.5)).limitedBy).toBe('words');
});

test.each([
  [false, 1],
  [true, 1],
  [false, -1],
] as const)(
  'the second one waits for the first, and the tilt stands at that one: head first %s, hand %s',
  (headLeads, hand) => {
    // From 0.5°, 0.75° behind is 1.25°, 31.25 mm on.
    const wordsS = 0.08 + 0.5 + 0.06 + 1.2;
    const rip = rising((deg) => (deg === 1 ? 1.2 : 0.5), headLeads, hand);
    expectClose(limitOf(rip), mPerMin(31.25, wordsS + 0.35), 1e-9, 'm/min');
  },
);

test('one that is torn off for the next need not be over, but the next must be understood', () => {
  // The first would have to be over half the way on to where the second is due, 12.5 mm; the second 6.25 mm farther on.
  const rip = { ...rising((deg) => (deg === 0.5 ? 1.3 : 0.1)), crew: { ...crew, reactionS: 0 } };
  const over = mPerMin(12.5, 0.08 + 1.3);
  const understood = mPerMin(18.75, 0.08 + 1.3);
  expect(over).toBeLessThan(understood);
  expectClose(limitOf(rip), understood, 1e-9, 'm/min');
});

test('a readout of whole degrees is called by whole degrees', () => {
  // 1° is due at 12.5 mm, 2° at 37.5 mm; 1° behind is 25 mm on.
  const rip = rising(() => 0.5);
  expectClose(limitOf({ ...rip, saw: { ...rip.saw, readoutDeg: 1 } }), mPerMin(25, 0.08 + 0.5 + 0.35), 1e-9, 'm/min');
});

test('where nothing is turned nothing limits it', () => {
  const flat = aRip(
    [0, 1].map((i) => ({ mark: i + 1, alongMm: 300 * i, callDeg: 7, wordsS: 1 })),
    crew,
    2,
  );
  expect(degreesAtTheStart(flat)).toEqual({ limitMPerMin: null, limitedBy: null });
});
