/**
 * The run-off of a plain stack against a real geodesic, integrated on a surface that curves both ways (status: derived). On F = x^2/a^2 +
 * y^2/b^2 + z^2/c^2 = 1 a path without force keeps to the surface by x'' = -(x' H x' / |grad F|^2) grad F, by the midpoint rule.
 */
import { expect, test } from 'vitest';
import { type HullFrame, hullFrame } from '../../server/core/frame/hullFrame.ts';
import { runOff } from '../../server/core/frame/runOff.ts';
import { hullSurface } from '../../server/core/hull/surface.ts';
import { expectClose } from '../kit/close.ts';
import { evenly, offsetTable } from '../kit/offsetTable.ts';

const [A, B, C] = [6000, 1500, 1100];
const INVERSE_SQUARES = [1 / A ** 2, 1 / B ** 2, 1 / C ** 2] as const;
type Vector = readonly [number, number, number];
const each = (f: (i: 0 | 1 | 2) => number): Vector => [f(0), f(1), f(2)];
const gradient = (p: Vector): Vector => each((i) => p[i] * INVERSE_SQUARES[i]);

const surface = hullSurface(
  offsetTable(evenly(0, 10_000, 21), (x) => {
    const full = Math.sqrt(1 - ((x - 5000) / A) ** 2);
    return evenly(0.04, Math.PI / 2, 15).map(
      (turn) => [B * full * Math.sin(turn), -C * full * Math.cos(turn)] as const,
    );
  }),
);

/** How far aft of the frame's plane a geodesic that sets out along the section at the heel stands at the head. */
function geodesicMm(frame: HullFrame, atMm: number): number {
  const heel = frame.at(0);
  let place: Vector = [atMm - 5000, heel.yMm, heel.zMm];
  const [, gy, gz] = gradient(place);
  const size = Math.hypot(gy, gz);
  let way: Vector = [0, -gz / size, gy / size];
  expect(way[1]).toBeGreaterThan(0);
  const steps = 4000;
  const h = frame.girthMm / steps;
  const turning = (p: Vector, v: Vector): Vector => {
    const g = gradient(p);
    const squared = g[0] ** 2 + g[1] ** 2 + g[2] ** 2;
    const bend = v[0] ** 2 * INVERSE_SQUARES[0] + v[1] ** 2 * INVERSE_SQUARES[1] + v[2] ** 2 * INVERSE_SQUARES[2];
    return each((i) => (-bend / squared) * g[i]);
  };
  for (let step = 0; step < steps; step++) {
    const turn = turning(place, way);
    const halfway = each((i) => place[i] + (h / 2) * way[i]);
    const halfWay = each((i) => way[i] + (h / 2) * turn[i]);
    const second = turning(halfway, halfWay);
    place = each((i) => place[i] + h * halfWay[i]);
    way = each((i) => way[i] + h * second[i]);
  }
  return place[0] + 5000 - atMm;
}

test.each([1200, 2200, 3500, 4600, 6800])('at %d: within a twentieth, along the hull', (atMm) => {
  const stand = { atMm, cantDeg: 0, plankingMm: 0, sidingMm: 50, mouldedFace: 'forward' } as const;
  const frame = hullFrame(surface, stand);
  if (frame === undefined) throw new Error(`no frame at ${atMm}`);
  const { bevelDeg } = frame.at(frame.girthMm);
  const alongHullMm = geodesicMm(frame, atMm) / Math.cos((bevelDeg * Math.PI) / 180);
  const { atHeadMm } = runOff(frame, 'forward');
  expectClose(atHeadMm, alongHullMm, 0.05 * Math.abs(alongHullMm), 'run-off');
  // It is aft where the hull grows aft.
  expect(Math.sign(atHeadMm)).toBe(Math.sign(5000 - atMm));
});
