/**
 * How the flats of the two wedges turn along the frame. A wedge bends as its flat does, for that is the face that was straight.
 *
 * The flat lies at a depth d inboard of the moulded edge. Where the wedge is as thick there all along, d is constant and the flat
 * runs parallel to the edge: its radius is R - d. Where the moulded edge is the thick edge, d changes with the bevel, and the flat
 * turns by that too. With k the edge's curvature (positive as a bilge, its centre inboard), T its direction and n its normal toward
 * the centre, F = P + d n has
 *     F'  = (1 - k d) T + d' n
 *     F'' = -(k' d + 2 k d') T + (k (1 - k d) + d'') n
 * and by the curvature of a plane curve, |F' x F''| / |F'|^3 (do Carmo, Differential Geometry of Curves and Surfaces, section 1-5,
 * from memory), the one below. The frame's own derivation; `test/core/stack/flats.test.ts` fits circles to the flat itself.
 */

import { interpolate } from '../numeric/interpolate.ts';
import { innerSawnDeg } from '../rip/registered.ts';
import type { PatternCurve, Rip } from '../rip/rip.ts';
import { type Edge, edgeOf, wedgesOf } from '../rip/wedges.ts';
import { lastRow, rowAt } from '../rowAt.ts';

/** How a flat's depth inboard of the moulded edge changes along it. */
interface DepthAlong {
  readonly slope: number;
  readonly bendPerMm: number;
}

/** What the flats do at one place, beside their depth there. */
export interface FlatsAlong {
  /** How fast the moulded edge's curvature changes along it, per mm2. */
  readonly curvatureSlope: number;
  readonly outer: DepthAlong;
  readonly inner: DepthAlong;
}

/** Wedges that are as thick at the moulded edge all along, in a turn of one radius. */
export const EVEN_FLATS: FlatsAlong = {
  curvatureSlope: 0,
  outer: { slope: 0, bendPerMm: 0 },
  inner: { slope: 0, bendPerMm: 0 },
};

/** By the number of the mark; undefined where no pattern tells how the frame turns. */
export type FlatsAt = (mark: number) => FlatsAlong | undefined;

/** Differences are taken over so much to either side: the bevel curve is a cubic, the inner line is known every few millimetres. */
const OVER_MM = 20;

interface Shape {
  readonly moulded: Edge;
  readonly mouldingMm: number;
  readonly marks: readonly { readonly mark: number; readonly girthMm: number; readonly yMm: number | null }[];
}

/** The flats of a rip at every mark that lies on the pattern. */
export function flatsOf(rip: Rip, pattern: PatternCurve | undefined, { moulded, mouldingMm, marks }: Shape): FlatsAt {
  if (pattern === undefined) return () => undefined;
  const { cut, sawn, orientation, places } = rip;
  const lines = {
    girthsMm: places.map(({ girthMm }) => girthMm),
    stockMm: places.map(({ stockMm }) => stockMm),
    innerStockMm: places.map(({ innerStockMm }) => innerStockMm),
  };
  const wedgesAt = (deg: number) => wedgesOf(cut, orientation.hand * deg, orientation.thickEdge);
  const outerDepth = (girthMm: number): number => edgeOf(wedgesAt(sawn.bevelAtDeg(girthMm)).outerMm, moulded);
  const innerDepth = (girthMm: number): number => {
    const innerStockMm = interpolate(lines.girthsMm, lines.innerStockMm, girthMm);
    return mouldingMm - edgeOf(wedgesAt(innerSawnDeg(lines, sawn, innerStockMm)).innerMm, moulded);
  };
  const curvature = (girthMm: number): number =>
    pattern.at(Math.min(pattern.girthMm, Math.max(0, girthMm))).curvaturePerMm;
  const [fromMm, toMm] = [rowAt(lines.girthsMm, 0), lastRow(lines.girthsMm)];
  const overMm = Math.min(OVER_MM, (toMm - fromMm) / 2);
  const found = new Map(
    marks
      .filter(({ yMm }) => yMm !== null)
      .map(({ mark, girthMm }): [number, FlatsAlong] => {
        // At the ends of the frame what is known just inside of them holds.
        const atMm = Math.min(toMm - overMm, Math.max(fromMm + overMm, girthMm));
        return [
          mark,
          {
            curvatureSlope: (curvature(atMm + overMm) - curvature(atMm - overMm)) / (2 * overMm),
            outer: alongOf(outerDepth, atMm, overMm),
            inner: alongOf(innerDepth, atMm, overMm),
          },
        ];
      }),
  );
  return (mark) => found.get(mark);
}

function alongOf(depthMm: (girthMm: number) => number, atMm: number, overMm: number): DepthAlong {
  const [before, at, after] = [depthMm(atMm - overMm), depthMm(atMm), depthMm(atMm + overMm)];
  return { slope: (after - before) / (2 * overMm), bendPerMm: (after - 2 * at + before) / overMm ** 2 };
}

/**
 * Curvature of a flat at this depth, per mm, positive as a bilge; null where the turn is sharper than the flat lies deep, so that
 * it cannot lie there at all.
 */
export function flatCurvature(
  edge: { readonly curvaturePerMm: number; readonly curvatureSlope: number },
  depthMm: number,
  { slope, bendPerMm }: DepthAlong,
): number | null {
  const { curvaturePerMm: k, curvatureSlope } = edge;
  const share = 1 - k * depthMm;
  if (share <= 0) return null;
  const across = share * (k * share + bendPerMm) + slope * (curvatureSlope * depthMm + 2 * k * slope);
  return across / (share ** 2 + slope ** 2) ** 1.5;
}
