/** Lengths of a cure: of a size that a shop can set, and written as a job file has it. */
import type { Job } from '../job.ts';
import { lengthText } from '../lengthText.ts';
import { MM_PER_INCH } from '../units.ts';

export interface Sized {
  readonly mm: number;
  /** For people. */
  readonly text: string;
  /** For the job file. */
  readonly written: string;
}

/** To half a millimetre or a thirty-second of an inch. */
export function sized(mm: number, units: Job['units'], way: 'up' | 'down'): Sized {
  const stepMm = units === 'mm' ? 0.5 : MM_PER_INCH / 32;
  const steps = way === 'up' ? Math.ceil(mm / stepMm - 1e-6) : Math.floor(mm / stepMm + 1e-6);
  const set = Number((steps * stepMm).toFixed(6));
  return { mm: set, text: lengthText(set, units, way === 'up' ? 'at least' : 'at most'), written: written(set, units) };
}

/** Exactly, with its unit. */
export const written = (mm: number, units: Job['units']): string =>
  units === 'mm' ? `${Number(mm.toFixed(4))} mm` : `${Number((mm / MM_PER_INCH).toFixed(6))} in`;
