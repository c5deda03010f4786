/**
 * Between the blade's true tilt and the figure that the readout shows.
 *
 * The table holds (readout shown, true tilt by test block), both rising. Between two pairs it is a straight line, beyond the
 * ends the offset of the end pair; an empty table is a readout that tells the truth.
 */
import { interpolate } from '../numeric/interpolate.ts';

export type ReadoutTable = readonly (readonly [shownDeg: number, trueDeg: number])[];

/** The true tilt (degrees) when the readout shows this. */
export const trueTiltDeg = (shownDeg: number, table: ReadoutTable): number => alongTable(shownDeg, table);

/** What an endlessly fine readout would show at this true tilt (degrees). */
export const shownDeg = (tiltDeg: number, table: ReadoutTable): number =>
  alongTable(
    tiltDeg,
    table.map(([shown, real]) => [real, shown]),
  );

/** The nearest figure that the readout can show; halves go away from zero, so that both hands round alike. Never -0. */
export function toReadoutStep(deg: number, stepDeg: number): number {
  const steps = Math.sign(deg) * Math.floor(Math.abs(deg) / stepDeg + 0.5 + 1e-9);
  // Twelve figures: 3 x 0.1 is 0.3 then, as the readout shows it.
  return Number((steps * stepDeg).toPrecision(12)) + 0;
}

function alongTable(x: number, table: ReadoutTable): number {
  const first = table[0];
  const last = table.at(-1);
  if (first === undefined || last === undefined) return x;
  const inside = Math.min(last[0], Math.max(first[0], x));
  const xs = table.map(([from]) => from);
  const ys = table.map(([, to]) => to);
  return interpolate(xs, ys, inside) + (x - inside);
}
