/**
 * Which end leads, and on which side the fence stands.
 * Worked by hand (derived): the sawyer faces along the feed F; the thick edge is up, U; the outboard side is on the right hand R where
 * the top of the blade leans to the right. R = F x U, so F = U x R. Axes: x forward, y to port, z up. For starboard, thick edge aft:
 * U = -x, R = -y (starboard), F = (-x) x (-y) = x x y = z: fed with the head first. Each of port, thick edge forward and left lean
 * turns one sign and with it the feed.
 */
import { describe, expect, test } from 'vitest';
import { fenceSide, handOf, oppositeSide, orientationOf } from '../../../server/core/rip/leadingEnd.ts';

type Vector = readonly [number, number, number];
const cross = ([a, b, c]: Vector, [d, e, f]: Vector): Vector => [b * f - c * e, c * d - a * f, a * e - b * d];

describe('the end that leads', () => {
  const ways = (['port', 'starboard'] as const).flatMap((side) =>
    (['forward', 'aft'] as const).flatMap((mouldedFace) =>
      (['left', 'right'] as const).flatMap((leans) =>
        ([1, -1] as const).map((hand) => ({ side, mouldedFace, leans, hand })),
      ),
    ),
  );

  test.each(ways)('$side, moulded face $mouldedFace, lean $leans, hand $hand: as worked by vectors', (way) => {
    const { side, mouldedFace, leans, hand } = way;
    const { leads, thickEdge } = orientationOf({ side, mouldedFace }, leans, hand);
    const up: Vector = [thickEdge === 'forward' ? 1 : -1, 0, 0];
    const outboard: Vector = [0, side === 'port' ? 1 : -1, 0];
    const right: Vector = leans === 'right' ? outboard : [-outboard[0], -outboard[1], -outboard[2]];
    expect(leads).toBe(cross(up, right)[2] > 0 ? 'head' : 'heel');
  });

  test.each(ways)(
    '$side, $mouldedFace, $leans, $hand: the other side of the boat, lean or hand turns it end for end or over',
    (way) => {
      const { side, mouldedFace, leans, hand } = way;
      const one = orientationOf({ side, mouldedFace }, leans, hand);
      const otherLean = orientationOf({ side, mouldedFace }, oppositeSide(leans), hand);
      const otherHand = orientationOf({ side, mouldedFace }, leans, hand === 1 ? -1 : 1);
      expect(otherLean.leads).not.toBe(one.leads);
      expect(otherLean.thickEdge).toBe(one.thickEdge);
      expect(otherHand.thickEdge).not.toBe(one.thickEdge);
      expect(one.hand).toBe(hand);
    },
  );
});

test('the fence stands on the side that the top of the blade leans away from (common practice, no source)', () => {
  expect(fenceSide({ leans: 'right' })).toBe('left');
  expect(fenceSide({ leans: 'left' })).toBe('right');
});

test.each([
  [[3, -2, 1], 1],
  [[2, -3, 1], -1],
  [[3, -3], 1],
  [[-3, 3], 1],
  [[-1, -0.5], -1],
  [[0, 0], 1],
  [[], 1],
])('of %j the greatest bevel gives the hand %i; of two alike the standing one', (bevelsDeg, hand) => {
  expect(handOf(bevelsDeg)).toBe(hand);
});
