/** The drawing of which way round, against the solids of test/kit/sawnFrame.ts and against itself. */
import { describe, expect, test } from 'vitest';
import { type Quad, steepestMark, wayDrawing } from '../../../server/core/plan/wayDrawing.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { planned } from '../../kit/planned.ts';
import { asPlanned, sawByPlan } from '../../kit/sawnFrame.ts';

const WAYS = (['port', 'starboard'] as const).flatMap((side) =>
  (['forward', 'aft'] as const).flatMap((mouldedFace) =>
    (['left', 'right'] as const).flatMap((leans) => [1, -1].map((sign) => ({ side, mouldedFace, leans, sign }))),
  ),
);
const areaOf = (quad: Quad): number =>
  Math.abs(
    quad.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = quad[(i + 1) % 4] ?? [0, 0];
      return sum + x * nextY - nextX * y;
    }, 0) / 2,
  );
const moved = (from: Quad, to: Quad): readonly (readonly [number, number])[] =>
  from.map(([x, y], i) => [(to[i]?.[0] ?? 0) - x, (to[i]?.[1] ?? 0) - y] as const);

describe.each(WAYS)('a $side frame, moulded face $mouldedFace, top leaning $leans, hand $sign', (way) => {
  const plan = planned(
    aJob({
      frame: { side: way.side, mouldedFace: way.mouldedFace },
      shape: picked([0, 4 * way.sign], [450, 9 * way.sign], [900, 14 * way.sign], [1800, 2 * way.sign]),
      saw: { leans: way.leans },
    }),
  );
  const mark = steepestMark(plan.marks);
  if (mark === undefined) throw new Error('no marks');
  const drawn = wayDrawing(plan, mark);

  test('the blade leans to the side that the saw has, at the true angle, and the fence stands on the other', () => {
    const [[footX, footY], [topX, topY]] = drawn.onSaw.blade;
    const leanDeg = (Math.atan2(topX - footX, topY - footY) * 180) / Math.PI;
    expect(leanDeg).toBeCloseTo((way.leans === 'right' ? 1 : -1) * Math.abs(mark.sawnDeg), 9);
    expect(drawn.fence).toBe(way.leans === 'right' ? 'left' : 'right');
    const sides = [...drawn.onSaw.outer, ...drawn.onSaw.inner].map(([x]) => Math.sign(x));
    expect(new Set(sides.filter((side) => side !== 0))).toStrictEqual(new Set([drawn.fence === 'left' ? 1 : -1]));
  });

  test('the halves have the edges that are sawn in space, and are the stock less the kerf', () => {
    const { outer, inner } = sawByPlan(plan, asPlanned(plan));
    const up = drawn.upEdge === 'forward' ? 0 : 1;
    for (const [piece, edges, quad] of [
      [outer, drawn.edgesMm.outer, drawn.onSaw.outer],
      [inner, drawn.edgesMm.inner, drawn.onSaw.inner],
    ] as const) {
      const sawn = piece(mark.stockMm);
      expect(edges.up).toBeCloseTo(sawn[up], 6);
      expect(edges.low).toBeCloseTo(sawn[1 - up] ?? Number.NaN, 6);
      expect(areaOf(quad)).toBeCloseTo((48 * (edges.up + edges.low)) / 2, 6);
    }
    const kerf = (2.4 / Math.cos((mark.sawnDeg * Math.PI) / 180)) * 48;
    expect(areaOf(drawn.onSaw.outer) + areaOf(drawn.onSaw.inner) + kerf).toBeCloseTo(48 * plan.stock.thicknessMm, 6);
  });

  test('into the frame both halves only slide sideways, flats to the stack, the outer one to the planking', () => {
    for (const half of ['outer', 'inner'] as const) {
      const by = moved(drawn.onSaw[half], drawn.inFrame[half]);
      for (const [x, y] of by) {
        expect(x).toBeCloseTo(by[0]?.[0] ?? Number.NaN, 9);
        expect(y).toBe(0);
      }
    }
    const xs = (quad: Quad) => quad.map(([x]) => x);
    const flat = (quad: Quad) => quad[0][0];
    const stack = xs(drawn.inFrame.stack);
    expect(stack).toContain(flat(drawn.inFrame.outer));
    expect(Math.min(...stack.map((x) => Math.abs(x - flat(drawn.inFrame.inner))))).toBeLessThan(1e-9);
    const side = drawn.planking === 'right' ? 1 : -1;
    expect(Math.max(...xs(drawn.inFrame.inner).map((x) => side * x))).toBeLessThanOrEqual(
      Math.min(...xs(drawn.inFrame.outer).map((x) => side * x)),
    );
  });

  test('the stack between them is as thick as its plies and as high as the frame, standing on the table away from the fence', () => {
    const thickMm = plan.stack.plies * plan.stack.laminationMm * (drawn.fence === 'left' ? 1 : -1);
    expect(drawn.inFrame.stack).toEqual([
      [0, 0],
      [0, 48],
      [thickMm, 48],
      [thickMm, 0],
    ]);
  });

  test('seen from the end that follows, the planking is where outboard lies', () => {
    // The sawyer faces along the feed F, the upper edge U; his right is F x U. x forward, y port, z to the head.
    const feed = plan.leads === 'head' ? 1 : -1;
    const up = drawn.upEdge === 'forward' ? 1 : -1;
    // z x x = y: to port, with both signs.
    const rightIsPort = feed * up === 1;
    const outboardIsPort = way.side === 'port';
    expect(drawn.planking).toBe(rightIsPort === outboardIsPort ? 'right' : 'left');
  });
});
