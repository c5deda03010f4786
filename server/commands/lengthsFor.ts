import type { Lengths } from '../core/rip/savePiece/saveText.ts';
import { MM_PER_INCH } from '../core/units.ts';
import { sayLength } from '../planFigures.ts';

/** Lengths as the job's own units have them: along the piece to a millimetre or a thirty-second, across it finer. */
export const lengthsFor = (units: 'mm' | 'in'): Lengths => ({
  along: (mm) => (units === 'mm' ? `${Math.round(mm) + 0} mm` : sayLength(mm, 'in')),
  fine: (mm) =>
    units === 'mm' ? `${(Math.round(mm * 10) / 10 + 0).toFixed(1)} mm` : `${(mm / MM_PER_INCH).toFixed(2)} in`,
});
