/** Lengths of a cure: of a size that a shop can set, and written as a job file has it. */
import { bareFigure } from '../figures/decimals.ts';
import { lengthText } from '../figures/lengths.ts';
import type { Notation } from '../figures/notation.ts';
import { toStep } from '../figures/rounding.ts';
import { MM_PER_INCH } from '../units.ts';

export interface Sized {
  readonly mm: number;
  /** For people. */
  readonly text: string;
  /** For the job file. */
  readonly written: string;
}

/** To half a millimetre or a thirty-second of an inch. */
export function sized(mm: number, notation: Notation, way: 'up' | 'down'): Sized {
  const stepMm = notation === 'mm' ? 0.5 : MM_PER_INCH / 32;
  const how = way === 'up' ? 'at least' : 'at most';
  const set = toStep(mm, stepMm, how);
  return {
    mm: set,
    text: lengthText(set, notation, how),
    written: written(set, notation),
  };
}

/** Exactly, as the job writes its lengths where that can be: a size that is no thirty-second is told by so many decimals that it says nothing of the notation. */
export function written(mm: number, notation: Notation): string {
  if (notation === 'mm') return `${bareFigure(mm, 4)} mm`;
  const parts = (mm / MM_PER_INCH) * 32;
  const isWhole = notation !== 'decimal inches' && Math.abs(parts - Math.round(parts)) < 1e-6;
  return isWhole ? lengthText(mm, notation) : `${bareFigure(mm / MM_PER_INCH, 6)} in`;
}
