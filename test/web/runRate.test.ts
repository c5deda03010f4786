import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createRunRate, READINGS_A_SECOND } from '../../server/web/sockets/runRate.ts';

/** Each source sends so many in a second, evenly; how many are taken of each. */
function takenOf(perSecond: readonly number[], takes = createRunRate(), run = 'r'): readonly number[] {
  const sent = perSecond.flatMap((count, source) =>
    Array.from({ length: count }, (_, n) => ({ source, atMs: 5000 + (n * 999) / count })),
  );
  const taken = perSecond.map(() => 0);
  for (const { source, atMs } of sent.toSorted((a, b) => a.atMs - b.atMs))
    if (takes(run, `s${source}`, atMs)) taken[source] = (taken[source] ?? 0) + 1;
  return taken;
}

test('ten senders at all that one may send lose nothing', () => {
  expect(takenOf(Array(10).fill(200))).toEqual(Array(10).fill(200));
});

test('of twenty at 190 what is over the limit is refused, and the one beside them who sends little loses nothing', () => {
  const taken = takenOf([...Array(20).fill(190), 50]);
  expect(taken[20]).toBe(50);
  expect(taken.reduce((a, b) => a + b)).toBeLessThan(1.05 * READINGS_A_SECOND);
});

test('another run is not touched', () => {
  const takes = createRunRate();
  takenOf(Array(40).fill(200), takes, 'flooded');
  expect(takenOf([190, 20], takes, 'honest')).toEqual([190, 20]);
});

test('whoever sends less than an even share has all of it taken, whatever the others send', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 1, max: 1000 }), { minLength: 1, maxLength: 15 }), (others) => {
      const share = Math.floor(READINGS_A_SECOND / (others.length + 1));
      expect(takenOf([share, ...others])[0]).toBe(share);
    }),
    { numRuns: 50 },
  );
});
