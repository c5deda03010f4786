/** Frames from offsets: knuckles, cant, faces and planking, by laws that hold on any hull. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type FrameStand, type HullFrame, hullFrame } from '../../../server/core/frame/hullFrame.ts';
import { type HullSurface, hullSurface } from '../../../server/core/hull/surface.ts';
import { radToDeg } from '../../../server/core/units.ts';
import { expectClose } from '../../kit/close.ts';
import { holds } from '../../kit/holds.ts';
import { evenly, offsetTable } from '../../kit/offsetTable.ts';
import { offsetsOf, randomHull } from '../hull/analyticHull.ts';
import { chance } from './fairFrames.ts';

const PLAIN = { cantDeg: 0, plankingMm: 0, sidingMm: 50, mouldedFace: 'forward' } as const;
function frameOf(surface: HullSurface, stand: Partial<FrameStand> & { readonly atMm: number }): HullFrame {
  const frame = hullFrame(surface, { ...PLAIN, ...stand });
  if (frame === undefined) throw new Error(`no frame at ${stand.atMm}`);
  return frame;
}
const along = (frame: HullFrame, parts = 24) => evenly(0, frame.girthMm, parts + 1).map((girthMm) => frame.at(girthMm));

describe('a chine', () => {
  /** Two plane strakes: bottom y = 60 + (x/10) + 3 z, side y = y of the chine + (z - z of the chine)/4, chine at z = 200 + x/40. */
  const table = offsetTable(evenly(0, 6000, 13), (x) => {
    const [zChine, yKeel] = [200 + x / 40, 60 + x / 10];
    const yChine = yKeel + 3 * zChine;
    return [
      ...evenly(0, zChine, 6).map((z, i) =>
        i === 5 ? ([yKeel + 3 * z, z, 'knuckle'] as const) : ([yKeel + 3 * z, z] as const),
      ),
      ...evenly(zChine, zChine + 700, 7)
        .slice(1)
        .map((z) => [yChine + (z - zChine) / 4, z] as const),
    ];
  });
  const surface = hullSurface(table);
  const bottomDeg = radToDeg(Math.atan(1 / 10 / Math.hypot(1, 3)));
  // On the side y = 60 + x/10 + 3(200 + x/40) + (z - 200 - x/40)/4: f_x = 1/10 + (3 - 1/4)/40.
  const sideDeg = radToDeg(Math.atan((1 / 10 + (3 - 1 / 4) / 40) / Math.hypot(1, 1 / 4)));

  test('stays sharp: each strake has its own bevel right up to it', () => {
    const frame = frameOf(surface, { atMm: 2750 });
    const [knuckleMm = 0] = frame.knucklesMm;
    expectClose(knuckleMm, (200 + 2750 / 40) * Math.hypot(1, 3), 1e-6, 'girth of the knuckle');
    expectClose(frame.at(knuckleMm, 'below').bevelDeg, bottomDeg, 1e-6, 'below');
    expectClose(frame.at(knuckleMm, 'above').bevelDeg, sideDeg, 1e-6, 'above');
    for (const girthMm of evenly(0, frame.girthMm, 60)) {
      const wanted = girthMm < knuckleMm ? bottomDeg : sideDeg;
      expectClose(frame.at(girthMm).bevelDeg, wanted, 1e-6, `bevel at girth ${girthMm}`);
      expectClose(frame.at(girthMm).sawnDeg, wanted, 1e-4, `sawn at girth ${girthMm}`);
    }
  });

  test('unmarked it is rounded: the mark is worth its column', () => {
    const plain = hullSurface({
      ...table,
      stations: table.stations.map((one) => ({
        ...one,
        points: one.points.map((point) => ({ ...point, isKnuckle: false })),
      })),
    });
    const errors = along(frameOf(plain, { atMm: 2750 }), 60).map(({ bevelDeg }) =>
      Math.min(Math.abs(bevelDeg - bottomDeg), Math.abs(bevelDeg - sideDeg)),
    );
    expect(Math.max(...errors)).toBeGreaterThan(0.2);
  });
});

const anyHull = fc.integer({ min: 0, max: 1e6 }).map((n) => {
  const hull = randomHull(chance(n));
  return { lengthMm: hull.traits.lengthMm, surface: hullSurface(offsetsOf(hull, 21, 15, 0)) };
});
const share = fc.double({ min: 0.1, max: 0.9, noNaN: true });

