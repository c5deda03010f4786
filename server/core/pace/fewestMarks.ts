/**
 * The fewest marks for which a saw that is turned evenly from each called bevel to the next stays within a tolerance.
 *
 * The places looked at are a grid along the stock. Two of them can be neighbouring marks if both calls and the straight line
 * between them stay within the tolerance at every place of the grid between; the fewest marks are then the shortest path from the
 * first place to the last. From each place the slopes still allowed narrow as the line goes on (two bounds), so all pairs are
 * tried in time proportional to their number. Among equals the path with the least sum of squared lengths is taken: the most
 * even marks, which leave the most time for each call.
 *
 * Between two places of the grid, `step` apart, the true curve departs from a straight line by at most |tilt''| step^2 / 8.
 */

export interface GridPlace {
  readonly alongMm: number;
  /** The tilt that is wanted there. */
  readonly tiltDeg: number;
  /** The true tilt when the readout shows what would be called there. */
  readonly calledTiltDeg: number;
}

/** Rounding of the machine, not of the readout. */
const HAIR_DEG = 1e-9;

/** Indexes of the places that become marks, first and last always among them; undefined where the tolerance cannot be met. */
export function fewestMarks(grid: readonly GridPlace[], toleranceDeg: number): number[] | undefined {
  const allowedDeg = toleranceDeg + HAIR_DEG;
  const canBeMark = grid.map(({ tiltDeg, calledTiltDeg }) => Math.abs(calledTiltDeg - tiltDeg) <= allowedDeg);
  const best: (Path | undefined)[] = grid.map(() => undefined);
  if (canBeMark[0] === true) best[0] = { marks: 1, evenness: 0, from: -1 };
  grid.forEach((start, i) => {
    const path = best[i];
    if (path === undefined) return;
    for (const { place, lengthMm } of withinReach(grid, start, i, allowedDeg)) {
      if (canBeMark[place] !== true) continue;
      const longer = { marks: path.marks + 1, evenness: path.evenness + lengthMm ** 2, from: i };
      if (isBetter(longer, best[place])) best[place] = longer;
    }
  });
  return best.at(-1) === undefined ? undefined : traced(best, grid.length - 1);
}

/** The least tolerance that can be met on this grid: every place of it a mark leaves only the readout's own step. */
export const leastTolerance = (grid: readonly GridPlace[]): number =>
  shrunk(grid, Math.max(...grid.map(({ tiltDeg, calledTiltDeg }) => Math.abs(calledTiltDeg - tiltDeg))));

interface Path {
  readonly marks: number;
  readonly evenness: number;
  readonly from: number;
}

const isBetter = (path: Path, than: Path | undefined): boolean =>
  than === undefined || path.marks < than.marks || (path.marks === than.marks && path.evenness < than.evenness);

/** The places after `start` that a straight line from its call can reach with everything between within the tolerance. */
function* withinReach(grid: readonly GridPlace[], start: GridPlace, startAt: number, allowedDeg: number) {
  let least = Number.NEGATIVE_INFINITY;
  let most = Number.POSITIVE_INFINITY;
  for (let place = startAt + 1; place < grid.length; place++) {
    const end = grid[place];
    if (end === undefined) return;
    const lengthMm = end.alongMm - start.alongMm;
    const slope = (end.calledTiltDeg - start.calledTiltDeg) / lengthMm;
    if (slope >= least && slope <= most) yield { place, lengthMm };
    least = Math.max(least, (end.tiltDeg - allowedDeg - start.calledTiltDeg) / lengthMm);
    most = Math.min(most, (end.tiltDeg + allowedDeg - start.calledTiltDeg) / lengthMm);
    if (least > most) return;
  }
}

function traced(best: readonly (Path | undefined)[], last: number): number[] {
  const marks: number[] = [];
  for (let at = last; at >= 0; at = best[at]?.from ?? -1) marks.unshift(at);
  return marks;
}

/** Halves its way from a tolerance that can be met down to the least one, to a thousandth of a degree. */
function shrunk(grid: readonly GridPlace[], metDeg: number): number {
  let unmet = 0;
  let met = metDeg;
  while (met - unmet > 0.001) {
    const middle = (met + unmet) / 2;
    if (fewestMarks(grid, middle) === undefined) unmet = middle;
    else met = middle;
  }
  return met;
}
