import fc from 'fast-check';
import { expect, it } from 'vitest';
import { steepestBetween, tiltAt, tiltsFrom } from '../../../../server/core/run/engine/profile.ts';
import { expectClose } from '../../../kit/close.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

const setup = smallSetup();
/** Also before the first mark and behind the last, where theirs holds. */
const place = fc.double({ min: -50, max: 700, noNaN: true });

it('gives the tilts along the stock that it gives place by place', () => {
  fc.assert(
    fc.property(place, fc.double({ min: 0.1, max: 90, noNaN: true }), fc.nat({ max: 30 }), (fromMm, everyMm, count) => {
      const tilts = tiltsFrom(setup, fromMm, everyMm, count);
      expect(tilts).toHaveLength(count);
      for (const [index, tilt] of tilts.entries())
        expectClose(tilt, tiltAt(setup, fromMm + index * everyMm), 1e-12, `place ${index}`);
    }),
  );
});

it('finds the steepest change of the stretches that lie between two places, and of no others', () => {
  const { positionsMm, tiltsDeg } = setup.profile;
  fc.assert(
    fc.property(place, fc.double({ min: 0.1, max: 300, noNaN: true }), (fromMm, wayMm) => {
      const wanted = positionsMm.slice(1).flatMap((toMm, index) => {
        const before = positionsMm[index] ?? 0;
        const isBetween = toMm > fromMm && before < fromMm + wayMm;
        return isBetween ? [Math.abs((tiltsDeg[index + 1] ?? 0) - (tiltsDeg[index] ?? 0)) / (toMm - before)] : [];
      });
      expect(steepestBetween(setup, fromMm, fromMm + wayMm)).toBe(Math.max(0, ...wanted));
    }),
  );
});
