import fc from 'fast-check';
import { describe, test } from 'vitest';
import { goldenSection } from '../../../server/core/numeric/goldenSection.ts';
import { expectClose } from '../../kit/close.ts';

describe('golden section', () => {
  test('finds the lowest place of a trough to within what was asked', () => {
    fc.assert(
      fc.property(fc.double({ min: -3, max: 8, noNaN: true }), (lowest) => {
        expectClose(
          goldenSection((x) => Math.abs(x - lowest), -3, 8, 1e-3),
          lowest,
          1e-3,
          'lowest place',
        );
      }),
    );
  });
});
