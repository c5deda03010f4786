import { describe, test } from 'vitest';
import { errorByDifferences } from '../../../server/core/numeric/errorByDifferences.ts';
import { expectClose } from '../../kit/close.ts';
import { chance, normal } from '../frame/fairFrames.ts';

const LINES = 24;

/** Lines over uneven places, drawn by `shape`, with normally spread errors of `errorMm` across them. */
function lines(places: number, errorMm: number, shape: (x: number, k: number) => number) {
  const draw = chance(31);
  const x = Float64Array.from({ length: places }, (_, i) => 100 * i + 60 * draw());
  const size = places * LINES;
  const fields = {
    u: new Float64Array(size),
    v: new Float64Array(size),
    nu: new Float64Array(size).fill(0.6),
    nv: new Float64Array(size).fill(0.8),
  };
  for (let i = 0; i < places; i++)
    for (let k = 0; k < LINES; k++) {
      const off = errorMm * normal(draw);
      // What lies along the line does not count.
      const along = 50 * draw();
      fields.u[i * LINES + k] = shape(x[i] ?? 0, k) + 0.6 * off + 0.8 * along;
      fields.v[i * LINES + k] = 0.8 * off - 0.6 * along;
    }
  return errorByDifferences(x, LINES, fields);
}

describe('the error that lines show', () => {
  test('is what was put in, on any shape of the fifth degree', () => {
    const shape = (x: number, k: number): number => 40 * k + 1e-13 * x ** 5 - 2e-4 * x * x;
    expectClose(lines(21, 2, shape), 2, 0.4);
    expectClose(lines(31, 0.25, shape), 0.25, 0.05);
    expectClose(lines(7, 2, shape), 2, 1, 'of seven places, the fewest');
  });

  test('is nothing where there is none', () => {
    expectClose(
      lines(21, 0, (x, k) => 500 * Math.sin(x / 2000 + k / 8)),
      0,
      1e-3,
    );
  });

  test('is not that of one place where the shape breaks', () => {
    expectClose(
      lines(31, 1, (x) => (x > 300 ? 0 : 80)),
      1,
      0.6,
    );
  });
});
