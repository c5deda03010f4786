import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { factor, inverseBands, solve } from '../../../../server/core/numeric/spline/pentadiagonal.ts';
import { expectClose } from '../../../kit/close.ts';
import { entry, inverse, type Matrix, matrix, times, transposed } from '../dense.ts';

/** Positive definite with five bands: L L' of a lower triangle of three bands with a safe diagonal. */
const someBanded: fc.Arbitrary<Matrix> = fc
  .array(fc.tuple(...[0, 1, 2].map(() => fc.double({ min: -1, max: 1, noNaN: true }))), { minLength: 1, maxLength: 12 })
  .map((bands) => {
    const lower = matrix(bands.length, bands.length, (i, j) =>
      i === j ? 2 + (bands[i]?.[0] ?? 0) : i - j === 1 || i - j === 2 ? (bands[i]?.[i - j] ?? 0) : 0,
    );
    return times(lower, transposed(lower));
  });

const bandsOf = (m: Matrix) => ({
  main: Float64Array.from(m, (_, i) => entry(m, i, i)),
  first: Float64Array.from(m, (_, i) => entry(m, i, i + 1)),
  second: Float64Array.from(m, (_, i) => entry(m, i, i + 2)),
});

describe('a matrix of five bands', () => {
  test('is solved, and the bands of its inverse are those of the dense inverse', () => {
    fc.assert(
      fc.property(someBanded, (m) => {
        const factored = factor(bandsOf(m));
        const right = m.map((_, i) => Math.cos(i));
        const found = solve(factored, right);
        const back = times(
          m,
          Array.from(found, (value) => [value]),
        );
        const bands = inverseBands(factored);
        const dense = inverse(m);
        m.forEach((_, i) => {
          expectClose(entry(back, i, 0), right[i] ?? Number.NaN, 1e-10, `right side ${i}`);
          expectClose(bands.main[i] ?? Number.NaN, entry(dense, i, i), 1e-10, `(${i}, ${i})`);
          if (i + 1 < m.length)
            expectClose(bands.first[i] ?? Number.NaN, entry(dense, i, i + 1), 1e-10, `(${i}, ${i} + 1)`);
          if (i + 2 < m.length)
            expectClose(bands.second[i] ?? Number.NaN, entry(dense, i, i + 2), 1e-10, `(${i}, ${i} + 2)`);
        });
      }),
    );
  });

  test('is refused where it is not positive definite', () => {
    const bands = { main: Float64Array.of(1, 1), first: Float64Array.of(2, 0), second: new Float64Array(2) };
    expect(() => factor(bands)).toThrow('pivot 1 is -3');
  });
});
