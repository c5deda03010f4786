import { describe, expect, it } from 'vitest';
import { studentNineInTen } from '../../../server/core/numeric/studentT.ts';
import { expectClose } from '../../kit/close.ts';

describe('nine in ten of Student’s t', () => {
  // The column 0.90 of the usual printed tables (from memory).
  it.each([
    [3, 1.638],
    [4, 1.533],
    [5, 1.476],
    [9, 1.383],
    [14, 1.345],
    [30, 1.31],
    [120, 1.289],
  ])('with %d degrees of freedom lie below %d', (freedom, wanted) => {
    expectClose(studentNineInTen(freedom), wanted, 0.0011, 't');
  });

  it('come down to the normal deviate', () => {
    expectClose(studentNineInTen(1e6), 1.28155, 1e-5, 'z');
  });

  it('are not given for fewer degrees than the expansion is good for', () => {
    expect(() => studentNineInTen(2)).toThrow('at least 3');
  });
});
