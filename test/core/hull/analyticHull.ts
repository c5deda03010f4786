/**
 * Hulls whose bevels are known exactly, invented for these tests: every section is drawn by its tangent's angle, which runs from the
 * deadrise over a hollow garboard through a turn of bilge to the topsides, and all of that changes smoothly along the boat. Points by
 * quadrature of the angle; tangents in closed form; what changes lengthwise by central differences of the fourth order (to 1e-9).
 */
import type { OffsetTable } from '../../../server/core/hull/offsets.ts';
import { radToDeg } from '../../../server/core/units.ts';
import { evenly, offsetTable } from '../../kit/offsetTable.ts';

export interface HullTraits {
  readonly lengthMm: number;
  readonly girthMm: number;
  /** How full the ends are: smaller is fuller. */
  readonly fineness: number;
  readonly deadriseRad: readonly [midships: number, ends: number];
  readonly topsidesRad: readonly [midships: number, ends: number];
  /** Where the bilge turns, as a share of the girth, midships; how that shifts from end to end; how wide the turn is. */
  readonly bilge: { readonly at: number; readonly shift: number; readonly width: number };
  readonly hollowRad: number;
  readonly rockerMm: number;
}

export interface ExactPlace {
  readonly girthMm: number;
  readonly yMm: number;
  readonly zMm: number;
  readonly bevelDeg: number;
  readonly share: number;
}

export interface AnalyticHull {
  readonly traits: HullTraits;
  /** Points (y, z) at even shares of the girth. */
  section(x: number, points: number): readonly (readonly [number, number])[];
  /** The exact frame: places at even shares of the girth, with the bevel on a forward moulded face. */
  frame(x: number, places: number): readonly ExactPlace[];
}

const NODES = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 4 / 9],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;
/** Quadrature cells over a section: an error of 1e-9 of the girth for the hardest bilge here. */
const CELLS = 336;
const KEEL_MM = 45;

export function analyticHull(traits: HullTraits): AnalyticHull {
  const { lengthMm, girthMm, fineness, deadriseRad, topsidesRad, bilge, hollowRad, rockerMm } = traits;
  const shapeAt = (x: number) => {
    const along = x / lengthMm;
    const full = Math.sin(Math.PI * (0.07 + 0.85 * along)) ** fineness;
    const deadrise = deadriseRad[0] + (deadriseRad[1] - deadriseRad[0]) * (1 - full);
    const topsides = topsidesRad[0] + (topsidesRad[1] - topsidesRad[0]) * (1 - full);
    const turnAt = bilge.at + bilge.shift * (along - 0.5);
    const width = bilge.width * (1 + 0.6 * (1 - full));
    const angle = (share: number): number =>
      deadrise +
      ((topsides - deadrise) * (1 + Math.tanh((share - turnAt) / width))) / 2 +
      hollowRad * Math.exp(-((share / 0.13) ** 2));
    return { angle, girth: girthMm * (0.38 + 0.62 * full), keel: rockerMm * (2 * along - 1.05) ** 2 };
  };
  const section = (x: number, points: number): readonly (readonly [number, number])[] => {
    const { angle, girth, keel } = shapeAt(x);
    const per = Math.ceil(CELLS / (points - 1));
    const cell = 1 / (per * (points - 1));
    let [y, z] = [KEEL_MM, keel];
    const out: [number, number][] = [[y, z]];
    for (let i = 0; i < per * (points - 1); i++) {
      for (const [node, weight] of NODES) {
        const turn = angle((i + node) * cell);
        y += girth * cell * weight * Math.cos(turn);
        z += girth * cell * weight * Math.sin(turn);
      }
      if ((i + 1) % per === 0) out.push([y, z]);
    }
    return out;
  };
  return {
    traits,
    section,
    frame: (x, places) => {
      const step = lengthMm * 2e-4;
      const near = [-2, -1, 1, 2].map((by) => section(x + by * step, places));
      const { angle, girth } = shapeAt(x);
      return section(x, places).map(([yMm, zMm], k) => {
        const share = k / (places - 1);
        const lengthwise = ([0, 1] as const).map((side) => {
          const [a = 0, b = 0, c = 0, d = 0] = near.map((points) => points[k]?.[side] ?? 0);
          return (a - 8 * b + 8 * c - d) / (12 * step);
        });
        const turn = angle(share);
        const outward = (lengthwise[0] ?? 0) * Math.sin(turn) - (lengthwise[1] ?? 0) * Math.cos(turn);
        return { girthMm: girth * share, yMm, zMm, bevelDeg: radToDeg(Math.atan(outward)), share };
      });
    },
  };
}

/** A hull with traits drawn by `draw` (even in 0..1): 6 to 14 m, hollow garboards, some with a hard turn of bilge. */
export function randomHull(draw: () => number): AnalyticHull {
  const between = (least: number, most: number): number => least + (most - least) * draw();
  const lengthMm = between(6000, 14_000);
  return analyticHull({
    lengthMm,
    girthMm: lengthMm * between(0.2, 0.28),
    fineness: between(0.7, 1.1),
    deadriseRad: [between(0.08, 0.4), between(0.7, 1)],
    topsidesRad: [between(1.3, 1.6), between(1, 1.3)],
    bilge: { at: between(0.42, 0.58), shift: between(-0.08, 0.08), width: between(0.08, 0.2) },
    hollowRad: between(0.2, 0.6),
    rockerMm: lengthMm * between(0.01, 0.04),
  });
}

/** A hard hull: wineglass sections, their garboards nearly plumb at the keel; strong flare forward and aft; a bilge that turns between few points. */
export function hardHull(draw: () => number): AnalyticHull {
  const between = (least: number, most: number): number => least + (most - least) * draw();
  const lengthMm = between(4000, 14_000);
  return analyticHull({
    lengthMm,
    girthMm: lengthMm * between(0.2, 0.28),
    fineness: between(0.7, 1.2),
    deadriseRad: [between(0.1, 0.4), between(0.7, 1)],
    topsidesRad: [between(1.1, 1.6), between(0.5, 1)],
    bilge: { at: between(0.42, 0.6), shift: between(-0.1, 0.1), width: between(0.06, 0.15) },
    hollowRad: between(0.7, 1.15),
    rockerMm: lengthMm * between(0.01, 0.04),
  });
}

/** The table that a lines plan would give: even stations, points at even shares of the girth, rounded to `step` (0: not). */
export function offsetsOf(hull: AnalyticHull, stations: number, points: number, stepMm: number): OffsetTable {
  return offsetTable(evenly(0, hull.traits.lengthMm, stations), (x) => hull.section(x, points), stepMm);
}
