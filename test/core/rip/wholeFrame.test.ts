/**
 * Whole frames, sawn by their plans and set up in the boat (test/kit/sawnFrame.ts): random hulls, port and starboard, both faces,
 * both leans, along a fence and along a line.
 */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { PlannedMark } from '../../../server/core/rip/plannedMark.ts';
import { loadDemo } from '../../../server/demo/loadDemo.ts';
import { parseJob } from '../../../server/wire/job/parseJob.ts';
import { aJob } from '../../kit/aJob.ts';
import { demoPlan } from '../../kit/demoPlan.ts';
import { holds } from '../../kit/holds.ts';
import { planned } from '../../kit/planned.ts';
import {
  asPlanned,
  bend,
  between,
  farthestOffHull,
  type Hull,
  type Pieces,
  ripOf,
  sawByPlan,
  walkEdge,
} from '../../kit/sawnFrame.ts';

const range = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);

interface Frame {
  readonly hull: Hull;
  readonly plan: Plan;
}

const WAYS = (['port', 'starboard'] as const).flatMap((side) =>
  (['forward', 'aft'] as const).flatMap((mouldedFace) =>
    (['left', 'right'] as const).flatMap((leans) =>
      [false, true].map((isUnder) => ({ side, mouldedFace, leans, isUnder })),
    ),
  ),
);
type Way = (typeof WAYS)[number];
type Figures = typeof figures extends fc.Arbitrary<infer F> ? F : never;

/**
 * One bump of curvature and one of bevel, in different places, so that nothing is alike from both ends or from both sides: the bevel
 * is greatest well below the middle and changes by 4 degrees or more, so that read from the other end it is off by 2 and more. Some
 * pass through square and change hand.
 */
const figures = fc.record({
  girthMm: range(900, 1800),
  turnDeg: range(20, 90),
  turnAt: range(0.3, 0.6),
  leastDeg: range(-3, 3),
  moreDeg: range(4, 11),
  bevelAt: range(0.25, 0.38),
  hollowMm: range(-0.3, 0.3),
  sidingMm: range(35, 70),
  kerfMm: range(1.2, 3),
  pivotHeightMm: range(-20, 40),
  feeds: fc.constantFrom('along a fence' as const, 'along a line' as const),
});

function frameOf(way: Way, f: Figures): Frame {
  const widthMm = f.girthMm * 0.3;
  const bump = (girthMm: number, at: number): number => Math.exp(-(((girthMm - at * f.girthMm) / widthMm) ** 2));
  const most = ((f.turnDeg * Math.PI) / 180 / widthMm) * 0.56;
  const hull: Hull = {
    girthMm: f.girthMm,
    curvaturePerMm: (girthMm) => most * bump(girthMm, f.turnAt),
    bevelDeg: (girthMm) => (way.isUnder ? -1 : 1) * (f.leastDeg + f.moreDeg * bump(girthMm, f.bevelAt)),
    hollowMm: f.hollowMm,
  };
  const edge = walkEdge(hull);
  const points = edge.filter((_, i) => i % 50 === 0 || i === edge.length - 1);
  const rows = Array.from({ length: 25 }, (_, i) => (f.girthMm * i) / 24);
  const plan = planned(
    aJob({
      frame: { side: way.side, mouldedFace: way.mouldedFace, sidingMm: f.sidingMm, mouldingMm: 110 },
      shape: {
        kind: 'pick-up',
        file: 'pickup.csv',
        rows: rows.map((girthMm) => ({ girthMm, bevelDeg: hull.bevelDeg(girthMm), weight: 1 })),
        errorDeg: 0.5,
        pattern: { file: 'pattern.csv', points: points.map(({ at: [yMm, zMm] }) => ({ yMm, zMm })) },
      },
      marks: { kind: 'spacing', spacingMm: 25 },
      saw: { leans: way.leans, kerfMm: f.kerfMm, pivotHeightMm: f.pivotHeightMm },
      rip: { feeds: f.feeds },
    }),
  );
  return { hull, plan };
}

/** How deep the form holds the outer wedge's flat: as thick as the wedge is to be at the moulded edge. */
const flatDepth = (plan: Plan): ((girthMm: number) => number) => edgeAlong(plan, ({ outerEdgesMm }) => outerEdgesMm);

function edgeAlong({ frame, marks }: Plan, edges: (mark: PlannedMark) => readonly [number, number]) {
  const moulded = frame.mouldedFace === 'forward' ? 0 : 1;
  return between(
    marks.map(({ girthMm }) => girthMm),
    marks.map((mark) => edges(mark)[moulded]),
  );
}

function offHull({ plan, hull }: Frame, pieces: Pieces): number {
  const flatDepthMm = flatDepth(plan);
  const bent = bend(plan, walkEdge(hull, 4), pieces.outer, { flatDepthMm, wood: 'outboard', fromMm: 0 });
  return farthestOffHull(plan, hull, bent, flatDepthMm);
}

