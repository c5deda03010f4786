/**
 * The same surface and frame by a general numeric library: every spline is a dense system solved by ml-matrix, every loft a matrix product,
 * as somebody would write it down who has such a library at hand. Athwartships frames, nothing deducted.
 */
import { Matrix, solve } from 'ml-matrix';
import type { OffsetTable } from '../../../server/core/hull/offsets.ts';
import { type Curve, cubicCurve } from '../../../server/core/numeric/spline/cubicCurve.ts';

export const NODES = 97;
const PARTS = 8;
const ROOT = Math.sqrt(0.15);

/** Second derivatives at the knots, as a matrix that takes the values: from the system of the spline (not a knot). */
export function splineMatrix(x: readonly number[]): Matrix {
  const n = x.length;
  const h = x.slice(1).map((to, i) => to - (x[i] ?? 0));
  const at = (i: number): number => h[i] ?? Number.NaN;
  const [left, right] = [Matrix.zeros(n, n), Matrix.zeros(n, n)];
  for (let i = 1; i < n - 1; i++) {
    left.set(i, i - 1, at(i - 1));
    left.set(i, i, 2 * (at(i - 1) + at(i)));
    left.set(i, i + 1, at(i));
    right.set(i, i - 1, 6 / at(i - 1));
    right.set(i, i, -6 / at(i - 1) - 6 / at(i));
    right.set(i, i + 1, 6 / at(i));
  }
  for (const [row, i] of [
    [0, 0],
    [n - 1, n - 3],
  ] as const) {
    left.set(row, i, at(i + 1));
    left.set(row, i + 1, -at(i) - at(i + 1));
    left.set(row, i + 2, at(i));
  }
  return solve(left, right);
}

export interface MatrixSurface {
  readonly x: readonly number[];
  readonly u: Matrix;
  readonly v: Matrix;
  readonly loft: Matrix;
  readonly along: Matrix;
}

export function surfaceByMatrices({ stations }: OffsetTable): MatrixSurface {
  const x = stations.map(({ xMm }) => xMm);
  const sections = stations.map(({ points }) => evenly(points.map(({ yMm, zMm }) => [yMm, zMm] as const)));
  return {
    x,
    u: new Matrix(sections.map(({ u }) => u)),
    v: new Matrix(sections.map(({ v }) => v)),
    loft: splineMatrix(x),
    along: splineMatrix(numbers(NODES)),
  };
}

const numbers = (count: number): number[] => Array.from({ length: count }, (_, k) => k);

function evenly(points: readonly (readonly [number, number])[]): { readonly u: number[]; readonly v: number[] } {
  const knots = [0];
  for (let i = 1; i < points.length; i++) {
    const [[u0, v0], [u1, v1]] = [points[i - 1] ?? [0, 0], points[i] ?? [0, 0]];
    knots.push((knots[i - 1] ?? 0) + Math.hypot(u1 - u0, v1 - v0));
  }
  const values = new Matrix(points.map(([u, v]) => [u, v]));
  const seconds = splineMatrix(knots).mmul(values);
  const [u, v] = [0, 1].map((side) => cubicCurve(knots, values.getColumn(side), seconds.getColumn(side))) as [
    Curve,
    Curve,
  ];
  const speed = (t: number): number => Math.hypot(u.slopeAt(t), v.slopeAt(t));
  const gauss = (from: number, to: number): number => {
    const h = to - from;
    return (
      (h * (5 * speed(from + h * (0.5 - ROOT)) + 8 * speed(from + h / 2) + 5 * speed(from + h * (0.5 + ROOT)))) / 18
    );
  };
  const parts = knots
    .slice(1)
    .flatMap((to, i) => numbers(PARTS).map((p) => (knots[i] ?? 0) + ((p + 1) / PARTS) * (to - (knots[i] ?? 0))));
  const places = [0, ...parts];
  const sums = [0];
  for (let p = 1; p < places.length; p++) sums.push((sums[p - 1] ?? 0) + gauss(places[p - 1] ?? 0, places[p] ?? 0));
  const length = sums.at(-1) ?? 0;
  const nodes = numbers(NODES).map((k) => {
    const wanted = (length * k) / (NODES - 1);
    const p = Math.max(
      0,
      Math.min(
        sums.length - 2,
        sums.findLastIndex((sum) => sum <= wanted),
      ),
    );
    const [from, to] = [places[p] ?? 0, places[p + 1] ?? 0];
    let t = from + ((wanted - (sums[p] ?? 0)) / ((sums[p + 1] ?? 1) - (sums[p] ?? 0))) * (to - from);
    for (let round = 0; round < 3; round++)
      t = Math.min(to, Math.max(from, t - ((sums[p] ?? 0) + gauss(from, t) - wanted) / speed(t)));
    return t;
  });
  return { u: nodes.map((t) => u.valueAt(t)), v: nodes.map((t) => v.valueAt(t)) };
}

