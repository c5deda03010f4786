import type { PatternPoint } from '../job.ts';
import { planeSpline } from '../numeric/spline/planeSpline.ts';

export interface MouldedEdge {
  /** Its length from heel to head. */
  readonly girthMm: number;
  /**
   * The place on the moulded edge at a distance from the heel, and the curvature there: positive where it turns from outward to
   * upward, as a bilge does, negative at a reverse turn. Beyond its ends the edge runs on straight.
   */
  at(girthMm: number): { readonly yMm: number; readonly zMm: number; readonly curvaturePerMm: number };
}

/**
 * The moulded edge through the points of a pattern (half-breadth and height, from heel to head). A point given twice in
 * succession counts once. Throws where fewer than two different points remain.
 * Source: planeSpline.ts.
 */
export function mouldedEdge(points: readonly PatternPoint[]): MouldedEdge {
  const distinct = points.filter(({ yMm, zMm }, i) => yMm !== points[i - 1]?.yMm || zMm !== points[i - 1]?.zMm);
  const edge = planeSpline(distinct.map(({ yMm, zMm }) => [yMm, zMm] as const));
  return {
    girthMm: edge.length,
    at: (girthMm) => {
      const { u, v, curvature } = edge.at(girthMm);
      return { yMm: u, zMm: v, curvaturePerMm: curvature };
    },
  };
}
