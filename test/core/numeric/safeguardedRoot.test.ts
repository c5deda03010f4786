import fc from 'fast-check';
import { describe, test } from 'vitest';
import { safeguardedRoot } from '../../../server/core/numeric/safeguardedRoot.ts';
import { expectClose } from '../../kit/close.ts';

describe('a safeguarded root', () => {
  test('finds where a rising function passes nought, also where Newton alone would fly off', () => {
    fc.assert(
      fc.property(fc.double({ min: -9, max: 9, noNaN: true }), (root) => {
        const steep = (x: number) => ({ value: Math.atan(50 * (x - root)), slope: 50 / (1 + (50 * (x - root)) ** 2) });
        expectClose(safeguardedRoot(steep, -10, 10, 1e-12), root, 1e-10, 'arc tangent');
        const flat = (x: number) => ({ value: (x - root) ** 3, slope: 3 * (x - root) ** 2 });
        expectClose(safeguardedRoot(flat, -10, 10, 1e-9), root, 1e-5, 'cube, flat at its root');
      }),
    );
  });

  test('finds a root at either end', () => {
    const line = (x: number) => ({ value: x - 2, slope: 1 });
    expectClose(safeguardedRoot(line, 2, 5, 1e-12), 2, 1e-11, 'at the lower end');
    expectClose(safeguardedRoot(line, -1, 2, 1e-12), 2, 1e-11, 'at the upper end');
  });
});
