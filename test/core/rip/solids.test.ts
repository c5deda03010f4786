/**
 * A stock of 60 x 40 cut at 10 degrees by a kerf of 2 through (30 high, 20 from the reference face), worked by hand (derived): the kerf's
 * faces stand 1 / cos 10 to either side of 20 + (height - 30) tan 10.
 */
import { describe, expect, test } from 'vitest';
import { bevelSign, sawSolids, thickEdgeOf, WAYS_TO_LAY } from '../../../server/core/rip/solids.ts';
import { expectClose } from '../../kit/close.ts';

const TEN = Math.PI / 18;
const lineMm = (heightMm: number): number => 20 + (heightMm - 30) * Math.tan(TEN);
const HALF_KERF_MM = 1 / Math.cos(TEN);
/** At the table and at the top. */
const AT_FENCE_MM = [lineMm(0) - HALF_KERF_MM, lineMm(60) - HALF_KERF_MM] as const;
const AWAY_MM = [40 - lineMm(0) - HALF_KERF_MM, 40 - lineMm(60) - HALF_KERF_MM] as const;

const ways = WAYS_TO_LAY.flatMap((laid) =>
  (['left', 'right'] as const).flatMap((leans) =>
    (['port', 'starboard'] as const).map((side) => ({ ...laid, leans, side })),
  ),
);

describe.each(ways)('$leads first, $up edge up, top leaning $leans, $side', ({ leads, up, leans, side }) => {
  const blade = { leans, tiltDeg: 10, kerfMm: 2, throughMm: [30, 20] } as const;
  const halves = sawSolids({ leads, up }, blade, { sidingMm: 60, thicknessMm: 40 }, side);

  test('both halves have the edges that the kerf leaves', () => {
    const [outer, inner] = halves.outerIs === 'at the fence' ? [AT_FENCE_MM, AWAY_MM] : [AWAY_MM, AT_FENCE_MM];
    for (const [half, [atTable, atTop]] of [
      [halves.outerMm, outer],
      [halves.innerMm, inner],
    ] as const) {
      const [forward, aft] = up === 'forward' ? [atTop, atTable] : [atTable, atTop];
      expectClose(half[0], forward, 1e-9, 'forward edge');
      expectClose(half[1], aft, 1e-9, 'aft edge');
    }
  });

  test('the half at the fence is the outer one where the blade leans outboard', () => {
    // The sawyer faces along the feed: fed with the head first, forward edge up, z x x = y, port is on his right.
    const rightIsPort = (leads === 'head') === (up === 'forward');
    const leansToPort = (leans === 'right') === rightIsPort;
    expect(halves.outerIs).toBe(leansToPort === (side === 'port') ? 'at the fence' : 'away from the fence');
  });
});

test('a bevel is standing where the outer wedge grows from the moulded face across', () => {
  const wedges = { outerMm: [10, 14], innerMm: [14, 10] } as const;
  expect(bevelSign(wedges, 'forward')).toBe(1);
  expect(bevelSign(wedges, 'aft')).toBe(-1);
  expect(bevelSign({ ...wedges, outerMm: [10, 10] }, 'aft')).toBe(0);
  expect(thickEdgeOf(wedges)).toBe('aft');
  expect(thickEdgeOf({ outerMm: [14, 10] as const, innerMm: [10, 14] })).toBe('forward');
});
