/**
 * Takes the rounding of a table of offsets out of it again, as far as neighbouring stations tell it: lines of even share of the girth
 * are smoothed fore and aft, and each point moves square to its section by what the line through its place moved, never by more than
 * the tolerance. Rounding to a step q spreads evenly over q, so its rms is q / sqrt 12, with half a step as tolerance.
 * Source: fairLines.ts. What bevels gain by it is measured in test/core/hull/fairOffsets.test.ts.
 */

import { evenNodes } from '../numeric/spline/evenNodes.ts';
import { fairLines, type LineFields, movesBy } from '../numeric/spline/fairLines.ts';
import { unitSpline } from '../numeric/spline/unitSpline.ts';
import { rowAt } from '../rowAt.ts';
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

export interface FairedOffsets {
  readonly table: OffsetTable;
  readonly moved: readonly MovedPoint[];
  /** Piece by piece between knuckles, what takes the stations' places to the faired ones (row after row); undefined where nothing was faired. */
  readonly smoothers: readonly (Float64Array | undefined)[];
}

/** The faired table and the points that moved, by at most `toleranceMm` each. */
export function fairOffsets(table: OffsetTable, toleranceMm: number): FairedOffsets {
  return movedTable(table, toleranceMm, (x, fields) => {
    const faired = fairLines(x, LINES, fields, toleranceMm / Math.sqrt(3));
    return faired === undefined ? undefined : [faired.moved, faired.smoother];
  });
}

/**
 * A faired table under the same smoothers once more. What moves again is about what fairing has taken from the shape itself.
 * Source: twicing, Tukey, Exploratory Data Analysis, 1977, section 16 (from memory): smooth(smooth) - smooth stands for the smoother's bias.
 */
export function fairedAgain({ table, smoothers }: FairedOffsets, toleranceMm: number): OffsetTable {
  return movedTable(table, toleranceMm, (x, fields, piece) => {
    const smoother = smoothers[piece];
    return smoother === undefined ? undefined : [movesBy(smoother, x.length, LINES, fields), smoother];
  }).table;
}

/** The moves of a piece's lines, and the smoother that they come from. */
type Fairing = (
  x: Float64Array,
  fields: LineFields,
  piece: number,
) => readonly [moves: Float64Array, smoother: Float64Array] | undefined;

function movedTable(table: OffsetTable, toleranceMm: number, fairing: Fairing): FairedOffsets {
  const { stations } = table;
  const x = Float64Array.from(stations, ({ xMm }) => xMm);
  const parted = stations.map(pieces);
  const to = new Map<OffsetPoint, OffsetPoint>();
  const count = Math.min(...parted.map((parts) => parts.length));
  const smoothers = Array.from({ length: count }, (_, piece) => {
    const sections = parted.map((parts) => parts[piece] ?? []);
    const { fields, shares } = linesOf(sections);
    const faired = fairing(x, fields, piece);
    if (faired === undefined) return undefined;
    movePoints(sections, shares, fields, faired[0], toleranceMm, to);
    return faired[1];
  });
  if (to.size === 0) return { table, moved: [], smoothers };
  const moved = stations.flatMap(({ label, points }) =>
    points.flatMap((point) => {
      const there = to.get(point);
      return there === undefined ? [] : [movedPoint(label, point, there)];
    }),
  );
  const faired = stations.map((station) => ({
    ...station,
    points: station.points.map((point) => to.get(point) ?? point),
  }));
  return { table: { ...table, stations: faired }, moved, smoothers };
}

/** Places and normals of the lines on every section of a piece, and the share of its length at each of its points. */
function linesOf(sections: readonly (readonly OffsetPoint[])[]): {
  readonly fields: LineFields;
  readonly shares: readonly Float64Array[];
} {
  const size = sections.length * LINES;
  const fields = {
    u: new Float64Array(size),
    v: new Float64Array(size),
    nu: new Float64Array(size),
    nv: new Float64Array(size),
  };
  const shares = sections.map((points, i) => {
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
    return even.share;
  });
  return { fields, shares };
}

function movePoints(
  sections: readonly (readonly OffsetPoint[])[],
  shares: readonly Float64Array[],
  fields: LineFields,
  moves: Float64Array,
  toleranceMm: number,
  to: Map<OffsetPoint, OffsetPoint>,
): void {
  sections.forEach((points, i) => {
    const at = (field: Float64Array) => unitSpline(field.subarray(i * LINES, (i + 1) * LINES));
    const [by, nu, nv] = [at(moves), at(fields.nu), at(fields.nv)];
    points.forEach((point, j) => {
      const line = rowAt(rowAt(shares, i), j) * (LINES - 1);
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
