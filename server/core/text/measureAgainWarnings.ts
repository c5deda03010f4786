/** What is asked of the person who picked the bevels up: a second reading, where the rows cannot settle it among themselves. */
import { lengthText } from '../figures/lengths.ts';
import type { FairBevels } from '../frame/fairPickUp.ts';
import type { Job } from '../job.ts';
import type { Warning } from '../warning.ts';

export function measureAgainWarnings({ shape, notation }: Job, fair: FairBevels): Warning[] {
  const asked = fair.measureAgain.map(({ row, girthMm, foundDeg, reason }) => ({
    code: 'measure-again' as const,
    message:
      `${shape.file}, row ${row}, girth ${lengthText(girthMm, notation)}: ${foundDeg}°: it ${reason}. ` +
      'Nothing is left out. Measure it again, and write the new reading in a row of its own at the same girth.',
  }));
  if (fair.unchecked === null) return asked;
  return [...asked, { code: 'nothing-checked', message: `${shape.file} has ${UNCHECKED[fair.unchecked]}` }];
}

const UNCHECKED = {
  'two places':
    'two places only: the plan takes the bevel to change evenly from one to the other. Nothing between them was measured: take bevels there before you saw.',
  'few places':
    'too few places to check one against the others: a mistake in any row goes straight into the curve. Pick up six places or more, or read each twice (a second row at the same girth).',
};
