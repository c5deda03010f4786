import { describe, expect, test } from 'vitest';
import { bendsAt, leastRadiusOverThickness } from '../../../server/core/stack/bendLimit.ts';
import { pliesBetween } from '../../../server/core/stack/plies.ts';

describe('the wood', () => {
  test.each(['white oak', 'White Ash', 'black locust', 'southern pine', 'Longleaf pine', 'rock-elm'])(
    '%s may be bent to 100 times its thickness',
    (species) => expect(leastRadiusOverThickness(species)).toBe(100),
  );
  test.each(['Douglas-fir', 'western larch', 'yellow-cedar', 'Sitka spruce', 'white pine', 'wood', '', 'cloak'])(
    '%s, or a name that says nothing, to 125',
    (species) => expect(leastRadiusOverThickness(species)).toBe(125),
  );
});

describe('the radius that a wedge lies in', () => {
  const wedges = { outerMm: [3, 13], innerMm: [15, 5] } as const;
  test('is that of its concave face: in a bilge the flat of the outer one and the sawn face of the inner one', () => {
    expect(bendsAt(1000, wedges, 'forward', 75)).toStrictEqual([
      { wedge: 'outer', thicknessMm: 13, radiusMm: 997 },
      { wedge: 'inner', thicknessMm: 15, radiusMm: 925 },
    ]);
  });
  test('in a reverse turn the sawn face of the outer one and the flat of the inner one', () => {
    expect(bendsAt(-1000, wedges, 'aft', 75)).toStrictEqual([
      { wedge: 'outer', thicknessMm: 13, radiusMm: 1000 },
      { wedge: 'inner', thicknessMm: 15, radiusMm: 1070 },
    ]);
  });
  test('is nothing where the turn is sharper than the frame is deep', () => {
    expect(bendsAt(50, wedges, 'forward', 75)[1].radiusMm).toBe(0);
  });
});

test('as many whole laminations as fit between the wedges', () => {
  expect(pliesBetween(80, 40, 3.2)).toBe(12);
  expect(pliesBetween(80, 48, 3.2)).toBe(10);
  expect(pliesBetween(80, 79, 3.2)).toBe(0);
  expect(pliesBetween(80, 90, 3.2)).toBe(0);
});