/** How far the frame's two faces are from parallel, both wedges from one place of the cut: forward less aft. */
const notParallelMm = ({ outer, inner }: Pieces, stockMm: number): number => {
  const [of, oa] = outer(stockMm);
  const [nf, na] = inner(stockMm);
  return of + nf - oa - na;
};

/** What fairing a curve without errors and even turning between marks 25 mm apart come to. */
const FAIRING_MM = 0.05;
const PARALLEL_MM = 0.01;

/** Everything that a crew can do wrong with a good plan, each by itself. */
const WRONG: Readonly<Record<string, (plan: Plan) => Pieces>> = {
  'fed the other end first': (plan) =>
    sawByPlan(plan, { ...asPlanned(plan), leads: plan.leads === 'head' ? 'heel' : 'head' }),
  'sawn for the other side of the boat': (plan) =>
    sawByPlan(
      { ...plan, frame: { ...plan.frame, side: plan.frame.side === 'port' ? 'starboard' : 'port' } },
      asPlanned(plan),
    ),
  'sawn with the blade leaning the other way': (plan) =>
    sawByPlan({ ...plan, saw: { ...plan.saw, leans: plan.saw.leans === 'left' ? 'right' : 'left' } }, asPlanned(plan)),
  'mirrored, forward edge aft': (plan) => mirrored(sawByPlan(plan, asPlanned(plan))),
  'called from the other end': (plan) => reversed(plan, sawByPlan(plan, asPlanned(plan))),
  'turned end for end after the rip': (plan) => mirrored(reversed(plan, sawByPlan(plan, asPlanned(plan)))),
};
/** The same of the inner wedge alone: the frame's faces are then no more parallel. */
const WRONG_INSIDE: Readonly<Record<string, (pieces: Pieces, plan: Plan) => Pieces>> = {
  'inner wedge mirrored': (pieces) => ({ ...pieces, inner: mirrored(pieces).inner }),
  'inner wedge called from the other end': (pieces, plan) => ({ ...pieces, inner: reversed(plan, pieces).inner }),
  'inner wedge turned end for end': (pieces, plan) => ({ ...pieces, inner: mirrored(reversed(plan, pieces)).inner }),
};

describe.each(WAYS)('a $side frame, moulded face $mouldedFace, top leaning $leans, under: $isUnder', (way) => {
  test('sawn by its plan it meets the hull and is a parallelogram; with anything the wrong way round it is caught', () => {
    holds(
      fc.property(figures, (random) => {
        const frame = frameOf(way, random);
        const { plan, hull } = frame;
        const pieces = sawByPlan(plan, asPlanned(plan));
        const allowedMm = Math.abs(hull.hollowMm) + FAIRING_MM;
        expect(offHull(frame, pieces)).toBeLessThan(allowedMm);
        holdsAtMarks(plan, pieces);
        for (const [name, saw] of Object.entries(WRONG))
          expect(offHull(frame, saw(plan)), name).toBeGreaterThan(allowedMm + 5 * FAIRING_MM);
        for (const [name, change] of Object.entries(WRONG_INSIDE)) {
          const wrong = change(pieces, plan);
          const most = Math.max(...plan.marks.map(({ stockMm }) => Math.abs(notParallelMm(wrong, stockMm))));
          expect(most, name).toBeGreaterThan(50 * PARALLEL_MM);
        }
        sameBevelUpsideDown(plan, pieces);
        fallsWhereItIsBent(frame, pieces);
      }),
      // A smaller frame says no more than the one that failed, and each takes a tenth of a second.
      { numRuns: 2, endOnFailure: true },
    );
  });
});

/** Parallel, nowhere thinner than allowed, and with the edges that the plan says. */
function holdsAtMarks(plan: Plan, pieces: Pieces): void {
  for (const { stockMm, outerEdgesMm, innerEdgesMm } of plan.marks) {
    expect(Math.abs(notParallelMm(pieces, stockMm))).toBeLessThan(PARALLEL_MM);
    const is = [...pieces.outer(stockMm), ...pieces.inner(stockMm)];
    expect(Math.min(...is)).toBeGreaterThan(3 - 1e-6);
    for (const [i, edgeMm] of [...outerEdgesMm, ...innerEdgesMm].entries()) expect(is[i]).toBeCloseTo(edgeMm, 6);
  }
}

function sameBevelUpsideDown(plan: Plan, right: Pieces): void {
  const turned = sawByPlan(plan, { ...asPlanned(plan), upEdge: plan.thickEdge === 'forward' ? 'aft' : 'forward' });
  for (const { stockMm } of plan.marks) {
    const [f, a] = right.outer(stockMm);
    const [f2, a2] = turned.outer(stockMm);
    expect(a2 - f2).toBeCloseTo(a - f, 9);
  }
}

