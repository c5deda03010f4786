/**
 * Random fair frames as a shipwright would pick them up: bevels small at both ends and greatest at the turn of the bilge
 * (three families of curve), rows closer at the turn. Seeded, so that a rate is the same on every machine.
 */
import type { PickUp } from '../../../server/core/job.ts';
import { mulberry32 } from '../../../server/core/numeric/mulberry32.ts';

export type Chance = () => number;
export function chance(seed: number): Chance {
  let index = 0;
  return () => mulberry32(seed, index++);
}
/** Normally spread, by Box and Muller. */
export const normal = (next: Chance): number => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());

export interface FairFrame {
  readonly girthsMm: readonly number[];
  bevelDeg(girthMm: number): number;
}

export function fairFrame(next: Chance, rows: number): FairFrame {
  const lengthMm = 1200 + 2200 * next();
  const turnMm = (0.3 + 0.3 * next()) * lengthMm;
  const widthMm = (0.18 + 0.2 * next()) * lengthMm;
  const [greatest, heel, head] = [10 + 18 * next(), 2 + 4 * next(), 1 + 5 * next()];
  const family = next();
  const hump = (u: number): number => (family < 0.5 ? Math.exp((-u * u) / 2) : 1 / (1 + u * u));
  const bevelDeg = (girthMm: number): number => {
    const base = heel + ((head - heel) * girthMm) / lengthMm;
    if (family >= 0.75) return base + 0.6 * greatest * Math.sin((Math.PI * girthMm) / lengthMm) ** 2;
    return base + (greatest - base) * hump((girthMm - turnMm) / widthMm);
  };
  return { girthsMm: closerAtTheTurn(lengthMm, turnMm, rows), bevelDeg };
}

/** Rows two and a bit times as close at the turn as far from it, at whole 5 mm. */
function closerAtTheTurn(lengthMm: number, turnMm: number, rows: number): readonly number[] {
  const cells = 400;
  const closeness = Array.from({ length: cells }, (_, k) => {
    const girthMm = ((k + 0.5) / cells) * lengthMm;
    return 1 + 1.2 * Math.exp(-(((girthMm - turnMm) / (0.2 * lengthMm)) ** 2));
  });
  const summed = [0];
  for (const value of closeness) summed.push((summed.at(-1) ?? 0) + value);
  return Array.from({ length: rows }, (_, i) => {
    const wanted = (i / (rows - 1)) * (summed[cells] ?? 0);
    const k = Math.max(0, summed.findIndex((value) => value >= wanted) - 1);
    const share = (wanted - (summed[k] ?? 0)) / (closeness[k] ?? 1);
    return Math.round((((k + share) / cells) * lengthMm) / 5) * 5;
  });
}

export const pickUpOf = (girthsMm: readonly number[], bevelsDeg: readonly number[], errorDeg = 0.5): PickUp => ({
  kind: 'pick-up',
  file: 'pickup.csv',
  rows: girthsMm.map((girthMm, i) => ({ girthMm, bevelDeg: bevelsDeg[i] ?? 0, weight: 1 })),
  errorDeg,
});

export const toHalf = (deg: number): number => Math.round(deg * 2) / 2;
export const rmsOf = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
