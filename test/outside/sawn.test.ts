/** What is reckoned of sawn pieces and trials, against figures that are not ours. */
import { expect, test } from 'vitest';
import { fitted } from '../../server/core/numeric/leastSquares.ts';
import { shownDeg } from '../../server/core/saw/readout.ts';
import { planingAt } from '../../server/core/sawn/plane.ts';

/** NIST Statistical Reference Datasets, Norris (linear regression, lower difficulty): ozone monitors, y against x. Data from memory. */
const NORRIS: readonly (readonly [y: number, x: number])[] = [
  [0.1, 0.2],
  [338.8, 337.4],
  [118.1, 118.2],
  [888.0, 884.6],
  [9.2, 10.1],
  [228.1, 226.5],
  [668.5, 666.3],
  [998.5, 996.3],
  [449.1, 448.6],
  [778.9, 777.0],
  [559.2, 558.2],
  [0.3, 0.4],
  [0.1, 0.6],
  [778.1, 775.5],
  [668.8, 666.9],
  [339.3, 338.0],
  [448.9, 447.5],
  [10.8, 11.6],
  [557.7, 556.0],
  [228.3, 228.1],
  [998.0, 995.8],
  [888.8, 887.6],
  [119.6, 120.2],
  [0.3, 0.3],
  [0.6, 0.3],
  [557.6, 556.8],
  [339.3, 339.1],
  [888.0, 887.2],
  [998.5, 999.0],
  [778.9, 779.0],
  [10.2, 11.1],
  [117.6, 118.3],
  [228.9, 229.2],
  [668.4, 669.1],
  [449.2, 448.9],
  [0.2, 0.5],
];

test('least squares and its errors: the certified figures of NIST’s Norris data (from memory; they agree to nine digits)', () => {
  const { values, covariance, leftSquares } = fitted(
    NORRIS.map(([, x]) => [1, x]),
    NORRIS.map(([y]) => y),
    NORRIS.map(() => 1),
  );
  const sigma = Math.sqrt(leftSquares / (NORRIS.length - 2));
  const errors = [0, 1].map((i) => sigma * Math.sqrt(covariance[i]?.[i] ?? 0));
  expect(values[0]).toBeCloseTo(-0.262323073774029, 9);
  expect(values[1]).toBeCloseTo(1.00211681802045, 11);
  expect(errors[0]).toBeCloseTo(0.232818234301152, 9);
  expect(errors[1]).toBeCloseTo(0.429796848199937e-3, 12);
  expect(sigma).toBeCloseTo(0.884796396144373, 9);
});

test('half a degree across a siding of 60 mm is 0.52 mm to plane (check values, section 11: derived)', () => {
  const asked = {
    half: 'outer',
    heelMm: 0,
    headMm: 1,
    stockFromMm: 0,
    stockToMm: 1,
    marks: [],
    cut: { sidingMm: 60, kerfMm: 2.4, straightAtMm: 0, lineMm: 4.2, thicknessMm: 20 },
    upEdge: 'aft',
    hand: 1,
    leads: 'heel',
    thinnestEdgeMm: 3,
    mouldedEdge: 'forward',
    bevelDeg: () => 0,
  } as const;
  expect(planingAt(asked, 0.5, 0).edgeMm).toBeCloseTo(0.52, 2);
  // The same on the other hand; and a step of 1 in 60 is 0.9548 degrees (any table of tangents: tan 0.9548 = 0.016667).
  expect(planingAt(asked, -0.5, 0, 6)).toMatchObject({ edge: 'forward', edgeMm: expect.closeTo(0.52, 2) });
  expect(planingAt(asked, 0.9548, 0).edgeMm).toBeCloseTo(1, 3);
});

test('the readout table of the contract’s example: a true 20.3 is shown as 20, halfway between two blocks by a straight line', () => {
  const table = [
    [0, 0.2],
    [10, 10.1],
    [20, 20.3],
  ] as const;
  expect(shownDeg(20.3, table)).toBeCloseTo(20, 12);
  expect(shownDeg(15.2, table)).toBeCloseTo(15, 12);
});
