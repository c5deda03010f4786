import fc from 'fast-check';
import { describe, it } from 'vitest';
import { type Belief, carryOn, learn, type Reading } from '../../../server/core/track/kalman.ts';
import { expectClose } from '../../kit/close.ts';

const first: Belief = { atMs: 0, mean: [0, 0.05, 0], cov: [4, 0, 0, 0, 1e-4, 0, 0, 0, 0] };
const still = { acceleration: 0, zeroPerMm: 0 };

describe('the filter', () => {
  it('gives what least squares over all readings at once gives, when nothing wanders', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({ gapMs: fc.integer({ min: 1, max: 900 }), mm: fc.double({ min: -3, max: 3, noNaN: true }) }),
          {
            minLength: 2,
            maxLength: 12,
          },
        ),
        (list) => {
          let belief = first;
          // Second computation: the normal equations of prior and readings, solved once at the end.
          let [a, b, c, p, q] = [1 / 4, 0, 1 / 1e-4, 0, 0.05 / 1e-4];
          let atMs = 0;
          for (const { gapMs, mm } of list) {
            atMs += gapMs;
            const wanted = 0.05 * atMs + mm;
            const reading: Reading = { h: [1, 0, 0], wanted, variance: 1 };
            belief = learn(carryOn(belief, atMs, still), reading);
            a += 1;
            b += atMs;
            c += atMs * atMs;
            p += wanted;
            q += atMs * wanted;
          }
          const determinant = a * c - b * b;
          const start = (c * p - b * q) / determinant;
          const speed = (a * q - b * p) / determinant;
          expectClose(belief.mean[1], speed, 1e-9, 'speed');
          expectClose(belief.mean[0], start + speed * atMs, 1e-6, 'place');
          expectClose(belief.cov[4], a / determinant, 1e-12, 'variance of the speed');
        },
      ),
    );
  });

  it('carries on in two steps as in one', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 5000 }), fc.integer({ min: 0, max: 5000 }), (a, b) => {
        const wander = { acceleration: 2e-9, zeroPerMm: 0.02 };
        const once = carryOn(first, a + b, wander);
        const twice = carryOn(carryOn(first, a, wander), a + b, wander);
        for (const [index, cell] of once.cov.entries())
          expectClose(twice.cov[index] ?? Number.NaN, cell, 1e-9 * Math.max(1, Math.abs(cell)), `cell ${index}`);
      }),
    );
  });
});
