import type { Lengths } from '../../server/core/rip/savePiece/saveText.ts';
import { lengthsIn } from './figures.ts';

/** Lengths with their unit, for sentences that the core words. */
export function withUnits(units: 'mm' | 'in'): Lengths {
  const { along, fine, unit } = lengthsIn(units);
  return { along: (mm) => `${along(mm)} ${unit}`, fine: (mm) => `${fine(mm)} ${unit}` };
}
