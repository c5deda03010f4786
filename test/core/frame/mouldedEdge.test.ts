import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mouldedEdge } from '../../../server/core/frame/mouldedEdge.ts';
import { expectClose } from '../../kit/close.ts';

/** A quarter circle from the heel, flat, up to plumb; or its mirror, which turns the other way. */
const arc = (radiusMm: number, everyDeg: number, turn: 1 | -1 = 1) =>
  Array.from({ length: 90 / everyDeg + 1 }, (_, i) => {
    const angle = (i * everyDeg * Math.PI) / 180;
    const [along, across] = [radiusMm * Math.sin(angle), radiusMm * (1 - Math.cos(angle))];
    return turn === 1 ? { yMm: along, zMm: across } : { yMm: across, zMm: along };
  });

describe('the moulded edge', () => {
  // Closed form of a circle: girth r pi / 2, distance from the centre r, curvature 1 / r.
  test.each([
    [5, 2e-8, 2e-6, 6e-3],
    [10, 2e-6, 3e-5, 2.2e-2],
    [15, 2e-5, 1.4e-4, 4.6e-2],
  ])('of a circular arc with a point every %d degrees', (everyDeg, lengthBound, radiusBound, curvatureBound) => {
    const radiusMm = 600;
    const edge = mouldedEdge(arc(radiusMm, everyDeg));
    expectClose(edge.girthMm / (radiusMm * (Math.PI / 2)), 1, lengthBound, 'girth');
    for (let k = 0; k <= 60; k++) {
      const { yMm, zMm, curvaturePerMm } = edge.at((edge.girthMm * k) / 60);
      expectClose(Math.hypot(yMm, zMm - radiusMm) / radiusMm, 1, radiusBound, `radius at ${k}/60`);
      expectClose(curvaturePerMm * radiusMm, 1, curvatureBound, `curvature at ${k}/60`);
      expectClose(Math.atan2(yMm, radiusMm - zMm) / (Math.PI / 2), k / 60, 2e-4, `angle at ${k}/60`);
    }
  });

  test('curves negatively at a reverse turn', () => {
    const edge = mouldedEdge(arc(600, 10, -1));
    expectClose(edge.at(edge.girthMm / 2).curvaturePerMm * 600, -1, 0.01, 'curvature');
  });

  test('changes the sign of its curvature once along an S', () => {
    const points = Array.from({ length: 13 }, (_, i) => ({ yMm: 300 + 300 * Math.tanh((i - 6) / 3), zMm: i * 100 }));
    const edge = mouldedEdge(points);
    const signs = [0.15, 0.3, 0.45, 0.55, 0.7, 0.85].map((share) =>
      Math.sign(edge.at(edge.girthMm * share).curvaturePerMm),
    );
    expect(signs).toEqual([-1, -1, -1, 1, 1, 1]);
  });

  test('of points on a straight line is straight, and its girth the distance', () => {
    const somewhere = fc.integer({ min: -2000, max: 2000 });
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 500 }), { minLength: 1, maxLength: 10 }),
        somewhere,
        somewhere,
        fc.integer({ min: 0, max: 359 }),
        (steps, yMm, zMm, headingDeg) => {
          const angle = (headingDeg * Math.PI) / 180;
          const place = (along: number) => ({ yMm: yMm + along * Math.cos(angle), zMm: zMm + along * Math.sin(angle) });
          const total = steps.reduce((sum, step) => sum + step, 0);
          const edge = mouldedEdge(
            [0, ...steps.map((_, i) => steps.slice(0, i + 1).reduce((sum, step) => sum + step, 0))].map(place),
          );
          expectClose(edge.girthMm, total, 1e-7, 'girth');
          for (const share of [-0.2, 0, 0.31, 1, 1.3]) {
            const [found, wanted] = [edge.at(total * share), place(total * share)];
            expectClose(Math.hypot(found.yMm - wanted.yMm, found.zMm - wanted.zMm), 0, 1e-6, `place at ${share}`);
            expectClose(found.curvaturePerMm, 0, 1e-9, `curvature at ${share}`);
          }
        },
      ),
    );
  });

  test('takes a point given twice for one', () => {
    const points = arc(600, 15);
    const twice = points.flatMap((point, i) => (i === 3 ? [point, point] : [point]));
    expect(mouldedEdge(twice).girthMm).toBe(mouldedEdge(points).girthMm);
  });

  test('refuses a single place', () => {
    expect(() =>
      mouldedEdge([
        { yMm: 1, zMm: 2 },
        { yMm: 1, zMm: 2 },
      ]),
    ).toThrow('at least 2 points, got 1');
  });
});
