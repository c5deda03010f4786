/** Lengths, signs and columns of a plan as text. */
import { type Exact, isAbout, isSmall, lengthText, type Rounding, rounded, stepsOf } from './core/lengthText.ts';
import type { Plan } from './core/plan.ts';
import { MM_PER_INCH } from './core/units.ts';

/** With its unit. In inches to a thirty-second, and small lengths that are none to a thousandth: they are what is off, or left. */
export function sayLength(mm: number, units: Plan['units'], how: Rounding = 'nearest'): string {
  if (isAbout(how)) return lengthText(mm, units, how);
  const isPlain = units === 'mm' || !isSmall(mm) || isThirtySecond(mm);
  return `${isPlain ? sayFigure(mm, units, how) : rounded(mm / MM_PER_INCH, 3, how)} ${units}`;
}

const isThirtySecond = (mm: number): boolean => {
  const thirtySeconds = (mm / MM_PER_INCH) * 32;
  return Math.abs(thirtySeconds - Math.round(thirtySeconds)) < 1e-6;
};

/** Without its unit. */
export function sayFigure(mm: number, units: Plan['units'], how: Exact = 'nearest'): string {
  if (units === 'mm') return signless(rounded(mm, 1, how).toFixed(1));
  const signedSteps = stepsOf((mm / MM_PER_INCH) * 32, how);
  const thirtySeconds = Math.abs(signedSteps);
  const sign = signedSteps < 0 && thirtySeconds > 0 ? '-' : '';
  const whole = Math.floor(thirtySeconds / 32);
  const fraction = sayFraction(thirtySeconds % 32);
  return `${sign}${[whole === 0 && fraction !== '' ? '' : `${whole}`, fraction].filter((part) => part !== '').join(' ')}`;
}

function sayFraction(thirtySeconds: number): string {
  if (thirtySeconds === 0) return '';
  let [over, under] = [thirtySeconds, 32];
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return `${over}/${under}`;
}

/** With a plus where it is above nought. */
export function signed(deg: number, decimals: number): string {
  const figure = signless(deg.toFixed(decimals));
  return Number(figure) > 0 ? `+${figure}` : figure;
}

/** No minus before a nought. */
const signless = (figure: string): string => (Number(figure) === 0 ? figure.replace('-', '') : figure);

/** Figures stand under each other, so every column is set to the right. */
export function columns(rows: readonly (readonly string[])[]): readonly string[] {
  const wide = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows.map((row) => row.map((cell, column) => cell.padStart(wide[column] ?? 0)).join('  '));
}
