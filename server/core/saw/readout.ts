/**
 * Between the blade's true tilt and the figure that the readout shows.
 *
 * The table holds (readout shown, true tilt by test block), both rising. Between two pairs it is a straight line, beyond the
 * ends the offset of the end pair; an empty table is a readout that tells the truth.
 */

import { toReadoutStep } from '../figures/rounding.ts';

export type ReadoutTable = readonly (readonly [shownDeg: number, trueDeg: number])[];

/** The true tilt (degrees) when the readout shows this. */
export const trueTiltDeg = (shownDeg: number, table: ReadoutTable): number => alongTable(shownDeg, table, 0, 1);

/** What an endlessly fine readout would show at this true tilt (degrees). */
export const shownDeg = (tiltDeg: number, table: ReadoutTable): number => alongTable(tiltDeg, table, 1, 0);

/** From one column of the table to the other; exact at its pairs. */
function alongTable(x: number, table: ReadoutTable, from: 0 | 1, to: 0 | 1): number {
  const first = table[0];
  const last = table[table.length - 1];
  if (first === undefined || last === undefined) return x;
  if (x <= first[from]) return first[to] + (x - first[from]);
  if (x >= last[from]) return last[to] + (x - last[from]);
  let low = first;
  for (const pair of table) {
    if (pair[from] > x) return low[to] + ((x - low[from]) / (pair[from] - low[from])) * (pair[to] - low[to]);
    low = pair;
  }
  return last[to];
}

/** The readout's figure for a true tilt. */
export const callFor = (
  saw: { readonly readoutTable: ReadoutTable; readonly readoutDeg: number },
  tiltDeg: number,
): number => toReadoutStep(shownDeg(tiltDeg, saw.readoutTable), saw.readoutDeg);
