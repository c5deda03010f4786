/**
 * Many lines over the same places, faired together: all by one smoothing, chosen as the one whose expected error is least, given how
 * large the error of a value can be at most. How large it really is, is estimated from what the lightest smoothing leaves over, so that
 * lines without error stay as they are whatever is allowed.
 * Sources: thirdDifferences.ts; Mallows, "Some comments on Cp", Technometrics 15 (1973), 661-675 (from memory):
 * E|fit - truth|^2 = E|residual|^2 + 2 s^2 trace(H) - n s^2, and E|residual|^2 = s^2 |I - H|^2 where the truth itself passes unchanged.
 * Error: the choice is good where there are many more values than the smoothing has freedom (300 and more).
 */
import { thirdDifferenceSmoother } from './thirdDifferences.ts';

/** Fewer places leave nothing to tell error from shape by. */
const FEWEST_PLACES = 7;
const SMOOTHINGS = Array.from({ length: 29 }, (_, i) => 10 ** (-4 + i / 4));
/** The lightest: it leaves over what changes from each place to the next, which is error and hardly ever shape. */
const LIGHTEST = 0.003;

/**
 * Moves of `u` and `v` (places x lines, place after place), as vectors, of which only the part along (`nu`, `nv`) counts.
 * `mostError`: the rms that the error of a value has at most. Undefined where nothing is to be gained.
 */
export function fairLines(
  x: Float64Array,
  lines: number,
  fields: { readonly u: Float64Array; readonly v: Float64Array; readonly nu: Float64Array; readonly nv: Float64Array },
  mostError: number,
): Float64Array | undefined {
  const n = x.length;
  if (n < FEWEST_PLACES || mostError <= 0) return undefined;
  const light = thirdDifferenceSmoother(x, LIGHTEST);
  const shown = Math.sqrt(sumSquares(moves(light, n, lines, fields)) / (lines * leftOver(light, n)));
  const error = Math.min(mostError, shown);
  let best: { readonly risk: number; readonly moved: Float64Array } | undefined;
  for (const smoothing of SMOOTHINGS) {
    const smoother = thirdDifferenceSmoother(x, smoothing);
    const moved = moves(smoother, n, lines, fields);
    let trace = 0;
    for (let i = 0; i < n; i++) trace += smoother[i * n + i]!;
    // What it costs to leave all as it is: n s^2.
    const risk = sumSquares(moved) + 2 * error * error * lines * (trace - n);
    if (risk < (best?.risk ?? 0)) best = { risk, moved };
  }
  return best?.moved;
}

function moves(
  smoother: Float64Array,
  n: number,
  lines: number,
  {
    u,
    v,
    nu,
    nv,
  }: { readonly u: Float64Array; readonly v: Float64Array; readonly nu: Float64Array; readonly nv: Float64Array },
): Float64Array {
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

/** |I - H|^2, the share of an even error that a smoother leaves over, summed over the places. */
function leftOver(smoother: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) sum += ((i === j ? 1 : 0) - smoother[i * n + j]!) ** 2;
  return sum;
}

function sumSquares(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value * value;
  return sum;
}
