/** The moulded edge against curves whose length and curvature have closed forms (status: derived; see each). */
import { describe, test } from 'vitest';
import { mouldedEdge } from '../../server/core/frame/mouldedEdge.ts';
import { expectClose } from '../kit/close.ts';
import { exactCurvaturePerMm, girthFromKeelMm, halfBreadthMm, keelDownMm } from './wigleySection.ts';

describe('a section of the Wigley hull (formula: read; girth and curvature of its parabola: derived)', () => {
  test.each([
    [2500, 9],
    [1250, 13],
    [0, 17],
  ])('%d mm from midships, %d points', (x, points) => {
    const downsMm = Array.from({ length: points }, (_, i) => keelDownMm * (1 - i / (points - 1)));
    const edge = mouldedEdge(downsMm.map((down) => ({ yMm: halfBreadthMm(x, down), zMm: -down })));
    expectClose(edge.girthMm, girthFromKeelMm(x, 0), 0.01, 'girth');
    for (const down of [600, 450, 312.5, 150, 20]) {
      const found = edge.at(girthFromKeelMm(x, down));
      expectClose(found.zMm, -down, 0.03, `height ${down} down`);
      expectClose(found.yMm, halfBreadthMm(x, down), 0.03, `half-breadth ${down} down`);
      const exact = exactCurvaturePerMm(x, down);
      expectClose(found.curvaturePerMm / exact, 1, 0.03, `curvature ${down} down`);
    }
  });
});

/**
 * An ellipse of half-axes 2 and 1: perimeter 9.688448220547675. Source: the complete elliptic integral, 4 a E(m = 3/4) with
 * E(3/4) = 1.2110560275684594 (Abramowitz and Stegun, table 17.1; from memory, and computed with scipy.special.ellipe).
 * Curvature at the ends of the axes a/b^2 and b/a^2 (derived).
 */
test('a quarter of an ellipse', () => {
  const [a, b] = [2000, 1000];
  const points = Array.from({ length: 25 }, (_, i) => {
    const angle = ((i / 24) * Math.PI) / 2;
    return { yMm: a * Math.sin(angle), zMm: -b * Math.cos(angle) };
  });
  const edge = mouldedEdge(points);
  expectClose(edge.girthMm, a * 1.2110560275684594, 0.01, 'girth');
  // At its very ends the interpolated edge knows its curvature worst: to 4 % with a point every 3.75 degrees of the angle.
  expectClose(edge.at(0).curvaturePerMm, b / a ** 2, 0.04 * (b / a ** 2), 'curvature at the bottom');
  expectClose(edge.at(edge.girthMm).curvaturePerMm, a / b ** 2, 0.04 * (a / b ** 2), 'curvature at the side');
});
