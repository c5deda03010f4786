/**
 * Takes the rounding of a table of offsets out of it again, as far as neighbouring stations tell it: lines of even share of the girth
 * are smoothed fore and aft, and each point moves square to its section by what the line through its place moved, never by more than
 * the tolerance. Rounding to a step q spreads evenly over q, so its rms is q / sqrt 12, with half a step as tolerance.
 * Source: fairLines.ts. What bevels gain by it is measured in test/core/hull/fairOffsets.test.ts.
 */
import { evenNodes } from '../numeric/evenNodes.ts';
import { fairLines } from '../numeric/fairLines.ts';
import { unitSpline } from '../numeric/unitSpline.ts';
import type { Cell, OffsetPoint, OffsetTable } from './offsets.ts';
import { pieces } from './surface.ts';

export interface MovedPoint {
  readonly station: string;
  readonly row: number;
  readonly column: string;
  readonly fromMm: readonly [y: number, z: number];
  readonly toMm: readonly [y: number, z: number];
}

/** Lines over a whole section; on a piece between knuckles as many, so that short pieces are not told by one line. */
const LINES = 24;
/** Points that move by less than this stay (mm): nobody can measure it. */
const LEAST_MM = 1e-4;

/** The faired table and the points that moved, by at most `toleranceMm` each. */
export function fairOffsets(
  table: OffsetTable,
  toleranceMm: number,
): { readonly table: OffsetTable; readonly moved: readonly MovedPoint[] } {
  const { stations } = table;
  const x = Float64Array.from(stations, ({ xMm }) => xMm);
  const parted = stations.map(pieces);
  const to = new Map<OffsetPoint, OffsetPoint>();
  const count = Math.min(...parted.map((parts) => parts.length));
  for (let piece = 0; piece < count; piece++)
    fairPiece(
      x,
      parted.map((parts) => parts[piece] ?? []),
      toleranceMm,
      to,
    );
  if (to.size === 0) return { table, moved: [] };
  const faired = stations.map((station) => ({
    ...station,
    points: station.points.map((point) => to.get(point) ?? point),
  }));
  const moved = stations.flatMap(({ label, points }) =>
    points.flatMap((point) => {
      const there = to.get(point);
      return there === undefined ? [] : [movedPoint(label, point, there)];
    }),
  );
  return { table: { ...table, stations: faired }, moved };
}

function fairPiece(
  x: Float64Array,
  sections: readonly (readonly OffsetPoint[])[],
  toleranceMm: number,
  to: Map<OffsetPoint, OffsetPoint>,
): void {
  const size = x.length * LINES;
  const fields = {
    u: new Float64Array(size),
    v: new Float64Array(size),
    nu: new Float64Array(size),
    nv: new Float64Array(size),
  };
  const shares: Float64Array[] = [];
  sections.forEach((points, i) => {
    const even = evenNodes(
      points.map(({ yMm, zMm }) => [yMm, zMm] as const),
      LINES,
    );
    fields.u.set(even.u, i * LINES);
    fields.v.set(even.v, i * LINES);
    const [u, v] = [unitSpline(even.u), unitSpline(even.v)];
    for (let k = 0; k < LINES; k++) {
      const [du, dv] = [u.slopeAt(k), v.slopeAt(k)];
      const speed = Math.hypot(du, dv);
      fields.nu[i * LINES + k] = dv / speed;
      fields.nv[i * LINES + k] = -du / speed;
    }
    shares.push(even.share);
  });
  const moves = fairLines(x, LINES, fields, toleranceMm / Math.sqrt(3));
  if (moves === undefined) return;
  sections.forEach((points, i) => {
    const at = (field: Float64Array) => unitSpline(field.subarray(i * LINES, (i + 1) * LINES));
    const [by, nu, nv] = [at(moves), at(fields.nu), at(fields.nv)];
    points.forEach((point, j) => {
      const line = (shares[i]?.[j] ?? 0) * (LINES - 1);
      const byMm = Math.min(toleranceMm, Math.max(-toleranceMm, by.valueAt(line)));
      if (Math.abs(byMm) < LEAST_MM || to.has(point)) return;
      const [ny, nz] = [nu.valueAt(line), nv.valueAt(line)];
      const size = Math.hypot(ny, nz);
      // A half-breadth on the middle line stays on it.
      const yMm = point.yMm === 0 ? 0 : Math.max(0, point.yMm + (byMm * ny) / size);
      to.set(point, { ...point, yMm, zMm: point.zMm + (byMm * nz) / size });
    });
  });
}

function movedPoint(station: string, from: OffsetPoint, to: OffsetPoint): MovedPoint {
  const byY = Math.abs(to.yMm - from.yMm) >= Math.abs(to.zMm - from.zMm);
  const { row, column }: Cell = byY ? from.yCell : from.zCell;
  return { station, row, column, fromMm: [from.yMm, from.zMm], toMm: [to.yMm, to.zMm] };
}
