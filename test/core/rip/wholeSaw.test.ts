/**
 * Stock, saw and frame built in space, with vectors, in every way that the stock can be laid on the table: the second
 * computation of the wedges' edges, of the thick edge and of the end that leads.
 *
 * Boat axes: x forward, y to port, z up, at a place where the frame stands plumb. Nothing here is taken from the core but what
 * is being checked.
 */
import { describe, expect, test } from 'vitest';
import { layCut } from '../../../server/core/rip/cut.ts';
import { orientationOf } from '../../../server/core/rip/leadingEnd.ts';
import { wedgesOf } from '../../../server/core/rip/wedges.ts';

type Vector = readonly [number, number, number];
const plus = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const times = (k: number, a: Vector): Vector => [k * a[0], k * a[1], k * a[2]];
const minus = (a: Vector, b: Vector): Vector => plus(a, times(-1, b));
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const angleDeg = (a: Vector, b: Vector): number =>
  (Math.acos(dot(a, b) / Math.sqrt(dot(a, a) * dot(b, b))) * 180) / Math.PI;

const FORWARD: Vector = [1, 0, 0];
const TO_HEAD: Vector = [0, 0, 1];
const SIDING = 60;
const KERF = 2.4;

/** The saw: where the sawyer's forward (the feed), right and up point in the boat's axes, the stock lying as it does. */
interface Laid {
  readonly feed: Vector;
  readonly up: Vector;
}
const WAYS_TO_LAY: readonly Laid[] = [1, -1].flatMap((feed) =>
  [1, -1].map((up) => ({ feed: times(feed, TO_HEAD), up: times(up, FORWARD) })),
);
const rightOf = ({ feed, up }: Laid): Vector => cross(feed, up);

/**
 * Saws the stock: its reference face through the origin at the table, on the side away from the lean; the blade passes the
 * table at `r0` and leans by `tiltDeg`. Gives the two faces of the kerf as points on the stock's lower and upper side.
 */
function saw(laid: Laid, leans: 'left' | 'right', tiltDeg: number, r0: number) {
  const lean = times(leans === 'right' ? 1 : -1, rightOf(laid));
  const t = (tiltDeg * Math.PI) / 180;
  const blade = plus(times(Math.cos(t), laid.up), times(Math.sin(t), lean));
  const square = minus(times(Math.cos(t), lean), times(Math.sin(t), laid.up));
  const onBlade = (side: 1 | -1, height: number): Vector => {
    const foot = plus(times(r0, lean), times((side * KERF) / 2, square));
    return plus(foot, times((height - dot(foot, laid.up)) / dot(blade, laid.up), blade));
  };
  const faceOf = (side: 1 | -1) => [onBlade(side, 0), onBlade(side, SIDING)] as const;
  return { lean, near: faceOf(-1), far: faceOf(1) };
}

/** Both halves, told apart by the way that their sawn face looks, slid into the frame; thickness at [forward, aft]. */
function frameFrom(
  laid: Laid,
  leans: 'left' | 'right',
  tiltDeg: number,
  cut: { r0: number; thickness: number },
  outboard: Vector,
) {
  const { lean, near, far } = saw(laid, leans, tiltDeg, cut.r0);
  const foreAft = (atTable: number, atTop: number): readonly [number, number] =>
    dot(laid.up, FORWARD) > 0 ? [atTop, atTable] : [atTable, atTop];
  const atReference = foreAft(dot(near[0], lean), dot(near[1], lean));
  const other = foreAft(cut.thickness - dot(far[0], lean), cut.thickness - dot(far[1], lean));
  // The half at the reference face is sawn on the side of the lean. Sliding turns nothing, so it is the outer wedge if that is
  // outboard.
  return dot(lean, outboard) > 0 ? { outer: atReference, inner: other } : { outer: other, inner: atReference };
}

/** The angle in the wood of the outer wedge, at the moulded edge, between the moulded face and the sawn face. */
function angleAtMouldedEdge(
  outer: readonly [number, number],
  mouldedFace: 'forward' | 'aft',
  outboard: Vector,
): number {
  const edge = (i: 0 | 1): Vector => plus(times(i === 0 ? 0 : -SIDING, FORWARD), times(outer[i], outboard));
  const moulded = mouldedFace === 'forward' ? 0 : 1;
  return angleDeg(times(-1, outboard), minus(edge(moulded === 0 ? 1 : 0), edge(moulded)));
}

const SIDES = ['starboard', 'port'] as const;
const FACES = ['forward', 'aft'] as const;
const LEANS = ['right', 'left'] as const;
const FRAMES = SIDES.flatMap((side) =>
  FACES.flatMap((mouldedFace) =>
    LEANS.flatMap((leans) => ([1, -1] as const).map((hand) => ({ side, mouldedFace, leans, hand }))),
  ),
);

describe.each(FRAMES)('$side frame, moulded face $mouldedFace, blade leaning $leans, hand $hand', (frame) => {
  const outboard: Vector = [0, frame.side === 'port' ? 1 : -1, 0];
  const lay = orientationOf(frame, frame.leans, frame.hand);
  const tiltDeg = 17;
  const bevelDeg = frame.hand * tiltDeg;
  const cut = layCut({ kerfMm: KERF, straightAtMm: 0 }, SIDING, [0, 10, 24]);
  const through = { r0: cut.lineMm, thickness: cut.thicknessMm };
  const sawnWhen = (laid: Laid) => frameFrom(laid, frame.leans, tiltDeg, through, outboard);

  test('the bevel comes out right if that end leads, either edge up, and wrong if the other one does', () => {
    for (const laid of WAYS_TO_LAY) {
      const leads = dot(laid.feed, TO_HEAD) > 0 ? 'head' : 'heel';
      const angle = angleAtMouldedEdge(sawnWhen(laid).outer, frame.mouldedFace, outboard);
      expect(angle).toBeCloseTo(leads === lay.leads ? 90 + bevelDeg : 90 - bevelDeg, 9);
    }
  });

  test('with the thick edge up the wedges have the planned edges and make a parallelogram', () => {
    const up = times(lay.thickEdge === 'forward' ? 1 : -1, FORWARD);
    const sawn = sawnWhen({ up, feed: times(lay.leads === 'head' ? 1 : -1, TO_HEAD) });
    const planned = wedgesOf(cut, tiltDeg, lay.thickEdge);
    for (const i of [0, 1] as const) {
      expect(planned.outerMm[i]).toBeCloseTo(sawn.outer[i], 9);
      expect(planned.innerMm[i]).toBeCloseTo(sawn.inner[i], 9);
    }
    expect(sawn.outer[0] + sawn.inner[0]).toBeCloseTo(sawn.outer[1] + sawn.inner[1], 9);
    const thick = lay.thickEdge === 'forward' ? 0 : 1;
    expect(sawn.outer[thick]).toBeGreaterThan(sawn.outer[1 - thick] ?? Number.NaN);
  });
});

test('starboard, thick edge aft, blade leaning right: the head leads', () => {
  expect(orientationOf({ side: 'starboard', mouldedFace: 'forward' }, 'right', 1)).toStrictEqual({
    hand: 1,
    thickEdge: 'aft',
    leads: 'head',
    outerIs: 'at the fence',
  });
});
