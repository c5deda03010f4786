import { describe, expect, test } from 'vitest';
import { isHardwood, leastRadiusOverThickness } from '../../../server/core/stack/bendLimit.ts';
import { pliesBetween } from '../../../server/core/stack/wedgeBend.ts';

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

test("southern pine is held to the hardwoods' limit and is none", () => {
  expect(['southern pine', 'white oak', 'Douglas-fir'].map(isHardwood)).toStrictEqual([false, true, false]);
});

test('as many whole laminations as fit between the wedges', () => {
  expect(pliesBetween(80, 40, 3.2)).toBe(12);
  expect(pliesBetween(80, 48, 3.2)).toBe(10);
  expect(pliesBetween(80, 79, 3.2)).toBe(0);
  expect(pliesBetween(80, 90, 3.2)).toBe(0);
});
