/**
 * The step that a table's figures are rounded to, found from the figures: the greatest usual step of which nearly all of them are
 * multiples. A table with many decimals has a step too small to matter.
 */
import type { OffsetTable } from './offsets.ts';

/** Usual steps (mm), metric and parts of an inch, from coarse to fine. */
const STEPS_MM = [10, 6.35, 5, 3.175, 2, 1.5875, 1, 0.79375, 0.5, 0.396875, 0.254, 0.1, 0.0254, 0.01, 0.001];
/** Figures given exactly, such as heights of waterlines, fit every step: so most must fit, and a few slips may not. */
const MOST = 0.97;
const WITHIN_MM = 1e-5;

export function roundingOfMm({ stations }: OffsetTable): number {
  const figures = stations.flatMap(({ points }) => points.flatMap(({ yMm, zMm }) => [yMm, zMm]));
  const given = figures.filter((mm) => mm !== 0);
  const fits = (step: number): number =>
    given.filter((mm) => Math.abs(mm - step * Math.round(mm / step)) <= WITHIN_MM).length;
  return STEPS_MM.find((step) => fits(step) >= MOST * given.length) ?? 0;
}
