/** Where the marks stand along the frame, for the two placings that do not look at the bevels. */
import { ok, type Problem, type Result, refused } from '../errors.ts';
import { lengthText } from '../figures/lengths.ts';
import type { Notation } from '../figures/notation.ts';
import { type MarkPlacing, MOST_MARKS } from '../job.ts';

/** The girths that were picked up, and the notation in which to speak of them. */
interface PickedUpGirth {
  readonly fromMm: number;
  readonly toMm: number;
  readonly notation: Notation;
}

/** Girths (mm) of the marks from the heel: rising, at most MOST_MARKS of them, inside what was picked up (at least 1 mm). */
export function placeMarks(
  placing: Exclude<MarkPlacing, { kind: 'tolerance' }>,
  girth: PickedUpGirth,
): Result<readonly number[]> {
  return placing.kind === 'spacing' ? atSpacing(placing.spacingMm, girth) : atGirths(placing.girthsMm, girth);
}

/**
 * From the first girth picked up, one mark every `spacingMm`, and one at the last. What is left over at the head becomes an
 * interval of its own where it is at least half a spacing; less than that leaves no time for a call, so it is joined to the one
 * before it, which is then up to one and a half spacings long.
 */
function atSpacing(spacingMm: number, { fromMm, toMm, notation }: PickedUpGirth): Result<readonly number[]> {
  const lengthMm = toMm - fromMm;
  const intervals = Math.max(1, Math.round(lengthMm / spacingMm));
  if (intervals + 1 > MOST_MARKS)
    return refused([
      {
        code: 'too-many',
        at: { field: 'marks.spacing' },
        found: `${intervals + 1} marks at ${lengthText(spacingMm, notation)}`,
        wanted: `at most ${MOST_MARKS} marks: a spacing of ${lengthText(lengthMm / (MOST_MARKS - 1), notation)} or more`,
      },
    ]);
  return ok([...Array.from({ length: intervals }, (_, i) => fromMm + i * spacingMm), toMm]);
}

/** Marks nearer to each other than this are one place of the frame (mm). */
export const NEAREST_MM = 1;
/** How far outside of the picked-up girth a place may lie for the rounding of units (mm). */
const ROUNDING_MM = 0.01;

function atGirths(girthsMm: readonly number[], { fromMm, toMm, notation }: PickedUpGirth): Result<readonly number[]> {
  const problems: Problem[] = [];
  const inside = girthsMm.map((girthMm) => Math.min(toMm, Math.max(fromMm, girthMm)));
  girthsMm.forEach((girthMm, i) => {
    const at = { field: `marks.at[${i}]` };
    const found = lengthText(girthMm, notation);
    const here = inside[i] ?? girthMm;
    const before = inside[i - 1];
    if (Math.abs(here - girthMm) > ROUNDING_MM) {
      const wanted = `a girth that was picked up, from ${lengthText(fromMm, notation)} to ${lengthText(toMm, notation)}`;
      problems.push({ code: 'out-of-range', at, found, wanted });
    } else if (before !== undefined && here - before < NEAREST_MM) {
      const wanted = `a place at least ${lengthText(NEAREST_MM, notation)} beyond the mark before it`;
      problems.push({ code: 'out-of-order', at, found, wanted });
    }
  });
  return problems.length > 0 ? refused(problems) : ok(inside);
}
