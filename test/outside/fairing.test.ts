/**
 * Fairing against bevels that are known exactly. Source of the surface: the Wigley parabolic hull (formula: read; angles and
 * girths: derived, see wigleySection.ts). How well bevels can be read by hand: half a degree (common practice, no source).
 */
import { describe, expect, test } from 'vitest';
import { fairPickUp } from '../../server/core/frame/fairPickUp.ts';
import { expectClose } from '../kit/close.ts';
import { exactBevelDeg, girthFromKeelMm, keelDownMm } from './wigleySection.ts';

const HALF_DEGREE = 0.5;
const toHalf = (deg: number): number => Math.round(deg / HALF_DEGREE) * HALF_DEGREE;
const rms = (values: readonly number[]): number => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);

/** Bevels from the keel up at equal heights, read to half a degree. */
function pickedUp(x: number, rows: number) {
  const downsMm = Array.from({ length: rows }, (_, i) => keelDownMm * (1 - i / (rows - 1)));
  return {
    downsMm,
    pickUp: {
      kind: 'pick-up' as const,
      file: 'pickup.csv',
      errorDeg: HALF_DEGREE,
      rows: downsMm.map((down) => ({
        girthMm: girthFromKeelMm(x, down),
        bevelDeg: toHalf(exactBevelDeg(x, down)),
        weight: 1,
      })),
    },
  };
}

describe('the Wigley hull', () => {
  // Figures: derived, by hand from the formula (check values, section 1).
  test.each([
    [1.25, 0.3125, 1.7184],
    [2.5, 0, 5.7106],
    [2.5, 0.15625, 5.1312],
    [2.5, 0.3125, 3.6797],
    [2.5, 0.46875, 1.8626],
    [3.75, 0.15625, 7.8864],
    [3.75, 0.3125, 6.0612],
    [4.5, 0.3125, 7.6022],
    [5, 0, 11.3099],
  ])('has at %d m from midships, %d m down, the bevel %d', (x, z, bevelDeg) => {
    expectClose(exactBevelDeg(x * 1000, z * 1000), bevelDeg, 5e-5, 'bevel');
  });

  test.each([2500, 3750, 4500].flatMap((x) => [9, 12, 20].map((rows) => [x, rows] as const)))(
    'picked up %d mm from midships in %d rows to half a degree, is faired to within the reading error everywhere',
    (x, rows) => {
      const { downsMm, pickUp } = pickedUp(x, rows);
      const fair = fairPickUp(pickUp);
      expect(fair.suspects).toEqual([]);
      const before = rms(pickUp.rows.map((row, i) => row.bevelDeg - exactBevelDeg(x, downsMm[i] ?? 0)));
      const everywhere = Array.from({ length: 101 }, (_, k) => (keelDownMm * k) / 100);
      const offs = everywhere.map((down) => fair.bevelAtDeg(girthFromKeelMm(x, down)) - exactBevelDeg(x, down));
      // Rounding to half a degree errs by 0.25 at most and 0.144 rms; between the rows, too, the curve keeps to that.
      expect(Math.max(...offs.map(Math.abs))).toBeLessThan(0.3);
      expect(rms(offs)).toBeLessThan(0.145);
      expect(rms(offs)).toBeLessThan(before * 1.1);
    },
  );

  test('a sign that slipped is named, and the bevel there comes out right all the same', () => {
    const { downsMm, pickUp } = pickedUp(4500, 11);
    const slipped = pickUp.rows.map((row, i) => (i === 6 ? { ...row, bevelDeg: -row.bevelDeg } : row));
    const fair = fairPickUp({ ...pickUp, rows: slipped });
    expect(fair.suspects.map(({ row }) => row)).toEqual([7]);
    expectClose(
      fair.bevelAtDeg(slipped[6]?.girthMm ?? 0),
      exactBevelDeg(4500, downsMm[6] ?? 0),
      0.5,
      'bevel at the slip',
    );
  });
});
