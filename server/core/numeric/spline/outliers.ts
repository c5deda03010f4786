/**
 * Which rows do not belong to one fair curve. A row is judged by how far it stands off the fair curve of the others, against
 * how far it may: ALLOWED times the measuring error, widened by how little the others know of that place
 * (1 / sqrt(1 - leverage): 1.2 to 1.8 in the middle, 2 and more at an end, where the others can only be carried on straight).
 * Source: the deleted residual and its spread as in Cook and Weisberg, Residuals and Influence in Regression, 1982, section
 * 2.2.1, the leverage read as a variance as in Wahba, J. R. Stat. Soc. B 45 (1983), 133-150 (both from memory).
 *
 * Two wrong rows can hide each other, and one wrong row makes its neighbours look wrong. So: while any row stands off too far,
 * the row (or the two neighbours) without which the others are fairest goes; then every row left out is tried against the rows
 * kept, now with the error that those really show where it is the greater, and taken back if it passes. A rough list is thus
 * rough and not full of outliers. At most a third of the rows can go, and fewer than 6 rows accuse nobody: with 5, one fair list
 * in eight lost a row.
 * Error: ALLOWED = 4, since of errors spread normally one in 16,000 is greater; the rates of false alarms and of slips found are
 * measured in test/core/frame/suspectRates.test.ts.
 */
import { sdByMedian } from '../median.ts';
import { crossValidated, smoothingRange } from './crossValidated.ts';
import { type SmoothingFit, smoothingSpline, type WeightedRows } from './smoothingSpline.ts';

export const ALLOWED = 4;
/** Fewer rows accuse nobody. */
export const FEWEST_TO_JUDGE = 6;
/** Judging wants a stiffer curve than fairing: one that follows a wrong row cannot accuse it. */
const MOST_TRACE_JUDGING = 0.7;
/** Up to so many rows one wrong row can bend the smoothing itself, so each is judged by the smoothing of the others. */
const FEW_ROWS = 40;
/** Two neighbours wrong alike look like a hollow that one row cannot explain; they go together where that is this much fairer. */
const PAIR_HANDICAP = 2;
/** Among many rows several are left out at once, if they stand so many rows apart. */
const APART = 6;
/** Finer than anyone measures: an error of 0 degrees would make every row a suspect. */
export const LEAST_ERROR = 0.05;
/** The weight of a row that is only asked what it would be: too little to move the curve. */
const ONLOOKER = 1e-3;

export interface Rows {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly weight: readonly number[];
}

interface Standing {
  /** Found less the fair curve of the others. */
  readonly off: number;
  /** How far off it may stand. */
  readonly allowed: number;
}

/** The rows to leave out, by index, with how they stand to the rest. `rows.weight` is 1 for an ordinary row. */
export function outlyingRows(rows: Rows, error: number): ReadonlyMap<number, Standing> {
  const leastError = Math.max(error, LEAST_ERROR);
  return takeBack(rows, leastError, leaveOut(rows, leastError));
}

/** How far row `i` stands off the fair curve of the rows that are not in `out` (`i` is), carried on straight beyond them. */
export function offTheOthers(rows: Rows, out: readonly number[], i: number): number {
  const others = stiffFit(
    pick(
      rows,
      indices(rows).filter((k) => !out.includes(k)),
    ),
  );
  return rows.y[i]! - others.curve.valueAt(rows.x[i]!);
}

/** The indices left out so that no row kept stands off too far, or until no more may go. */
function leaveOut(rows: Rows, error: number): ReadonlySet<number> {
  const most = rows.x.length < FEWEST_TO_JUDGE ? 0 : Math.floor((rows.x.length - 2) / 3);
  const out = new Set<number>();
  while (out.size < most) {
    const kept = indices(rows).filter((i) => !out.has(i));
    const judge = kept.length <= FEW_ROWS ? worstOfFew : worstOfMany;
    const worst = judge(pick(rows, kept), error, most - out.size);
    if (worst.length === 0) break;
    for (const k of worst) out.add(kept[k]!);
  }
  return out;
}

