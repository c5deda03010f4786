/**
 * Many lines over the same places, faired together: all by one smoothing, chosen as the one whose expected error is least, given how
 * large the error of a value can be at most. How large it really is, the lines themselves show; where that is next to nothing against
 * what is allowed, they stay as they are.
 * Sources: thirdDifferences.ts, errorByDifferences.ts; Mallows, "Some comments on Cp", Technometrics 15 (1973), 661-675 (from memory):
 * E|fit - truth|^2 = E|residual|^2 + 2 s^2 trace(H) - n s^2, and E|residual|^2 = s^2 |I - H|^2 where the truth itself passes unchanged.
 * Error: the choice is good where there are many more values than the smoothing has freedom (300 and more).
 */
import { errorByDifferences } from '../errorByDifferences.ts';
import { thirdDifferenceSmoother } from './thirdDifferences.ts';

const SMOOTHINGS = Array.from({ length: 29 }, (_, i) => 10 ** (-4 + i / 4));
/** Over fewer places there is nothing to be gained (measured: the bevels of 7 and 8 stations are as good without). */
const FEWEST_PLACES = 9;
/** Lines that show less than this share of the error that they may have are without error: what they show is shape. */
const NEXT_TO_NOTHING = 0.2;

export interface LineFields {
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly nu: Float64Array;
  readonly nv: Float64Array;
}

/**
 * Moves of `u` and `v` (places x lines, place after place), as vectors, of which only the part along (`nu`, `nv`) counts.
 * `mostError`: the rms that the error of a value has at most. Undefined where nothing is to be gained. The smoother that was chosen is
 * told beside the moves: what takes the values at the places to the faired ones, row after row.
 */
export function fairLines(
  x: Float64Array,
  lines: number,
  fields: LineFields,
  mostError: number,
): { readonly moved: Float64Array; readonly smoother: Float64Array } | undefined {
  const n = x.length;
  if (n < FEWEST_PLACES || mostError <= 0) return undefined;
  const shown = errorByDifferences(x, lines, fields);
  if (shown < NEXT_TO_NOTHING * mostError) return undefined;
  const error = Math.min(mostError, shown);
  let best: { readonly risk: number; readonly moved: Float64Array; readonly smoother: Float64Array } | undefined;
  for (const smoothing of SMOOTHINGS) {
    const smoother = thirdDifferenceSmoother(x, smoothing);
    const moved = movesBy(smoother, n, lines, fields);
    let trace = 0;
    for (let i = 0; i < n; i++) trace += smoother[i * n + i]!;
    // What it costs to leave all as it is: n s^2.
    const risk = sumSquares(moved) + 2 * error * error * lines * (trace - n);
    if (risk < (best?.risk ?? 0)) best = { risk, moved, smoother };
  }
  return best;
}

/** What a smoother moves the values of `n` places by, as `fairLines` tells it. */
export function movesBy(smoother: Float64Array, n: number, lines: number, { u, v, nu, nv }: LineFields): Float64Array {
  const moved = new Float64Array(n * lines);
  for (let i = 0; i < n; i++)
    for (let k = 0; k < lines; k++) {
      let [du, dv] = [-u[i * lines + k]!, -v[i * lines + k]!];
      for (let j = 0; j < n; j++) {
        const share = smoother[i * n + j]!;
        du += share * u[j * lines + k]!;
        dv += share * v[j * lines + k]!;
      }
      moved[i * lines + k] = du * nu[i * lines + k]! + dv * nv[i * lines + k]!;
    }
  return moved;
}

function sumSquares(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value * value;
  return sum;
}