/** Weights of the stations' values at x, for value and slope: the spline read at one place. */
function weights({ x, loft }: MatrixSurface, at: number): readonly [Matrix, Matrix] {
  const i = Math.max(
    0,
    Math.min(
      x.length - 2,
      x.findLastIndex((place) => place <= at),
    ),
  );
  const h = (x[i + 1] ?? 0) - (x[i] ?? 0);
  const t = (at - (x[i] ?? 0)) / h;
  const w = 1 - t;
  const [low, high] = [loft.getRowVector(i), loft.getRowVector(i + 1)];
  const value = Matrix.add(
    Matrix.mul(high, (h * h * t * (t * t - 1)) / 6),
    Matrix.mul(low, (h * h * w * (w * w - 1)) / 6),
  );
  value.set(0, i, value.get(0, i) + w);
  value.set(0, i + 1, value.get(0, i + 1) + t);
  const slope = Matrix.add(Matrix.mul(high, (h * (3 * t * t - 1)) / 6), Matrix.mul(low, (-h * (3 * w * w - 1)) / 6));
  slope.set(0, i, slope.get(0, i) - 1 / h);
  slope.set(0, i + 1, slope.get(0, i + 1) + 1 / h);
  return [value, slope];
}

/** Tangent bevel, and chord across `sidingMm`, at every node of the frame at x (moulded face forward). */
export function frameByMatrices(surface: MatrixSurface, at: number, sidingMm: number) {
  const { along } = surface;
  const knots = numbers(NODES);
  const [value, slope] = weights(surface, at);
  const curve = (row: Matrix): Curve => {
    const values = row.to1DArray();
    return cubicCurve(knots, values, along.mmul(row.transpose()).to1DArray());
  };
  const [u, v] = [curve(value.mmul(surface.u)), curve(value.mmul(surface.v))];
  const [ux, vx] = [slope.mmul(surface.u).to1DArray(), slope.mmul(surface.v).to1DArray()];
  const [far] = weights(surface, at + sidingMm);
  const [fu, fv] = [curve(far.mmul(surface.u)), curve(far.mmul(surface.v))];
  return knots.map((k) => {
    const [du, dv] = [u.slopeAt(k), v.slopeAt(k)];
    const speed = Math.hypot(du, dv);
    let t = k;
    for (let round = 0; round < 30; round++) {
      const off = (fu.valueAt(t) - u.valueAt(k)) * du + (fv.valueAt(t) - v.valueAt(k)) * dv;
      const step = off / (fu.slopeAt(t) * du + fv.slopeAt(t) * dv);
      t -= Math.max(-4, Math.min(4, step));
      if (Math.abs(step) < 1e-9) break;
    }
    const outMm = ((fu.valueAt(t) - u.valueAt(k)) * dv - (fv.valueAt(t) - v.valueAt(k)) * du) / speed;
    return {
      bevelDeg: (Math.atan(((ux[k] ?? 0) * dv - (vx[k] ?? 0) * du) / speed) * 180) / Math.PI,
      sawnDeg: (Math.atan(outMm / sidingMm) * 180) / Math.PI,
    };
  });
}
