/**
 * Several readings of one place. Readings at the same girth count as one row of the fairing: their weighted mean, with all their
 * weight. Of three and more those are left out that stand off the middle one too far; of two that stand apart nobody can tell
 * which is right, so both are kept and a third is asked for.
 */

import type { PickUpRow } from '../job.ts';
import { ALLOWED, LEAST_ERROR, type Rows } from '../numeric/spline/outliers.ts';
import { lastRow, rowAt } from '../rowAt.ts';

export interface GirthReadings {
  readonly girthMm: number;
  /** Indices of its readings in the pick-up, in order. */
  readonly readings: readonly number[];
  /** Of these, the ones that the others outvote. */
  readonly outvoted: readonly number[];
  /** How far apart the two readings stand, where that is more than measuring error and no third decides; otherwise 0. */
  readonly apartDeg: number;
  readonly bevelDeg: number;
  readonly weight: number;
}

/** The rows by place; their girths never fall. */
export function placesOf(rows: readonly PickUpRow[], errorDeg: number): readonly GirthReadings[] {
  const groups: number[][] = [];
  for (const [i, { girthMm }] of rows.entries()) {
    const last = groups.at(-1);
    if (last !== undefined && rowAt(rows, rowAt(last, 0)).girthMm === girthMm) last.push(i);
    else groups.push([i]);
  }
  return groups.map((readings) => placeOf(rows, readings, errorDeg));
}

/** One place from these readings of it. */
export function placeOf(rows: readonly PickUpRow[], readings: readonly number[], measuredDeg: number): GirthReadings {
  const errorDeg = Math.max(measuredDeg, LEAST_ERROR);
  const sorted = readings.map((i) => rowAt(rows, i).bevelDeg).sort((a, b) => a - b);
  const [least, most] = [rowAt(sorted, 0), lastRow(sorted)];
  const middle = (rowAt(sorted, (sorted.length - 1) >> 1) + rowAt(sorted, sorted.length >> 1)) / 2;
  // Two readings of the same error differ by the root of two times as much.
  const isApart = most - least > ALLOWED * Math.SQRT2 * errorDeg;
  const outvoted =
    readings.length < 3 || !isApart
      ? []
      : readings.filter((i) => Math.abs(rowAt(rows, i).bevelDeg - middle) > ALLOWED * errorDeg);
  const kept = readings.filter((i) => !outvoted.includes(i)).map((i) => rowAt(rows, i));
  // Three readings that all stand apart outvote nobody and tell nothing.
  const isUndecided = isApart && (readings.length === 2 || kept.length < 2);
  const counted = isUndecided ? readings.map((i) => rowAt(rows, i)) : kept;
  const weight = counted.reduce((sum, row) => sum + row.weight, 0);
  return {
    girthMm: rowAt(rows, rowAt(readings, 0)).girthMm,
    readings,
    outvoted: isUndecided ? [] : outvoted,
    apartDeg: isUndecided ? most - least : 0,
    bevelDeg: counted.reduce((sum, row) => sum + row.weight * row.bevelDeg, 0) / weight,
    weight,
  };
}

/** Weights count against each other only: the middle one of the readings is taken as 1, so that an error is said of an ordinary reading. */
export function rowsOf(places: readonly GirthReadings[], readings: readonly PickUpRow[]): Rows {
  const weights = readings.map((row) => row.weight).sort((a, b) => a - b);
  const middle = weights[weights.length >> 1] ?? 1;
  return {
    x: places.map((place) => place.girthMm),
    y: places.map((place) => place.bevelDeg),
    weight: places.map((place) => place.weight / middle),
  };
}