/** The places on both wedges are those of the pieces bent along the frame, and what is left inside is what the plan says. */
function fallsWhereItIsBent({ plan, hull }: Frame, { outer, inner }: Pieces): void {
  const edge = walkEdge(hull);
  const girths = edge.map(({ girthMm }) => girthMm);
  const innerEdge = edgeAlong(plan, ({ innerEdgesMm }) => innerEdgesMm);
  const placeOn = (bent: readonly { readonly stockMm: number }[]) =>
    between(
      girths,
      bent.map(({ stockMm }) => stockMm),
    );
  const outerAt = placeOn(bend(plan, edge, outer, { flatDepthMm: flatDepth(plan), wood: 'outboard', fromMm: 0 }));
  const innerAt = placeOn(
    bend(plan, edge, inner, {
      flatDepthMm: (girthMm) => plan.frame.mouldingMm - innerEdge(girthMm),
      wood: 'inboard',
      fromMm: plan.marks[0]?.innerStockMm ?? 0,
    }),
  );
  for (const mark of plan.marks) {
    const { girthMm, stockMm, innerStockMm, bevelDeg, innerInFrameMm, innerLeftDeg = 0, innerLeftMm = 0 } = mark;
    expect(Math.abs(outerAt(girthMm) - stockMm)).toBeLessThan(0.1);
    expect(Math.abs(innerAt(girthMm) - innerStockMm)).toBeLessThan(0.1);
    const [forward, aft] = inner(innerStockMm);
    expect(Math.abs(forward - (innerInFrameMm?.[0] ?? Number.NaN))).toBeLessThan(FAIRING_MM);
    expect(Math.abs(aft - (innerInFrameMm?.[1] ?? Number.NaN))).toBeLessThan(FAIRING_MM);
    const grows = plan.frame.mouldedFace === 'forward' ? forward - aft : aft - forward;
    expect(Math.abs(grows - plan.frame.sidingMm * tan(bevelDeg) - innerLeftMm)).toBeLessThan(FAIRING_MM);
    const across = plan.frame.sidingMm * (tan(bevelDeg + innerLeftDeg) - tan(bevelDeg));
    expect(Math.abs(across - innerLeftMm)).toBeLessThan(1e-9);
  }
}

describe('the demo', () => {
  test('its two wedges with the stack between make a parallelogram, parallel within 0.01 mm all along, in the moulding', async () => {
    const plan = await demoPlan();
    const pieces = sawByPlan(plan, asPlanned(plan));
    const endMm = plan.marks.at(-1)?.stockMm ?? 0;
    const stackMm = plan.stack.plies * plan.stack.laminationMm;
    for (let stockMm = 0; stockMm <= endMm; stockMm += 5) {
      expect(Math.abs(notParallelMm(pieces, stockMm))).toBeLessThan(PARALLEL_MM);
      const deepMm = pieces.outer(stockMm)[0] + stackMm + pieces.inner(stockMm)[0];
      expect(deepMm).toBeLessThanOrEqual(plan.frame.mouldingMm + 0.01);
      expect(deepMm).toBeGreaterThan(plan.frame.mouldingMm - plan.stack.laminationMm - 0.1);
    }
    expect(Math.abs(ripOf(plan).left.inner?.deg ?? 0)).toBeLessThan(0.5);
  });

  /** Its bevels were measured from face to face, so no hollow is stated: what is left is the way between two marks. */
  test.each([
    [10, 0.05],
    [150, 0.3],
  ])(
    'turned evenly between marks %d mm apart its outer face lies on the hull within %d mm',
    async (spacing, withinMm) => {
      const { job, files } = await loadDemo();
      const parsed = parseJob({ ...job, marks: { spacing } }, files);
      if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
      const plan = planned(parsed.value);
      const along = (values: (at: PlannedMark) => number) =>
        between(
          plan.marks.map(({ girthMm }) => girthMm),
          plan.marks.map(values),
        );
      const curvature = along(({ radiusMm }) => (radiusMm === null ? 0 : 1 / radiusMm));
      const bevel = between(
        plan.curve.map(({ girthMm }) => girthMm),
        plan.curve.map(({ bevelDeg }) => bevelDeg),
      );
      const hull: Hull = { girthMm: plan.girthMm, curvaturePerMm: curvature, bevelDeg: bevel, hollowMm: 0 };
      expect(offHull({ hull, plan }, sawByPlan(plan, asPlanned(plan)))).toBeLessThan(withinMm);
      expect(offHull({ hull, plan }, mirrored(sawByPlan(plan, asPlanned(plan))))).toBeGreaterThan(1);
    },
  );
});

function mirrored({ outer, inner }: Pieces): Pieces {
  return {
    outer: (mm) => [outer(mm)[1], outer(mm)[0]],
    inner: (mm) => [inner(mm)[1], inner(mm)[0]],
  };
}

function reversed(plan: Plan, { outer, inner }: Pieces): Pieces {
  const endMm = plan.marks.at(-1)?.stockMm ?? 0;
  return { outer: (mm) => outer(endMm - mm), inner: (mm) => inner(endMm - mm) };
}
