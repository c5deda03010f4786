import { degFigure, tenthsDegText } from '../figures/degrees.ts';
import type { PickUp, PickUpRow } from '../job.ts';
import { crossValidated, smoothingRange } from '../numeric/spline/crossValidated.ts';
import type { Curve } from '../numeric/spline/cubicCurve.ts';
import { FEWEST_TO_JUDGE, LEAST_ERROR, offTheOthers, outlyingRows, type Rows } from '../numeric/spline/outliers.ts';
import { smoothingSpline } from '../numeric/spline/smoothingSpline.ts';
import { lastRow, rowAt } from '../rowAt.ts';
import type { MeasureAgain, Suspect } from './findings.ts';
import { slipOf } from './likelySlip.ts';
import { type GirthReadings, placeOf, placesOf, rowsOf } from './readings.ts';

/** Fewer rows than this cannot tell measuring error from shape (measured: see crossValidated.ts), so the curve follows them. */
const FEWEST_TO_FAIR = 8;
/**
 * An end that stands off the straight way on of the others by so many measuring errors is asked for again. Most ends so far off are
 * sound, for a curve may turn there: it is a question, not a verdict (rates: test/core/frame/endRates.test.ts).
 */
const ASKED_FROM_ERRORS = 6;

export interface FairBevels {
  /** The fair bevel; beyond the rows it is carried on straight. */
  bevelAtDeg(girthMm: number): number;
  slopeAtDegPerMm(girthMm: number): number;
  /** How far the rows that were kept stand off the fair curve. */
  readonly rmsDeg: number;
  /** The rows that were left out, in the order of the pick-up. */
  readonly suspects: readonly Suspect[];
  /** Rows that are in the curve, but want a second (or third) reading. */
  readonly measureAgain: readonly MeasureAgain[];
  /** Why the rows do not check each other; null where they do. Readings of one place count as one. */
  readonly unchecked: 'two places' | 'few places' | null;
  /** `row` is counted from the first data row = 1. */
  isSuspect(row: number): boolean;
  readonly fromGirthMm: number;
  readonly toGirthMm: number;
}

/**
 * Takes the measuring error out of bevels picked up on the boat: a natural cubic smoothing spline, its smoothing chosen by
 * cross-validation. Rows between the ends that stand off the others by clearly more than `errorDeg` are named and left out. The
 * first and the last place are never left out: beyond them nothing tells whether the bevel turns there or the pencil slipped. They
 * are asked for again, and readings at the same girth count as one place (readings.ts).
 * Girths in mm, bevels in degrees. Throws where the girths fall, are fewer than 2 or have a weight that is not positive.
 * Sources: smoothingSpline.ts, crossValidated.ts, outliers.ts.
 */
export function fairPickUp(pickUp: PickUp): FairBevels {
  const places = placesOf(pickUp.rows, pickUp.errorDeg);
  const rows = rowsOf(places, pickUp.rows);
  const outlying = outlyingRows(rows, pickUp.errorDeg);
  const ends = [0, places.length - 1];
  const left = new Map([...outlying].filter(([i]) => !ends.includes(i)));
  const others = fairCurve(
    rowsOf(
      places.filter((_, i) => !left.has(i)),
      pickUp.rows,
    ),
  );
  // Of several readings of a place that stands off, those that fit the others are kept.
  const fits = (at: number, place: GirthReadings, allowed: number): boolean =>
    place.readings.length > 1 &&
    Math.abs(pickUpRow(pickUp, at).bevelDeg - others.valueAt(place.girthMm)) <= Math.min(allowed, place.apartDeg / 2);
  const kept = places.flatMap((place, i) => {
    const allowed = left.get(i)?.allowed;
    if (allowed === undefined) return [place];
    const fitting = place.readings.filter((at) => fits(at, place, allowed));
    return fitting.length === 0 ? [] : [placeOf(pickUp.rows, fitting, pickUp.errorDeg)];
  });
  const curve = fairCurve(rowsOf(kept, pickUp.rows));
  const suspects = places.flatMap((place, i) => {
    const allowed = left.get(i)?.allowed;
    return allowed === undefined
      ? place.outvoted.map((at) => outvoted(at, pickUpRow(pickUp, at), place))
      : place.readings
          .filter((at) => !fits(at, place, allowed))
          .map((at) => suspect(at, pickUpRow(pickUp, at), curve.valueAt(place.girthMm), allowed));
  });
  const isLeftOut = new Set(suspects.map(({ row }) => row));
  const squares = pickUp.rows
    .filter((_, i) => !isLeftOut.has(i + 1))
    .map((row) => (row.bevelDeg - curve.valueAt(row.girthMm)) ** 2);
  return {
    bevelAtDeg: curve.valueAt,
    slopeAtDegPerMm: curve.slopeAt,
    rmsDeg: Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length),
    suspects,
    measureAgain: [...apart(pickUp, places, left), ...endsToAsk(pickUp, places, rows, [...outlying.keys()])],
    unchecked: uncheckedOf(places),
    isSuspect: (row) => isLeftOut.has(row),
    fromGirthMm: rowAt(pickUp.rows, 0).girthMm,
    toGirthMm: lastRow(pickUp.rows).girthMm,
  };
}

