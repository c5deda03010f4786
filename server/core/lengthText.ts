import { MM_PER_INCH } from './units.ts';

/** A length as the user writes it: `1234.5 mm` or `48.6 in`, to a tenth of a millimetre or a hundredth of an inch. */
export function lengthText(mm: number, units: 'mm' | 'in'): string {
  return units === 'mm' ? `${Number(mm.toFixed(1))} mm` : `${Number((mm / MM_PER_INCH).toFixed(2))} in`;
}
