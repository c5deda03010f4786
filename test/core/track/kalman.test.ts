import fc from 'fast-check';
import { describe, it } from 'vitest';
import { type Belief, carryOn, learn, type Mean, type Reading, surprise } from '../../../server/core/track/kalman.ts';
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

  it('learns as Joseph’s form does, for all three numbers, whatever is read', () => {
    // (I - K h') P (I - K h')' + K r K', with K = P h / s. Source: Bucy and Joseph, Filtering for Stochastic Processes, 1968 (from memory).
    const cov = [9, 0.4, 3, 0.4, 0.25, -0.2, 3, -0.2, 5] as const;
    const belief: Belief = { atMs: 0, mean: [100, 0.05, 7], cov };
    const cell = (i: number, j: number): number => cov[3 * i + j] ?? Number.NaN;
    const read: readonly Mean[] = [
      [1, 0, 0],
      [1, 0, -1],
      [0.5, 2, -0.7],
    ];
    for (const h of read) {
      const reading: Reading = { h, wanted: 96, variance: 0.8 };
      const ph = [0, 1, 2].map((i) => h.reduce((sum, by, j) => sum + cell(i, j) * by, 0));
      const s = h.reduce((sum, by, i) => sum + by * (ph[i] ?? 0), 0) + 0.8;
      const gain = ph.map((each) => each / s);
      const keep = (i: number, j: number): number => (i === j ? 1 : 0) - (gain[i] ?? 0) * (h[j] ?? 0);
      const learnt = learn(belief, reading);
      for (let i = 0; i < 3; i++)
        for (let j = 0; j < 3; j++) {
          let wanted = (gain[i] ?? 0) * 0.8 * (gain[j] ?? 0);
          for (let a = 0; a < 3; a++) for (let b = 0; b < 3; b++) wanted += keep(i, a) * cell(a, b) * keep(j, b);
          expectClose(learnt.cov[3 * i + j] ?? Number.NaN, wanted, 1e-12, `cell ${i} ${j}`);
        }
      const off = 96 - h.reduce((sum, by, i) => sum + by * (belief.mean[i] ?? 0), 0);
      for (let i = 0; i < 3; i++)
        expectClose(learnt.mean[i] ?? Number.NaN, (belief.mean[i] ?? 0) + (gain[i] ?? 0) * off, 1e-12, `mean ${i}`);
      const { off: told, variance } = surprise(belief, reading);
      expectClose(told, off, 1e-12, 'surprise');
      expectClose(variance, s, 1e-12, 'its variance');
    }
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