/** The row, or the two neighbours, without which the others are fairest, if any row stands off the others too far. At most `room` go. */
function worstOfFew(rows: Rows, error: number, room: number): readonly number[] {
  const fitAll = smoothingSpline(rows);
  const all = indices(rows);
  const without = (out: readonly number[]): SmoothingFit =>
    stiffFit(
      pick(
        rows,
        all.filter((k) => !out.includes(k)),
      ),
    );
  const others = all.map((i) => without([i]));
  if (!others.some(({ smoothing }, i) => isTooFar(standing(fitAll(smoothing), i, rows.weight[i]!, error)))) return [];
  const singles = all.map((i) => ({ out: [i], error: errorShown(others[i]!) }));
  const neighbours = room < 2 ? [] : all.slice(1);
  const pairs = neighbours.map((i) => ({ out: [i - 1, i], error: PAIR_HANDICAP * errorShown(without([i - 1, i])) }));
  return [...singles, ...pairs].reduce((worst, block) => (block.error < worst.error ? block : worst)).out;
}

/** Among many rows one does not bend the smoothing: all are judged by one fit, and every row out of line with all about it goes. */
function worstOfMany(rows: Rows, leastError: number, room: number): readonly number[] {
  const fit = stiffFit(rows);
  const all = indices(rows);
  const shown = all.map((i) => Math.abs(fit.offOthers[i]!) * Math.sqrt(rows.weight[i]! * fit.freedom[i]!));
  const error = Math.max(leastError, sdByMedian(shown));
  const about = (i: number) => shown.slice(Math.max(0, i - APART), i + APART + 1);
  return all
    .filter((i) => isTooFar(standing(fit, i, rows.weight[i]!, error)) && about(i).every((other) => other <= shown[i]!))
    .sort((a, b) => shown[b]! - shown[a]!)
    .slice(0, room);
}

/** Of the rows left out, those that even the rows kept cannot do with. */
function takeBack(rows: Rows, leastError: number, leftOut: ReadonlySet<number>): ReadonlyMap<number, Standing> {
  const out = new Set(leftOut);
  while (out.size > 0) {
    const kept = stiffFit(
      pick(
        rows,
        indices(rows).filter((i) => !out.has(i)),
      ),
    );
    const error = Math.max(leastError, errorShown(kept));
    const weight = rows.weight.map((w, i) => (out.has(i) ? w * ONLOOKER : w));
    const fit = smoothingSpline({ ...rows, weight })(kept.smoothing);
    const stands = new Map([...out].map((i) => [i, onlookerStanding(fit, i, rows.weight[i]!, error)] as const));
    const passing = [...stands].filter(([, stand]) => !isTooFar(stand));
    if (passing.length === 0) return stands;
    // Few at a time: the first to come back may show that the next may not.
    passing.sort(([, a], [, b]) => share(a) - share(b));
    for (const [i] of passing.slice(0, Math.ceil(passing.length / 2))) out.delete(i);
  }
  return new Map();
}

const standing = (fit: SmoothingFit, i: number, weight: number, error: number): Standing => ({
  off: fit.offOthers[i]!,
  allowed: (ALLOWED * error) / Math.sqrt(weight * fit.freedom[i]!),
});

/** The same for a row that was in the fit as an onlooker: its small leverage tells how little the others know of its place. */
function onlookerStanding(fit: SmoothingFit, i: number, weight: number, error: number): Standing {
  const freedom = fit.freedom[i]!;
  const spread = (1 - freedom) / (freedom * ONLOOKER);
  return { off: fit.offOthers[i]!, allowed: ALLOWED * error * Math.sqrt((1 + spread) / weight) };
}

const share = ({ off, allowed }: Standing): number => Math.abs(off) / allowed;
const isTooFar = (stand: Standing): boolean => share(stand) > 1;

function stiffFit(rows: WeightedRows): SmoothingFit {
  const range = smoothingRange(rows.x, rows.weight);
  return crossValidated(smoothingSpline(rows), rows.x.length, range, MOST_TRACE_JUDGING);
}

/** The measuring error that the residuals show, in degrees at weight 1. */
function errorShown({ residualSquares, trace, fitted }: SmoothingFit): number {
  return Math.sqrt(residualSquares / (fitted.length - trace));
}

const indices = (rows: Rows): readonly number[] => rows.x.map((_, i) => i);
const pick = ({ x, y, weight }: Rows, which: readonly number[]): Rows => ({
  x: which.map((i) => x[i]!),
  y: which.map((i) => y[i]!),
  weight: which.map((i) => weight[i]!),
});