describe('on any hull', () => {
  test('what is standing from the forward face is under from the aft face', () => {
    holds(
      fc.property(anyHull, share, ({ lengthMm, surface }, at) => {
        const [fore, aft] = (['forward', 'aft'] as const).map((mouldedFace) =>
          along(frameOf(surface, { atMm: at * lengthMm, mouldedFace })),
        );
        fore?.forEach((place, i) => {
          expectClose(place.bevelDeg, -(aft?.[i]?.bevelDeg ?? 0), 1e-9);
        });
      }),
      { numRuns: 25 },
    );
  });

  test('one frame seen from its two faces has one chord: at the same place the sawn bevels are opposite', () => {
    holds(
      fc.property(anyHull, share, ({ lengthMm, surface }, at) => {
        const atMm = at * lengthMm;
        const front = frameOf(surface, { atMm });
        const back = frameOf(surface, { atMm: atMm + PLAIN.sidingMm, mouldedFace: 'aft' });
        // The planes square to the two edges differ a little where the section turns: to the second order of the siding.
        along(front)
          .slice(2, -2)
          .forEach((place, i) => {
            const there = (back.girthMm * (i + 2)) / 24;
            expectClose(place.sawnDeg, -back.at(there).sawnDeg, 0.35, `at ${there}`);
          });
      }),
      { numRuns: 15 },
    );
  });

  test('the narrower the siding, the nearer the chord to the tangent, and the hollow with the square of it', () => {
    holds(
      fc.property(anyHull, share, ({ lengthMm, surface }, at) => {
        const [wide, narrow] = [80, 40].map((sidingMm) => along(frameOf(surface, { atMm: at * lengthMm, sidingMm })));
        const worst = (places: typeof wide, f: (place: ReturnType<HullFrame['at']>) => number): number =>
          Math.max(...(places ?? []).map((place) => Math.abs(f(place))));
        const apart = ({ bevelDeg, sawnDeg }: ReturnType<HullFrame['at']>): number => bevelDeg - sawnDeg;
        expect(worst(narrow, apart)).toBeLessThan(0.6 * worst(wide, apart) + 1e-3);
        expect(worst(narrow, ({ hollowMm }) => hollowMm)).toBeLessThan(
          0.35 * worst(wide, ({ hollowMm }) => hollowMm) + 1e-3,
        );
      }),
      { numRuns: 25 },
    );
  });

  test('less planking, the frame keeps its bevels along the normal and lies one thickness in', () => {
    holds(
      fc.property(anyHull, share, ({ lengthMm, surface }, at) => {
        const [outside, inside] = [0, 25].map((plankingMm) => frameOf(surface, { atMm: at * lengthMm, plankingMm }));
        if (outside === undefined || inside === undefined) throw new Error('no frame');
        for (const place of along(inside).slice(3, -3)) {
          const gap = Math.min(
            ...evenly(0, outside.girthMm, 600).map((girthMm) => {
              const out = outside.at(girthMm);
              return Math.hypot(out.yMm - place.yMm, out.zMm - place.zMm);
            }),
          );
          // In the frame's plane the thickness is that over cos b.
          expectClose(gap * Math.cos((place.bevelDeg * Math.PI) / 180), 25, 0.2, 'thickness');
        }
      }),
      { numRuns: 8 },
    );
  });

  test('a canted frame has its bevels all along, to the one side and the other', () => {
    holds(
      fc.property(anyHull, fc.integer({ min: -20, max: 20 }), ({ lengthMm, surface }, cantDeg) => {
        const frame = frameOf(surface, { atMm: lengthMm / 2, cantDeg, sidingMm: 20 });
        for (const place of along(frame)) {
          expect(Math.abs(place.bevelDeg)).toBeLessThan(90);
          expect(Number.isFinite(place.sawnDeg)).toBe(true);
        }
      }),
      { numRuns: 20 },
    );
  });

  test('a frame of which a face leaves the hull altogether is none', () => {
    const surface = hullSurface(
      offsetTable(evenly(0, 3000, 5), () => [
        [100, 0],
        [500, 100],
        [900, 600],
      ]),
    );
    expect(hullFrame(surface, { ...PLAIN, atMm: 40, cantDeg: -75 })).toBeUndefined();
  });
});
