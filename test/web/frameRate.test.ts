import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createFrameRate, type FrameVerdict } from '../../server/web/sockets/frameRate.ts';

/** Sends `perSecond` frames a second, evenly, and gives the verdicts. */
function verdicts(perSecond: number, seconds: number): FrameVerdict[] {
  const { arrived: verdictAt } = createFrameRate();
  return Array.from({ length: perSecond * seconds }, (_, n) => verdictAt(1e6 + (n * 1000) / perSecond));
}

test('200 frames a second are taken for ever', () => {
  expect(new Set(verdicts(200, 60))).toEqual(new Set(['take']));
});

test('201 frames a second are taken for five seconds, and then no more', () => {
  const told = verdicts(201, 6);
  expect(told.indexOf('close')).toBe(201 * 5);
});

test('a burst after a stall is taken; a flood is refused but not yet the end', () => {
  const { arrived: verdictAt } = createFrameRate();
  const told = Array.from({ length: 1200 }, () => verdictAt(0));
  expect(told.filter((verdict) => verdict === 'take')).toHaveLength(1000);
  expect(told).not.toContain('close');
  expect(verdictAt(1500)).toBe('take');
});

test('a quiet second in between begins the count anew', () => {
  const { arrived: verdictAt } = createFrameRate();
  const told: FrameVerdict[] = [];
  for (let second = 0; second < 20; second += 1)
    for (let n = 0; n < (second % 5 === 4 ? 10 : 300); n += 1) told.push(verdictAt(second * 1000 + n));
  expect(new Set(told)).toEqual(new Set(['take']));
});

test('nobody at or under 200 in any second is ever let go', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 200 }), { maxLength: 30 }), (seconds) => {
      const { arrived: verdictAt } = createFrameRate();
      verdictAt(0);
      const told = seconds.flatMap((count, second) =>
        Array.from({ length: count }, (_, n) => verdictAt((second + 1) * 1000 + n)),
      );
      expect(told).not.toContain('close');
    }),
  );
});

test('an over-long frame is taken for as many as it is long, and ends nothing', () => {
  const { arrived: verdictAt } = createFrameRate();
  const told = Array.from({ length: 190 * 6 }, (_, n) => verdictAt((n * 1000) / 190, 16 * 1024));
  expect(told.slice(0, 190).filter((verdict) => verdict === 'take')).toHaveLength(Math.floor(1000 / 16));
  expect(told).not.toContain('close');
});
