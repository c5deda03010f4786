/** Which marks are drawn as passed: the blade's line may cross no figure that is still needed, and none hops to and fro at it. Pure. */

/** A line so far behind the blade, in units of the drawing, has passed it; so far it must come back to be there again. */
const PASSED_BY = 12;
const BACK_BY = 6;

/** How many of the lines at `xs` (rising) have passed the blade at `bladeX`, when `before` had a moment ago. */
export function passedOf(xs: readonly number[], bladeX: number, before: number): number {
  let passed = Math.min(before, xs.length);
  while (passed < xs.length && (xs[passed] ?? 0) < bladeX - PASSED_BY) passed += 1;
  while (passed > 0 && (xs[passed - 1] ?? 0) > bladeX - BACK_BY) passed -= 1;
  return passed;
}

/** Where words beside a line begin, so that neither the line nor the blade that it is about to pass touches them. */
export const CLEAR_OF_BLADE = PASSED_BY + 10;

/** Width of a figure in its own type size, at the most: digits are under half of it wide. */
export const widthOfFigure = (figure: string, size: number): number => figure.length * 0.48 * size;
