import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { layCut, lineOf } from '../../../server/core/rip/cut.ts';
import { wedgesOf } from '../../../server/core/rip/wedges.ts';
import { RIP_DEFAULTS } from '../../../server/core/saw/sawDefaults.ts';
import { holds } from '../../kit/holds.ts';

const THIN_MM = RIP_DEFAULTS.thinnestEdgeMm;

const tilts = fc.array(fc.double({ min: -45, max: 45, noNaN: true }), { minLength: 1, maxLength: 20 });
const saws = fc.record({
  kerfMm: fc.double({ min: 0.5, max: 5, noNaN: true }),
  straightAtMm: fc.double({ min: -100, max: 200, noNaN: true }),
});
const sidings = fc.double({ min: 10, max: 150, noNaN: true });

describe('the cut', () => {
  test('one-handed, straight at the table, the stock is 2a + s tan b + k / cos b thick', () => {
    const b = (20 * Math.PI) / 180;
    const { thicknessMm } = layCut({ kerfMm: 2.4, straightAtMm: 0 }, 60, [0, 7, 20]);
    expect(thicknessMm).toBeCloseTo(2 * 3 + 60 * Math.tan(b) + 2.4 / Math.cos(b), 12);
  });

  test('no edge is thinner than the thinnest, one edge of each half is just that, and the section is a parallelogram', () => {
    holds(
      fc.property(
        saws,
        sidings,
        tilts,
        fc.constantFrom('forward' as const, 'aft' as const),
        (saw, siding, tilted, up) => {
          const cut = layCut(saw, siding, tilted);
          const wedges = tilted.map((tilt) => wedgesOf(cut, tilt, up));
          for (const { outerMm, innerMm } of wedges)
            expect(outerMm[0] + innerMm[0]).toBeCloseTo(outerMm[1] + innerMm[1], 8);
          expect(Math.min(...wedges.flatMap(({ outerMm }) => outerMm))).toBeCloseTo(THIN_MM, 8);
          expect(Math.min(...wedges.flatMap(({ innerMm }) => innerMm))).toBeCloseTo(THIN_MM, 8);
        },
      ),
    );
  });

  test('the line does not move at the height at which it is to run straight: along a fence that of the tilt axis', () => {
    holds(
      fc.property(saws, sidings, tilts, (saw, siding, tilted) => {
        const cut = layCut(saw, siding, tilted);
        for (const tilt of tilted) {
          const { topMm, bottomMm } = lineOf(cut, tilt);
          const atAxis = bottomMm + ((topMm - bottomMm) * saw.straightAtMm) / siding;
          expect(atAxis).toBeCloseTo(cut.lineMm, 6);
          expect(topMm - bottomMm).toBeCloseTo(siding * Math.tan((tilt * Math.PI) / 180), 8);
        }
      }),
    );
  });
});
