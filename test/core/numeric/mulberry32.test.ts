import { expect, it } from 'vitest';
import { mulberry32 } from '../../../server/core/numeric/mulberry32.ts';

// Derived: the author's C program (public domain, see the source cited in mulberry32.ts), compiled with gcc 12 and run.
it.each([
  [0, [1144304738, 1416247, 958946056, 627933444, 2007157716]],
  [1, [2693262067, 11749833, 2265367787, 4213581821, 4159151403]],
  [12345, [4207900869, 1317490944, 2079646450, 3513001552, 2187978186]],
  [4294967295, [3850105811, 813802916, 3073704848, 4054706436, 3630262831]],
])('gives the numbers of the published program for seed %d', (seed, wanted) => {
  expect(wanted.map((_, index) => mulberry32(seed, index) * 2 ** 32)).toEqual(wanted);
});