function uncheckedOf(places: readonly GirthReadings[]): FairBevels['unchecked'] {
  if (places.length === 2) return 'two places';
  return places.length < FEWEST_TO_JUDGE && places.some(({ readings }) => readings.length < 2) ? 'few places' : null;
}

function fairCurve(rows: Rows): Curve {
  const fitAt = smoothingSpline(rows);
  const range = smoothingRange(rows.x, rows.weight);
  const fit = rows.x.length < FEWEST_TO_FAIR ? fitAt(range.closest) : crossValidated(fitAt, rows.x.length, range);
  return fit.curve;
}

function pickUpRow({ rows, file }: PickUp, index: number): PickUpRow {
  const row = rows[index];
  if (row === undefined) throw new Error(`${file} has no row ${index + 1}`);
  return row;
}

function suspect(index: number, row: PickUpRow, fairDeg: number, allowedDeg: number): Suspect {
  const size = Math.abs(row.bevelDeg - fairDeg);
  const slip = slipOf(row.bevelDeg, fairDeg, Math.min(allowedDeg, size / 2));
  const where = `${stands(row.bevelDeg, fairDeg)} its neighbours`;
  const reason = slip === undefined ? `${where}; measure it again` : `${where}; perhaps ${slip}`;
  return { row: index + 1, girthMm: row.girthMm, foundDeg: row.bevelDeg, fairDeg, reason };
}

const stands = (foundDeg: number, otherDeg: number): string =>
  `stands ${degFigure(Math.abs(foundDeg - otherDeg), 1)} degrees ${foundDeg > otherDeg ? 'above' : 'below'}`;

const outvoted = (index: number, row: PickUpRow, { bevelDeg: fairDeg }: GirthReadings): Suspect => ({
  row: index + 1,
  girthMm: row.girthMm,
  foundDeg: row.bevelDeg,
  fairDeg,
  reason: `${stands(row.bevelDeg, fairDeg)} the other readings of its place`,
});

/** Readings of one place that cannot all be right; the curve has their mean. Which of them slipped is not said: nobody knows. */
const apart = (pickUp: PickUp, places: readonly GirthReadings[], left: ReadonlyMap<number, unknown>): MeasureAgain[] =>
  places.flatMap(({ readings, apartDeg, bevelDeg, girthMm }, i) => {
    const last = readings.at(-1);
    if (apartDeg === 0 || last === undefined || left.has(i)) return [];
    const rows = readings.map((at) => `${pickUpRow(pickUp, at).bevelDeg}° in row ${at + 1}`).join(', ');
    const reason = `is one of ${readings.length} readings of this place that stand ${degFigure(apartDeg, 1)} degrees apart (${rows}); the curve has their mean, ${tenthsDegText(bevelDeg)}`;
    return [{ row: last + 1, girthMm, foundDeg: pickUpRow(pickUp, last).bevelDeg, othersDeg: bevelDeg, reason }];
  });

/** The first and the last place, where they stand far off what the others lead to and were read once only. */
function endsToAsk(
  pickUp: PickUp,
  places: readonly GirthReadings[],
  rows: Rows,
  outlying: readonly number[],
): MeasureAgain[] {
  if (places.length < FEWEST_TO_JUDGE) return [];
  return [0, places.length - 1].flatMap((end) => {
    const { readings, girthMm, bevelDeg } = places[end] ?? { readings: [], girthMm: 0, bevelDeg: 0 };
    if (readings.length !== 1) return [];
    const others = outlying.filter((i) => i !== end);
    const offDeg = offTheOthers(rows, [...others, end], end);
    const isAsked =
      outlying.includes(end) || Math.abs(offDeg) > ASKED_FROM_ERRORS * Math.max(pickUp.errorDeg, LEAST_ERROR);
    if (!isAsked) return [];
    const othersDeg = bevelDeg - offDeg;
    const slip = slipOf(bevelDeg, othersDeg, Math.abs(offDeg) / 2);
    const reason =
      `${stands(bevelDeg, othersDeg)} where the others lead (${tenthsDegText(othersDeg)}), and nothing beyond the ${end === 0 ? 'heel' : 'head'} tells which is right` +
      (slip === undefined ? '' : `; perhaps ${slip}`);
    const [only = 0] = readings;
    return [{ row: only + 1, girthMm, foundDeg: pickUpRow(pickUp, only).bevelDeg, othersDeg, reason }];
  });
}
